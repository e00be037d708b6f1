"""The booklet before it is handed out: every page to look at, then print it or keep a PDF file."""

from __future__ import annotations

from datetime import date, datetime
from pathlib import Path

from PySide6.QtCore import QTimer
from PySide6.QtGui import QKeyEvent
from PySide6.QtWidgets import (
    QCheckBox,
    QComboBox,
    QFileDialog,
    QHBoxLayout,
    QProgressBar,
    QVBoxLayout,
    QWidget,
)

from app.booklet import Options, Paper
from app.booklet.imposition import fold
from app.domain.errors import CoachError
from app.domain.wording import tr, trn
from app.domain.work import Issue
from app.exchange.files import safe_name, write_file
from app.ui import worker
from app.ui.bench import Bench
from app.ui.forms import NumberField, Sheet, button, plain
from app.ui.paper_view import PaperView
from app.ui.pdf_pages import Pages
from app.ui.printing import ask_printer, print_on


class BookletDialog(Sheet):
    """Options left, thumbnails and the open page right, acts at the foot."""

    def __init__(self, bench: Bench, parent: QWidget | None, *, today: date | None = None) -> None:
        client = bench.desk.client.name
        super().__init__(parent, tr("Booklet for {client}", client=client), verb=tr("Save as PDF…"))
        self.bench = bench
        self.today = today or datetime.now().astimezone().date()
        self.issue: Issue = bench.desk.draft_issue(self.today)
        self.view = PaperView()
        self.thumbs, self.page = self.view.thumbs, self.view.page
        self.handed_out = False
        self._job: worker.Job[bytes] | None = None
        self._build_options(len(bench.desk.program.weeks))
        self._build_pages()
        self._lay_out()
        self._later = QTimer(self)
        self._later.setSingleShot(True)
        self._later.setInterval(250)
        self._later.timeout.connect(self.make)
        self.paper.currentIndexChanged.connect(lambda _k: self.make())
        for box in (self.grey, self.folded):
            box.toggled.connect(lambda _on: self.make())
        for field in (self.first, self.last):
            field.edit.textEdited.connect(lambda _text: self._later.start())
        self.finished.connect(lambda _result: self._let_go())
        self.resize(1100, 800)
        self.make()

    def _build_options(self, weeks: int) -> None:
        self.paper = QComboBox()
        self.paper.addItems(["A4", tr("US Letter")])
        self.paper.setMinimumHeight(32)
        self.grey = QCheckBox(tr("Tones for a grey printer"))
        self.folded = QCheckBox(tr("Two pages on a sheet, to fold"))
        self.folded.setToolTip(
            tr(
                "Sheets in the order in which they fold into a booklet; print on both sides and "
                "turn over the short edge"
            )
        )
        self.first = NumberField(tr("First week"), low=1, high=weeks, whole=True)
        self.last = NumberField(tr("Last week"), low=1, high=weeks, whole=True)
        self.first.set_value(1)
        self.last.set_value(weeks)

    def _build_pages(self) -> None:
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
        options.addWidget(self.folded)
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
        row = QHBoxLayout()
        row.setSpacing(12)
        row.addWidget(holder)
        row.addWidget(self.view, 1)
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
        desk, issue, folded = self.bench.desk, self.issue, self.folded.isChecked()

        def bound() -> bytes:
            pdf = press.bind(issue, desk.catalogue, desk.ranges, options=options)
            return press.fold(pdf, options.paper) if folded else pdf

        self._job = worker.start(bound, self._made, self._failed)

    def _failed(self, error: CoachError) -> None:
        self.busy.hide()
        self.show_error(error.sentence)

    def _made(self, content: bytes) -> None:
        self.busy.hide()
        self._enable(True)
        self.view.show_paper(content)
        size = len(content) / 1024
        count = len(self.view.pages or ())
        if self.folded.isChecked():
            told = _folding_text(count // 2, size)
        else:
            told = trn("{n} page, {size:.0f} KiB", "{n} pages, {size:.0f} KiB", count, size=size)
        self.status.setText(told)

    @property
    def content(self) -> bytes:
        """The PDF that is shown."""
        return self.view.content

    @property
    def pages(self) -> Pages | None:
        """Its pages; None before they are there."""
        return self.view.pages

    def _enable(self, on: bool) -> None:
        self.keep_button.setEnabled(on)
        self.print_button.setEnabled(on)

    def keyPressEvent(self, event: QKeyEvent) -> None:
        if not self.view.turn_by(event):
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
        folded = self.folded.isChecked()
        printer = ask_printer(self, self.pages, name=tr("Weekloom booklet"), folded=folded)
        if printer is None:
            return
        self.show_error("")
        try:
            print_on(printer, self.pages, grey=self.grey.isChecked())
            self._hand_out()
        except CoachError as error:
            self.show_error(error.sentence)

    def _let_go(self) -> None:
        if self._job is not None:
            self._job.cancel()
        self.view.close_paper()


def _folding_text(sheets: int, size_kib: float) -> str:
    """'22 sheets in 3 gatherings, 1700 KiB': what is folded apart and then laid together."""
    told = trn("{n} sheet", "{n} sheets", sheets)
    gatherings = fold(4 * sheets).gatherings
    if len(gatherings) > 1:
        told = tr(
            "{sheets} in {count} gatherings of up to {most}, to fold one by one",
            sheets=told,
            count=len(gatherings),
            most=max(gatherings),
        )
    return tr("{told}, {size:.0f} KiB", told=told, size=size_kib)
