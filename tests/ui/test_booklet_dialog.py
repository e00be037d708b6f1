"""The booklet dialog: pages made off the window's thread, saved, printed, handed out once."""

from __future__ import annotations

from collections.abc import Iterator
from pathlib import Path

import pytest
from PySide6.QtCore import QCoreApplication, Qt, QThreadPool
from PySide6.QtPrintSupport import QPrintDialog, QPrinter
from PySide6.QtTest import QTest
from PySide6.QtWidgets import QApplication, QFileDialog
from pytestqt.qtbot import QtBot

from app import press
from app.booklet import Options, Paper
from app.booklet.mark import read_mark
from app.domain.errors import CoachError, StoreError
from app.domain.exercise import Catalogue
from app.domain.ranges import RangeBook
from app.domain.work import Issue
from app.ui.bench import Bench
from app.ui.booklet_dialog import BookletDialog
from app.ui.coach_sheet import CoachSheet
from db.store import Store
from tests.booklet.test_mark import picture
from tests.ui.access import marked_up, too_small, unnamed
from tests.ui.desks import PROGRAM, RUNA, TODAY
from tests.ui.steps import retype

WAIT_MS = 60_000
A4 = (595.28, 841.89)
LETTER = (612.0, 792.0)
BIND = press.bind
BOUND: dict[Options, bytes] = {}


def made(qtbot: QtBot, dialog: BookletDialog) -> None:
    """Wait until the pages are there."""
    qtbot.waitUntil(dialog.keep_button.isEnabled, timeout=WAIT_MS)


@pytest.fixture(autouse=True)
def bound_once(monkeypatch: pytest.MonkeyPatch) -> None:
    """The same plan with the same options is bound for the first test alone, to save time."""

    def bind(
        issue: Issue,
        catalogue: Catalogue,
        ranges: RangeBook,
        *,
        options: Options,
        mark: bytes = b"",
        language: str | None = None,
        references: press.References | None = None,
    ) -> bytes:
        assert references is not None, "the coach's own references are at hand"
        if (
            language not in (None, "en")
            or mark
            or (issue.client, issue.program, issue.on) != (RUNA, PROGRAM, TODAY)
        ):
            return BIND(issue, catalogue, ranges, options=options, mark=mark, language=language)
        if options not in BOUND:
            BOUND[options] = BIND(issue, catalogue, ranges, options=options)
        return BOUND[options]

    monkeypatch.setattr(press, "bind", bind)


@pytest.fixture
def opening(qtbot: QtBot, bench: Bench) -> Iterator[BookletDialog]:
    """The dialog while its pages are being made."""
    dialog = BookletDialog(bench, None, today=TODAY)
    qtbot.addWidget(dialog)
    yield dialog
    dialog.reject()
    assert QThreadPool.globalInstance().waitForDone(WAIT_MS)
    QCoreApplication.processEvents()


@pytest.fixture
def dialog(qtbot: QtBot, opening: BookletDialog) -> BookletDialog:
    """The dialog with its pages."""
    made(qtbot, opening)
    return opening


@pytest.fixture
def saving(monkeypatch: pytest.MonkeyPatch, tmp_path: Path) -> Path:
    """Where the coach will choose to save."""
    path = tmp_path / "booklet.pdf"
    monkeypatch.setattr(QFileDialog, "getSaveFileName", lambda *_: (str(path), ""))
    return path


def test_nothing_can_be_handed_out_before_there_are_pages(
    opening: BookletDialog, store: Store
) -> None:
    opening.make()
    assert not opening.keep_button.isEnabled()
    assert not opening.print_button.isEnabled()
    assert not opening.busy.isHidden()
    opening.keep_button.click()
    opening.print_button.click()
    assert not store.issues(PROGRAM.id)


def test_every_page_is_listed_and_the_first_is_open(dialog: BookletDialog) -> None:
    assert len(dialog.view.pages) > 4
    assert dialog.view.thumbs.count() == len(dialog.view.pages)
    assert dialog.view.thumbs.currentRow() == 0
    assert dialog.view.page.accessibleDescription() == f"Page 1 of {len(dialog.view.pages)}"
    assert not dialog.view.page.pixmap().isNull()
    assert dialog.busy.isHidden()
    assert dialog.status.text().startswith(f"{len(dialog.view.pages)} pages, ")


def test_thumbnails_come_one_by_one(qtbot: QtBot, dialog: BookletDialog) -> None:
    rows = range(dialog.view.thumbs.count())
    qtbot.waitUntil(
        lambda: not any(dialog.view.thumbs.item(row).icon().isNull() for row in rows),
        timeout=WAIT_MS,
    )


def test_page_keys_turn_pages_and_stop_at_the_ends(dialog: BookletDialog) -> None:
    QTest.keyClick(dialog, Qt.Key.Key_PageDown)
    assert dialog.view.page.accessibleDescription().startswith("Page 2 of")
    for _ in range(3):
        QTest.keyClick(dialog, Qt.Key.Key_PageUp)
    assert dialog.view.page.accessibleDescription().startswith("Page 1 of")
    dialog.view.thumbs.setCurrentRow(dialog.view.thumbs.count() - 1)
    QTest.keyClick(dialog, Qt.Key.Key_PageDown)
    assert dialog.view.thumbs.currentRow() == dialog.view.thumbs.count() - 1


def test_another_paper_makes_the_pages_anew(qtbot: QtBot, dialog: BookletDialog) -> None:
    assert dialog.view.pages.size_pt(0).width() == pytest.approx(A4[0], abs=0.5)
    dialog.fields.paper.setCurrentIndex(1)
    assert not dialog.keep_button.isEnabled()
    made(qtbot, dialog)
    size = dialog.view.pages.size_pt(0)
    assert (size.width(), size.height()) == pytest.approx(LETTER, abs=0.5)


def test_tones_for_a_grey_printer_make_other_pages(qtbot: QtBot, dialog: BookletDialog) -> None:
    colour = dialog.view.content
    dialog.grey.click()
    made(qtbot, dialog)
    assert dialog.view.content != colour
    dialog.grey.click()
    made(qtbot, dialog)
    assert dialog.view.content == colour


def test_fewer_weeks_make_fewer_pages(qtbot: QtBot, dialog: BookletDialog) -> None:
    whole = len(dialog.view.pages)
    retype(dialog.fields.first, "2")
    retype(dialog.fields.last, "3")
    qtbot.waitUntil(lambda: len(dialog.view.pages) < whole, timeout=WAIT_MS)
    made(qtbot, dialog)
    assert dialog.view.thumbs.count() == len(dialog.view.pages)
    assert dialog.options() == Options(weeks=(2, 3))


@pytest.mark.parametrize(
    ("first", "last", "parts"),
    [
        ("5", "2", ("Week 5 comes after week 2.", "Put the earlier week first.")),
        ("0", "2", ("First week: 0 is out of range.", "Enter 1 to 6.")),
        ("1", "7", ("Last week: 7 is out of range.", "Enter 1 to 6.")),
        ("", "3", ("First week: is missing.",)),
    ],
)
def test_weeks_that_cannot_be_give_a_sentence_and_nothing_to_hand_out(
    qtbot: QtBot, dialog: BookletDialog, first: str, last: str, parts: tuple[str, ...]
) -> None:
    retype(dialog.fields.first, first)
    retype(dialog.fields.last, last)
    qtbot.waitUntil(lambda: bool(dialog.wrong.text()), timeout=WAIT_MS)
    for part in parts:
        assert part in dialog.wrong.text()
    assert not dialog.keep_button.isEnabled()
    assert not dialog.print_button.isEnabled()
    retype(dialog.fields.first, "1")
    retype(dialog.fields.last, "2")
    made(qtbot, dialog)
    assert dialog.wrong.text() == ""


def test_options_changed_while_pages_are_made_leave_only_the_last(
    qtbot: QtBot, opening: BookletDialog
) -> None:
    opening.fields.paper.setCurrentIndex(1)
    opening.fields.paper.setCurrentIndex(0)
    opening.fields.paper.setCurrentIndex(1)
    made(qtbot, opening)
    assert QThreadPool.globalInstance().waitForDone(WAIT_MS)
    QCoreApplication.processEvents()
    assert opening.options().paper is Paper.LETTER
    assert opening.view.pages.size_pt(0).width() == pytest.approx(LETTER[0], abs=0.5)


def test_what_cannot_be_printed_is_said(
    qtbot: QtBot, dialog: BookletDialog, monkeypatch: pytest.MonkeyPatch
) -> None:
    def refuse(*_: object, **__: object) -> bytes:
        raise CoachError("The booklet has no font.", mend="Install Weekloom again.")

    monkeypatch.setattr(press, "bind", refuse)
    dialog.make()
    qtbot.waitUntil(lambda: bool(dialog.wrong.text()), timeout=WAIT_MS)
    assert dialog.wrong.text() == "The booklet has no font. Install Weekloom again."
    assert dialog.busy.isHidden()
    assert not dialog.keep_button.isEnabled()


def test_saved_it_is_one_file_and_one_issue(
    dialog: BookletDialog, store: Store, saving: Path, bench: Bench, qtbot: QtBot
) -> None:
    with qtbot.waitSignal(bench.said) as said:
        dialog.try_keep()
    assert said.args == [f"Saved: {saving.name}"]
    assert saving.read_bytes() == dialog.view.content
    assert saving.read_bytes().startswith(b"%PDF")
    (line,) = store.issues(PROGRAM.id)
    issue: Issue = store.load_issue(line.id)
    assert (issue.client, issue.program, issue.on) == (RUNA, PROGRAM, TODAY)
    assert issue.loads
    assert dialog.isHidden() or dialog.result() == 0


def test_handed_out_twice_from_one_dialog_it_is_one_issue(
    dialog: BookletDialog, store: Store, saving: Path
) -> None:
    dialog.try_keep()
    dialog.try_keep()
    assert len(store.issues(PROGRAM.id)) == 1


def test_the_file_is_named_for_client_and_program(
    dialog: BookletDialog, monkeypatch: pytest.MonkeyPatch
) -> None:
    offered: list[str] = []

    def ask(_parent: object, _title: str, name: str, _kinds: str) -> tuple[str, str]:
        offered.append(name)
        return "", ""

    monkeypatch.setattr(QFileDialog, "getSaveFileName", ask)
    dialog.try_keep()
    (name,) = offered
    assert name.endswith(".pdf")
    assert "Runa" in name or "runa" in name


def test_cancelled_nothing_is_handed_out(
    dialog: BookletDialog, store: Store, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setattr(QFileDialog, "getSaveFileName", lambda *_: ("", ""))
    dialog.try_keep()
    assert not store.issues(PROGRAM.id)


def test_a_file_that_cannot_be_written_hands_nothing_out(
    dialog: BookletDialog, store: Store, monkeypatch: pytest.MonkeyPatch, tmp_path: Path
) -> None:
    (tmp_path / "file").write_text("", encoding="utf-8")
    inside = tmp_path / "file" / "booklet.pdf"
    monkeypatch.setattr(QFileDialog, "getSaveFileName", lambda *_: (str(inside), ""))
    dialog.try_keep()
    assert dialog.wrong.text()
    assert "booklet.pdf" in dialog.wrong.text() or "file" in dialog.wrong.text()
    assert not store.issues(PROGRAM.id)


def test_what_is_handed_out_is_the_plan_as_it_was_when_the_dialog_opened(
    dialog: BookletDialog, bench: Bench
) -> None:
    assert dialog.issue.program is bench.desk.program
    assert dialog.issue.client is bench.desk.client


def test_closed_while_pages_are_made_nothing_comes_back(qtbot: QtBot, bench: Bench) -> None:
    dialog = BookletDialog(bench, None, today=TODAY)
    qtbot.addWidget(dialog)
    dialog.reject()
    assert QThreadPool.globalInstance().waitForDone(WAIT_MS)
    QCoreApplication.processEvents()
    assert dialog.view.pages is None
    assert dialog.view.content == b""


# -- printing ------------------------------------------------------------------------------


@pytest.mark.qt_log_ignore("Cannot open file", "QPainter::begin", extend=True)
def test_a_printer_that_takes_nothing_is_named_and_nothing_is_handed_out(
    dialog: BookletDialog, store: Store, monkeypatch: pytest.MonkeyPatch, tmp_path: Path
) -> None:
    nowhere = tmp_path / "no folder" / "printed.pdf"

    def choose(chosen: QPrintDialog) -> int:
        printer = chosen.printer()
        printer.setOutputFormat(QPrinter.OutputFormat.PdfFormat)
        printer.setOutputFileName(str(nowhere))
        return 1

    monkeypatch.setattr(QPrintDialog, "exec", choose)
    dialog.print_button.click()
    assert "The printer did not take the pages." in dialog.wrong.text()
    assert str(nowhere) in dialog.wrong.text()
    assert "save a PDF file" in dialog.wrong.text()
    assert not store.issues(PROGRAM.id)


def test_what_was_handed_out_but_cannot_be_noted_is_said(
    dialog: BookletDialog, saving: Path, store: Store
) -> None:
    def full(_issue: Issue) -> None:
        raise StoreError("The disk is full.", mend="Make room.")

    with pytest.MonkeyPatch.context() as patch:
        patch.setattr(store, "add_issue", full)
        dialog.try_keep()
    assert dialog.wrong.text() == "The disk is full. Make room."
    dialog.try_keep()
    assert dialog.wrong.text() == ""
    assert len(store.issues(PROGRAM.id)) == 1


@pytest.mark.parametrize(("answer", "issues"), [(1, 1), (0, 0)])
def test_only_what_was_printed_is_handed_out(
    dialog: BookletDialog,
    store: Store,
    monkeypatch: pytest.MonkeyPatch,
    tmp_path: Path,
    answer: int,
    issues: int,
) -> None:
    path = tmp_path / "printed.pdf"

    def choose(chosen: QPrintDialog) -> int:
        printer = chosen.printer()
        printer.setOutputFormat(QPrinter.OutputFormat.PdfFormat)
        printer.setOutputFileName(str(path))
        printer.setFromTo(1, 1)
        return answer

    monkeypatch.setattr(QPrintDialog, "exec", choose)
    QTest.mouseClick(dialog.print_button, Qt.MouseButton.LeftButton)
    assert len(store.issues(PROGRAM.id)) == issues
    assert path.exists() is bool(issues)


def test_everybody_can_use_it(qtbot: QtBot, dressed: QApplication, dialog: BookletDialog) -> None:
    dialog.show()
    qtbot.waitExposed(dialog)
    assert unnamed(dialog) == []
    assert too_small(dialog) == []
    assert marked_up(dialog) == []


def test_folded_pages_lie_in_pairs_on_sheets(
    qtbot: QtBot, dialog: BookletDialog, monkeypatch: pytest.MonkeyPatch
) -> None:
    flat = len(dialog.view.pages)
    dialog.fields.folded.setChecked(True)
    qtbot.waitUntil(
        lambda: dialog.view.pages is not None and len(dialog.view.pages) != flat, timeout=WAIT_MS
    )
    assert len(dialog.view.pages) == -(-flat // 4) * 2
    size = dialog.view.pages.size_pt(0)
    assert size.width() > size.height()
    assert dialog.status.text().startswith(f"{len(dialog.view.pages) // 2} sheets")
    asked: list[QPrinter] = []

    def refuse(chosen: QPrintDialog) -> int:
        asked.append(chosen.printer())
        assert chosen.printer().pageLayout().orientation().name == "Landscape"
        return 0

    monkeypatch.setattr(QPrintDialog, "exec", refuse)
    dialog.print_button.click()
    assert asked
    assert not dialog.handed_out


def test_choices_are_remembered_once_a_booklet_was_handed_out(
    qtbot: QtBot, dialog: BookletDialog, saving: Path, bench: Bench
) -> None:
    dialog.grey.click()
    dialog.fields.name.setText("Runa E.")
    made(qtbot, dialog)
    dialog.try_keep()
    again = BookletDialog(bench, None, today=TODAY)
    qtbot.addWidget(again)
    assert again.grey.isChecked()
    assert again.fields.name.text() == "Runa E."
    assert again.options().weeks == (1, 6)
    again.reject()
    assert QThreadPool.globalInstance().waitForDone(WAIT_MS)
    QCoreApplication.processEvents()


def test_an_excerpt_says_so_in_its_file_name_and_keeps_an_issue(
    qtbot: QtBot,
    dialog: BookletDialog,
    store: Store,
    monkeypatch: pytest.MonkeyPatch,
    tmp_path: Path,
) -> None:
    offered: list[str] = []
    whole = len(dialog.view.pages)
    retype(dialog.fields.last, "2")
    # bound before it may be there again at once: the pages tell, and not the button
    qtbot.waitUntil(
        lambda: dialog.view.pages is not None and 0 < len(dialog.view.pages) < whole,
        timeout=WAIT_MS,
    )
    made(qtbot, dialog)

    def ask(_parent: object, _title: str, name: str, _kinds: str) -> tuple[str, str]:
        offered.append(name)
        return str(tmp_path / name), ""

    monkeypatch.setattr(QFileDialog, "getSaveFileName", ask)
    dialog.try_keep()
    assert offered[0].endswith("1-2.pdf")
    (line,) = store.issues(PROGRAM.id)
    assert store.load_issue(line.id).program == PROGRAM


def test_a_form_and_a_wall_sheet_are_made_and_looked_at(
    qtbot: QtBot, dialog: BookletDialog
) -> None:
    dialog.fields.kind.setCurrentIndex(1)
    made(qtbot, dialog)
    assert b"/AcroForm" in dialog.view.content
    dialog.fields.kind.setCurrentIndex(2)
    made(qtbot, dialog)
    assert len(dialog.view.pages) == 1
    size = dialog.view.pages.size_pt(0)
    assert size.width() > size.height()


def test_the_mark_stands_on_the_cover(qtbot: QtBot, bench: Bench, store: Store) -> None:
    plain_sheet = CoachSheet(store, None)
    qtbot.addWidget(plain_sheet)
    plain_sheet.name.setText("Tavi Hellmark")
    plain_sheet.mark = read_mark(picture())
    plain_sheet.keep()
    dialog = BookletDialog(bench, None, today=TODAY)
    qtbot.addWidget(dialog)
    made(qtbot, dialog)
    assert b"/Subtype /Image" in dialog.view.content
    dialog.reject()
    assert QThreadPool.globalInstance().waitForDone(WAIT_MS)
    QCoreApplication.processEvents()


def test_the_booklet_is_bound_in_the_language_that_is_chosen(
    qtbot: QtBot, dialog: BookletDialog
) -> None:
    before = dialog.view.content
    dialog.fields.language.setCurrentIndex(dialog.fields.language.findData("de"))
    made(qtbot, dialog)
    assert dialog.view.content != before
    assert b"/Lang (de)" in dialog.view.content
