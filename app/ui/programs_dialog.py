"""The client's programs, archived ones too: open, rename, copy, archive, bring back, remove."""

from __future__ import annotations

from collections.abc import Callable

from PySide6.QtCore import Qt
from PySide6.QtWidgets import QHBoxLayout, QMessageBox, QTreeWidgetItem, QVBoxLayout, QWidget

from app import folder
from app.domain.checks import check
from app.domain.errors import CoachError
from app.domain.findings import Finding, Weight
from app.domain.program import ProgramId
from app.domain.wording import mark, tr, trn
from app.ui import worker
from app.ui.bench import Bench
from app.ui.forms import Sheet, ask_text, button
from app.ui.lines_table import add_line, choose, chosen, lines_table
from app.ui.words import full_date, tip
from db.lines import ProgramLine
from db.store import Store

COLUMNS = (mark("Program"), mark("From"), mark("Weeks"), mark("Findings"), mark("State"))
FINDINGS = 3
WAITING = "\N{HORIZONTAL ELLIPSIS}"

AskName = Callable[[QWidget, str], str | None]
AskRemoval = Callable[[QWidget, str], bool]


class ProgramsDialog(Sheet):
    """A table of programs, and beside it what can be done with the chosen one."""

    def __init__(
        self,
        bench: Bench,
        store: Store,
        parent: QWidget | None,
        *,
        ask_name: AskName | None = None,
        ask_removal: AskRemoval | None = None,
    ) -> None:
        self.client = bench.desk.client
        super().__init__(
            parent, tr("Programs of {client}", client=self.client.name), verb=tr("Open")
        )
        self.bench, self.store = bench, store
        self.ask_name, self.ask_removal = ask_name or _ask_name, ask_removal or ask_to_remove
        self.lines: dict[ProgramId, ProgramLine] = {}
        self.table = lines_table(tr("Programs"), tuple(map(tr, COLUMNS)))
        self._jobs: list[worker.Job[tuple[Finding, ...]]] = []
        self.rename_button = button(tr("Rename…"), self.rename)
        self.copy_button = button(tr("Copy"), self.copy)
        self.archive_button = button(tr("Archive"), self.archive)
        self.remove_button = button(tr("Remove…"), self.remove)
        self._lay_out()
        self.table.currentItemChanged.connect(lambda *_: self._enable())
        self.table.itemDoubleClicked.connect(lambda *_: self.try_keep())
        self.finished.connect(lambda _result: self._let_go())
        self.setMinimumSize(620, 360)
        self.resize(760, 440)
        self.refresh(bench.desk.program.id if bench.desk.has_program else None)

    def _lay_out(self) -> None:
        acts = QVBoxLayout()
        for one in (self.rename_button, self.copy_button, self.archive_button, self.remove_button):
            acts.addWidget(one)
        acts.addStretch(1)
        row = QHBoxLayout()
        row.setSpacing(12)
        row.addWidget(self.table, 1)
        row.addLayout(acts)
        self.body.addLayout(row, 1)
        self.cancel_button.setText(tr("Close"))

    # -- what is shown ---------------------------------------------------------------------

    def refresh(self, keep: ProgramId | None = None) -> None:
        """Read the list again, with the line of `keep` chosen; archived programs come last."""
        self._let_go()
        lines = sorted(self.store.programs(self.client.id), key=lambda line: line.archived)
        self.lines = {line.id: line for line in lines}
        self.table.clear()
        for line in lines:
            weeks, state = str(line.weeks), "archived" if line.archived else ""
            cells = (line.name, full_date(line.start), weeks, WAITING, state)
            self._count(line, add_line(self.table, cells, line.id))
        choose(self.table, keep)
        self._enable()

    def _count(self, line: ProgramLine, item: QTreeWidgetItem) -> None:
        """Show the findings of a program once they are known."""
        desk = self.bench.desk
        if desk.has_program and desk.program.id == line.id:
            item.setText(FINDINGS, findings_text(desk.findings))
            return
        try:
            program = self.store.load_program(line.id)
        except CoachError as error:
            item.setText(FINDINGS, tr("cannot be read"))
            item.setToolTip(FINDINGS, tip(error.sentence))
            return
        client, catalogue, ranges = desk.client, desk.catalogue, desk.ranges
        self._jobs.append(
            worker.start(
                lambda: check(program, client, catalogue, ranges),
                lambda found: item.setText(FINDINGS, findings_text(found)),
                lambda error: item.setText(FINDINGS, error.sentence),
            )
        )

    def _let_go(self) -> None:
        for job in self._jobs:
            job.cancel()
        self._jobs.clear()

    @property
    def line(self) -> ProgramLine | None:
        """The program that is chosen; None if there is none."""
        key = chosen(self.table)
        return self.lines.get(ProgramId(key)) if isinstance(key, str) else None

    def _enable(self) -> None:
        line = self.line
        for one in (
            self.rename_button,
            self.copy_button,
            self.archive_button,
            self.remove_button,
            self.keep_button,
        ):
            one.setEnabled(line is not None)
        self.archive_button.setText(tr("Bring back") if line and line.archived else tr("Archive"))

    # -- what is done ----------------------------------------------------------------------

    def keep(self) -> None:
        """Open the chosen program."""
        if self.line is not None:
            self.bench.desk.open(self.client.id, self.line.id)

    def _do(self, act: Callable[[ProgramLine], ProgramId | None]) -> None:
        """Do something with the chosen program, then list them again; say what went wrong."""
        line = self.line
        if line is None:
            return
        self.show_error("")
        try:
            keep = act(line)
        except CoachError as error:
            self.show_error(error.sentence)
            return
        self.refresh(keep or line.id)

    def rename(self) -> None:
        """Ask for another name."""
        self._do(self._rename)

    def _rename(self, line: ProgramLine) -> None:
        name = self.ask_name(self, line.name)
        if name is not None:
            folder.rename_program(
                self.bench.desk,
                self.store,
                client_id=self.client.id,
                program_id=line.id,
                name=name,
            )

    def copy(self) -> None:
        """Keep a copy beside it."""
        self._do(lambda line: folder.copy_program(self.store, self.client.id, line.id).id)

    def archive(self) -> None:
        """Put it into the archive, or bring it back."""
        self._do(self._archive)

    def _archive(self, line: ProgramLine) -> None:
        folder.archive_program(
            self.bench.desk,
            self.store,
            client_id=self.client.id,
            program_id=line.id,
            archived=not line.archived,
        )

    def remove(self) -> None:
        """Ask, then remove it for good."""
        self._do(self._remove)

    def _remove(self, line: ProgramLine) -> None:
        issues = self.store.issues(line.id)
        if self.ask_removal(self, removal_text(line, len(issues))):
            folder.remove_program(
                self.bench.desk, self.store, client_id=self.client.id, program_id=line.id
            )


def findings_text(findings: tuple[Finding, ...]) -> str:
    """'2 conflicts, 14 outside, 3 remarks'; 'none' without any."""
    counts = [(sum(one.weight is weight for one in findings), weight) for weight in Weight]
    parts = [
        f"{count} {weight.word.lower()}{'s' * (count != 1 and weight is not Weight.OUTSIDE)}"
        for count, weight in counts
        if count
    ]
    return ", ".join(parts) or "none"


def removal_text(line: ProgramLine, issues: int) -> str:
    """What is lost by removing a program, and what stays."""
    weeks = trn("1 week", "{n} weeks", line.weeks)
    kept = trn("1 booklet", "{n} booklets", issues)
    stays = (
        tr(" What was handed out of it ({kept}) stays in the file.", kept=kept) if issues else ""
    )
    return tr(
        "Remove {line} with its {weeks} for good? It cannot be brought back, and "
        "earlier steps of this client can no longer be undone.{stays} Archiving "
        "it keeps everything.",
        line=line.name,
        weeks=weeks,
        stays=stays,
    )


def _ask_name(parent: QWidget, name: str) -> str | None:
    return ask_text(parent, tr("Rename the program"), tr("Name"), text=name, verb=tr("Rename"))


def ask_to_remove(parent: QWidget, sentence: str) -> bool:
    """True if the coach really wants to remove it."""
    box = QMessageBox(parent)
    box.setWindowTitle(tr("Remove a program"))
    box.setIcon(QMessageBox.Icon.Warning)
    box.setTextFormat(Qt.TextFormat.PlainText)
    box.setText(sentence)
    role = QMessageBox.ButtonRole
    removing = box.addButton(tr("Remove"), role.DestructiveRole)
    leave = box.addButton(tr("Keep it"), role.RejectRole)
    box.setDefaultButton(leave)
    box.setEscapeButton(leave)
    box.exec()
    return bool(box.clickedButton() == removing)
