"""The warm-up of a session, put together and kept as one step."""

from __future__ import annotations

import pytest
from PySide6.QtCore import QModelIndex
from pytestqt.qtbot import QtBot

from app.booklet.warmup_text import drill_text
from app.domain.edits.place import set_warmup
from app.domain.exercise import Pattern
from app.domain.findings import edit
from app.domain.program import Drill, Role, Session, Span
from app.domain.ramp import NO_RAMP
from app.ui.bench import Bench
from app.ui.warmup_dialog import WarmupDialog


@pytest.fixture
def dialog(qtbot: QtBot, bench: Bench) -> WarmupDialog:
    made = WarmupDialog(bench, None)
    qtbot.addWidget(made)
    return made


def test_suggesting_and_keeping_writes_the_drills_before_the_session(
    dialog: WarmupDialog, bench: Bench
) -> None:
    dialog.suggest()
    drills = dialog.drills()
    session = dialog.session
    assert drills
    dialog.try_keep()
    strand = session.strand
    after = [
        s.warmup for _, s in bench.desk.program.weeks[bench.week].sessions() if s.strand == strand
    ]
    assert after == [drills]
    assert bench.desk.history.undoable.label.startswith("Change the warm-up on")


def test_a_drill_goes_in_moves_up_and_comes_out(dialog: WarmupDialog) -> None:
    dialog.suggest()
    before = dialog.drills()
    dialog.others.setCurrentRow(0)
    dialog.add()
    added = dialog.drills()[-1]
    assert dialog.drills() == (*before, added)
    dialog.shift(-1)
    assert dialog.drills()[-2] == added
    dialog.remove()
    assert dialog.drills() == before


def test_only_what_suits_a_warm_up_is_offered(dialog: WarmupDialog, bench: Bench) -> None:
    catalogue = bench.desk.catalogue
    rows = range(dialog.others.count())
    offered = [catalogue[dialog.others.item(row).data(0x0100)] for row in rows]
    assert offered
    assert all(exercise.warmup_for for exercise in offered)
    assert any(exercise.pattern is Pattern.DRILL for exercise in offered)


def test_keeping_what_was_there_makes_no_step(dialog: WarmupDialog, bench: Bench) -> None:
    steps = bench.desk.history.done
    dialog.try_keep()
    assert bench.desk.history.done == steps


def test_every_drill_has_the_dose_that_the_booklet_prints(
    dialog: WarmupDialog, bench: Bench
) -> None:
    catalogue = bench.desk.catalogue
    items = [dialog.others.item(row) for row in range(dialog.others.count())]
    assert items
    for item in items:
        exercise = catalogue[item.data(0x0100)]
        printed = drill_text(Drill(exercise.key), exercise).replace("\N{NO-BREAK SPACE}", " ")
        if not exercise.timed:
            printed = printed.replace(" \N{MULTIPLICATION SIGN} ", ", ") + " reps"
        assert item.text() == printed


# ---------------------------------------------------------------------------- doses and ramp sets


def kept(bench: Bench, dialog: WarmupDialog) -> list[Session]:
    """The dialog's session in every week of the program that has it."""
    assert dialog.session is not None
    strand = dialog.session.strand
    return [
        s for week in bench.desk.program.weeks for _, s in week.sessions() if s.strand == strand
    ]


def set_rounds(dialog: WarmupDialog, text: str) -> None:
    dialog.dose.rounds.edit.setText(text)
    dialog.dose.rounds.edit.textEdited.emit(text)


@pytest.mark.parametrize("span", Span)
def test_a_dose_and_ramp_sets_are_kept_as_one_step_for_the_span(
    qtbot: QtBot, bench: Bench, span: Span
) -> None:
    bench.show_week(2)
    bench.choose_span(span)
    dialog = WarmupDialog(bench, None)
    qtbot.addWidget(dialog)
    reached = bench.desk.program.reach(2, span)
    before, steps = kept(bench, dialog), bench.desk.history.done
    dialog.chosen.setCurrentRow(1)
    set_rounds(dialog, "3")
    assert dialog.chosen.item(1).text().split(", ", 1)[1].startswith("3 × ")
    dialog.ramp.way.setCurrentIndex(1)
    dialog.try_keep()
    after = kept(bench, dialog)
    assert bench.desk.history.done == steps + 1
    lift = next(k for k, slot in enumerate(before[2].slots) if slot.role is Role.CORE)
    for week, (was, now) in enumerate(zip(before, after, strict=True)):
        if week in reached:
            assert [drill.dose and drill.dose.rounds for drill in now.warmup][:2] == [None, 3]
            assert now.slots[lift].ramp == NO_RAMP
        else:
            assert now is was


def test_ramp_sets_alone_leave_the_drills_of_other_weeks_alone(qtbot: QtBot, bench: Bench) -> None:
    last = len(bench.desk.program.weeks) - 1
    session = next(s for _, s in bench.desk.program.weeks[last].sessions() if s.slots)
    bench.keep(edit("None", set_warmup, session_id=session.id, warmup=()))
    bench.show_week(0)
    bench.choose_span(Span.WHOLE_PROGRAM)
    dialog = WarmupDialog(bench, None)
    qtbot.addWidget(dialog)
    assert dialog.session.strand == session.strand
    dialog.ramp.way.setCurrentIndex(1)
    dialog.try_keep()
    after = kept(bench, dialog)
    assert after[last].warmup == ()
    assert after[0].warmup
    assert all(any(slot.ramp == NO_RAMP for slot in one.slots) for one in after)


def test_the_dialog_says_where_ramp_sets_come_from(dialog: WarmupDialog) -> None:
    assert "(worked out from the load, common practice)" in dialog.ramps.text()
    dialog.ramp.way.setCurrentIndex(2)
    assert "(set by the coach: " in dialog.ramps.text().replace("\u00a0", " ")
    dialog.ramp.way.setCurrentIndex(1)
    assert "none (set by the coach)" in dialog.ramps.text()


def test_steps_begin_as_they_are_worked_out_and_give_the_same_sets(dialog: WarmupDialog) -> None:
    worked_out = dialog.ramps.text().split(" (")[0]
    dialog.ramp.way.setCurrentIndex(2)
    assert dialog.ramps.text().split(" (")[0] == worked_out


def test_a_wrong_figure_is_mended_before_another_drill_is_marked(
    dialog: WarmupDialog, bench: Bench
) -> None:
    dialog.chosen.setCurrentRow(0)
    set_rounds(dialog, "12")
    dialog.chosen.setCurrentRow(1)
    assert dialog.chosen.currentRow() == 0
    assert dialog.dose.rounds.edit.text() == "12"
    steps = bench.desk.history.done
    dialog.try_keep()
    assert "Enter 1 to 10." in dialog.wrong.text()
    assert bench.desk.history.done == steps
    dialog.dose.back.click()
    dialog.chosen.setCurrentRow(1)
    assert dialog.chosen.currentRow() == 1


def test_a_line_that_cannot_be_read_keeps_the_dialog_open(
    dialog: WarmupDialog, bench: Bench
) -> None:
    dialog.ramp.way.setCurrentIndex(2)
    dialog.ramp.steps.setText("heavy x 3")
    steps = bench.desk.history.done
    dialog.try_keep()
    assert "'heavy x 3' is no ramp set." in dialog.wrong.text()
    assert "to 30 repetitions" in dialog.ramp.wrong.text()
    assert bench.desk.history.done == steps


def test_a_drill_that_was_dragged_is_still_the_one_whose_dose_is_set(
    dialog: WarmupDialog,
) -> None:
    dialog.chosen.setCurrentRow(0)
    set_rounds(dialog, "2")
    first, *others = dialog.drills()
    # what the list does on a drop within itself
    assert dialog.chosen.model().moveRow(QModelIndex(), 0, QModelIndex(), len(others) + 1)
    assert dialog.drills() == (*others, first)
    set_rounds(dialog, "3")
    *before, last = dialog.drills()
    assert before == others
    assert last.exercise == first.exercise
    assert last.dose is not None
    assert last.dose.rounds == 3


def test_doses_go_along_with_their_drill(dialog: WarmupDialog) -> None:
    dialog.chosen.setCurrentRow(0)
    set_rounds(dialog, "2")
    first = dialog.drills()[0]
    dialog.shift(1)
    assert dialog.drills()[1] == first
    dialog.suggest()
    assert {d.exercise: d.dose for d in dialog.drills()}.get(
        first.exercise, first.dose
    ) == first.dose


def test_another_session_shows_its_own_ramp_sets(dialog: WarmupDialog) -> None:
    dialog.ramp.way.setCurrentIndex(1)
    assert dialog.session_box.count() > 1
    dialog.session_box.setCurrentIndex(1 - dialog.session_box.currentIndex())
    assert dialog.ramp.way.currentIndex() == 0
