from __future__ import annotations

from collections.abc import Iterator
from pathlib import Path

import pytest
from PySide6.QtCore import QCoreApplication, QThreadPool
from PySide6.QtGui import QPageLayout
from PySide6.QtPrintSupport import QPrintDialog
from PySide6.QtWidgets import QFileDialog
from pytestqt.qtbot import QtBot

from app import papers
from app.ui.bench import Bench
from app.ui.papers_dialog import PapersDialog
from app.ui.window import Window
from tests.ui.access import marked_up, too_small, unnamed
from tests.ui.desks import TODAY

WAIT_MS = 60_000


@pytest.fixture
def dialog(qtbot: QtBot, dressed, bench: Bench) -> Iterator[PapersDialog]:
    made = PapersDialog(bench, None, today=TODAY)
    qtbot.addWidget(made)
    made.show()
    ready(qtbot, made)
    yield made
    made.reject()
    assert QThreadPool.globalInstance().waitForDone(WAIT_MS)
    QCoreApplication.processEvents()


def ready(qtbot: QtBot, dialog: PapersDialog) -> None:
    qtbot.waitUntil(dialog.keep_button.isEnabled, timeout=WAIT_MS)


def test_every_paper_can_be_looked_at(dialog: PapersDialog, qtbot: QtBot) -> None:
    for row, kind in enumerate(papers.KINDS):
        dialog.kinds.setCurrentRow(row)
        ready(qtbot, dialog)
        assert dialog.view.content.startswith(b"%PDF")
        assert dialog.about.text() == kind.about
        assert dialog.week.isVisible() == kind.weekly
        assert dialog.wrong.text() == ""


def test_a_paper_is_saved_under_a_name_that_says_what_it_is(
    dialog: PapersDialog, monkeypatch: pytest.MonkeyPatch, tmp_path: Path
) -> None:
    offered: list[str] = []

    def choose(_parent, _title, name: str, _kind) -> tuple[str, str]:
        offered.append(name)
        return str(tmp_path / "chosen.pdf"), ""

    monkeypatch.setattr(QFileDialog, "getSaveFileName", choose)
    dialog.keep_button.click()
    assert offered == ["season-runa-estvik.pdf"]
    assert (tmp_path / "chosen.pdf").read_bytes() == dialog.view.content
    assert dialog.status.text() == "Saved: chosen.pdf"


def test_where_nothing_can_be_written_it_says_so(
    dialog: PapersDialog, monkeypatch: pytest.MonkeyPatch, tmp_path: Path
) -> None:
    gone = str(tmp_path / "gone" / "chosen.pdf")
    monkeypatch.setattr(QFileDialog, "getSaveFileName", lambda *_: (gone, ""))
    dialog.keep_button.click()
    assert "no such file or folder" in dialog.wrong.text()
    assert dialog.isVisible()


def test_a_wide_paper_is_printed_wide(
    dialog: PapersDialog, monkeypatch: pytest.MonkeyPatch, tmp_path: Path
) -> None:
    turned: list[QPageLayout.Orientation] = []

    def accept(self: QPrintDialog) -> int:
        printer = self.printer()
        turned.append(printer.pageLayout().orientation())
        printer.setOutputFileName(str(tmp_path / "printed.pdf"))
        return QPrintDialog.DialogCode.Accepted

    monkeypatch.setattr(QPrintDialog, "exec", accept)
    dialog.print_button.click()
    assert turned == [QPageLayout.Orientation.Landscape]
    assert (tmp_path / "printed.pdf").stat().st_size > 1000


def test_everybody_can_use_it(dialog: PapersDialog) -> None:
    assert unnamed(dialog) == []
    assert too_small(dialog) == []
    assert marked_up(dialog) == []


def test_the_window_opens_it(window: Window, monkeypatch: pytest.MonkeyPatch) -> None:
    opened: list[PapersDialog] = []

    def show(dialog: PapersDialog) -> int:
        opened.append(dialog)
        return 0

    monkeypatch.setattr(PapersDialog, "exec", show)
    window.actions_by_id["papers"].trigger()
    (shown,) = opened
    shown.reject()
    assert QThreadPool.globalInstance().waitForDone(WAIT_MS)
