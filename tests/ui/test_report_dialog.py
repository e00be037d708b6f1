"""The findings report in the window: pages to look at, a PDF, a text, initials on request."""

from __future__ import annotations

from collections.abc import Iterator
from pathlib import Path

import pytest
from PySide6.QtCore import QCoreApplication, Qt, QThreadPool
from PySide6.QtGui import QPageSize
from PySide6.QtPrintSupport import QPrintDialog
from PySide6.QtWidgets import QFileDialog
from pytestqt.qtbot import QtBot

from app.domain.edits import fields
from app.domain.findings import edit
from app.ui import paper_sheet
from app.ui.bench import Bench
from app.ui.report_dialog import ReportDialog
from app.ui.window import Window
from tests.booklet.reading_pdf import Printed
from tests.ui.access import marked_up, too_small, unnamed
from tests.ui.desks import TODAY

WAIT_MS = 60_000


@pytest.fixture
def dialog(qtbot: QtBot, dressed, bench: Bench) -> Iterator[ReportDialog]:
    finding = bench.desk.findings[0]
    bench.keep(edit("Accept", fields.accept, finding=finding.id, reason="a duty-free month"))
    made = ReportDialog(bench, None, today=TODAY)
    qtbot.addWidget(made)
    ready(qtbot, made)
    yield made
    made.reject()
    assert QThreadPool.globalInstance().waitForDone(WAIT_MS)
    QCoreApplication.processEvents()


def ready(qtbot: QtBot, dialog: ReportDialog) -> None:
    qtbot.waitUntil(dialog.keep_button.isEnabled, timeout=WAIT_MS)


@pytest.fixture
def saving(monkeypatch: pytest.MonkeyPatch, tmp_path: Path) -> list[str]:
    """The names that the file dialog was opened with; the coach takes 'chosen' in `tmp_path`."""
    offered: list[str] = []

    def choose(_parent, _title, name: str, _kind) -> tuple[str, str]:
        offered.append(name)
        return str(tmp_path / f"chosen{Path(name).suffix}"), ""

    monkeypatch.setattr(QFileDialog, "getSaveFileName", choose)
    return offered


def test_the_first_page_is_shown_and_the_others_can_be_leafed_to(
    qtbot: QtBot, dialog: ReportDialog
) -> None:
    view = dialog.view
    assert view.page.accessibleDescription() == f"Page 1 of {len(view.pages)}"
    first = view.page.pixmap().toImage()
    qtbot.keyClick(dialog, Qt.Key.Key_PageDown)
    assert view.page.accessibleDescription().startswith("Page 2 of")
    assert view.page.pixmap().toImage() != first
    qtbot.keyClick(dialog, Qt.Key.Key_PageUp)
    assert view.page.accessibleDescription().startswith("Page 1 of")


def test_the_pdf_holds_every_cause_and_the_acceptance(dialog, saving, tmp_path, bench) -> None:
    dialog.try_keep()
    found = Printed((tmp_path / "chosen.pdf").read_bytes())
    assert saving == ["findings-runa-estvik-ridge-season.pdf"]
    for finding in bench.desk.findings:
        assert finding.text in found.whole
    assert "accepted: A duty-free month." in found.whole
    assert "Would settle it: " in found.whole
    assert "Runa Estvik" in found.text(1)
    assert dialog.result() == 0, "it stays open"


def test_without_the_name_pdf_text_and_file_names_bear_initials(
    qtbot: QtBot, dialog, saving, tmp_path: Path
) -> None:
    dialog.named.setChecked(False)
    ready(qtbot, dialog)
    dialog.try_keep()
    dialog.save_text()
    assert saving == ["findings-r-e-ridge-season.pdf", "findings-r-e-ridge-season.txt"]
    text = (tmp_path / "chosen.txt").read_text(encoding="utf-8")
    for told in (text, Printed((tmp_path / "chosen.pdf").read_bytes()).whole):
        assert "Runa" not in told
        assert "R. E." in told


def test_the_text_says_what_the_pdf_says(dialog: ReportDialog, saving, tmp_path, bench) -> None:
    dialog.save_text()
    text = (tmp_path / "chosen.txt").read_text(encoding="utf-8")
    assert "Runa Estvik" in text
    assert "Accepted: a duty-free month" in text
    assert bench.desk.findings[1].text in text


def test_a_file_that_cannot_be_written_is_said(dialog, monkeypatch, tmp_path: Path) -> None:
    nowhere = tmp_path / "no" / "x.pdf"
    monkeypatch.setattr(QFileDialog, "getSaveFileName", lambda *_: (str(nowhere), ""))
    dialog.try_keep()
    assert "There is no such file or folder." in dialog.wrong.text()


def test_cancelling_the_file_dialog_writes_nothing(dialog, monkeypatch) -> None:
    monkeypatch.setattr(QFileDialog, "getSaveFileName", lambda *_: ("", ""))
    dialog.save_text()
    assert dialog.wrong.text() == ""


def test_letter_paper_and_grey_make_the_pages_anew(qtbot: QtBot, dialog: ReportDialog) -> None:
    before = dialog.view.content
    dialog.paper.setCurrentIndex(1)
    assert not dialog.keep_button.isEnabled()
    ready(qtbot, dialog)
    assert Printed(dialog.view.content).size_mm(1)[0] == pytest.approx(215.9, abs=0.1)
    assert dialog.view.content != before


@pytest.mark.parametrize(("index", "size"), [(0, "A4"), (1, "Letter")])
def test_it_prints_at_the_papers_size(
    qtbot: QtBot, dialog: ReportDialog, monkeypatch, index: int, size: str
) -> None:
    dialog.paper.setCurrentIndex(index)
    ready(qtbot, dialog)
    told = []
    monkeypatch.setattr(QPrintDialog, "exec", lambda _self: QPrintDialog.DialogCode.Accepted)
    monkeypatch.setattr(
        paper_sheet,
        "print_on",
        lambda printer, pages, grey: told.append(
            (QPageSize.key(printer.pageLayout().pageSize().id()), len(pages), grey)
        ),
    )
    dialog.print_pages()
    assert told == [(size, len(dialog.view.pages), False)]


def test_everybody_can_use_it(dialog: ReportDialog) -> None:
    dialog.show()
    assert unnamed(dialog) == []
    assert too_small(dialog) == []
    assert marked_up(dialog) == []


def test_the_program_menu_opens_it(window: Window, monkeypatch: pytest.MonkeyPatch) -> None:
    opened: list[ReportDialog] = []

    def note(dialog: ReportDialog) -> int:
        opened.append(dialog)
        return 0

    monkeypatch.setattr(ReportDialog, "exec", note)
    window.actions_by_id["report"].trigger()
    assert len(opened) == 1
    opened[0].reject()
    assert QThreadPool.globalInstance().waitForDone(WAIT_MS)
