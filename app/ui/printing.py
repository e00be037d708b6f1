"""Printing pages at their exact size: the system's dialog, its ranges, both sides of a sheet."""

from __future__ import annotations

from PySide6.QtCore import QRectF, QSizeF
from PySide6.QtGui import QImage, QPageLayout, QPageSize, QPainter
from PySide6.QtPrintSupport import QPrintDialog, QPrinter
from PySide6.QtWidgets import QWidget

from app.domain.errors import CoachError
from app.domain.wording import tr
from app.ui.pdf_pages import POINTS_PER_INCH, Pages

PRINT_DPI = 300


def ask_printer(
    parent: QWidget, pages: Pages, *, name: str, folded: bool = False
) -> QPrinter | None:
    """The printer that the coach chooses in the system's dialog, set to the pages' own size.

    name: of the print job, which names no client; folded: both sides are printed and the sheet is
    turned over its short edge. None if it was cancelled.
    """
    size = pages.size_pt(0)
    wide = size.width() > size.height()
    upright = QSizeF(min(size.width(), size.height()), max(size.width(), size.height()))
    printer = QPrinter(QPrinter.PrinterMode.HighResolution)
    printer.setResolution(PRINT_DPI)
    match = QPageSize.SizeMatchPolicy.FuzzyMatch
    printer.setPageSize(QPageSize(upright, QPageSize.Unit.Point, "", match))
    turn = QPageLayout.Orientation
    printer.setPageOrientation(turn.Landscape if wide else turn.Portrait)
    printer.setFullPage(True)
    printer.setDocName(name)
    if folded:
        printer.setDuplex(QPrinter.DuplexMode.DuplexShortSide)
    dialog = QPrintDialog(printer, parent)
    dialog.setMinMax(1, len(pages))
    dialog.setOption(QPrintDialog.PrintDialogOption.PrintPageRange)
    return printer if dialog.exec() == QPrintDialog.DialogCode.Accepted else None


def print_on(printer: QPrinter, pages: Pages, *, grey: bool) -> None:
    """Print pages at their exact size; the printer's page range is kept to.

    Raises CoachError if the printer does not take them.
    """
    first = printer.fromPage() or 1
    last = min(printer.toPage() or len(pages), len(pages))
    painter = QPainter()
    taken = painter.begin(printer)
    for number in range(first - 1, last):
        taken = taken and (number == first - 1 or printer.newPage())
        if not taken:
            break
        picture: QImage = pages.picture(number, PRINT_DPI, grey=grey)
        size = pages.size_pt(number)
        dots = printer.resolution() / POINTS_PER_INCH
        painter.drawImage(QRectF(0, 0, size.width() * dots, size.height() * dots), picture)
    if painter.isActive():
        painter.end()
    if not taken:
        raise CoachError(
            tr("The printer did not take the pages."),
            where=printer.printerName() or printer.outputFileName(),
            mend=tr("See that it is on and has paper, or save a PDF file and print that."),
        )
