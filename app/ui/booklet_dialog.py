"""The booklet before it is handed out: every page to look at, then print it or keep a PDF file."""

from __future__ import annotations

from datetime import date, datetime
from pathlib import Path

from PySide6.QtCore import Qt, QTimer
from PySide6.QtGui import QKeyEvent
from PySide6.QtWidgets import (
    QFileDialog,
    QHBoxLayout,
    QProgressBar,
    QScrollArea,
    QVBoxLayout,
    QWidget,
)

from app.booklet import Options
from app.booklet.imposition import fold
from app.domain.errors import CoachError
from app.domain.wording import tr, trn
from app.domain.work import Issue
from app.exchange.files import safe_name, write_file
from app.ui import worker
from app.ui.bench import Bench
from app.ui.booklet_options import MEMORY, BookletOptions
from app.ui.coach_sheet import kept_mark
from app.ui.forms import Sheet, button, plain
from app.ui.paper_habits import language_of, paper_of
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
        self.fields.changed.connect(self.make)
        self.fields.typed.connect(self._later.start)
        self.finished.connect(lambda _result: self._let_go())
        self.resize(1100, 800)
        self.make()

    def _build_options(self, weeks: int) -> None:
        client, store = self.issue.client, self.bench.desk.store
        self.fields = BookletOptions(
            client, weeks, paper=paper_of(client, store), language=language_of(client, store)
        )
        self.fields.recall(store.setting(MEMORY.choices), store.setting(MEMORY.name_of(client)))
        self.paper, self.grey = self.fields.paper, self.fields.grey
        self.folded = self.fields.folded
        self.first, self.last = self.fields.first, self.fields.last
        self.mark = kept_mark(store)

    def _build_pages(self) -> None:
        self.busy = QProgressBar()
        self.busy.setRange(0, 0)
        self.busy.setFixedHeight(6)
        self.busy.setTextVisible(False)
        self.status = plain("", role="small")
        self.status.setWordWrap(True)
        self.print_button = button(tr("Print…"), self.print_pages)

    def _lay_out(self) -> None:
        options = QVBoxLayout()
        options.addWidget(self.fields)
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
        choices = QScrollArea()
        choices.setWidget(holder)
        choices.setWidgetResizable(True)
        choices.setFixedWidth(330)
        choices.setFrameShape(QScrollArea.Shape.NoFrame)
        choices.setHorizontalScrollBarPolicy(Qt.ScrollBarPolicy.ScrollBarAlwaysOff)
        choices.setAccessibleName(tr("Choices"))
        row = QHBoxLayout()
        row.setSpacing(12)
        row.addWidget(choices)
        row.addWidget(self.view, 1)
        self.body.addLayout(row, 1)
        self.body.addWidget(self.busy)
        self.foot.insertWidget(0, self.status)
        self.foot.insertWidget(2, self.print_button)
        self.cancel_button.setText(tr("Close"))

    # -- making ----------------------------------------------------------------------------

    def options(self) -> Options:
        """The options as chosen. Raises CoachError for weeks that are not there."""
        return self.fields.options()

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
        desk, issue, mark = self.bench.desk, self.issue, self.mark
        folded, language = self.fields.is_folded, str(self.fields.language.currentData())

        def bound() -> bytes:
            pdf = press.bind(
                issue,
                desk.catalogue,
                desk.ranges,
                options=options,
                mark=mark,
                language=language,
            )
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
        if self.fields.is_folded:
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
        name = f"{safe_name(*self._name_parts())}.pdf"
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

    def _name_parts(self) -> tuple[str, ...]:
        """Client and program, and the weeks where they are not all."""
        first, last = self.options().weeks or (1, 0)
        parts = (self.issue.client.name, self.issue.program.name)
        whole = (first, last) == (1, len(self.issue.program.weeks))
        return parts if whole else (*parts, f"{first}-{last}")

    def _hand_out(self) -> None:
        if not self.handed_out:
            self.bench.desk.hand_out(self.issue)
            self.handed_out = True
        self._remember()

    def _remember(self) -> None:
        """Keep the choices for the next booklet."""
        store = self.bench.desk.store
        memory = (
            (MEMORY.choices, self.fields.remembered()),
            (MEMORY.name_of(self.issue.client), self.fields.printed_name),
        )
        for key, text in memory:
            if store.setting(key) != text:
                store.set_setting(key, text)

    def print_pages(self) -> None:
        """Show the system's print dialog and print the chosen pages at their exact size."""
        if self.pages is None:
            return
        folded = self.fields.is_folded
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
