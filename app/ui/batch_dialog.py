"""Booklets for many clients in one go: who, how, where to; then progress and a summary."""

from __future__ import annotations

from dataclasses import dataclass
from datetime import date, datetime
from pathlib import Path

from PySide6.QtCore import Qt
from PySide6.QtWidgets import (
    QCheckBox,
    QComboBox,
    QFileDialog,
    QHBoxLayout,
    QLineEdit,
    QProgressBar,
    QTreeWidgetItem,
    QWidget,
)

from app import batch
from app.batch import Order, Outcome, Wish
from app.booklet import Options, Paper
from app.domain.errors import CoachError
from app.domain.wording import mark, tr, trn
from app.domain.work import Issue
from app.ui import worker
from app.ui.bench import Bench
from app.ui.coach_sheet import kept_mark
from app.ui.forms import NumberField, Sheet, Wrapped, button, plain, text_field
from app.ui.lines_table import lines_table
from app.ui.paper_habits import language_box, language_of, paper_of
from app.ui.words import tip
from db.store import Store

PAPERS = ((Paper.A4, mark("A4")), (Paper.LETTER, mark("US Letter")), (Paper.A5, mark("A5")))
FOLDER = "booklets folder"
"""The setting that remembers where the last booklets went."""


@dataclass(slots=True)
class Row:
    """A client in the list, and how it went."""

    wish: Wish
    item: QTreeWidgetItem
    outcome: Outcome | None = None

    @property
    def ticked(self) -> bool:
        """True if a booklet is wanted."""
        return self.item.checkState(0) == Qt.CheckState.Checked


class BatchDialog(Sheet):
    """Clients to tick, options, a folder; one booklet after the other, each off this thread."""

    def __init__(
        self, bench: Bench, store: Store, parent: QWidget | None, *, today: date | None = None
    ) -> None:
        super().__init__(
            parent,
            tr("Booklets for many"),
            verb=tr("Make booklets"),
            about=tr(
                "The newest program of each client. Hand out only what you have checked; nothing "
                "that stands in the folder is overwritten."
            ),
        )
        self.bench, self.store = bench, store
        self.today = today or datetime.now().astimezone().date()
        self.running = False
        self.stopping = False
        self._job: worker.Job[bytes] | None = None
        self._queue: list[Row] = []
        self._order: Order | None = None
        self._build_options()
        self.tree = lines_table(
            tr("Clients"), (tr("Client"), tr("Program"), tr("Weeks"), tr("Booklet")), wide=3
        )
        self.head = plain(tr("Tick who gets one"), step="head")
        self.all_button = button(tr("Tick everybody"), self.tick_all)
        head = QHBoxLayout()
        head.addWidget(self.head, 1)
        head.addWidget(self.all_button)
        self.body.addLayout(head)
        self.body.addWidget(self.tree, 1)
        self.progress = QProgressBar()
        self.progress.setAccessibleName(tr("Booklets made"))
        self.progress.hide()
        self.body.addWidget(self.progress)
        self.summary = Wrapped()
        self.summary.setAccessibleName(tr("What was done"))
        self.summary.hide()
        self.body.addWidget(self.summary)
        self.stop_button = button(tr("Stop"), self.stop)
        self.stop_button.setEnabled(False)
        self.foot.insertWidget(1, self.stop_button)
        self.cancel_button.setText(tr("Close"))
        self.rows = [self._row(wish) for wish in batch.wishes(store)]
        if not self.rows:
            self.show_error(tr("No client has a program yet. Plan one first."))
        self.tree.itemChanged.connect(lambda _item, column: self._say() if column == 0 else None)
        self.pattern.textChanged.connect(lambda _text: self._say())
        self.finished.connect(lambda _result: self._let_go())
        self._say()
        self.setMinimumSize(640, 520)
        self.resize(860, 700)

    def _build_options(self) -> None:
        self.paper = QComboBox()
        for paper, name in PAPERS:
            self.paper.addItem(tr(name), paper)
        self.paper.setToolTip(tr("Where a client's profile names a paper, that one is taken"))
        self.paper.setMinimumHeight(32)
        self.paper.setCurrentIndex(self.paper.findData(paper_of(None, self.store)))
        self.language = language_box("", usual=tr("Each client's own language"))
        self.grey = QCheckBox(tr("Tones for a grey printer"))
        self.grey.setMinimumHeight(24)
        self.first = NumberField(tr("First week"), low=1, high=52, whole=True, optional=True)
        self.last = NumberField(tr("Last week"), low=1, high=52, whole=True, optional=True)
        self.kept = QCheckBox(tr("Keep each as handed out today"))
        self.kept.setMinimumHeight(24)
        self.kept.setChecked(True)
        self.pattern = text_field(batch.PATTERN)
        self.example = plain("", role="small")
        self.folder = QLineEdit(self.store.setting(FOLDER) or str(Path.home()))
        self.folder.setMinimumHeight(32)
        choose = button(tr("Choose…"), self.choose_folder)
        where = QWidget()
        line = QHBoxLayout(where)
        line.setContentsMargins(0, 0, 0, 0)
        line.addWidget(self.folder, 1)
        line.addWidget(choose)
        where.setFocusProxy(self.folder)
        self.folder.setAccessibleName(tr("Folder"))
        self.row(tr("Paper"), self.paper)
        self.row(tr("Language"), self.language)
        self.row(tr("First week (empty: from the first)"), self.first)
        self.row(tr("Last week (empty: to the last)"), self.last)
        self.row(tr("Folder"), where)
        self.row(tr("File names"), self.pattern)
        self.form.addRow("", self.example)
        self.form.addRow("", self.grey)
        self.form.addRow("", self.kept)

    def _row(self, wish: Wish) -> Row:
        item = QTreeWidgetItem([wish.client_name, wish.program_name, str(wish.weeks), ""])
        item.setFlags(item.flags() | Qt.ItemFlag.ItemIsUserCheckable)
        item.setCheckState(0, Qt.CheckState.Unchecked)
        self.tree.addTopLevelItem(item)
        return Row(wish, item)

    def tick_all(self) -> None:
        """Tick everybody; nobody if everybody is ticked."""
        to = Qt.CheckState
        state = to.Unchecked if all(row.ticked for row in self.rows) else to.Checked
        for row in self.rows:
            row.item.setCheckState(0, state)

    def choose_folder(self) -> None:
        """Ask for the folder."""
        found = QFileDialog.getExistingDirectory(
            self, tr("Folder for the booklets"), self.folder.text()
        )
        if found:
            self.folder.setText(found)

    def _say(self) -> None:
        count = sum(row.ticked for row in self.rows)
        self.keep_button.setText(trn("Make {n} booklet", "Make {n} booklets", count))
        self.keep_button.setEnabled(bool(count) and not self.running)
        try:
            example = self._example(next((r for r in self.rows if r.ticked), None))
        except CoachError as error:
            self.example.setText(error.what)
            return
        self.example.setText(example)

    def _example(self, row: Row | None) -> str:
        pattern = batch.require_pattern(self.pattern.text())
        if row is None:
            return ""
        wish = row.wish
        parts = {
            "client": wish.client_name,
            "program": wish.program_name,
            "date": self.today.isoformat(),
            "weeks": f"1-{wish.weeks}",
        }
        return tr("For example {name}", name=batch.stem_of(pattern, parts) + ".pdf")

    # -- making ----------------------------------------------------------------------------

    def order(self) -> Order:
        """What is to be made, as chosen. Raises CoachError."""
        first, last = self.first.value(), self.last.value()
        weeks = None
        if first is not None or last is not None:
            weeks = (int(first or 1), int(last or 52))
            if weeks[0] > weeks[1]:
                raise CoachError(
                    tr("Week {first} comes after week {last}.", first=weeks[0], last=weeks[1]),
                    mend=tr("Put the earlier week first."),
                )
        folder = Path(self.folder.text().strip())
        if not self.folder.text().strip() or not folder.is_dir():
            raise CoachError(
                tr("There is no such folder."),
                where=self.folder.text(),
                mend=tr("Choose one that is there."),
            )
        paper: Paper = self.paper.currentData()
        # read here: the booklets are bound in another thread
        self._mark = kept_mark(self.bench.desk.store)
        self._spoken = self.language.currentData()
        return Order(
            folder=folder,
            options=Options(paper=paper, grey=self.grey.isChecked(), weeks=weeks),
            pattern=batch.require_pattern(self.pattern.text()),
            on=self.today,
            bind=self._bind,
            keep=self.kept.isChecked(),
        )

    def _bind(self, issue: Issue, options: Options) -> bytes:
        from app import press

        desk = self.bench.desk
        return press.bind(
            issue,
            desk.catalogue,
            desk.ranges,
            options=options,
            mark=self._mark,
            language=self._spoken or language_of(issue.client, self.store),
        )

    def try_keep(self) -> None:
        """Make what is ticked; stay open for the summary."""
        self.show_error("")
        try:
            self._order = self.order()
        except CoachError as error:
            self.show_error(error.sentence)
            return
        self.store.set_setting(FOLDER, str(self._order.folder))
        self._queue = [row for row in self.rows if row.ticked]
        for row in self._queue:
            row.outcome = None
            row.item.setText(3, "")
        self.progress.setRange(0, len(self._queue))
        self.progress.setValue(0)
        self.progress.show()
        self.summary.hide()
        self._set_running(True)
        self._next()

    def _set_running(self, on: bool) -> None:
        self.running = on
        self.stopping = False
        self.stop_button.setEnabled(on)
        self.cancel_button.setEnabled(not on)
        for part in (self.tree, self.all_button, self.folder, self.pattern, self.kept):
            part.setEnabled(not on)
        self._say()

    def _next(self) -> None:
        order = self._order
        assert order is not None
        waiting = [row for row in self._queue if row.outcome is None]
        if not waiting or self.stopping:
            self._finish(left=len(waiting))
            return
        row = waiting[0]
        row.item.setText(3, tr("being made…"))
        self.tree.scrollToItem(row.item)
        try:
            issue, options = batch.prepare(
                self.store,
                self.bench.desk.catalogue,
                row.wish,
                order,
                coach=self.store.coach(),
            )
        except CoachError as error:
            self._told(row, Outcome(row.wish, problem=error.sentence))
            return
        self._job = worker.start(
            lambda: order.bind(issue, options),
            lambda content: self._made(row, issue, content),
            lambda error: self._told(row, Outcome(row.wish, problem=error.sentence)),
        )

    def _made(self, row: Row, issue: Issue, content: bytes) -> None:
        assert self._order is not None
        try:
            outcome = batch.put(self.store, row.wish, issue, content, order=self._order)
        except CoachError as error:
            outcome = Outcome(row.wish, problem=error.sentence)
        self._told(row, outcome)

    def _told(self, row: Row, outcome: Outcome) -> None:
        row.outcome = outcome
        text = outcome.problem if outcome.path is None else outcome.path.name
        row.item.setText(3, text)
        row.item.setToolTip(3, tip(text))
        self.progress.setValue(self.progress.value() + 1)
        self._next()

    def stop(self) -> None:
        """Make no more after the one that is being made."""
        self.stopping = True
        self.stop_button.setEnabled(False)

    def _finish(self, *, left: int) -> None:
        made = [row for row in self._queue if row.outcome and row.outcome.path]
        failed = [row for row in self._queue if row.outcome and row.outcome.path is None]
        for row in made:
            row.item.setCheckState(0, Qt.CheckState.Unchecked)
        for row in self._queue:
            if row.outcome is None:
                row.item.setText(3, tr("not made"))
        said = [trn("{n} booklet made.", "{n} booklets made.", len(made))]
        if failed:
            said.append(
                trn(
                    "{n} could not be made; its line says why.",
                    "{n} could not be made; their lines say why.",
                    len(failed),
                )
            )
        if left:
            said.append(trn("{n} was not begun.", "{n} were not begun.", left))
        self.summary.setText(" ".join(said))
        self.summary.show()
        self.bench.said.emit(" ".join(said))
        self._set_running(False)

    def reject(self) -> None:
        """Close, but not in the middle of it."""
        if self.running:
            self.stop()
            return
        super().reject()

    def _let_go(self) -> None:
        if self._job is not None:
            self._job.cancel()
