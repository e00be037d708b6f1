from __future__ import annotations

from collections.abc import Iterator
from io import BytesIO
from pathlib import Path
from threading import Event

import pytest
from PySide6.QtCore import QCoreApplication, QThreadPool
from PySide6.QtPrintSupport import QPrintDialog
from PySide6.QtWidgets import QFileDialog, QVBoxLayout
from pytestqt.qtbot import QtBot
from reportlab.pdfgen.canvas import Canvas

from app.domain.errors import CoachError
from app.ui.bench import Bench
from app.ui.paper_sheet import PaperSheet

WAIT_MS = 20_000


def pdf(pages: int = 1) -> bytes:
    out = BytesIO()
    canvas = Canvas(out, pagesize=(300, 400))
    for _ in range(pages):
        canvas.rect(20, 20, 30, 50, fill=1)
        canvas.showPage()
    canvas.save()
    return out.getvalue()


@pytest.fixture
def sheet(qtbot: QtBot, dressed, bench: Bench) -> Iterator[PaperSheet]:
    made = PaperSheet(bench, None, "A paper", job_name="Weekloom paper")
    made.put_beside(QVBoxLayout(), width=120)
    qtbot.addWidget(made)
    made.show()
    yield made
    made.reject()
    assert QThreadPool.globalInstance().waitForDone(WAIT_MS)
    QCoreApplication.processEvents()


def test_pages_are_made_apart_and_can_be_kept_once_they_are_there(
    sheet: PaperSheet, qtbot: QtBot
) -> None:
    sheet.start(lambda: pdf(2))
    assert not sheet.keep_button.isEnabled()
    assert sheet.busy.isVisible()
    qtbot.waitUntil(sheet.keep_button.isEnabled, timeout=WAIT_MS)
    assert sheet.print_button.isEnabled()
    assert not sheet.busy.isVisible()
    assert len(sheet.view.pages) == 2


def test_what_was_being_made_is_dropped_for_what_is_asked_later(
    sheet: PaperSheet, qtbot: QtBot
) -> None:
    late = Event()

    def slow() -> bytes:
        late.wait(10)
        return pdf(9)

    sheet.start(slow)
    sheet.start(lambda: pdf(1))
    qtbot.waitUntil(sheet.keep_button.isEnabled, timeout=WAIT_MS)
    late.set()
    assert QThreadPool.globalInstance().waitForDone(WAIT_MS)
    QCoreApplication.processEvents()
    assert len(sheet.view.pages) == 1


def test_why_there_are_no_pages_is_said_and_nothing_can_be_kept(
    sheet: PaperSheet, qtbot: QtBot
) -> None:
    def fails() -> bytes:
        raise CoachError("The fonts have no such letter.", mend="Write another.")

    sheet.start(pdf)
    qtbot.waitUntil(sheet.keep_button.isEnabled, timeout=WAIT_MS)
    sheet.start(fails)
    qtbot.waitUntil(lambda: bool(sheet.wrong.text()), timeout=WAIT_MS)
    assert "no such letter" in sheet.wrong.text()
    assert not sheet.keep_button.isEnabled()
    assert sheet.view.pages is None


def test_choices_that_cannot_be_drop_what_is_made_and_leave_the_pages_in_sight(
    sheet: PaperSheet, qtbot: QtBot
) -> None:
    late = Event()

    def slow() -> bytes:
        late.wait(10)
        return pdf(9)

    sheet.start(pdf)
    qtbot.waitUntil(sheet.keep_button.isEnabled, timeout=WAIT_MS)
    sheet.start(slow)
    sheet.refuse(CoachError("There is no week 9.", mend="Choose another."))
    late.set()
    assert QThreadPool.globalInstance().waitForDone(WAIT_MS)
    QCoreApplication.processEvents()
    assert len(sheet.view.pages) == 1
    assert not sheet.keep_button.isEnabled()
    assert not sheet.busy.isVisible()
    assert "no week 9" in sheet.wrong.text()


def test_what_follows_is_done_once_the_file_is_there_and_its_error_is_said(
    sheet: PaperSheet, qtbot: QtBot, monkeypatch: pytest.MonkeyPatch, tmp_path: Path
) -> None:
    sheet.start(pdf)
    qtbot.waitUntil(sheet.keep_button.isEnabled, timeout=WAIT_MS)
    out = tmp_path / "out.pdf"

    def note() -> None:
        assert out.is_file()
        raise CoachError("It cannot be noted.", mend="Try again.")

    monkeypatch.setattr(sheet, "handed_on", note)
    monkeypatch.setattr(QFileDialog, "getSaveFileName", lambda *_: ("", ""))
    sheet.keep_button.click()
    assert sheet.wrong.text() == ""
    monkeypatch.setattr(QFileDialog, "getSaveFileName", lambda *_: (str(out), ""))
    sheet.keep_button.click()
    assert "cannot be noted" in sheet.wrong.text()


def test_a_file_is_written_and_the_sheet_stays_open(
    sheet: PaperSheet, qtbot: QtBot, monkeypatch: pytest.MonkeyPatch, tmp_path: Path
) -> None:
    sheet.start(pdf)
    qtbot.waitUntil(sheet.keep_button.isEnabled, timeout=WAIT_MS)
    out = tmp_path / "out.pdf"
    monkeypatch.setattr(QFileDialog, "getSaveFileName", lambda *_: (str(out), ""))
    sheet.keep_button.click()
    assert out.read_bytes() == sheet.view.content
    assert sheet.status.text() == "Saved: out.pdf"
    assert sheet.isVisible()


def test_a_place_that_takes_nothing_is_said(
    sheet: PaperSheet, qtbot: QtBot, monkeypatch: pytest.MonkeyPatch, tmp_path: Path
) -> None:
    sheet.start(pdf)
    qtbot.waitUntil(sheet.keep_button.isEnabled, timeout=WAIT_MS)
    gone = tmp_path / "gone" / "out.pdf"
    monkeypatch.setattr(QFileDialog, "getSaveFileName", lambda *_: (str(gone), ""))
    sheet.keep_button.click()
    assert "no such file or folder" in sheet.wrong.text()


def test_a_cancelled_print_prints_nothing(
    sheet: PaperSheet, qtbot: QtBot, monkeypatch: pytest.MonkeyPatch
) -> None:
    sheet.start(pdf)
    qtbot.waitUntil(sheet.keep_button.isEnabled, timeout=WAIT_MS)
    monkeypatch.setattr(QPrintDialog, "exec", lambda _dialog: 0)
    sheet.print_button.click()
    assert sheet.wrong.text() == ""
