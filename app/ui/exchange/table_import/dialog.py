"""Reading a coach's table as a program: three pages, and nothing is kept before the end."""

from __future__ import annotations

from dataclasses import dataclass, replace
from datetime import date, datetime
from pathlib import Path

from PySide6.QtCore import QTimer
from PySide6.QtWidgets import QFileDialog, QProgressBar, QStackedWidget, QWidget

from app.domain import checks
from app.domain.errors import CoachError
from app.domain.findings import Finding, edit
from app.domain.program import MAX_WEEKS, Program
from app.domain.wording import tr, trn
from app.exchange.coach_plan.build import Built, Wanted, build, numbered_after, weeks_in
from app.exchange.coach_plan.columns import Mapping
from app.exchange.sheets.sheet import Book, Sheet
from app.folder import new_program_id
from app.table_plans import Matched, TableReader, open_table, shown_sheets
from app.ui import worker
from app.ui.bench import Bench
from app.ui.exchange.table_import.columns_page import ColumnsPage
from app.ui.exchange.table_import.names_page import NamesPage
from app.ui.exchange.table_import.program_page import ProgramPage
from app.ui.forms import Sheet as FormSheet
from app.ui.forms import button, entered
from db.store import Store

WAIT_MS = 180
FILTER = "(*.csv *.tsv *.txt *.xlsx *.xlsm)"
MOST_TOLD = 100


@dataclass(frozen=True, slots=True)
class Opened:
    """A file with the first guess at it."""

    book: Book
    mapping: Mapping


@dataclass(frozen=True, slots=True)
class Preview:
    """The program as it would be kept, and what the checks say of it."""

    built: Built
    findings: tuple[Finding, ...]


class TableImport(FormSheet):
    """The dialog on one file; `program` is what was kept in the end."""

    def __init__(
        self,
        bench: Bench,
        store: Store,
        path: Path,
        parent: QWidget | None,
        *,
        today: date | None = None,
    ) -> None:
        super().__init__(
            parent,
            tr("Read a plan from a table"),
            verb=tr("Next"),
            about=tr("{file}, for {client}", file=path.name, client=bench.desk.client.name),
        )
        self.bench, self.store, self.path = bench, store, path
        self.program: Program | None = None
        self.reader = TableReader(bench.desk.catalogue, store)
        self.matched: Matched | None = None
        self.preview: Preview | None = None
        self._job: worker.Job[Opened] | worker.Job[Matched] | worker.Job[Preview] | None = None
        self._read: tuple[tuple[Sheet, ...], Mapping] | None = None
        self._closing: list[bool] = []  # shared with the thread that reads the file
        today = today or datetime.now().astimezone().date()
        self.columns = ColumnsPage()
        self.names = NamesPage(bench)
        open_name = bench.desk.program.name if bench.desk.has_program else ""
        self.made = ProgramPage(today=today, open_program=open_name)
        self.made.name.setText(name_for(path))
        self.pages = QStackedWidget()
        for page in (self.columns, self.names, self.made):
            self.pages.addWidget(page)
        self.body.addWidget(self.pages, 1)
        self.busy = QProgressBar()
        self.busy.setRange(0, 0)
        self.busy.setFixedHeight(6)
        self.busy.setTextVisible(False)
        self.body.addWidget(self.busy)
        self.back_button = button(tr("Back"), self.back)
        self.foot.insertWidget(self.foot.indexOf(self.cancel_button), self.back_button)
        self._later = QTimer(self)
        self._later.setSingleShot(True)
        self._later.setInterval(WAIT_MS)
        self._later.timeout.connect(self._refresh)
        self._connect()
        self.setMinimumSize(700, 560)
        self.resize(1040, 760)
        self.open_file()

    def _connect(self) -> None:
        self.columns.reopened.connect(self.open_file)
        self.columns.changed.connect(self._later.start)
        self.names.changed.connect(self._allow)
        self.made.weeks.edit.textEdited.connect(lambda _text: self._later.start())
        self.made.start.dateChanged.connect(lambda _day: self._later.start())
        self.finished.connect(lambda _result: self._let_go())

    # -- working it out, off this thread -----------------------------------------------------

    def open_file(self, encoding: str = "", separator: str = "") -> None:
        """Read the file, and guess at its columns."""
        path, reader, unit = self.path, self.reader, self.bench.desk.client.units
        closing = self._closing

        def left() -> bool:
            return bool(closing)

        def work() -> Opened:
            book = open_table(path, encoding=encoding, separator=separator, stop=left)
            return Opened(book, reader.columns(shown_sheets(book), unit=unit))

        self._start(worker.start(work, self._opened, self._failed))

    def _start(self, job: worker.Job[Opened] | worker.Job[Matched] | worker.Job[Preview]) -> None:
        if self._job is not None:
            self._job.cancel()
        self._job = job
        self.show_error("")
        self.busy.show()
        self.keep_button.setEnabled(False)

    def _failed(self, error: CoachError) -> None:
        self._job = None
        self.busy.hide()
        self.show_error(error.sentence)

    def _opened(self, opened: Opened) -> None:
        self.columns.show_book(opened.book, opened.mapping)
        self._refresh()

    def _refresh(self) -> None:
        """Work out the page that is shown anew."""
        if self.pages.currentWidget() is self.made:
            self._build()
            return
        try:
            mapping, sheets = self.columns.chosen_mapping(), self.columns.chosen_sheets()
            if not sheets:
                raise CoachError(tr("No sheet is chosen."), mend=tr("Tick at least one."))
        except CoachError as error:
            self._failed(error)
            return
        reader = self.reader
        self._read = (sheets, mapping)
        self._start(
            worker.start(lambda: reader.match(sheets, mapping), self._matched, self._not_matched)
        )

    def _not_matched(self, error: CoachError) -> None:
        self.matched = None
        self.columns.tell("", ())
        self._failed(error)

    def _matched(self, matched: Matched) -> None:
        self._job = None
        self.busy.hide()
        self.matched = matched
        lines = len(matched.reading.lines)
        said = trn("{n} line is understood", "{n} lines are understood", lines)
        names = trn("{n} name", "{n} names", len(matched.names))
        weeks = trn("{n} week", "{n} weeks", weeks_in(matched.reading.lines))
        told = tr("{lines}: {names}, {weeks}.", lines=said, names=names, weeks=weeks)
        remarks = [one.sentence for one in matched.reading.remarks]
        shown = [*self.columns.book.remarks, *remarks[:MOST_TOLD]]
        if len(remarks) > MOST_TOLD:
            shown.append(tr("{n} more", n=len(remarks) - MOST_TOLD))
        self.columns.tell(told, tuple(shown))
        self._allow()

    def _build(self) -> None:
        assert self.matched is not None
        desk, lines, meant = self.bench.desk, self.matched.reading.lines, self.names.meant()
        try:
            wanted = Wanted(
                new_program_id(),
                entered(self.made.name) or self.path.stem,
                self.made.start_day(),
                self.made.weeks.whole_value(),
                dict(meant),
            )
        except CoachError as error:
            self._failed(error)
            return
        client, catalogue, ranges = desk.client, desk.catalogue, desk.ranges

        def work() -> Preview:
            built = build(lines, wanted, client=client, catalogue=catalogue)
            program = replace(built.program, emphasis=client.emphasis)
            built = replace(built, program=program)
            return Preview(built, checks.check(program, client, catalogue, ranges))

        self._start(worker.start(work, self._previewed, self._failed))

    def _previewed(self, preview: Preview) -> None:
        assert self.matched is not None
        self._job = None
        self.busy.hide()
        self.preview = preview
        found = (*self.matched.reading.remarks, *preview.built.remarks)
        self.made.show_built(
            preview.built,
            preview.findings,
            catalogue=self.bench.desk.catalogue,
            remarks=[*self.columns.book.remarks, *(one.sentence for one in found)],
            unit=self.bench.desk.client.units,
        )
        self._allow()

    # -- back and on -------------------------------------------------------------------------

    def _allow(self) -> None:
        """The verb of the page, and whether it can be used."""
        page = self.pages.currentIndex()
        self.back_button.setEnabled(page > 0)
        self.keep_button.setText(tr("Next") if page < 2 else tr("Make the program"))
        idle = self._job is None
        ready = (
            self.matched is not None and bool(self.matched.reading.lines),
            not self.names.open_names() and bool(self.names.meant()),
            self.preview is not None,
        )
        self.keep_button.setEnabled(idle and ready[page])
        lost = (None, self.cancel_button, self.help_button)  # where the focus falls meanwhile
        if self.keep_button.isEnabled() and self.focusWidget() in lost:
            self.keep_button.setFocus()

    def back(self) -> None:
        """Show the page before."""
        if self._job is not None:
            self._job.cancel()
            self._job = None
            self.busy.hide()
        self.show_error("")
        self.preview = None
        self.pages.setCurrentIndex(max(0, self.pages.currentIndex() - 1))
        self._allow()

    def try_keep(self) -> None:
        """Go on to the next page; on the last one, keep the program."""
        self.show_error("")
        page = self.pages.currentIndex()
        if page == 2:
            super().try_keep()
            return
        assert self.matched is not None
        self.pages.setCurrentIndex(page + 1)
        if page == 0:
            left_out = self.reader.left_out(self.matched.asked)
            self.names.show_names(self.matched, self.bench.desk.catalogue, left_out=left_out)
            self._allow()
        else:
            self.made.weeks.set_value(min(weeks_in(self.matched.reading.lines), MAX_WEEKS))
            self._build()

    def keep(self) -> None:
        """Keep the program, and remember how the table was read. Raises CoachError."""
        assert self.preview is not None
        program = self.preview.built.program
        name = entered(self.made.name)
        if self.made.instead.isChecked():
            label = tr("Read {file}", file=self.path.name)
            self.bench.desk.keep(edit(label, _instead, taken=program))
        else:
            from app.domain.edits.whole import rename

            self.bench.desk.add_program(rename(program, name=name))
        self.program = self.bench.desk.program
        if self._read is not None:
            self.reader.keep(*self._read, self.names.answers())
        self.bench.said.emit(tr("Read from a table: {name}", name=self.program.name))

    def _let_go(self) -> None:
        self._closing.append(True)
        if self._job is not None:
            self._job.cancel()


def name_for(path: Path) -> str:
    """What a program read from the file is called at first: 'Lower body block'."""
    words = path.name.partition(".")[0].replace("-", " ").replace("_", " ").split()
    name = " ".join(words) or path.stem
    return name[:1].upper() + name[1:]


def _instead(program: Program, *, taken: Program) -> Program:
    """The weeks of the table in the open program, whose name, emphasis and start stay.

    Their numbers are new ones, so that no result of the old weeks is taken for one of theirs.
    """
    return replace(
        numbered_after(taken, program.next_id),
        id=program.id,
        name=program.name,
        start=program.start,
        emphasis=program.emphasis,
        curve=program.curve,
    )


def read_table(bench: Bench, store: Store, window: QWidget) -> bool:
    """Ask for a file and read it as a program of the open client; True if one was kept."""
    kinds = f"{tr('Tables')} {FILTER}"
    chosen, _ = QFileDialog.getOpenFileName(window, tr("Read a plan from a table"), "", kinds)
    if not chosen:
        return False
    dialog = TableImport(bench, store, Path(chosen), window)
    dialog.exec()
    return dialog.program is not None
