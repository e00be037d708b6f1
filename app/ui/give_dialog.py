"""Giving the open program to several clients: what it would mean for each, before it is done."""

from __future__ import annotations

from dataclasses import dataclass
from datetime import date

from PySide6.QtCore import Qt
from PySide6.QtWidgets import QDateEdit, QHBoxLayout, QTreeWidgetItem, QWidget

from app.domain.client import ClientId
from app.domain.errors import CoachError
from app.domain.findings import Weight
from app.domain.offer import Offer, offer
from app.domain.program import Program
from app.domain.wording import mark, tr, trn
from app.folder import Given, give, new_program_id
from app.ui import worker
from app.ui.bench import Bench
from app.ui.forms import Sheet, button, entered, plain, text_field
from app.ui.lines_table import lines_table
from app.ui.refit_lines import NOTHING, RefitLines
from app.ui.words import pydate, qdate, tip
from db.lines import ClientLine
from db.store import Store

COLUMNS = (
    mark("Client"),
    mark("Different"),
    mark("Conflicts"),
    mark("Outside"),
    mark("Remarks"),
    mark("Loads"),
)
WAITING = mark("working it out…")


@dataclass(slots=True)
class Row:
    """A client in the list: what was worked out, or why it cannot be given."""

    line: ClientLine
    item: QTreeWidgetItem
    offer: Offer | None = None
    problem: str = ""
    job: worker.Job[Offer] | None = None

    @property
    def ticked(self) -> bool:
        """True if the client is to get it."""
        return self.item.checkState(0) == Qt.CheckState.Checked


class GiveDialog(Sheet):
    """Clients to tick, with differences, findings by weight and loads for each ticked one."""

    def __init__(self, bench: Bench, store: Store, parent: QWidget | None) -> None:
        self.source: Program = bench.desk.program
        super().__init__(
            parent,
            tr("Give {source} to others", source=self.source.name),
            verb=tr("Give"),
            about=tr(
                "Each client gets a copy of it as it is now. {client} keeps it.",
                client=bench.desk.client.name,
            ),
        )
        self.bench, self.store = bench, store
        self.given: tuple[Given, ...] = ()
        self.name = text_field(self.source.name)
        self.start = QDateEdit(qdate(self.source.start))
        self.start.setCalendarPopup(True)
        self.start.setDisplayFormat("d MMM yyyy")
        self.start.setMinimumHeight(32)
        self.row(tr("Name"), self.name)
        self.row(tr("First week of"), self.start)
        self.tree = lines_table(tr("Clients"), tuple(map(tr, COLUMNS)))
        self.tree.setRootIsDecorated(True)
        self.head = plain(tr("Tick who gets it"), step="head")
        self.all_button = button(tr("Tick everybody"), self.tick_all)
        head = QHBoxLayout()
        head.addWidget(self.head, 1)
        head.addWidget(self.all_button)
        self.body.addLayout(head)
        self.body.addWidget(self.tree, 1)
        self.summary = RefitLines()
        self.summary.setAccessibleName(tr("What was done"))
        self.summary.hide()
        self.body.addWidget(self.summary, 1)
        lines = [c for c in store.clients() if c.id != bench.desk.client.id and not c.archived]
        self.rows = [self._row(line) for line in lines]
        if not lines:
            self.show_error(tr("There is nobody else yet. Add a client first."))
        self.tree.itemChanged.connect(lambda _item, column: self._ticked(column))
        self.start.dateChanged.connect(lambda _day: self._start_changed())
        self.finished.connect(lambda _result: self._let_go())
        self._say_verb()
        self.setMinimumSize(640, 420)
        self.resize(860, 620)

    def _row(self, line: ClientLine) -> Row:
        item = QTreeWidgetItem([line.name])
        item.setFlags(item.flags() | Qt.ItemFlag.ItemIsUserCheckable)
        item.setCheckState(0, Qt.CheckState.Unchecked)
        if line.team:
            item.setToolTip(0, tip(line.team))
        self.tree.addTopLevelItem(item)
        return Row(line, item)

    def tick_all(self) -> None:
        """Tick everybody; nobody if everybody is ticked."""
        to = Qt.CheckState
        state = to.Unchecked if all(row.ticked for row in self.rows) else to.Checked
        for row in self.rows:
            row.item.setCheckState(0, state)

    # -- working it out --------------------------------------------------------------------

    def _start_changed(self) -> None:
        for row in self.rows:
            self._forget(row)
        self._ticked(0)

    def _forget(self, row: Row) -> None:
        if row.job is not None:
            row.job.cancel()
        row.offer, row.problem, row.job = None, "", None

    def _ticked(self, column: int) -> None:
        if column != 0:
            return
        for row in self.rows:
            if row.ticked and row.offer is None and not row.problem and row.job is None:
                self._work_out(row)
            elif not row.ticked and row.job is not None:
                self._forget(row)
                self._show(row)
        self._say_verb()

    def _work_out(self, row: Row) -> None:
        desk = self.bench.desk
        try:
            client = self.store.load_client(ClientId(row.line.id))
        except CoachError as error:
            self._failed(row, error)
            return
        program, start, program_id = self.source, self._start_day(), new_program_id()

        def work() -> Offer:
            return offer(
                program, client, desk.catalogue, desk.ranges, program_id=program_id, start=start
            )

        row.item.setText(1, tr(WAITING))
        row.job = worker.start(
            work, lambda made: self._done(row, made), lambda error: self._failed(row, error)
        )

    def _start_day(self) -> date:
        return pydate(self.start.date())

    def _done(self, row: Row, made: Offer) -> None:
        row.offer, row.job = made, None
        self._show(row)
        self._say_verb()

    def _failed(self, row: Row, error: CoachError) -> None:
        row.problem, row.job = error.sentence, None
        self._show(row)
        self._say_verb()

    def _let_go(self) -> None:
        for row in self.rows:
            self._forget(row)

    # -- showing ---------------------------------------------------------------------------

    def _show(self, row: Row) -> None:
        """Write the row's figures, and under it what they are about."""
        self.tree.blockSignals(True)
        cells, lines = _told(row)
        for column, text in enumerate(cells, start=1):
            row.item.setText(column, text)
        row.item.takeChildren()
        for text in lines:
            child = QTreeWidgetItem([text])
            child.setFlags(Qt.ItemFlag.ItemIsEnabled | Qt.ItemFlag.ItemIsSelectable)
            child.setToolTip(0, tip(text))
            row.item.addChild(child)
            child.setFirstColumnSpanned(True)
        row.item.setExpanded(sum(one.ticked for one in self.rows) == 1)
        self.tree.blockSignals(False)
        self.tree.viewport().update()

    def _say_verb(self) -> None:
        """Count on the button who would get it; it waits until everything is worked out."""
        ready = [row for row in self.rows if row.ticked and row.offer is not None]
        pending = any(row.ticked and row.job is not None for row in self.rows)
        everybody = bool(self.rows) and all(row.ticked for row in self.rows)
        self.all_button.setText(tr("Tick nobody") if everybody else tr("Tick everybody"))
        self.all_button.setEnabled(bool(self.rows))
        count = len(ready)
        clients = trn("1 client", "{n} clients", count)
        self.keep_button.setText(tr("Give to {clients}", clients=clients) if count else tr("Give"))
        self.keep_button.setEnabled(bool(ready) and not pending)

    # -- doing it --------------------------------------------------------------------------

    def try_keep(self) -> None:
        """Give it to everybody ticked, and say what was done; the dialog stays open."""
        self.show_error("")
        offers = [row.offer for row in self.rows if row.ticked and row.offer is not None]
        try:
            self.given = give(self.store, offers, name=entered(self.name))
        except CoachError as error:
            self.show_error(error.sentence)
            self.name.setFocus()
            return
        left_out = [row for row in self.rows if row.ticked and row.problem]
        self._show_summary(left_out)

    def _show_summary(self, left_out: list[Row]) -> None:
        """Say who has it now, who has not and why."""
        self.tree.hide()
        self.summary.show()
        self.head.setText(tr("What was done"))
        for field in (self.name, self.start):
            field.setEnabled(False)
        self.summary.say(
            *(
                tr("{client} has it now.", client=one.client)
                for one in self.given
                if not one.problem
            ),
            *(
                tr("Not given to {client}: {problem}", client=one.client, problem=one.problem)
                for one in self.given
                if one.problem
            ),
            *(
                tr("Not given to {line}: {problem}", line=row.line.name, problem=row.problem)
                for row in left_out
            ),
        )
        self.keep_button.hide()
        self.all_button.hide()
        self.cancel_button.setText(tr("Close"))
        self.cancel_button.setFocus()
        done = sum(not one.problem for one in self.given)
        clients = trn("1 client", "{n} clients", done)
        self.bench.said.emit(
            tr("{entered} was given to {clients}", entered=entered(self.name), clients=clients)
        )


def _told(row: Row) -> tuple[tuple[str, ...], tuple[str, ...]]:
    """The cells behind the name, and the lines under it."""
    if row.problem:
        return (tr("does not fit"), "", "", "", ""), (row.problem,)
    if row.offer is None:
        return ("",) * 5, ()
    made = row.offer
    changes = made.refit.changes
    cells = (str(len(changes)), *(str(made.count(weight)) for weight in Weight), made.loads.text)
    conflicts = tuple(
        tr("Conflict: {one} ({place_text})", one=one.text, place_text=one.place_text)
        if one.place_text
        else tr("Conflict: {one}", one=one.text)
        for one in made.findings
        if one.weight is Weight.CONFLICT
    )
    told = tuple(change.sentence for change in changes) or (tr(NOTHING),)
    unknown = made.loads.unknown
    loads = (tr("No test yet for {unknown}.", unknown=", ".join(unknown)),) if unknown else ()
    return cells, (*told, *dict.fromkeys(conflicts), *loads)
