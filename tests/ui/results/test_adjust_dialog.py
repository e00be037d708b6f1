"""Adjusting the coming week: one step, with its reason, and what the checks say beforehand."""

from __future__ import annotations

from datetime import date

import pytest
from PySide6.QtWidgets import QLabel, QPushButton
from pytestqt.qtbot import QtBot

from app.domain.edits.fields import set_field
from app.domain.findings import edit
from app.domain.program import Field
from app.domain.results import Diary, SetDone, SlotResult
from app.ui import worker
from app.ui.bench import Bench
from app.ui.results.adjust_dialog import AdjustDialog
from app.ui.results.adjust_table import Column
from app.ui.working_popup import WorkingPopup
from db.store import Store
from tests.ui.access import marked_up, too_small, unnamed
from tests.ui.desks import START, slot

TODAY = date(2026, 11, 29)


def noted(bench: Bench, reps: int = 11, load_kg: float = 60.0) -> None:
    """Every squat of the first week was done with a repetition to spare."""
    squat, thrust = slot(bench, 0), slot(bench, 1)
    results = [
        SlotResult(bench.desk.program.id, one.id, one.exercise, START, (done,) * one.sets)
        for one, done in (
            (squat, SetDone(load_kg, reps, 2.0)),
            (thrust, SetDone(80.0, 10, 2.0)),
        )
    ]
    bench.desk.keep_diary("Results", Diary(results=tuple(results)))


@pytest.fixture
def dialog(qtbot: QtBot, dressed, bench: Bench) -> AdjustDialog:
    noted(bench)
    made = AdjustDialog(bench, None, today=TODAY)
    qtbot.addWidget(made)
    made.show()
    return made


def row(dialog: AdjustDialog, name: str = "Back squat") -> int:
    return next(n for n, one in enumerate(dialog.table.lines) if one.advice.exercise.name == name)


def test_it_opens_on_the_week_after_the_last_results(dialog: AdjustDialog) -> None:
    assert dialog.week == 1
    assert "Week 2" in dialog.week_box.currentText()
    line = dialog.table.lines[row(dialog)]
    assert line.taken
    assert "passed" in line.why


def test_taking_keeps_one_step_with_its_reason_in_the_log(
    dialog: AdjustDialog, bench: Bench, store: Store
) -> None:
    before = bench.desk.program
    dialog.take_all(False)
    dialog.table.lines[row(dialog)].taken = True
    suggested = dialog.table.lines[row(dialog)].advice.load_kg
    dialog.try_keep()
    squat = next(bench.desk.program.weeks[1].slots())
    assert squat.load_kg == suggested
    assert Field.LOAD in squat.pinned
    assert bench.desk.program.weeks[2] is before.weeks[2]
    assert bench.desk.history.undoable.label == "Adjust week 2 from the results, 1 change"
    logged = store.log(before.id)[0].label
    assert "Back squat" in logged
    assert "The target was passed" in logged
    assert bench.week == 1
    bench.undo()
    assert bench.desk.program is before


def test_what_is_typed_is_kept_instead(dialog: AdjustDialog, bench: Bench) -> None:
    dialog.take_all(False)
    dialog.table.item(row(dialog), Column.SUGGESTED).setText("64")
    dialog.try_keep()
    assert next(bench.desk.program.weeks[1].slots()).load_kg == 64.0


def test_what_cannot_be_read_stops_it(dialog: AdjustDialog, bench: Bench) -> None:
    before = bench.desk.program
    dialog.table.item(row(dialog, "Hip thrust"), Column.SUGGESTED).setText("much")
    dialog.try_keep()
    assert dialog.isVisible()
    assert "'much' is not a number" in dialog.wrong.text()
    assert bench.desk.program is before


def test_taking_none_leaves_nothing_to_keep(dialog: AdjustDialog) -> None:
    dialog.take_all(False)
    dialog.check()
    assert not dialog.keep_button.isEnabled()
    assert dialog.checks.text() == "Nothing is taken."
    dialog.take_all(True)
    assert dialog.keep_button.isEnabled()


def test_the_checks_say_beforehand_what_they_would(dialog: AdjustDialog, bench: Bench) -> None:
    by_hand = {"field": Field.LOAD, "value": 60.0}
    bench.keep(edit("Load", set_field, slot_id=slot(bench).id, **by_hand))
    dialog.take_all(False)
    # four times the load of the week before is a rise that a range speaks of
    dialog.table.item(row(dialog), Column.SUGGESTED).setText("240")
    dialog.check()
    assert "New: " in dialog.checks.text()
    gained = {f.text for f in bench.desk.preview(dialog._edit()).gained}
    assert any(text in dialog.checks.text() for text in gained)


def test_another_week_can_be_chosen(dialog: AdjustDialog) -> None:
    dialog.week_box.setCurrentIndex(3)
    assert dialog.week == 3
    assert len(dialog.table.lines) == 11


def test_a_suggestion_shows_how_it_came_about(dialog: AdjustDialog) -> None:
    dialog.table.setCurrentCell(row(dialog), Column.SUGGESTED)
    dialog.show_how()
    popup = dialog.findChild(WorkingPopup)
    texts = [label.text() for label in popup.findChildren(QLabel)]
    assert "Meant" in texts
    assert any(text.startswith("Sources: ") for text in texts)
    popup.close()


def test_signs_come_after_the_first_picture_and_show_their_account(
    qtbot: QtBot, dressed, bench: Bench
) -> None:
    squats = [next(week.slots()) for week in bench.desk.program.weeks]
    results = [
        SlotResult(
            bench.desk.program.id,
            one.id,
            one.exercise,
            bench.desk.program.week_start(week),
            (SetDone(60.0, 5, 2.0),) * 3,
        )
        for week, one in enumerate(squats)
    ]
    bench.desk.keep_diary("Results", Diary(results=tuple(results)))
    made = AdjustDialog(bench, None, today=date(2027, 1, 3))
    qtbot.addWidget(made)
    made.show()
    qtbot.waitUntil(lambda: made.signs.count() > 0, timeout=20_000)
    texts = [label.text() for label in made.findChildren(QLabel)]
    assert any(text.startswith("Back squat: The estimate") for text in texts)
    how = next(b for b in made.findChildren(QPushButton) if b.text() == "How")
    how.click()
    popup = made.findChild(WorkingPopup)
    assert "Estimated 1RM" in [label.text() for label in popup.findChildren(QLabel)]
    popup.close()


def test_closing_lets_go_of_the_search(
    qtbot: QtBot, dressed, bench: Bench, monkeypatch: pytest.MonkeyPatch
) -> None:
    jobs = []

    class Job:
        cancelled = False

        def cancel(self) -> None:
            self.cancelled = True

    def start(*_: object) -> Job:
        jobs.append(Job())
        return jobs[-1]

    monkeypatch.setattr(worker, "start", start)
    noted(bench)
    made = AdjustDialog(bench, None, today=TODAY)
    qtbot.addWidget(made)
    made.look_for_signs()
    made.reject()
    assert jobs[-1].cancelled


def test_everything_has_a_name_and_is_large_enough(dialog: AdjustDialog) -> None:
    assert unnamed(dialog) == []
    assert too_small(dialog) == []
    assert marked_up(dialog) == []
