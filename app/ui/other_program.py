"""Choosing a program that another client has, to begin a new one with."""

from __future__ import annotations

from datetime import date

from PySide6.QtWidgets import QComboBox, QHBoxLayout, QVBoxLayout, QWidget

from app.domain.client import Client, ClientId
from app.domain.errors import CoachError
from app.domain.program import Program, ProgramId
from app.domain.refit import Refit, refit
from app.domain.wording import tr, trn
from app.folder import new_program_id
from app.ui.bench import Bench
from app.ui.forms import plain
from app.ui.refit_lines import RefitLines
from db.lines import ProgramLine
from db.store import Store


class OtherProgram(QWidget):
    """Client and program, and what would be different for the client it is taken over to.

    Nothing is worked out until it is wanted: `offer(True)`.
    """

    def __init__(self, bench: Bench, store: Store, client: Client, *, start: date) -> None:
        super().__init__()
        self.bench, self.store, self.client = bench, store, client
        self.start = start
        self.program_id = new_program_id()
        self.clients = _combo(tr("Client it is taken from"))
        self.programs = _combo(tr("Program it is taken from"))
        self.head = plain("", step="medium")
        self.lines = RefitLines()
        self._sources: dict[ProgramId, Program] = {}
        row = QHBoxLayout()
        row.addWidget(self.clients, 1)
        row.addWidget(self.programs, 2)
        column = QVBoxLayout(self)
        column.setContentsMargins(24, 0, 0, 0)
        column.addLayout(row)
        column.addWidget(self.head)
        column.addWidget(self.lines)
        self.setEnabled(False)
        self._fill_clients()
        self.clients.currentIndexChanged.connect(lambda _k: self._fill_programs())
        self.programs.currentIndexChanged.connect(lambda _k: self.refresh())

    @property
    def is_empty(self) -> bool:
        """True if nobody in the file has a program."""
        return self.clients.count() == 0

    def _fill_clients(self) -> None:
        lines = [line for line in self.store.clients() if line.programs]
        for line in sorted(lines, key=lambda line: (line.id == self.client.id, line.archived)):
            self.clients.addItem(f"{line.name}{_archived(line.archived)}", line.id)
        self._fill_programs()

    def _fill_programs(self) -> None:
        self.programs.blockSignals(True)
        self.programs.clear()
        if not self.is_empty:
            owner = ClientId(self.clients.currentData())
            for line in self.store.programs(owner):
                self.programs.addItem(_line_text(line), line.id)
        self.programs.blockSignals(False)
        self.refresh()

    def source(self) -> Program | None:
        """The program that is chosen, as it is kept; None while there is none."""
        if self.programs.currentIndex() < 0:
            return None
        program_id = ProgramId(self.programs.currentData())
        if program_id not in self._sources:
            self._sources[program_id] = self.store.load_program(program_id)
        return self._sources[program_id]

    def set_start(self, start: date) -> None:
        """Let it begin in the week of that day."""
        self.start = start
        self.refresh()

    def refit(self) -> Refit:
        """The chosen program as the client's. Raises CoachError if it cannot be taken over."""
        source = self.source()
        if source is None:
            raise CoachError(tr("No program is chosen."), mend=tr("Choose a client and a program."))
        catalogue = self.bench.desk.catalogue
        return refit(source, self.client, catalogue, program_id=self.program_id, start=self.start)

    def offer(self, wanted: bool) -> None:
        """Show the choice, with what would be different, or hide it."""
        self.setEnabled(wanted)
        self.setVisible(wanted)
        self.refresh()

    def refresh(self) -> None:
        """Say again what would be different; nothing while the choice is not wanted."""
        if not self.isEnabled():
            return
        self.head.setText(tr("What would be different for {client}", client=self.client.name))
        try:
            made = self.refit()
        except CoachError as error:
            self.lines.say(error.sentence)
            return
        self.lines.show_changes(made.changes)


def _combo(name: str) -> QComboBox:
    box = QComboBox()
    box.setMinimumHeight(32)
    box.setMinimumContentsLength(14)
    box.setSizeAdjustPolicy(QComboBox.SizeAdjustPolicy.AdjustToMinimumContentsLengthWithIcon)
    box.setAccessibleName(name)
    return box


def _archived(archived: bool) -> str:
    return tr(", archived") if archived else ""


def _line_text(line: ProgramLine) -> str:
    """'Ridge season, 12 weeks, archived'."""
    weeks = trn("1 week", "{n} weeks", line.weeks)
    return f"{line.name}, {weeks}{_archived(line.archived)}"
