"""Printing: exact size, ranges, and what the system's dialog is opened with."""

from __future__ import annotations

import io
from datetime import date
from pathlib import Path

import pypdfium2
import pytest
from PySide6.QtCore import QPoint, QRect
from PySide6.QtGui import QPageLayout, QPageSize
from PySide6.QtPrintSupport import QPrintDialog, QPrinter
from PySide6.QtWidgets import QWidget
from pytestqt.qtbot import QtBot
from reportlab.pdfgen.canvas import Canvas

from app import press
from app.booklet import Options, Paper
from app.ui.bench import Bench
from app.ui.pdf_pages import Pages
from app.ui.printing import PRINT_DPI, ask_printer, print_on

A4 = (595.28, 841.89)
LETTER = (612.0, 792.0)


def to_file(path: Path, size: QPageSize.PageSizeId) -> QPrinter:
    printer = QPrinter(QPrinter.PrinterMode.HighResolution)
    printer.setOutputFormat(QPrinter.OutputFormat.PdfFormat)
    printer.setOutputFileName(str(path))
    printer.setResolution(PRINT_DPI)
    printer.setPageSize(QPageSize(size))
    printer.setFullPage(True)
    return printer


def sizes(path: Path) -> list[tuple[float, float]]:
    document = pypdfium2.PdfDocument(path.read_bytes())
    found = [document[number].get_size() for number in range(len(document))]
    document.close()
    return found


@pytest.mark.parametrize(
    ("paper", "size", "points"),
    [
        (Paper.A4, QPageSize.PageSizeId.A4, A4),
        (Paper.LETTER, QPageSize.PageSizeId.Letter, LETTER),
    ],
)
def test_a_chosen_range_is_printed_at_its_exact_size(
    bench: Bench,
    tmp_path: Path,
    paper: Paper,
    size: QPageSize.PageSizeId,
    points: tuple[float, ...],
) -> None:
    desk = bench.desk
    issue = desk.draft_issue(date(2026, 11, 25))
    options = Options(paper=paper, weeks=(1, 1))
    pages = Pages(press.bind(issue, desk.catalogue, desk.ranges, options=options))
    path = tmp_path / "printed.pdf"
    printer = to_file(path, size)
    printer.setFromTo(2, 3)
    print_on(printer, pages, grey=True)
    printed = sizes(path)
    assert len(printed) == 2
    for found in printed:
        assert found == pytest.approx(points, abs=1)
    _same_ink(path, pages)
    pages.close()


def _ink(pages: Pages, number: int) -> QRect:
    """Where anything is printed on a page, in points."""
    picture = pages.picture(number, 72, grey=True)
    data, stride = bytes(picture.constBits()), picture.bytesPerLine()
    xs = [x for x in range(picture.width()) if min(data[x::stride]) < 128]
    ys = [y for y in range(picture.height()) if min(data[y * stride :][: picture.width()]) < 128]
    return QRect(QPoint(min(xs), min(ys)), QPoint(max(xs), max(ys)))


def _same_ink(path: Path, pages: Pages) -> None:
    """The second page of the booklet lies on the first printed one, edge for edge."""
    printed = Pages(path.read_bytes())
    one, other = _ink(pages, 1), _ink(printed, 0)
    printed.close()
    for edge in ("left", "top", "right", "bottom"):
        assert abs(getattr(one, edge)() - getattr(other, edge)()) <= 1, edge


def test_without_a_range_every_page_is_printed(qtbot: QtBot, tmp_path: Path) -> None:
    out = io.BytesIO()
    canvas = Canvas(out, pagesize=A4)
    for _ in range(3):
        canvas.showPage()
    canvas.save()
    pages = Pages(out.getvalue())
    path = tmp_path / "all.pdf"
    print_on(to_file(path, QPageSize.PageSizeId.A4), pages, grey=True)
    pages.close()
    assert len(sizes(path)) == 3


def blank(size: tuple[float, float]) -> Pages:
    out = io.BytesIO()
    canvas = Canvas(out, pagesize=size)
    canvas.showPage()
    canvas.save()
    return Pages(out.getvalue())


@pytest.mark.parametrize(
    ("size", "key", "turn"),
    [
        (A4, "A4", "Portrait"),
        ((A4[1], A4[0]), "A4", "Landscape"),
        (LETTER, "Letter", "Portrait"),
        ((419.53, 595.28), "A5", "Portrait"),
    ],
)
@pytest.mark.parametrize("folded", [False, True])
def test_the_dialog_opens_for_the_pages_own_size(
    qtbot: QtBot,
    monkeypatch: pytest.MonkeyPatch,
    size: tuple[float, float],
    key: str,
    turn: str,
    folded: bool,
) -> None:
    parent = QWidget()
    qtbot.addWidget(parent)
    seen: list[tuple[str, QPageLayout.Orientation]] = []

    def accept(dialog: QPrintDialog) -> int:
        layout = dialog.printer().pageLayout()
        seen.append((QPageSize.key(layout.pageSize().id()), layout.orientation()))
        return QPrintDialog.DialogCode.Accepted

    monkeypatch.setattr(QPrintDialog, "exec", accept)
    # a printer that is no real one takes no sides: what is asked of it counts
    sides: list[QPrinter.DuplexMode] = []
    monkeypatch.setattr(QPrinter, "setDuplex", lambda _printer, mode: sides.append(mode))
    pages = blank(size)
    printer = ask_printer(parent, pages, name="A paper", folded=folded)
    pages.close()
    assert seen == [(key, QPageLayout.Orientation[turn])]
    assert sides == [QPrinter.DuplexMode.DuplexShortSide] * folded
    assert printer.docName() == "A paper"


def test_a_cancelled_dialog_gives_no_printer(qtbot: QtBot, monkeypatch: pytest.MonkeyPatch) -> None:
    parent = QWidget()
    qtbot.addWidget(parent)
    monkeypatch.setattr(QPrintDialog, "exec", lambda _self: 0)
    pages = blank(A4)
    assert ask_printer(parent, pages, name="A paper") is None
    pages.close()
