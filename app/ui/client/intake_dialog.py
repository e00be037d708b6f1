"""An intake form that came back: what it says, beside what is known, before anything is kept."""

from __future__ import annotations

from collections.abc import Mapping
from datetime import date, datetime
from pathlib import Path
from uuid import uuid4

from PySide6.QtCore import Qt
from PySide6.QtWidgets import (
    QComboBox,
    QFileDialog,
    QHeaderView,
    QTreeWidgetItem,
    QWidget,
)

from app.domain import intake
from app.domain.client import Client, ClientId
from app.domain.errors import CoachError
from app.domain.intake import Taken
from app.domain.wording import tr, trn
from app.exchange.files import read_file
from app.exchange.pdf_fields import MOST_BYTES, read_fields
from app.ui.bench import Bench
from app.ui.forms import Sheet, Wrapped, plain, tell
from app.ui.lines_table import KEY, add_line, lines_table
from app.ui.paper_habits import usual_units
from app.ui.refit_lines import RefitLines
from db.store import Store

TICK = 48
"""Room for the tick before a line's name, px."""


class IntakeDialog(Sheet):
    """Answers to tick, and what is left to ask; keeps them for a new client or the open one."""

    def __init__(
        self,
        bench: Bench,
        store: Store,
        parent: QWidget | None,
        answers: Mapping[str, str],
        *,
        today: date | None = None,
    ) -> None:
        super().__init__(
            parent,
            tr("Intake form"),
            verb=tr("Keep"),
            about=tr("Nothing is kept before you say so. Untick what is not to be taken."),
        )
        self.bench, self.store, self.answers = bench, store, answers
        self.today = today or datetime.now().astimezone().date()
        self.target = QComboBox()
        self.target.setMinimumHeight(32)
        self.target.addItem(tr("A new client"), "")
        if bench.desk.work is not None:
            client = bench.desk.client
            self.target.addItem(client.name, client.id)
            if self._same_name(client.name):
                self.target.setCurrentIndex(1)
        self.row(tr("For"), self.target)
        self.warning = Wrapped(role="wrong")
        self.body.addWidget(self.warning)
        self.table = lines_table(tr("Answers"), (tr("Answer"), tr("Until now"), tr("Form")), wide=2)
        self.body.addWidget(self.table, 2)
        self.open_head = plain(tr("To ask, or to look at"), step="head")
        self.body.addWidget(self.open_head)
        self.open_lines = RefitLines()
        self.open_lines.setAccessibleName(tr("To ask, or to look at"))
        self.body.addWidget(self.open_lines, 1)
        self.target.currentIndexChanged.connect(lambda _k: self.refresh())
        self.table.itemChanged.connect(lambda _item, _column: self._say_verb())
        self.setMinimumSize(640, 520)
        self.resize(780, 660)
        self.refresh()

    def _same_name(self, name: str) -> bool:
        return name.casefold() == self.answers.get("name", "").strip().casefold()

    @property
    def is_new(self) -> bool:
        """True if the answers are for a client who is not in the file yet."""
        return not self.target.currentData()

    def client(self) -> Client:
        """Whom the answers are for, as known until now."""
        if self.is_new:
            return Client(ClientId(uuid4().hex), tr("New client"), units=usual_units())
        return self.bench.desk.client

    def refresh(self) -> None:
        """Show what the form would change for whom it is meant."""
        self.before = self.client()
        self.taken: Taken = intake.take(self.answers, self.before, today=self.today)
        self.table.blockSignals(True)
        self.table.clear()
        for line in self.taken.lines:
            item = add_line(self.table, (line.what, line.before, line.after), line.field)
            item.setFlags(item.flags() | Qt.ItemFlag.ItemIsUserCheckable)
            item.setCheckState(0, Qt.CheckState.Checked)
        self.table.blockSignals(False)
        # the width that follows the contents leaves out the tick before them
        names = [self.table.fontMetrics().horizontalAdvance(one.what) for one in self.taken.lines]
        self.table.header().setSectionResizeMode(0, QHeaderView.ResizeMode.Interactive)
        self.table.setColumnWidth(0, max(names, default=80) + TICK)
        self.open_lines.say(*self.taken.open)
        for part in (self.open_head, self.open_lines):
            part.setVisible(bool(self.taken.open))
        self._warn()
        self._say_verb()

    def _warn(self) -> None:
        """A form of somebody else, or of somebody who is known already, is named."""
        name = self.answers.get("name", "").strip()
        said = ""
        if self.is_new and any(
            line.name.casefold() == name.casefold() for line in self.store.clients()
        ):
            said = tr(
                "There is a client named {name} already. Open that client first to add to it.",
                name=name,
            )
        elif not self.is_new and name and not self._same_name(self.before.name):
            said = tr(
                "The form names {form}, but the open client is {client}.",
                form=name,
                client=self.before.name,
            )
        self.warning.setText(said)
        self.warning.setVisible(bool(said))

    def _items(self) -> list[QTreeWidgetItem]:
        rows = range(self.table.topLevelItemCount())
        return [item for row in rows if (item := self.table.topLevelItem(row)) is not None]

    def chosen(self) -> set[str]:
        """The client's fields that are to be taken."""
        return {
            str(item.data(0, KEY))
            for item in self._items()
            if item.checkState(0) == Qt.CheckState.Checked
        }

    def _say_verb(self) -> None:
        count = len(self.chosen())
        text = trn("Keep {n} answer", "Keep {n} answers", count)
        self.keep_button.setText(tr("Add client") if self.is_new else text)
        self.keep_button.setEnabled(bool(count))
        if not self.taken.lines:
            self.show_error(tr("The form says nothing that is not known already."))

    def keep(self) -> None:
        """Keep the chosen answers as one step. Raises CoachError."""
        client = self.taken.only(self.chosen(), self.before)
        if self.is_new:
            self.bench.desk.add_client(client)
        else:
            self.bench.desk.keep_client(tr("Take over an intake form"), client)


def answers_in(path: Path) -> Mapping[str, str]:
    """The answers of the form in a file. Raises CoachError for what is no intake form."""
    fields = read_fields(read_file(path, most=MOST_BYTES), where=str(path))
    return intake.require_form(fields)


def read_intake(bench: Bench, store: Store, window: QWidget) -> None:
    """Ask for a form that came back, and show what it says, or why it cannot be read."""
    path, _ = QFileDialog.getOpenFileName(window, tr("Read an intake form"), "", "PDF (*.pdf)")
    if not path:
        return
    try:
        answers = answers_in(Path(path))
    except CoachError as error:
        tell(window, tr("The form was not read"), error.sentence)
        return
    IntakeDialog(bench, store, window, answers).exec()
