"""A client's whole year through the window's own forms, on a real file, kept at every step.

From the intake form to the progress report, as a coach goes through it: nothing is put into the
file behind the forms' backs, and at the end the file holds what the window shows.
"""

from __future__ import annotations

from collections.abc import Iterator
from datetime import date, timedelta
from io import BytesIO
from pathlib import Path

import pytest
from pypdf import PdfReader, PdfWriter
from PySide6.QtCore import QCoreApplication, QThreadPool
from PySide6.QtTest import QTest
from PySide6.QtWidgets import QFileDialog
from pytestqt.qtbot import QtBot

from app import resources
from app.booklet.fields import ON
from app.booklet.intake_form import IntakeForm, make_intake_form
from app.desk import Desk
from app.domain.client import Client
from app.domain.loads import newest_test
from app.domain.program import broken_laws
from app.ui.bench import Bench
from app.ui.booklet_dialog import BookletDialog
from app.ui.client.check_in import CheckInSheet
from app.ui.client.check_in_cells import Column as Mark
from app.ui.client.intake_dialog import IntakeDialog, answers_in
from app.ui.client.strength_test import TestSheet
from app.ui.new_program import NewProgramSheet
from app.ui.progress_report_dialog import ProgressReportDialog
from app.ui.results.adjust_dialog import AdjustDialog
from app.ui.results.dialog import ResultsDialog
from app.ui.results.table_model import Column
from db.store import Store
from tests.booklet.reading_pdf import Printed
from tests.domain.test_intake import WHOLE
from tests.ui.steps import kept, retype

FIRST_DAY = date(2026, 11, 25)
WAIT_MS = 60_000
WEEKS_DONE = 6
GYM = (
    "barbell",
    "rack",
    "bench",
    "dumbbells",
    "cable",
    "box",
    "leg_press",
    "leg_extension",
    "leg_curl",
    "calf_machine",
    "pull_up_bar",
    "band",
)


@pytest.fixture
def store(tmp_path: Path) -> Iterator[Store]:
    """A new file on disk."""
    made = Store.open(tmp_path / "coach.weekloom")
    yield made
    made.close()


@pytest.fixture
def bench(qtbot: QtBot, dressed, store: Store) -> Bench:
    """A window's state on it."""
    return Bench(Desk(store, resources.catalogue(), resources.range_book()))


def take_in(qtbot: QtBot, bench: Bench, store: Store, folder: Path) -> Client:
    """The intake form is printed, filled in with a general PDF library, and read back."""
    blank = make_intake_form(IntakeForm(store.coach()), resources.path_of("fonts"))
    writer = PdfWriter(clone_from=PdfReader(BytesIO(blank)))
    answers = {**WHOLE, "mass.value": "64", "mass.lb": "", "mass.kg": "x", "pains": "none"}
    answers |= {f"equipment.{thing}": "x" for thing in GYM}
    values = {key: f"/{ON}" if text == "x" else text for key, text in answers.items() if text}
    writer.update_page_form_field_values(writer.pages[0], values, auto_regenerate=False)
    path = folder / "returned.pdf"
    with path.open("wb") as file:
        writer.write(file)
    dialog = IntakeDialog(bench, store, None, answers_in(path), today=FIRST_DAY)
    qtbot.addWidget(dialog)
    kept(dialog)
    return bench.desk.client


def try_strength(qtbot: QtBot, bench: Bench, name: str, load: str, reps: str) -> None:
    """A strength test is entered."""
    sheet = TestSheet(bench, None, today=FIRST_DAY)
    qtbot.addWidget(sheet)
    edit = sheet.exercise.lineEdit()
    edit.selectAll()
    QTest.keyClicks(edit, name)
    sheet.exercise.completer().popup().hide()
    for field, text in ((sheet.load, load), (sheet.reps, reps), (sheet.rir, "1")):
        retype(field, text)
    kept(sheet)


def plan(qtbot: QtBot, bench: Bench) -> None:
    """A program of 52 weeks from the first layout."""
    sheet = NewProgramSheet(bench, None, today=FIRST_DAY)
    qtbot.addWidget(sheet)
    sheet.name.setText("The whole year")
    sheet.weeks.set_value(52)
    kept(sheet)
    assert sheet.program is not None
    bench.desk.add_program(sheet.program)


def hand_out(qtbot: QtBot, bench: Bench, path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    """The first six weeks are handed out as a booklet."""
    dialog = BookletDialog(bench, None, today=bench.desk.program.start - timedelta(days=2))
    qtbot.addWidget(dialog)
    dialog.fields.last.set_value(WEEKS_DONE)
    dialog.make()
    qtbot.waitUntil(dialog.keep_button.isEnabled, timeout=WAIT_MS)
    monkeypatch.setattr(QFileDialog, "getSaveFileName", lambda *_: (str(path), ""))
    dialog.try_keep()
    assert dialog.wrong.text() == ""
    dialog.reject()
    assert path.read_bytes().startswith(b"%PDF")


def enter_results(qtbot: QtBot, bench: Bench, today: date) -> None:
    """Six weeks as planned by one key a session; the first set of each went better."""
    dialog = ResultsDialog(bench, None, today=today)
    qtbot.addWidget(dialog)
    dialog.show()
    qtbot.waitExposed(dialog)
    for number, meant in enumerate(dialog.sessions):
        if meant.week.index >= WEEKS_DONE:
            break
        dialog.open_session(number)
        assert dialog.open_at == number, dialog.wrong.text()
        dialog.plan(whole=True)
        for at, slot in enumerate(dialog.draft.slots):
            # what was never tested was found on the day
            if any(line.reps and not line.load for line in slot.lines):
                rows = dialog.model.rows_of(at)
                dialog.model.put_many({(row, Column.LOAD): "20" for row in rows})
        reps = dialog.draft.slots[0].meant.slot.reps.high + 2
        dialog.model.put_many({(0, Column.REPS): str(reps), (0, Column.RIR): "2"})
        assert dialog.flush(), dialog.wrong.text()
    dialog.try_keep()


def check_in(qtbot: QtBot, bench: Bench, day: date, mass: float) -> None:
    """Body mass and sleep of one morning."""
    sheet = CheckInSheet(bench, None, today=day, day=day)
    qtbot.addWidget(sheet)
    retype(sheet.mass, f"{mass:.1f}")
    sheet.marks[Mark.SLEEP].setCurrentIndex(4)
    kept(sheet)


def adjust(qtbot: QtBot, bench: Bench, today: date) -> None:
    """All that the results suggest for the coming week is taken, as one step."""
    desk = bench.desk
    before = desk.program
    adjusting = AdjustDialog(bench, None, today=today)
    qtbot.addWidget(adjusting)
    assert adjusting.week == WEEKS_DONE
    adjusting.take_all(True)
    steps = desk.history.done
    adjusting.try_keep()
    assert adjusting.wrong.text() == ""
    assert desk.history.done == steps + 1
    assert desk.program.weeks[WEEKS_DONE] != before.weeks[WEEKS_DONE]
    assert desk.program.weeks[:WEEKS_DONE] == before.weeks[:WEEKS_DONE]


def report(qtbot: QtBot, bench: Bench, today: date) -> None:
    """The progress report with the coach's words."""
    shown = ProgressReportDialog(bench, None, today=today)
    qtbot.addWidget(shown)
    shown.words.setPlainText("On with heavier squats.")
    qtbot.waitUntil(
        lambda: bool(shown.view.content) and "heavier squats" in Printed(shown.view.content).whole,
        timeout=WAIT_MS,
    )
    assert "Ilse Brandal" in Printed(shown.view.content).whole
    shown.reject()
    assert QThreadPool.globalInstance().waitForDone(WAIT_MS)
    QCoreApplication.processEvents()


def test_a_clients_year_from_the_first_form_to_the_report(
    qtbot: QtBot, bench: Bench, store: Store, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    desk = bench.desk
    client = take_in(qtbot, bench, store, tmp_path)
    assert client.name == "Ilse Brandal"
    assert client.mass_kg == 64
    assert client.latest_screening is not None

    for name, load, reps in (("Back squat", "60", "8"), ("Romanian deadlift", "70", "8")):
        try_strength(qtbot, bench, name, load, reps)
    squat = next(one for one in desk.catalogue if one.name == "Back squat")
    assert newest_test(squat, desk.client).load_kg == 60

    plan(qtbot, bench)
    assert len(desk.program.weeks) == 52
    assert broken_laws(desk.program) == ()

    hand_out(qtbot, bench, tmp_path / "booklet.pdf", monkeypatch)
    (issue,) = store.issues(desk.program.id)
    assert store.load_issue(issue.id).client == desk.client

    today = desk.program.start + timedelta(weeks=WEEKS_DONE, days=-1)
    enter_results(qtbot, bench, today)
    done = {result.on for result in desk.diary.results}
    assert len(done) >= WEEKS_DONE
    planned = sum(len(list(week.slots())) for week in desk.program.weeks[:WEEKS_DONE])
    assert len(desk.diary.results) == planned

    for week in range(WEEKS_DONE):
        check_in(qtbot, bench, desk.program.start + timedelta(weeks=week), 64.0 + week * 0.2)
    assert len(desk.diary.check_ins) == WEEKS_DONE

    adjust(qtbot, bench, today)
    report(qtbot, bench, today)

    agrees_with_the_file(bench)
    goes_back_and_on(bench)


def agrees_with_the_file(bench: Bench) -> None:
    """What the window shows is what the file holds."""
    desk = bench.desk
    store, here = desk.store, desk.client.id
    assert store.load_client(here) == desk.client
    assert store.load_program(desk.program.id) == desk.program
    assert store.load_diary(here) == desk.diary


def goes_back_and_on(bench: Bench) -> None:
    """The whole year can be taken back, step by step, and done again."""
    desk = bench.desk
    whole = desk.work
    while desk.history.undoable is not None:
        desk.undo()
    while desk.history.redoable is not None:
        desk.redo()
    assert desk.work == whole
    agrees_with_the_file(bench)
