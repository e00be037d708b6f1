"""Substitutes for a card: one taken, or several ticked for the client, as far as the reach."""

from __future__ import annotations

from dataclasses import replace

import pytest
from PySide6.QtCore import Qt
from PySide6.QtTest import QTest
from pytestqt.qtbot import QtBot

from app.domain import substitute
from app.domain.checks import Difference
from app.domain.client import Limitation
from app.domain.edits.fields import set_prepared
from app.domain.edits.parts import find_slot
from app.domain.edits.place import replace_exercise
from app.domain.exercise import ExerciseKey, Joint, Motion
from app.domain.findings import edit
from app.domain.program import MAX_PREPARED, Program, Span
from app.ui.bench import Bench
from app.ui.substitutes import SHOWN, WEIGHED, SubstituteDialog
from app.ui.swap_effect import effect_words
from tests.ui.desks import slot, with_client
from tests.ui.steps import kept, nothing_kept, one_step


@pytest.fixture
def dialog(qtbot: QtBot, bench: Bench) -> SubstituteDialog:
    return opened(qtbot, bench)


def opened(qtbot: QtBot, bench: Bench) -> SubstituteDialog:
    """The dialog on the first card of the first week."""
    made = SubstituteDialog(bench, slot(bench).id, None)
    qtbot.addWidget(made)
    return made


def choose_reach(dialog: SubstituteDialog, span: Span) -> None:
    dialog.reach.setCurrentIndex(dialog.reach.findData(span))


def keys(dialog: SubstituteDialog) -> list[ExerciseKey]:
    return [dialog.list.substitute(row).exercise.key for row in range(dialog.list.count())]


def of_strand(program: Program, strand: int) -> list[str]:
    """The exercise of the strand, week by week."""
    return [s.exercise for week in program.weeks for s in week.slots() if s.strand == strand]


def test_the_rows_are_the_ranking_best_first(dialog: SubstituteDialog, bench: Bench) -> None:
    desk = bench.desk
    asked = (slot(bench), desk.program, desk.client, desk.catalogue)
    weighed = substitute.ranked_with_effect(*asked, desk.ranges, first=WEIGHED)
    later = substitute.rank(*asked)[WEIGHED:SHOWN]
    assert keys(dialog) == [one.exercise.key for one in (*(one for one, _ in weighed), *later)]
    assert dialog.chosen().exercise == weighed[0][0].exercise


def test_the_best_rows_say_what_becomes_of_the_findings_of_the_week(
    dialog: SubstituteDialog, bench: Bench
) -> None:
    for row in range(WEIGHED):
        one = dialog.list.substitute(row)
        preview = bench.desk.preview(
            edit(
                "Try",
                replace_exercise,
                slot_id=dialog.slot.id,
                exercise=one.exercise,
                old=dialog.old,
                span=Span.THIS_WEEK,
            )
        )
        told = effect_words(Difference(preview.gained, preview.lost))
        assert one.reasons[-1] == f"this week: {told}"
        assert told in dialog.list.item(row).text()
    assert "this week" not in dialog.list.item(WEIGHED).text()


def test_enter_substitutes_the_marked_one_as_one_step(
    dialog: SubstituteDialog, bench: Bench, qtbot: QtBot
) -> None:
    dialog.show()
    qtbot.waitExposed(dialog)
    dialog.list.setFocus()
    QTest.keyClick(dialog.list, Qt.Key.Key_Down)
    one = dialog.chosen()
    assert one is not None
    with one_step(bench, f"Substitute {one.exercise.name} for {dialog.old.name}"):
        QTest.keyClick(dialog.list, Qt.Key.Key_Return)
    assert slot(bench).exercise == one.exercise.key
    assert dialog.result() == SubstituteDialog.DialogCode.Accepted


@pytest.mark.parametrize(
    ("span", "weeks"),
    [
        (Span.THIS_WEEK, {0}),
        (Span.FROM_HERE, {0, 1, 2, 3, 4, 5}),
        (Span.WHOLE_BLOCK, {0, 1, 2, 3}),
        (Span.WHOLE_PROGRAM, {0, 1, 2, 3, 4, 5}),
    ],
)
def test_the_swap_goes_as_far_as_the_reach_and_the_window_keeps_its_own(
    dialog: SubstituteDialog, bench: Bench, span: Span, weeks: set[int]
) -> None:
    before, old = bench.span, dialog.old.key
    choose_reach(dialog, span)
    kept(dialog)
    there = of_strand(bench.desk.program, dialog.slot.strand)
    assert {week for week, key in enumerate(there) if key != old} == weeks
    assert bench.span is before


def test_the_reach_begins_with_that_of_the_window(qtbot: QtBot, bench: Bench) -> None:
    bench.choose_span(Span.WHOLE_BLOCK)
    assert opened(qtbot, bench).span is Span.WHOLE_BLOCK


def test_a_farther_reach_is_tried_in_every_week(dialog: SubstituteDialog, bench: Bench) -> None:
    choose_reach(dialog, Span.THIS_WEEK)
    assert bench.preview is not None
    near = bench.preview.after
    choose_reach(dialog, Span.WHOLE_PROGRAM)
    assert bench.preview is not None
    old, strand = dialog.old.key, dialog.slot.strand
    assert of_strand(near, strand).count(old) == 5
    assert of_strand(bench.preview.after, strand).count(old) == 0


def test_leaving_takes_the_preview_away_and_keeps_nothing(
    dialog: SubstituteDialog, bench: Bench
) -> None:
    with nothing_kept(bench):
        dialog.tick(0)
        dialog.reject()
    assert bench.preview is None


# -- what is printed for the client ----------------------------------------------------------


def test_ticked_ones_are_prepared_in_the_order_of_the_ticks_as_one_step(
    dialog: SubstituteDialog, bench: Bench
) -> None:
    choose_reach(dialog, Span.WHOLE_BLOCK)
    for row in (2, 0):
        dialog.tick(row)
    wanted = (keys(dialog)[2], keys(dialog)[0])
    with one_step(bench, f"Prepare substitutes for {dialog.old.name}"):
        dialog.prepare_button.click()
    assert dialog.result() == SubstituteDialog.DialogCode.Accepted
    prepared = [
        s.prepared
        for week in bench.desk.program.weeks
        for s in week.slots()
        if s.strand == dialog.slot.strand
    ]
    assert prepared == [wanted] * 4 + [()] * 2


def test_space_ticks_and_takes_the_tick_away(dialog: SubstituteDialog) -> None:
    QTest.keyClick(dialog.list, Qt.Key.Key_Space)
    assert dialog.ticked == [keys(dialog)[0]]
    assert "printed for the client as number 1" in dialog.list.item(0).text()
    QTest.keyClick(dialog.list, Qt.Key.Key_Space)
    assert dialog.ticked == []
    assert "printed" not in dialog.list.item(0).text()


def test_a_sixth_tick_is_refused(dialog: SubstituteDialog) -> None:
    for row in range(MAX_PREPARED + 1):
        dialog.tick(row)
    assert dialog.ticked == keys(dialog)[:MAX_PREPARED]
    assert "5 are ticked already. Take one off first." in dialog.wrong.text()
    dialog.tick(0)
    dialog.tick(MAX_PREPARED)
    assert dialog.ticked == keys(dialog)[1 : MAX_PREPARED + 1]
    assert dialog.wrong.text() == ""


def test_what_is_held_back_cannot_be_ticked(qtbot: QtBot, bench: Bench) -> None:
    knee = Limitation(Joint.KNEE, Motion.FLEXION, past_degrees=30)
    with_client(bench, limitations=(knee,))
    dialog = opened(qtbot, bench)
    rows = range(dialog.list.count())
    held = next(row for row in rows if dialog.list.substitute(row).blocked)
    dialog.tick(held)
    assert dialog.ticked == []
    assert "is held back: bends the knee past 30°. Tick another." in dialog.wrong.text()


def test_preparing_is_open_only_where_it_would_change_something(
    dialog: SubstituteDialog, bench: Bench, qtbot: QtBot
) -> None:
    choose_reach(dialog, Span.THIS_WEEK)
    assert not dialog.prepare_button.isEnabled()
    dialog.tick(0)
    assert dialog.prepare_button.isEnabled()
    dialog.try_prepare()
    again = opened(qtbot, bench)
    assert again.ticked == dialog.ticked
    choose_reach(again, Span.THIS_WEEK)
    assert not again.prepare_button.isEnabled()
    choose_reach(again, Span.WHOLE_PROGRAM)
    assert again.prepare_button.isEnabled()
    again.tick(0)
    choose_reach(again, Span.THIS_WEEK)
    assert again.prepare_button.isEnabled()


def test_what_was_prepared_can_be_taken_off_wherever_it_is_ranked(
    qtbot: QtBot, bench: Bench
) -> None:
    far = ExerciseKey("bench_press")  # trains none of the same muscles
    prepare = edit("Prepare", set_prepared, slot_id=slot(bench).id, prepared=(far,))
    bench.desk.keep(prepare)
    dialog = opened(qtbot, bench)
    assert keys(dialog)[-1] == far
    assert "trains other muscles" in dialog.list.item(dialog.list.count() - 1).text()
    choose_reach(dialog, Span.THIS_WEEK)
    dialog.tick(dialog.list.count() - 1)
    dialog.try_prepare()
    assert slot(bench).prepared == ()


def test_substituting_keeps_what_was_ticked_meanwhile_first(
    dialog: SubstituteDialog, bench: Bench
) -> None:
    dialog.tick(0)
    dialog.tick(1)
    first, second = keys(dialog)[:2]
    done = bench.desk.history.done
    kept(dialog)
    assert bench.desk.history.done == done + 2
    assert slot(bench).exercise == first
    assert slot(bench).prepared == (second,)
    bench.desk.undo()
    assert find_slot(bench.desk.program, dialog.slot.id) == replace(
        dialog.slot, prepared=(first, second)
    )
