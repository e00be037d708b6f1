"""A folder of plan files in one go: programs out to it, or plan files in from it."""

from __future__ import annotations

from collections import Counter
from collections.abc import Callable
from functools import partial
from pathlib import Path

from PySide6.QtWidgets import (
    QButtonGroup,
    QCheckBox,
    QFileDialog,
    QHBoxLayout,
    QLineEdit,
    QRadioButton,
    QWidget,
)

from app.domain.errors import CoachError
from app.domain.wording import mark, tr, trn
from app.exchange.plan_file import Plan
from app.filing import open_plan
from app.own_exercises import catalogue_of
from app.plan_folder import (
    Fate,
    Leaving,
    Outcome,
    already_there,
    failed,
    leaving,
    load_plan,
    plan_files_in,
    plan_text,
    put_in,
    write_out,
)
from app.ui import worker
from app.ui.bench import Bench
from app.ui.exchange.tables_dialog import may_replace
from app.ui.forms import button, plain
from app.ui.in_turn import InTurn
from app.ui.tick_list import TickList, TickModel
from db.lines import ClientLine
from db.store import Store

FOLDER = "plan folder"
"""The setting that remembers which folder it was last."""
WORDS = {
    Fate.DONE: mark("done"),
    Fate.SAME: mark("the same already"),
    Fate.FAILED: mark("left out"),
}


class FolderDialog(InTurn):
    """Out or in, which ones, where; one after the other off this thread, then a summary."""

    def __init__(self, bench: Bench, store: Store, parent: QWidget | None) -> None:
        super().__init__(bench, parent, tr("Folder of plan files"), verb=tr("Save"))
        self.store = store
        self._touched: set[str] = set()
        self._fates: Counter[Fate] = Counter()
        self._holds: dict[Path, str] = {}  # what the files hold that were read
        self._build_choice()
        self.model = TickModel[ClientLine | Path](
            (tr("Name"), tr("How it went")), lambda thing: (self._name(thing),), self._name
        )
        self.add_list(
            TickList(tr("What goes"), self.model, letters=(56,)), progress=tr("Files done")
        )
        self.setMinimumSize(620, 480)
        self.resize(820, 640)
        self._show_choice()
        self.out.setFocus()

    # -- the form --------------------------------------------------------------------------

    def _build_choice(self) -> None:
        self.out = QRadioButton(tr("Save programs to a folder, a plan file each"))
        self.into = QRadioButton(tr("Read the plan files of a folder"))
        group = QButtonGroup(self)
        for choice in (self.out, self.into):
            choice.setMinimumHeight(28)
            group.addButton(choice)
            self.body.addWidget(choice)
        self.out.setChecked(True)
        self.out.toggled.connect(lambda _on: self._show_choice())
        self.folder = QLineEdit(self.store.setting(FOLDER))
        self.folder.setMinimumHeight(32)
        self.folder.setAccessibleName(tr("Folder"))
        self.folder.editingFinished.connect(self._folder_changed)
        where = QHBoxLayout()
        label = plain(tr("Folder"))
        label.setBuddy(self.folder)
        where.addWidget(label)
        where.addWidget(self.folder, 1)
        where.addWidget(button(tr("Choose…"), self.choose_folder))
        self.body.addLayout(where)
        self.replacing = QCheckBox("")
        self.replacing.setMinimumHeight(28)
        self.body.addWidget(self.replacing)

    def _name(self, thing: ClientLine | Path) -> str:
        if isinstance(thing, ClientLine):
            return thing.name
        return f"{thing.name}: {self._holds[thing]}" if thing in self._holds else thing.name

    def _show_choice(self) -> None:
        """List what can go the way that is chosen."""
        self.show_error("")
        self.summary.hide()
        self._holds = {}
        out = self.out.isChecked()
        self.ticks.head.setText(tr("Whose programs") if out else tr("Which plan files"))
        self.replacing.setText(tr("Replace clients and programs that I have in another version"))
        self.replacing.setVisible(not out)
        self.ticks.show_things(self._clients() if out else self._files(), ticked=True)

    def _clients(self) -> tuple[ClientLine, ...]:
        return tuple(line for line in self.store.clients() if not line.archived)

    def _files(self) -> tuple[Path, ...]:
        if not self.folder.text().strip():
            return ()
        try:
            return plan_files_in(Path(self.folder.text().strip()))
        except CoachError as error:
            self.show_error(error.sentence)
            return ()

    def choose_folder(self) -> None:
        """Ask for the folder."""
        found = QFileDialog.getExistingDirectory(
            self, tr("Folder of plan files"), self.folder.text()
        )
        if found:
            self.folder.setText(found)
            self._folder_changed()

    def _folder_changed(self) -> None:
        if self.into.isChecked():
            self._show_choice()
        self.say()

    def say(self) -> None:
        """Say how many go, and which way."""
        count = len(self.model.ticked)
        self.keep_button.setText(
            trn("Save {n} client's programs", "Save {n} clients' programs", count)
            if self.out.isChecked()
            else trn("Read {n} plan file", "Read {n} plan files", count)
        )
        ready = bool(count) and bool(self.folder.text().strip()) and not self.running
        self.keep_button.setEnabled(ready)

    # -- doing it --------------------------------------------------------------------------

    def try_keep(self) -> None:
        """Do what is ticked; stay open for the summary."""
        self.show_error("")
        folder = Path(self.folder.text().strip())
        try:
            if not folder.is_dir():
                raise CoachError(
                    tr("There is no such folder."),
                    where=str(folder),
                    mend=tr("Choose one that is there."),
                )
            self.store.set_setting(FOLDER, str(folder))
            steps = self._out_steps(folder) if self.out.isChecked() else self._in_steps()
        except CoachError as error:
            self.show_error(error.sentence)
            return
        if steps:
            self.model.tell(range(len(self.model.things)), "")
            self._fates, self._touched = Counter(), set()
            self.begin(steps)

    def _out_steps(self, folder: Path) -> list[Callable[[], None]]:
        ticked = ((row, self.model.things[row]) for row in self.model.ticked)
        rows = {line.id: row for row, line in ticked if isinstance(line, ClientLine)}
        plans = leaving(self.store, folder, rows)
        if not may_replace(list(already_there(plans)), self):
            return []
        return [partial(self._write, rows[plan.line.client], plan) for plan in plans]

    def _write(self, row: int, leaves: Leaving) -> None:
        path = leaves.path
        try:
            plan = load_plan(self.store, self.bench.desk.catalogue, leaves.line)
        except CoachError as error:
            self._told(row, failed(path, error))
            return
        self.job = worker.start(
            lambda: write_out(plan, path), partial(self._told, row), self._failing(row, path)
        )

    def _in_steps(self) -> list[Callable[[], None]]:
        ticked = ((row, self.model.things[row]) for row in self.model.ticked)
        return [partial(self._read, row, path) for row, path in ticked if isinstance(path, Path)]

    def _read(self, row: int, path: Path) -> None:
        catalogue = self.bench.desk.catalogue
        self.job = worker.start(
            lambda: open_plan(path, catalogue),
            partial(self._take, row, path),
            self._failing(row, path),
        )

    def _failing(self, row: int, path: Path) -> Callable[[CoachError], None]:
        return lambda error: self._told(row, failed(path, error))

    def _take(self, row: int, path: Path, plan: Plan) -> None:
        try:
            outcome = put_in(self.store, path, plan, replacing=self.replacing.isChecked())
        except CoachError as error:
            outcome = failed(path, error)
        else:
            if plan.exercises:
                self.bench.desk.use_catalogue(catalogue_of(self.store))
            self._holds[path] = plan_text(plan)
            if outcome.fate is Fate.DONE:
                self._touched.add(plan.client.id)
        self._told(row, outcome)

    def _told(self, row: int, outcome: Outcome) -> None:
        self._fates[outcome.fate] += 1
        text = outcome.text if outcome.fate is Fate.FAILED else tr(WORDS[outcome.fate])
        # a client has a line and may have several files: what is wrong with one of them stays
        if outcome.fate is Fate.FAILED or self.model.told(row) in ("", tr(WORDS[Fate.SAME])):
            self.ticks.tell(row, text)
        self.step_over()

    def held(self) -> tuple[QWidget, ...]:
        """What cannot be changed while files go."""
        return self.folder, self.out, self.into, self.replacing

    def summed_up(self) -> list[str]:
        """How many files went, and how many did not."""
        done, same, wrong = (self._fates[fate] for fate in (Fate.DONE, Fate.SAME, Fate.FAILED))
        if self.out.isChecked():
            said = [trn("{n} plan file saved.", "{n} plan files saved.", done)]
        else:
            said = [trn("{n} plan file read.", "{n} plan files read.", done)]
        if same:
            said.append(trn("{n} was the same.", "{n} were the same.", same))
        if wrong:
            said.append(
                trn(
                    "{n} was left out; its line says why.",
                    "{n} were left out; their lines say why.",
                    wrong,
                )
            )
        return said

    def after_all(self) -> None:
        """Show the open client anew if a file changed it."""
        work = self.bench.desk.work
        if work is not None and work.client.id in self._touched:
            self.bench.desk.read_again()
