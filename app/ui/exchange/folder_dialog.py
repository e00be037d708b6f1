"""A folder of plan files in one go: programs out to it, or plan files in from it."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass
from functools import partial
from pathlib import Path

from PySide6.QtCore import Qt
from PySide6.QtWidgets import (
    QButtonGroup,
    QCheckBox,
    QFileDialog,
    QHBoxLayout,
    QLineEdit,
    QProgressBar,
    QRadioButton,
    QTreeWidgetItem,
    QWidget,
)

from app.domain.client import ClientId
from app.domain.errors import CoachError
from app.domain.wording import mark, tr, trn
from app.exchange.plan_file import Plan
from app.filing import open_plan
from app.own_exercises import catalogue_of
from app.plan_folder import (
    Fate,
    Outcome,
    already_there,
    failed,
    plan_files_in,
    plan_text,
    plans_of,
    put_in,
    targets_for,
    write_out,
)
from app.ui import worker
from app.ui.bench import Bench
from app.ui.exchange.tables_dialog import may_replace
from app.ui.forms import Sheet, Wrapped, button, plain
from app.ui.lines_table import lines_table
from app.ui.words import tip
from db.store import Store

FOLDER = "plan folder"
"""The setting that remembers which folder it was last."""
WORDS = {
    Fate.DONE: mark("done"),
    Fate.SAME: mark("the same already"),
    Fate.FAILED: mark("left out"),
}


@dataclass(slots=True)
class Row:
    """A client that goes out, or a file that comes in, and how it went."""

    item: QTreeWidgetItem
    client: ClientId | None = None
    path: Path | None = None

    @property
    def ticked(self) -> bool:
        """True if it is wanted."""
        return self.item.checkState(0) == Qt.CheckState.Checked


class FolderDialog(Sheet):
    """Out or in, which ones, where; one after the other off this thread, then a summary."""

    def __init__(self, bench: Bench, store: Store, parent: QWidget | None) -> None:
        super().__init__(parent, tr("Folder of plan files"), verb=tr("Save"))
        self.bench, self.store = bench, store
        self.running = self.stopping = False
        self.rows: list[Row] = []
        self._job: worker.Job[Outcome] | worker.Job[Plan] | None = None
        self._touched: set[str] = set()
        self._steps: list[Callable[[], None]] = []
        self._outcomes: list[Outcome] = []
        self._build_choice()
        self._build_list()
        self.finished.connect(lambda _result: self._let_go())
        self.cancel_button.setText(tr("Close"))
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

    def _build_list(self) -> None:
        self.tree = lines_table(tr("What goes"), (tr("Name"), tr("How it went")))
        self.head = plain("", step="head")
        self.all_button = button(tr("Tick all"), self.tick_all)
        head = QHBoxLayout()
        head.addWidget(self.head, 1)
        head.addWidget(self.all_button)
        self.body.addLayout(head)
        self.body.addWidget(self.tree, 1)
        self.progress = QProgressBar()
        self.progress.setAccessibleName(tr("Files done"))
        self.progress.hide()
        self.body.addWidget(self.progress)
        self.summary = Wrapped()
        self.summary.setAccessibleName(tr("What was done"))
        self.summary.hide()
        self.body.addWidget(self.summary)
        self.stop_button = button(tr("Stop"), self.stop)
        self.stop_button.setEnabled(False)
        self.foot.insertWidget(self.foot.indexOf(self.cancel_button), self.stop_button)
        self.tree.itemChanged.connect(lambda _item, column: self._say() if column == 0 else None)

    def _show_choice(self) -> None:
        """List what can go the way that is chosen."""
        self.show_error("")
        self.summary.hide()
        self.tree.clear()
        self.rows = []
        if self.out.isChecked():
            self.head.setText(tr("Whose programs"))
            self.replacing.setText(tr("Write over files of the same name, where I say so"))
            self.replacing.hide()
            for line in self.store.clients():
                if not line.archived:
                    self._add(Row(self._item(line.name), client=ClientId(line.id)))
        else:
            self.head.setText(tr("Which plan files"))
            self.replacing.setText(
                tr("Replace clients and programs that I have in another version")
            )
            self.replacing.show()
            self._list_files()
        self._say()

    def _list_files(self) -> None:
        if not self.folder.text().strip():
            return
        try:
            for path in plan_files_in(Path(self.folder.text().strip())):
                self._add(Row(self._item(path.name), path=path))
        except CoachError as error:
            self.show_error(error.sentence)

    def _item(self, name: str) -> QTreeWidgetItem:
        item = QTreeWidgetItem([name, ""])
        item.setFlags(item.flags() | Qt.ItemFlag.ItemIsUserCheckable)
        item.setCheckState(0, Qt.CheckState.Checked)
        item.setToolTip(0, tip(name))
        return item

    def _add(self, row: Row) -> None:
        self.tree.addTopLevelItem(row.item)
        self.rows.append(row)

    def tick_all(self) -> None:
        """Tick everything; nothing if everything is ticked."""
        to = Qt.CheckState
        state = to.Unchecked if all(row.ticked for row in self.rows) else to.Checked
        for row in self.rows:
            row.item.setCheckState(0, state)

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
        self._say()

    def _say(self) -> None:
        count = sum(row.ticked for row in self.rows)
        text = (
            trn("Save {n} client's programs", "Save {n} clients' programs", count)
            if self.out.isChecked()
            else trn("Read {n} plan file", "Read {n} plan files", count)
        )
        self.keep_button.setText(text)
        everything = bool(self.rows) and count == len(self.rows)
        self.all_button.setText(tr("Tick none") if everything else tr("Tick all"))
        self.all_button.setEnabled(bool(self.rows))
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
            self._begin(steps)

    def _out_steps(self, folder: Path) -> list[Callable[[], None]]:
        rows = [row for row in self.rows if row.ticked and row.client is not None]
        catalogue = self.bench.desk.catalogue
        of_row = [
            (row, plans_of(self.store, catalogue, [row.client])) for row in rows if row.client
        ]
        plans = [(row, plan) for row, several in of_row for plan in several]
        targets = targets_for(folder, [plan for _, plan in plans])
        if not may_replace(list(already_there(targets)), self):
            return []
        return [
            self._writing(row, plan, path) for (row, plan), path in zip(plans, targets, strict=True)
        ]

    def _writing(self, row: Row, plan: Plan, path: Path) -> Callable[[], None]:
        def step() -> None:
            self._job = worker.start(
                lambda: write_out(plan, path), partial(self._told, row), self._failing(row, path)
            )

        return step

    def _in_steps(self) -> list[Callable[[], None]]:
        return [self._reading(row, row.path) for row in self.rows if row.ticked and row.path]

    def _reading(self, row: Row, path: Path) -> Callable[[], None]:
        def step() -> None:
            catalogue = self.bench.desk.catalogue
            self._job = worker.start(
                lambda: open_plan(path, catalogue),
                partial(self._take, row, path),
                self._failing(row, path),
            )

        return step

    def _failing(self, row: Row, path: Path) -> Callable[[CoachError], None]:
        return lambda error: self._told(row, failed(path, error))

    def _take(self, row: Row, path: Path, plan: Plan) -> None:
        try:
            outcome = put_in(self.store, path, plan, replacing=self.replacing.isChecked())
        except CoachError as error:
            outcome = failed(path, error)
        else:
            if plan.exercises:
                self.bench.desk.use_catalogue(catalogue_of(self.store))
            row.item.setText(0, f"{path.name}: {plan_text(plan)}")
            if outcome.fate is Fate.DONE:
                self._touched.add(plan.client.id)
        self._told(row, outcome)

    def _begin(self, steps: list[Callable[[], None]]) -> None:
        for row in self.rows:
            row.item.setText(1, "")
        self._steps, self._outcomes, self._touched = list(steps), [], set()
        self.progress.setRange(0, len(steps))
        self.progress.setValue(0)
        self.progress.show()
        self.summary.hide()
        self._set_running(True)
        self._next()

    def _next(self) -> None:
        if not self._steps or self.stopping:
            self._finish(left=len(self._steps))
            return
        self._steps.pop(0)()

    def _told(self, row: Row, outcome: Outcome) -> None:
        self._outcomes.append(outcome)
        text = outcome.text if outcome.fate is Fate.FAILED else tr(WORDS[outcome.fate])
        shown = row.item.text(1)
        if outcome.fate is Fate.FAILED or not shown or shown == tr(WORDS[Fate.SAME]):
            row.item.setText(1, text)
            row.item.setToolTip(1, tip(text))
        self.tree.scrollToItem(row.item)
        self.progress.setValue(self.progress.value() + 1)
        self._next()

    def _set_running(self, on: bool) -> None:
        self.running, self.stopping = on, False
        self.stop_button.setEnabled(on)
        self.cancel_button.setEnabled(not on)
        for part in (self.tree, self.all_button, self.folder, self.out, self.into, self.replacing):
            part.setEnabled(not on)
        self._say()

    def stop(self) -> None:
        """Begin no more after the one that is being done."""
        self.stopping = True
        self.stop_button.setEnabled(False)

    def _finish(self, *, left: int) -> None:
        done = sum(one.fate is Fate.DONE for one in self._outcomes)
        same = sum(one.fate is Fate.SAME for one in self._outcomes)
        wrong = sum(one.fate is Fate.FAILED for one in self._outcomes)
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
        if left:
            said.append(trn("{n} was not begun.", "{n} were not begun.", left))
        self.summary.setText(" ".join(said))
        self.summary.show()
        self.bench.said.emit(" ".join(said))
        self._set_running(False)
        work = self.bench.desk.work
        if work is not None and work.client.id in self._touched:
            self.bench.desk.read_again()

    def reject(self) -> None:
        """Close, but not in the middle of it."""
        if self.running:
            self.stop()
            return
        super().reject()

    def _let_go(self) -> None:
        if self._job is not None:
            self._job.cancel()
