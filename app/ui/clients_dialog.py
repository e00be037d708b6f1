"""The roster: all clients, who needs what, and what can be done with them as a whole."""

from __future__ import annotations

from PySide6.QtCore import QItemSelectionModel, Qt
from PySide6.QtWidgets import (
    QAbstractItemView,
    QCheckBox,
    QComboBox,
    QHBoxLayout,
    QTableView,
    QVBoxLayout,
    QWidget,
)

from app.domain.client import ClientId, Stage
from app.domain.wording import tr, trn
from app.ui.bench import Bench
from app.ui.client.section import this_day
from app.ui.forms import button, plain, text_field
from app.ui.lines_table import dress_lines
from app.ui.roster.acts import Roster, RosterActs
from app.ui.roster.finder import Entry, Wanted, tags_of
from app.ui.roster.model import RosterModel
from app.ui.roster.reading import RosterReading
from app.ui.words import STAGE_WORDS
from db.store import Store

ANY = "any"


class ClientsDialog(Roster):
    """A table of clients, and beside it what can be done with the chosen ones.

    wanted: the client to open once the dialog is accepted; wants_new: a new client is asked for.
    """

    def __init__(self, bench: Bench, store: Store, parent: QWidget | None) -> None:
        super().__init__(parent, tr("Clients"), verb=tr("Open"))
        self.bench, self.store = bench, store
        self.wanted: ClientId | None = None
        self.wants_new = False
        self.today = this_day()
        self.model = RosterModel(self.today, self)
        self.search = text_field(hint=tr("Name, team, tag or contact"))
        self.search.setAccessibleName(tr("Search clients"))
        self.stage = _box(tr("Stage"))
        self.stage.addItem(tr("all stages"), ANY)
        for stage, word in STAGE_WORDS.items():
            self.stage.addItem(tr(word), stage.value)
        self.tag = _box(tr("Tag"))
        self.due = QCheckBox(tr("Something due"))
        self.archived = QCheckBox(tr("Archived too"))
        self.archived.setToolTip(
            tr("Archived clients keep everything, but are not offered at the top")
        )
        self.told = plain("", role="small")
        self.table = self._made_table()
        self.reading = RosterReading(self)
        self._keep: tuple[ClientId, ...] = ()
        self._first: tuple[ClientId, ...] = ()  # chosen by itself in the first piece
        self.acts = RosterActs(self)
        self._lay_out()
        self._connect()
        self.setMinimumSize(760, 560)
        self.resize(1250, 680)
        work = bench.desk.work
        self.refresh(() if work is None else (work.client.id,))
        self.search.setFocus()

    def _made_table(self) -> QTableView:
        table = QTableView()
        table.setModel(self.model)
        table.setAccessibleName(tr("Clients"))
        table.setSelectionMode(QAbstractItemView.SelectionMode.ExtendedSelection)
        table.setSortingEnabled(True)
        dress_lines(table, row_px=28, widths=(154, 186, 66, 114, 118, 88, 94, 86, 86))
        table.horizontalHeader().setSortIndicator(0, Qt.SortOrder.AscendingOrder)
        return table

    def _lay_out(self) -> None:
        narrow = QHBoxLayout()
        narrow.setSpacing(10)
        narrow.addWidget(self.search, 1)
        for widget in (self.stage, self.tag, self.due, self.archived):
            narrow.addWidget(widget)
        row = QHBoxLayout()
        row.setSpacing(12)
        row.addWidget(self.table, 1)
        side = QVBoxLayout()
        side.addWidget(self.acts)
        side.addStretch(1)
        row.addLayout(side)
        self.body.addLayout(narrow)
        self.body.addLayout(row, 1)
        self.body.addWidget(self.told)
        self.cancel_button.setText(tr("Close"))
        new = button(tr("New client…"), self.want_new)
        self.foot.insertWidget(self.foot.indexOf(self.help_button) + 1, new)

    def _connect(self) -> None:
        self.reading.begun.connect(self._begun)
        self.reading.told.connect(self._tell_progress)
        self.reading.done.connect(self._read)
        self.reading.failed.connect(lambda error: self.told.setText(error.sentence))
        self.search.textChanged.connect(lambda _text: self.look())
        for box in (self.stage, self.tag):
            box.currentIndexChanged.connect(lambda _at: self.look())
        for tick in (self.due, self.archived):
            tick.toggled.connect(lambda _on: self.look())
        self.search.returnPressed.connect(self.try_keep)
        self.table.activated.connect(lambda _index: self.try_keep())
        self.table.selectionModel().selectionChanged.connect(lambda *_: self._enable())

    # -- what is shown ---------------------------------------------------------------------

    def refresh(self, keep: tuple[ClientId, ...] | None = None) -> None:
        """Read the list again, with those lines chosen; those chosen before if none are named."""
        self._keep = tuple(e.line.id for e in self.chosen) if keep is None else keep
        self.reading.begin(self.store, self.today)

    def _begun(self, some: tuple[Entry, ...], count: int) -> None:
        """Show the first of a long list; one that is shown already stays until all are read."""
        if not self.model.known:
            self.model.show_entries(some)
            self.look(self._keep)
            self._first = tuple(e.line.id for e in self.chosen)
        self._tell_progress(len(some), count)

    def _tell_progress(self, read: int, count: int) -> None:
        self.told.setText(tr("Reading the list: {read} of {count}", read=read, count=count))

    def _read(self, known: tuple[Entry, ...]) -> None:
        """Show all that there are, with the lines chosen that are wanted or were chosen since."""
        now = tuple(e.line.id for e in self.chosen)
        moved = bool(self._first) and now != self._first
        self._first = ()
        self._offer_tags(tags_of(known))
        self.model.show_entries(known)
        self.look(now if moved else self._keep)

    def _offer_tags(self, tags: tuple[str, ...]) -> None:
        before = self.tag.currentData()
        self.tag.blockSignals(True)
        self.tag.clear()
        self.tag.addItem(tr("all tags"), ANY)
        for tag in tags:
            self.tag.addItem(tag, [tag])
        at = next((k for k in range(self.tag.count()) if self.tag.itemData(k) == before), 0)
        self.tag.setCurrentIndex(at)
        self.tag.setEnabled(bool(tags))
        self.tag.blockSignals(False)

    def look(self, keep: tuple[ClientId, ...] | None = None) -> None:
        """Show who is looked for; the chosen ones stay chosen where they are still shown."""
        chosen = tuple(e.line.id for e in self.chosen) if keep is None else keep
        stage, tag = self.stage.currentData(), self.tag.currentData()
        wanted = Wanted(
            words=self.search.text(),
            stage=None if stage in (ANY, None) else Stage(stage),
            tag=None if tag in (ANY, None) else tag[0],
            archived=self.archived.isChecked(),
            due=self.due.isChecked(),
        )
        self.model.look_for(wanted)
        self._choose(chosen)
        self._tell()

    def _choose(self, ids: tuple[ClientId, ...]) -> None:
        rows = [row for row in map(self.model.row_of, ids) if row >= 0]
        if not rows and self.model.rowCount():
            rows = [0]
        flags = QItemSelectionModel.SelectionFlag
        selection = self.table.selectionModel()
        selection.clear()
        for row in rows:
            selection.select(self.model.index(row, 0), flags.Select | flags.Rows)
        if rows:
            selection.setCurrentIndex(self.model.index(rows[0], 0), flags.NoUpdate)
            self.table.scrollTo(self.model.index(rows[0], 0))
        self._enable()

    def _tell(self) -> None:
        shown, known = self.model.rowCount(), len(self.model.known)
        if self.model.alike and shown:
            self.told.setText(tr("Nobody of that name. Names like it:"))
        elif not known:
            self.told.setText(tr("No client yet. A name is enough to begin."))
        elif not shown:
            self.told.setText(tr("Nobody fits. Change the words or the choices above."))
        else:
            self.told.setText(trn("{n} client of {all}", "{n} clients of {all}", shown, all=known))

    @property
    def chosen(self) -> tuple[Entry, ...]:
        """The entries of the chosen rows, from the top down."""
        rows = sorted(index.row() for index in self.table.selectionModel().selectedRows())
        return tuple(self.model.entry(row) for row in rows if row < self.model.rowCount())

    def choose(self, *ids: ClientId) -> None:
        """Choose these clients."""
        self._choose(ids)

    def _enable(self) -> None:
        self.keep_button.setEnabled(len(self.chosen) == 1)
        self.acts.show_chosen(self.chosen)

    # -- acts ------------------------------------------------------------------------------

    def keep(self) -> None:
        """Want the chosen client opened."""
        if len(self.chosen) == 1:
            self.wanted = self.chosen[0].line.id

    def try_keep(self) -> None:
        """Open the one that is chosen; nothing while none or several are."""
        if len(self.chosen) == 1:
            super().try_keep()

    def want_new(self) -> None:
        """Ask for a new client once this is closed."""
        self.wants_new = True
        self.reject()


def _box(name: str) -> QComboBox:
    box = QComboBox()
    box.setMinimumHeight(32)
    box.setAccessibleName(name)
    box.setSizeAdjustPolicy(QComboBox.SizeAdjustPolicy.AdjustToContents)
    return box
