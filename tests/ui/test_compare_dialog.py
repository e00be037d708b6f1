"""The open program beside an issue or a step of this session."""

from __future__ import annotations

import pytest
from pytestqt.qtbot import QtBot

from app.domain.compare import Mark, SetCount, WeekPair
from app.domain.edits import fields, place, weeks
from app.domain.edits.parts import Spot
from app.domain.exercise import ExerciseKey, Muscle
from app.domain.findings import edit
from app.domain.program import Span
from app.ui.bench import Bench
from app.ui.compare_dialog import (
    SIGNS,
    CompareDialog,
    counts_text,
    sets_text,
    summary_text,
    week_text,
)
from app.ui.lines_table import choose
from app.ui.words import ARROW, DOT, MINUS
from db.errors import Cause, StoreFailure
from db.store import Store
from tests.ui.access import marked_up, too_small, unnamed
from tests.ui.desks import PROGRAM, TODAY, slot_ids


@pytest.fixture
def edited(bench: Bench) -> Bench:
    """A booklet handed out; then two sets more, one place less and one more, one moved."""
    bench.desk.hand_out(bench.desk.draft_issue(TODAY))
    squat, thrust, extension, *_ = slot_ids(bench)
    curl = bench.desk.catalogue[ExerciseKey("dumbbell_curl")]
    bench.keep(edit("Add 2 sets", fields.add_sets, slot_id=squat, by=2, span=Span.WHOLE_PROGRAM))
    bench.keep(edit("Remove Hip thrust", place.remove, slot_id=thrust))
    bench.keep(edit("Place Curl", place.place, exercise=curl, at=Spot(0, 4)))
    bench.keep(edit("Move Leg extension", place.move, slot_id=extension, to=Spot(0, 3)))
    return bench


@pytest.fixture
def dialog(qtbot: QtBot, dressed, edited: Bench, store: Store) -> CompareDialog:
    made = CompareDialog(edited, store, None)
    qtbot.addWidget(made)
    made.show()
    return made


def rows(dialog: CompareDialog) -> list[tuple[str, ...]]:
    table = dialog.slots
    items = [table.topLevelItem(k) for k in range(table.topLevelItemCount())]
    return [tuple(item.text(column) for column in range(5)) for item in items]


def shown_weeks(dialog: CompareDialog) -> list[tuple[str, str]]:
    table = dialog.weeks
    items = [table.topLevelItem(k) for k in range(table.topLevelItemCount())]
    return [(item.text(0), item.text(1)) for item in items]


def test_issues_and_steps_of_this_session_are_offered(
    dialog: CompareDialog, edited: Bench, store: Store
) -> None:
    texts = [dialog.choice.itemText(k) for k in range(dialog.choice.count())]
    assert texts == [
        "Handed out on 25 Nov 2026",
        "Before: Move Leg extension",
        "Before: Place Curl",
        "Before: Remove Hip thrust",
        "Before: Add 2 sets",
    ]
    edited.undo()
    again = CompareDialog(edited, store, None)
    assert again.choice.itemText(4) == "Undone: Move Leg extension"


def test_every_difference_has_a_sign_and_a_word(dialog: CompareDialog) -> None:
    assert dialog.title.text() == f"Week 1 {DOT} another session on Friday"
    told = {row[1]: row for row in rows(dialog)}
    assert set(told) == {f"{SIGNS[mark]} {mark.value}" for mark in Mark if mark is not Mark.SAME}
    changed = told[f"{SIGNS[Mark.CHANGED]} changed"]
    assert (changed[2].splitlines()[0], changed[4]) == ("Back squat", "sets")
    assert changed[2].splitlines()[1].startswith("4 x 10")
    assert changed[3].splitlines()[1].startswith("6 x 10")
    removed = told[f"{MINUS} removed"]
    assert removed[2].startswith("Hip thrust")
    assert removed[3] == MINUS
    assert told["+ added"][2] == MINUS
    moved = told[f"{ARROW} moved"]
    assert moved[0].startswith("Monday")
    assert f"\n{ARROW} Thursday" in moved[0]
    assert len(set(SIGNS.values())) == len(Mark), "told apart by form alone"


def test_what_is_gone_is_struck_through(dialog: CompareDialog) -> None:
    items = [dialog.slots.topLevelItem(k) for k in range(dialog.slots.topLevelItemCount())]
    struck = [item.text(1) for item in items if item.font(2).strikeOut()]
    assert struck == [f"{MINUS} removed"]


def test_weeks_are_listed_with_what_differs_in_each(dialog: CompareDialog) -> None:
    """The fourth is light: sets that are added spare it."""
    weeks_shown = shown_weeks(dialog)
    assert [name for name, _ in weeks_shown] == [f"Week {n}" for n in (1, 2, 3, 5, 6)]
    assert weeks_shown[1] == ("Week 2", f"{SIGNS[Mark.CHANGED]} 1 changed")
    assert dialog.summary.text().startswith("5 of 6 weeks differ: ")


def test_only_what_differs_is_shown_until_all_is_wanted(dialog: CompareDialog) -> None:
    few = len(rows(dialog))
    dialog.only.setChecked(False)
    assert len(rows(dialog)) > few
    assert any(row[1] == "= same" for row in rows(dialog))


def test_sets_of_emphasised_muscles_are_counted_before_and_now(dialog: CompareDialog) -> None:
    assert dialog.sets.text().startswith("Sets: Gluteals ")
    pair = dialog.pairs[0]
    assert [count.muscle for count in pair.sets] == list(PROGRAM.emphasis)
    assert pair.sets[0].before - pair.sets[0].after == 2, "four of the thrust less, two more squats"


def test_another_state_is_compared_at_once(dialog: CompareDialog) -> None:
    dialog.choice.setCurrentIndex(1)
    assert dialog.summary.text() == "1 of 6 weeks differs: 1 moved."
    assert shown_weeks(dialog) == [("Week 1", f"{ARROW} 1 moved")]


def test_weeks_that_came_and_went_say_so(edited: Bench, store: Store, dressed) -> None:
    edited.keep(edit("Insert", weeks.add_week, after=0))
    edited.keep(edit("Remove", weeks.remove_weeks, indices=(3,)))
    made = CompareDialog(edited, store, None)
    names = [name for name, _ in shown_weeks(made)]
    assert names[:4] == ["Week 1", "Week 2, added", "Week 3, was week 2", "Week 3, removed"]
    assert shown_weeks(made)[1][1] == "empty"


def test_the_open_week_is_chosen_first(edited: Bench, store: Store, dressed) -> None:
    edited.show_week(4)
    made = CompareDialog(edited, store, None)
    assert made.title.text() == "Week 5"
    choose(made.weeks, 1)
    assert made.title.text() == "Week 2"


def test_with_nothing_to_compare_it_says_what_to_do(
    qtbot: QtBot, dressed, bench: Bench, store: Store
) -> None:
    made = CompareDialog(bench, store, None)
    qtbot.addWidget(made)
    assert "hand a booklet out, or make an edit" in made.summary.text()
    assert shown_weeks(made) == []
    assert rows(made) == []
    made.show()
    assert not any(part.isVisible() for part in (made.choice, made.weeks, made.slots, made.only))


def test_an_issue_that_cannot_be_read_is_a_sentence(
    edited: Bench, store: Store, dressed, monkeypatch
) -> None:
    def damaged(_: object) -> None:
        raise StoreFailure(Cause.DAMAGED, where=store.where)

    monkeypatch.setattr(store, "load_issue", damaged)
    made = CompareDialog(edited, store, None)
    assert made.wrong.text()
    made.choice.setCurrentIndex(1)
    assert made.wrong.text() == ""
    assert made.pairs


def test_counts_in_words() -> None:
    counts = (SetCount(Muscle.GLUTEALS, 12, 14), SetCount(Muscle.CALVES, 4, 4))
    assert sets_text(counts).startswith("Gluteals 12 before, 14 now (+2)")
    assert sets_text(counts).endswith("Calves 4")
    assert f"({MINUS}1.5)" in sets_text((SetCount(Muscle.CHEST, 4, 2.5),))
    same = WeekPair(0, 0, (), ())
    assert (week_text(same), counts_text(same)) == ("Week 1", "same")
    assert summary_text((same,)) == "Nothing differs."
    assert summary_text((same,), ("name", "emphasis")) == (
        "No week differs. Of the whole: name and emphasis."
    )
    light = WeekPair(0, 0, (), (), ("light now",))
    assert counts_text(light) == "light now"
    assert summary_text((light, same)) == "1 of 2 weeks differs."


def test_everybody_can_use_it(dialog: CompareDialog) -> None:
    assert unnamed(dialog) == []
    assert too_small(dialog) == []
    assert marked_up(dialog) == []
