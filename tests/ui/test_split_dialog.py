"""Changing the split: two days into one or one into two, shown before it is done."""

from __future__ import annotations

from dataclasses import replace

import pytest
from PySide6.QtWidgets import QApplication, QLabel
from pytestqt.qtbot import QtBot

from app.domain.client import FreeTime
from app.domain.edits.fields import set_field, unpin
from app.domain.edits.weeks import clear_weeks
from app.domain.effort import Rir
from app.domain.findings import edit
from app.domain.program import DAYS, Field, Role, Session, Span
from app.domain.session_time import session_minutes, whole_minutes
from app.ui.bench import Bench
from app.ui.split_dialog import EFFORTS, SplitDialog
from tests.ui.access import marked_up, too_small, unnamed
from tests.ui.desks import with_client
from tests.ui.steps import choose, kept, nothing_kept, one_step, refused_with

MONDAY, THURSDAY = 0, 3


def opened(qtbot: QtBot, bench: Bench) -> SplitDialog:
    made = SplitDialog(bench, None)
    qtbot.addWidget(made)
    return made


@pytest.fixture
def dialog(qtbot: QtBot, bench: Bench) -> SplitDialog:
    return opened(qtbot, bench)


def sessions(bench: Bench, week: int = 0) -> list[tuple[int, Session]]:
    return list(bench.desk.program.weeks[week].sessions())


def tick(dialog: SplitDialog, *numbers: int) -> None:
    for number, (_, box) in enumerate(dialog.boxes):
        box.setChecked(number in numbers)


def test_folding_is_offered_first_where_there_are_two_sessions(dialog: SplitDialog) -> None:
    assert dialog.folding
    assert dialog.first.currentText().startswith("Thursday")
    assert dialog.second.currentText().startswith("Monday")
    assert dialog.keep_button.text() == "Change to one day"


def test_two_days_become_one_in_one_step(dialog: SplitDialog, bench: Bench) -> None:
    leaving = sessions(bench)[1][1]
    tick(dialog, 0, 2)
    taken = [leaving.slots[0].exercise, leaving.slots[2].exercise]
    with one_step(bench, "Fold Thursday into Monday"):
        kept(dialog)
    ((day, left),) = sessions(bench)
    assert day == MONDAY
    assert len(left.slots) == 7
    assert set(taken) <= {slot.exercise for slot in left.slots}
    roles = [slot.role for slot in left.slots]
    assert roles == sorted(roles, key=lambda role: role is Role.ASSISTANCE), "core work first"
    assert [d for d, _ in sessions(bench, week=5)] == [MONDAY], "it reaches from here on"


def test_the_span_is_kept_to(qtbot: QtBot, bench: Bench) -> None:
    bench.choose_span(Span.THIS_WEEK)
    dialog = opened(qtbot, bench)
    kept(dialog)
    assert len(sessions(bench)) == 1
    assert len(sessions(bench, week=1)) == 2


def test_what_is_shown_after_is_what_is_kept(dialog: SplitDialog, bench: Bench) -> None:
    tick(dialog, 0, 1)
    shown = [card.name for card in dialog.after.cards]
    sets = [card.sets for card in dialog.after.cards]
    kept(dialog)
    ((_, left),) = sessions(bench)
    catalogue = bench.desk.catalogue
    assert [catalogue[slot.exercise].name for slot in left.slots] == shown
    assert [int(text.split()[0]) for text in sets] == [slot.sets for slot in left.slots]


def test_cards_that_fold_in_are_marked_as_new(dialog: SplitDialog) -> None:
    tick(dialog, 0)
    assert [card.name for card in dialog.after.cards if card.new] == ["Romanian deadlift"]
    assert not any(card.new for card in dialog.now.cards)


def test_sets_are_taken_off_until_the_day_is_long_enough(qtbot: QtBot, bench: Bench) -> None:
    free = list(bench.desk.client.free)
    free[MONDAY] = FreeTime(65)
    with_client(bench, free=tuple(free))
    dialog = opened(qtbot, bench)
    tick(dialog, 0, 1)
    dialog.trim.setChecked(False)
    whole = sum(int(card.sets.split()[0]) for card in dialog.after.cards)
    dialog.trim.setChecked(True)
    trimmed = sum(int(card.sets.split()[0]) for card in dialog.after.cards)
    assert trimmed < whole
    kept(dialog)
    ((_, left),) = sessions(bench)
    assert sum(slot.sets for slot in left.slots) == trimmed
    assert whole_minutes(session_minutes(left, bench.desk.catalogue).expected) <= 65
    assert not dialog.trim_note.isVisibleTo(dialog)


def test_it_says_in_words_why_taking_sets_off_does_not_reach_the_minutes(
    qtbot: QtBot, bench: Bench
) -> None:
    free = list(bench.desk.client.free)
    free[MONDAY] = FreeTime(30)
    with_client(bench, free=tuple(free))
    chosen = sessions(bench)[0][1].slots[0]
    bench.keep(edit("By hand", set_field, slot_id=chosen.id, field=Field.SETS, value=4))
    dialog = opened(qtbot, bench)
    tick(dialog, 0, 1)
    assert all(int(card.sets.split()[0]) == 2 for card in dialog.after.cards[1:])
    shown = int(dialog.after.foot.split()[3])
    told = dialog.trim_note.text()
    assert told.startswith(f"Still {shown - 30} min too long.")
    assert "are at two sets or fewer." in told
    assert f"{bench.desk.catalogue[chosen.exercise].name} is set by hand." in told
    assert dialog.trim_note.isVisibleTo(dialog)
    bench.keep(edit("Free again", unpin, slot_id=chosen.id, field=Field.SETS))
    dialog.refresh()
    assert "Every exercise is at two sets or fewer." in dialog.trim_note.text()
    dialog.trim.setChecked(False)
    assert not dialog.trim_note.isVisibleTo(dialog)


def test_in_a_light_week_it_says_that_sets_stay(qtbot: QtBot, bench: Bench) -> None:
    free = list(bench.desk.client.free)
    free[MONDAY] = FreeTime(20)
    with_client(bench, free=tuple(free))
    bench.show_week(3)
    dialog = opened(qtbot, bench)
    assert "A light week keeps its sets." in dialog.trim_note.text()


def test_effort_of_core_work_follows_the_choice(dialog: SplitDialog, bench: Bench) -> None:
    choose(dialog.effort, "RIR 1")
    kept(dialog)
    ((_, left),) = sessions(bench)
    assert {slot.effort for slot in left.slots if slot.role is Role.CORE} == {Rir(1)}


def test_one_day_becomes_two_in_one_step(dialog: SplitDialog, bench: Bench) -> None:
    dialog.open_mode.click()
    choose(dialog.first, "Monday")
    choose(dialog.day, "Friday")
    tick(dialog, 3, 4)
    before = sessions(bench)[0][1]
    with one_step(bench, "Open Monday into two days"):
        kept(dialog)
    days = dict(sessions(bench))
    assert sorted(days) == [MONDAY, THURSDAY, 4]
    assert [slot.exercise for slot in days[4].slots] == [
        before.slots[3].exercise,
        before.slots[4].exercise,
    ]
    assert len(days[MONDAY].slots) == 3


def test_the_words_follow_the_mode(dialog: SplitDialog) -> None:
    dialog.open_mode.click()
    assert dialog.keep_button.text() == "Change to two days"
    assert dialog.cancel_button.text() == "Keep one day"
    assert dialog.day.isVisibleTo(dialog)
    assert not dialog.second.isVisibleTo(dialog)
    dialog.fold_mode.click()
    assert not dialog.day.isVisibleTo(dialog)
    assert dialog.second.isVisibleTo(dialog)


def test_another_session_lists_its_own_exercises(dialog: SplitDialog, bench: Bench) -> None:
    assert [strand for strand, _ in dialog.boxes] == [
        slot.strand for slot in sessions(bench)[1][1].slots
    ]
    dialog.open_mode.click()
    choose(dialog.first, "Monday")
    assert [strand for strand, _ in dialog.boxes] == [
        slot.strand for slot in sessions(bench)[0][1].slots
    ]
    assert dialog.wrong.text() == ""


def test_a_session_does_not_fold_into_itself(dialog: SplitDialog, bench: Bench) -> None:
    choose(dialog.second, "Thursday")
    assert not dialog.keep_button.isEnabled()
    refused_with(dialog, bench, "Two different sessions", "Choose the second session.")
    assert bench.preview is None
    choose(dialog.second, "Monday")
    assert dialog.keep_button.isEnabled()
    assert dialog.wrong.text() == ""


@pytest.mark.parametrize("numbers", [(), (0, 1, 2, 3, 4)])
def test_both_days_keep_an_exercise(
    dialog: SplitDialog, bench: Bench, numbers: tuple[int, ...]
) -> None:
    dialog.open_mode.click()
    choose(dialog.first, "Monday")
    choose(dialog.day, "Saturday")
    tick(dialog, *numbers)
    refused_with(dialog, bench, "at least one exercise", "Choose some, but not all")


def test_the_second_day_is_another_one(dialog: SplitDialog, bench: Bench) -> None:
    dialog.open_mode.click()
    choose(dialog.first, "Monday")
    choose(dialog.day, "Monday")
    refused_with(dialog, bench, "Monday is where the first session is.", "another day")


def test_a_week_with_one_session_can_only_be_opened(qtbot: QtBot, bench: Bench) -> None:
    kept(opened(qtbot, bench))
    dialog = opened(qtbot, bench)
    assert not dialog.folding
    assert not dialog.fold_mode.isEnabled()


def test_an_empty_week_says_so(qtbot: QtBot, bench: Bench) -> None:
    bench.keep(edit("Clear", clear_weeks, indices=(0,)))
    dialog = opened(qtbot, bench)
    assert not dialog.keep_button.isEnabled()
    refused_with(dialog, bench, "no session with exercises", "Open another week first.")


def test_every_pane_shows_it_until_the_dialog_closes(dialog: SplitDialog, bench: Bench) -> None:
    assert bench.preview is not None
    with nothing_kept(bench):
        dialog.reject()
    assert bench.preview is None


def test_kept_nothing_is_shown_as_tried_any_more(dialog: SplitDialog, bench: Bench) -> None:
    kept(dialog)
    assert bench.preview is None
    assert not dialog.bars.would


def test_minutes_are_told_beside_those_of_the_day(dialog: SplitDialog, bench: Bench) -> None:
    assert " of 75 min" in dialog.now.foot
    assert dialog.now.foot.startswith(f"{sum(s.sets for s in sessions(bench)[0][1].slots)} sets")


def test_every_choice_of_effort_names_what_it_sets(dialog: SplitDialog) -> None:
    assert [dialog.effort.itemText(k) for k in range(dialog.effort.count())] == [
        name for name, _ in EFFORTS
    ]
    assert dialog.day.count() == len(DAYS)


def test_long_titles_of_sessions_are_no_markup(qtbot: QtBot, bench: Bench) -> None:
    program = bench.desk.program
    first = program.weeks[0]
    monday = first.days[0]
    named = replace(monday.sessions[0], title="<b>Squat</b> & thrust")
    days = (replace(monday, sessions=(named,)), *first.days[1:])
    weeks = (replace(first, days=days), *program.weeks[1:])
    bench.desk.keep(edit("Name", lambda p: replace(p, weeks=weeks)))
    dialog = opened(qtbot, bench)
    assert dialog.first.itemText(0) == "Monday, <b>Squat</b> & thrust"
    assert not [x for x in dialog.findChildren(QLabel) if x.textFormat().name == "RichText"]


def test_everybody_can_use_it(qtbot: QtBot, dressed: QApplication, dialog: SplitDialog) -> None:
    dialog.show()
    qtbot.waitExposed(dialog)
    assert unnamed(dialog) == []
    assert too_small(dialog) == []
    assert marked_up(dialog) == []
