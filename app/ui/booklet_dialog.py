"""The booklet before it is handed out: every page to look at, then print it or keep a PDF file."""

from __future__ import annotations

from datetime import date, datetime
from pathlib import Path

from PySide6.QtCore import QRectF, QSize, Qt, QTimer
from PySide6.QtGui import QIcon, QImage, QKeyEvent, QPageLayout, QPageSize, QPainter, QPixmap
from PySide6.QtPrintSupport import QPrintDialog, QPrinter
from PySide6.QtWidgets import (
    QCheckBox,
    QComboBox,
    QFileDialog,
    QHBoxLayout,
    QLabel,
    QListWidget,
    QListWidgetItem,
    QProgressBar,
    QScrollArea,
    QVBoxLayout,
    QWidget,
)

from app.booklet import Options, Paper
from app.domain.errors import CoachError
from app.domain.wording import tr
from app.domain.work import Issue
from app.exchange.files import safe_name, write_file
from app.ui import worker
from app.ui.bench import Bench
from app.ui.forms import NumberField, Sheet, button, plain
from app.ui.pdf_pages import POINTS_PER_INCH, Pages

THUMB = 96
PRINT_DPI = 300


class BookletDialog(Sheet):
    """Options left, thumbnails and the open page right, acts at the foot."""

    def __init__(self, bench: Bench, parent: QWidget | None, *, today: date | None = None) -> None:
        client = bench.desk.client.name
        super().__init__(parent, tr("Booklet for {client}", client=client), verb=tr("Save as PDF…"))
        self.bench = bench
        self.today = today or datetime.now().astimezone().date()
        self.issue: Issue = bench.desk.draft_issue(self.today)
        self.content = b""
        self.pages: Pages | None = None
        self.handed_out = False
        self._job: worker.Job[bytes] | None = None
        self._thumbs_left: list[int] = []
        self._build_options(len(bench.desk.program.weeks))
        self._build_pages()
        self._lay_out()
        self._thumb_timer = QTimer(self)
        self._thumb_timer.setInterval(0)
        self._thumb_timer.timeout.connect(self._next_thumb)
        self._later = QTimer(self)
        self._later.setSingleShot(True)
        self._later.setInterval(250)
        self._later.timeout.connect(self.make)
        self.paper.currentIndexChanged.connect(lambda _k: self.make())
        self.grey.toggled.connect(lambda _on: self.make())
        for field in (self.first, self.last):
            field.edit.textEdited.connect(lambda _text: self._later.start())
        self.thumbs.currentRowChanged.connect(self.show_page)
        self.finished.connect(lambda _result: self._let_go())
        self.resize(1100, 800)
        self.make()

    def _build_options(self, weeks: int) -> None:
        self.paper = QComboBox()
        self.paper.addItems(["A4", tr("US Letter")])
        self.paper.setMinimumHeight(32)
        self.grey = QCheckBox(tr("Tones for a grey printer"))
        self.first = NumberField(tr("First week"), low=1, high=weeks, whole=True)
        self.last = NumberField(tr("Last week"), low=1, high=weeks, whole=True)
        self.first.set_value(1)
        self.last.set_value(weeks)

    def _build_pages(self) -> None:
        self.thumbs = QListWidget()
        self.thumbs.setIconSize(QSize(THUMB, round(THUMB * 1.42)))
        self.thumbs.setFixedWidth(170)
        self.thumbs.setAccessibleName(tr("Pages"))
        self.page = QLabel()
        self.page.setAlignment(Qt.AlignmentFlag.AlignCenter)
        self.page.setAccessibleName(tr("The open page"))
        self.page.setTextFormat(Qt.TextFormat.PlainText)
        self.busy = QProgressBar()
        self.busy.setRange(0, 0)
        self.busy.setFixedHeight(6)
        self.busy.setTextVisible(False)
        self.status = plain("", role="small")
        self.print_button = button(tr("Print…"), self.print_pages)

    def _lay_out(self) -> None:
        self.row(tr("Paper"), self.paper)
        self.row(tr("First week"), self.first)
        self.row(tr("Last week"), self.last)
        options = QVBoxLayout()
        self.column.removeItem(self.form)
        options.addLayout(self.form)
        options.addWidget(self.grey)
        note = plain(
            tr(
                "Hand the client only what you have checked. Handing out keeps a "
                "frozen copy of the program and its loads, so that you can see later "
                "what was printed."
            ),
            role="small",
        )
        note.setWordWrap(True)
        options.addWidget(note)
        options.addStretch(1)
        holder = QWidget()
        holder.setLayout(options)
        holder.setFixedWidth(240)
        scroll = QScrollArea()
        scroll.setWidget(self.page)
        scroll.setAccessibleName(tr("The open page, to scroll"))
        scroll.setWidgetResizable(True)
        self.page_scroll = scroll
        row = QHBoxLayout()
        row.setSpacing(12)
        row.addWidget(holder)
        row.addWidget(self.thumbs)
        row.addWidget(scroll, 1)
        self.body.addLayout(row, 1)
        self.body.addWidget(self.busy)
        self.foot.insertWidget(0, self.status)
        self.foot.insertWidget(2, self.print_button)
        self.cancel_button.setText(tr("Close"))

    # -- making ----------------------------------------------------------------------------

    def options(self) -> Options:
        """The options as chosen. Raises CoachError for weeks that are not there."""
        first, last = self.first.whole_value(), self.last.whole_value()
        if first > last:
            raise CoachError(
                tr("Week {first} comes after week {last}.", first=first, last=last),
                mend=tr("Put the earlier week first."),
            )
        paper = Paper.A4 if self.paper.currentIndex() == 0 else Paper.LETTER
        return Options(paper=paper, grey=self.grey.isChecked(), weeks=(first, last))

    def make(self) -> None:
        """Make the pages anew, off this thread."""
        from app import press

        self.show_error("")
        self._enable(False)
        if self._job is not None:
            self._job.cancel()
        try:
            options = self.options()
        except CoachError as error:
            self.busy.hide()
            self.show_error(error.sentence)
            return
        self.busy.show()
        desk, issue = self.bench.desk, self.issue
        self._job = worker.start(
            lambda: press.bind(issue, desk.catalogue, desk.ranges, options=options),
            self._made,
            self._failed,
        )

    def _failed(self, error: CoachError) -> None:
        self.busy.hide()
        self.show_error(error.sentence)

    def _made(self, content: bytes) -> None:
        self.busy.hide()
        self._enable(True)
        if self.pages is not None:
            self.pages.close()
        self.content, self.pages = content, Pages(content)
        kept = max(0, self.thumbs.currentRow())
        self.thumbs.clear()
        for number in range(len(self.pages)):
            self.thumbs.addItem(QListWidgetItem(f"{number + 1}"))
        self.status.setText(
            tr(
                "{pages} pages, {content:.0f} KiB",
                pages=len(self.pages),
                content=len(content) / 1024,
            )
        )
        self._thumbs_left = list(range(len(self.pages)))
        self._thumb_timer.start()
        self.thumbs.setCurrentRow(min(kept, len(self.pages) - 1))

    def _enable(self, on: bool) -> None:
        self.keep_button.setEnabled(on)
        self.print_button.setEnabled(on)

    def _next_thumb(self) -> None:
        if not self._thumbs_left or self.pages is None:
            self._thumb_timer.stop()
            return
        number = self._thumbs_left.pop(0)
        width = self.pages.size_pt(number).width() / POINTS_PER_INCH
        ratio = self.devicePixelRatioF()
        picture = self.pages.picture(number, THUMB * ratio / width)
        self.thumbs.item(number).setIcon(QIcon(QPixmap.fromImage(picture)))

    def show_page(self, number: int) -> None:
        """Show page `number`, counted from 0."""
        if self.pages is None or not 0 <= number < len(self.pages):
            return
        size = self.pages.size_pt(number)
        room = max(400, self.page_scroll.viewport().width() - 24)
        ratio = self.devicePixelRatioF()
        dots = min(160.0, room / size.width() * POINTS_PER_INCH)
        picture = self.pages.picture(number, dots * ratio)
        picture.setDevicePixelRatio(ratio)
        self.page.setPixmap(QPixmap.fromImage(picture))
        self.page.setAccessibleDescription(
            tr("Page {number} of {pages}", number=number + 1, pages=len(self.pages))
        )
        self.page_scroll.verticalScrollBar().setValue(0)

    def keyPressEvent(self, event: QKeyEvent) -> None:
        step = {Qt.Key.Key_PageDown: 1, Qt.Key.Key_PageUp: -1}.get(Qt.Key(event.key()))
        if step is not None:
            row = self.thumbs.currentRow() + step
            self.thumbs.setCurrentRow(max(0, min(row, self.thumbs.count() - 1)))
            return
        super().keyPressEvent(event)

    # -- handing out -----------------------------------------------------------------------

    def try_keep(self) -> None:
        """Ask where to, write the PDF file, and keep the issue as handed out; stay open."""
        name = safe_name(self.issue.client.name, self.issue.program.name) + ".pdf"
        path, _ = QFileDialog.getSaveFileName(self, tr("Save the booklet"), name, "PDF (*.pdf)")
        if not path:
            return
        self.show_error("")
        try:
            write_file(Path(path), self.content)
            self._hand_out()
        except CoachError as error:
            self.show_error(error.sentence)
            return
        self.bench.said.emit(tr("Booklet saved: {path}", path=path))
        self.status.setText(tr("Saved: {path}", path=Path(path).name))

    def _hand_out(self) -> None:
        if not self.handed_out:
            self.bench.desk.hand_out(self.issue)
            self.handed_out = True

    def print_pages(self) -> None:
        """Show the system's print dialog and print the chosen pages at their exact size."""
        if self.pages is None:
            return
        printer = QPrinter(QPrinter.PrinterMode.HighResolution)
        printer.setResolution(PRINT_DPI)
        a4 = self.paper.currentIndex() == 0
        size = QPageSize(QPageSize.PageSizeId.A4 if a4 else QPageSize.PageSizeId.Letter)
        printer.setPageSize(size)
        printer.setFullPage(True)
        printer.setPageOrientation(QPageLayout.Orientation.Portrait)
        printer.setDocName(tr("Weekloom booklet"))
        dialog = QPrintDialog(printer, self)
        dialog.setMinMax(1, len(self.pages))
        dialog.setOption(QPrintDialog.PrintDialogOption.PrintPageRange)
        if dialog.exec() != QPrintDialog.DialogCode.Accepted:
            return
        self.show_error("")
        try:
            print_on(printer, self.pages, grey=self.grey.isChecked())
            self._hand_out()
        except CoachError as error:
            self.show_error(error.sentence)

    def _let_go(self) -> None:
        self._thumb_timer.stop()
        if self._job is not None:
            self._job.cancel()
        if self.pages is not None:
            self.pages.close()
            self.pages = None


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
