"""The booklet before it is handed out: every page to look at, then print it or keep a PDF file."""

from __future__ import annotations

from datetime import date, datetime

from PySide6.QtCore import Qt, QTimer
from PySide6.QtWidgets import QScrollArea, QVBoxLayout, QWidget

from app.booklet import Options
from app.booklet.imposition import fold
from app.domain.errors import CoachError
from app.domain.wording import tr, trn
from app.domain.work import Issue
from app.exchange.files import safe_name
from app.ui.bench import Bench
from app.ui.booklet_options import MEMORY, BookletOptions
from app.ui.coach_sheet import kept_mark
from app.ui.forms import plain
from app.ui.paper_habits import language_of, paper_of
from app.ui.paper_sheet import PaperSheet


class BookletDialog(PaperSheet):
    """Options left, thumbnails and the open page right; the first copy handed on keeps an issue."""

    def __init__(self, bench: Bench, parent: QWidget | None, *, today: date | None = None) -> None:
        client, store = bench.desk.client, bench.desk.store
        weeks = len(bench.desk.program.weeks)
        self.fields = BookletOptions(
            client, weeks, paper=paper_of(client, store), language=language_of(client, store)
        )
        super().__init__(
            bench,
            parent,
            tr("Booklet for {client}", client=client.name),
            job_name=tr("Weekloom booklet"),
            grey=self.fields.grey,
        )
        self.issue: Issue = bench.desk.draft_issue(today or datetime.now().astimezone().date())
        self.handed_out = False
        self.fields.recall(store.setting(MEMORY.choices), store.setting(MEMORY.name_of(client)))
        self.mark = kept_mark(store)
        self._lay_out()
        self._later = QTimer(self)
        self._later.setSingleShot(True)
        self._later.setInterval(250)
        self._later.timeout.connect(self.make)
        self.fields.changed.connect(self.make)
        self.fields.typed.connect(self._later.start)
        self.resize(1100, 800)
        self.make()

    def _lay_out(self) -> None:
        options = QVBoxLayout()
        options.setContentsMargins(0, 0, 12, 0)  # in line with the title; room for the bar
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
        choices.setFrameShape(QScrollArea.Shape.NoFrame)
        choices.setHorizontalScrollBarPolicy(Qt.ScrollBarPolicy.ScrollBarAlwaysOff)
        choices.setAccessibleName(tr("Choices"))
        column = QVBoxLayout()
        column.addWidget(choices)
        self.put_beside(column, width=330)

    # -- making ----------------------------------------------------------------------------

    def options(self) -> Options:
        """The options as chosen. Raises CoachError for weeks that are not there."""
        return self.fields.options()

    def make(self) -> None:
        """Make the pages anew, off this thread."""
        from app import press

        try:
            options = self.options()
        except CoachError as error:
            self.refuse(error)
            return
        desk, issue, mark = self.bench.desk, self.issue, self.mark
        references = self.bench.shelf.references
        folded, language = self.is_folded(), str(self.fields.language.currentData())

        def bound() -> bytes:
            pdf = press.bind(
                issue,
                desk.catalogue,
                desk.ranges,
                options=options,
                mark=mark,
                language=language,
                references=references,
            )
            return press.fold(pdf, options.paper) if folded else pdf

        self.start(bound)

    def show_made(self, content: bytes) -> None:
        """Show the pages, and how many and how much they are."""
        super().show_made(content)
        size = len(content) / 1024
        count = len(self.view.pages or ())
        if self.is_folded():
            told = _folding_text(count // 2, size)
        else:
            told = trn("{n} page, {size:.0f} KiB", "{n} pages, {size:.0f} KiB", count, size=size)
        self.status.setText(told)

    def is_folded(self) -> bool:
        """True if two pages lie on a sheet."""
        return self.fields.is_folded

    # -- handing out -----------------------------------------------------------------------

    def file_name(self) -> str:
        """Client and program, and the weeks where they are not all."""
        first, last = self.options().weeks or (1, 0)
        parts = [self.issue.client.name, self.issue.program.name]
        if (first, last) != (1, len(self.issue.program.weeks)):
            parts.append(f"{first}-{last}")
        return safe_name(*parts) + ".pdf"

    def handed_on(self) -> None:
        """Keep the issue as handed out, once, and the choices for the next booklet."""
        if not self.handed_out:
            self.bench.desk.hand_out(self.issue)
            self.handed_out = True
        store = self.bench.desk.store
        memory = (
            (MEMORY.choices, self.fields.remembered()),
            (MEMORY.name_of(self.issue.client), self.fields.printed_name),
        )
        for key, text in memory:
            if store.setting(key) != text:
                store.set_setting(key, text)


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
