"""The coach's clients, archived ones too: open one, archive one, bring one back."""

from __future__ import annotations

from PySide6.QtWidgets import QHBoxLayout, QVBoxLayout, QWidget

from app import folder
from app.domain.client import ClientId
from app.domain.errors import CoachError
from app.domain.wording import mark, tr
from app.ui.bench import Bench
from app.ui.forms import Sheet, button
from app.ui.lines_table import add_line, choose, chosen, lines_table
from db.lines import ClientLine
from db.store import Store

COLUMNS = (mark("Client"), mark("Team"), mark("Programs"), mark("State"))


class ClientsDialog(Sheet):
    """A table of clients, and beside it what can be done with the chosen one.

    wanted: the client to open once the dialog is accepted.
    """

    def __init__(self, bench: Bench, store: Store, parent: QWidget | None) -> None:
        super().__init__(
            parent,
            tr("Clients"),
            verb=tr("Open"),
            about=tr("Archived clients keep everything, but are not offered at the top."),
        )
        self.bench, self.store = bench, store
        self.wanted: ClientId | None = None
        self.lines: dict[ClientId, ClientLine] = {}
        self.table = lines_table(tr("Clients"), tuple(map(tr, COLUMNS)))
        self.archive_button = button(tr("Archive"), self.archive)
        acts = QVBoxLayout()
        acts.addWidget(self.archive_button)
        acts.addStretch(1)
        row = QHBoxLayout()
        row.setSpacing(12)
        row.addWidget(self.table, 1)
        row.addLayout(acts)
        self.body.addLayout(row, 1)
        self.cancel_button.setText(tr("Close"))
        self.table.currentItemChanged.connect(lambda *_: self._enable())
        self.table.itemDoubleClicked.connect(lambda *_: self.try_keep())
        self.setMinimumSize(560, 360)
        self.resize(720, 440)
        work = bench.desk.work
        self.refresh(None if work is None else work.client.id)

    def refresh(self, keep: ClientId | None = None) -> None:
        """Read the list again, with the line of `keep` chosen; archived clients come last."""
        lines = sorted(self.store.clients(), key=lambda line: line.archived)
        self.lines = {line.id: line for line in lines}
        self.table.clear()
        for line in lines:
            state = "archived" if line.archived else ""
            add_line(self.table, (line.name, line.team, str(line.programs), state), line.id)
        choose(self.table, keep)
        self._enable()

    @property
    def line(self) -> ClientLine | None:
        """The client that is chosen; None if there is none."""
        key = chosen(self.table)
        return self.lines.get(ClientId(key)) if isinstance(key, str) else None

    def _enable(self) -> None:
        line = self.line
        self.keep_button.setEnabled(line is not None)
        self.archive_button.setEnabled(line is not None)
        self.archive_button.setText(tr("Bring back") if line and line.archived else tr("Archive"))

    def keep(self) -> None:
        """Want the chosen client opened."""
        self.wanted = None if self.line is None else self.line.id

    def archive(self) -> None:
        """Put the client into the archive, or bring the client back."""
        line = self.line
        if line is None:
            return
        self.show_error("")
        try:
            folder.archive_client(
                self.bench.desk, self.store, client_id=line.id, archived=not line.archived
            )
        except CoachError as error:
            self.show_error(error.sentence)
            return
        self.refresh(line.id)
