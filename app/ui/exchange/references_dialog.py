"""References for a reference manager, and the coach's own ones from it."""

from __future__ import annotations

from collections.abc import Mapping
from pathlib import Path

from PySide6.QtWidgets import (
    QButtonGroup,
    QComboBox,
    QFileDialog,
    QHBoxLayout,
    QRadioButton,
    QWidget,
)

from app import own_references
from app.domain.errors import CoachError
from app.domain.wording import tr, trn
from app.exchange.bibliography.files import LABELS, SUFFIXES, Form
from app.own_references import Taken
from app.resources import Reference
from app.ui import worker
from app.ui.bench import Bench
from app.ui.forms import Sheet, Wrapped, button, plain
from app.ui.lines_table import add_line, chosen, lines_table
from app.ui.refit_lines import RefitLines
from db.store import Store

FILTER = "(*.json *.bib *.ris *.txt)"


class ReferencesDialog(Sheet):
    """What is saved and in which form; below it the coach's own, taken in or taken out."""

    def __init__(self, bench: Bench, store: Store, parent: QWidget | None) -> None:
        super().__init__(parent, tr("References"), verb=tr("Save…"))
        self.bench, self.store = bench, store
        self._job: worker.Job[Taken] | None = None
        self._build_out()
        self._build_own()
        self._show_own()
        self.cancel_button.setText(tr("Close"))
        self.finished.connect(lambda _result: self._let_go())
        self.setMinimumSize(620, 480)
        self.resize(720, 600)
        self.choices["all"].setFocus()

    def _build_out(self) -> None:
        self.body.addWidget(plain(tr("For a reference manager"), step="head"))
        self.choices = {
            "all": QRadioButton(""),
            "program": QRadioButton(""),
            "own": QRadioButton(""),
        }
        group = QButtonGroup(self)
        for choice in self.choices.values():
            choice.setMinimumHeight(28)
            group.addButton(choice)
            self.body.addWidget(choice)
        self.choices["all"].setChecked(True)
        group.buttonToggled.connect(lambda _b, _on: self._allow())
        self.forms = QComboBox()
        self.forms.setMinimumHeight(32)
        self.forms.setAccessibleName(tr("Form"))
        for form in Form:
            self.forms.addItem(tr(LABELS[form]), form.value)
        row = QHBoxLayout()
        label = plain(tr("Form"))
        label.setBuddy(self.forms)
        row.addWidget(label)
        row.addWidget(self.forms)
        row.addStretch(1)
        self.body.addLayout(row)

    def _build_own(self) -> None:
        self.body.addWidget(plain(tr("References of your own"), step="head"))
        self.body.addWidget(
            Wrapped(
                tr(
                    "From a file in one of these forms. They can stand as sources of your own "
                    "ranges and of the figures of your own exercises, and booklets print them."
                ),
                role="small",
            )
        )
        self.tree = lines_table(tr("References of your own"), (tr("Title"), tr("Cited as")), wide=0)
        self.tree.currentItemChanged.connect(lambda *_: self._allow())
        self.body.addWidget(self.tree, 1)
        self.take_button = button(tr("Take in a file…"), self.take_in)
        self.remove_button = button(tr("Remove"), self.remove)
        row = QHBoxLayout()
        row.addWidget(self.take_button)
        row.addWidget(self.remove_button)
        row.addStretch(1)
        self.body.addLayout(row)
        self.told = RefitLines()
        self.told.setAccessibleName(tr("What was done"))
        self.told.setMinimumHeight(64)
        self.told.setMaximumHeight(110)
        self.told.hide()
        self.body.addWidget(self.told)

    # -- what is there -----------------------------------------------------------------------

    def _known(self) -> Mapping[str, Reference]:
        return self.bench.shelf.references

    def _program_keys(self) -> tuple[str, ...]:
        desk = self.bench.desk
        if not desk.has_program:
            return ()
        used = dict.fromkeys(slot.exercise for week in desk.program.weeks for slot in week.slots())
        exercises = [desk.catalogue[key] for key in used]
        return own_references.rested_on(desk.findings, exercises, self._known())

    def _show_own(self) -> None:
        known = self._known()
        self.tree.clear()
        mine = own_references.own(self.store)
        for record in mine:
            key = str(record["id"])
            short = known[key].short if key in known else ""
            add_line(self.tree, (str(record["title"]), short), key)
        count = len(known)
        self.choices["all"].setText(trn("All {n} reference", "All {n} references", count))
        self._program = self._program_keys()
        self.choices["program"].setText(
            trn(
                "The {n} that findings and exercises of the open program rest on",
                "The {n} that findings and exercises of the open program rest on",
                len(self._program),
            )
        )
        self.choices["program"].setEnabled(bool(self._program))
        self.choices["own"].setText(
            trn("{n} reference of your own", "{n} references of your own", len(mine))
        )
        self.choices["own"].setEnabled(bool(mine))
        self._allow()

    def _allow(self) -> None:
        self.keep_button.setEnabled(bool(self.wanted()))
        self.remove_button.setEnabled(chosen(self.tree) is not None)

    def wanted(self) -> list[Reference]:
        """The references that would be saved."""
        known = self._known()
        if self.choices["program"].isChecked():
            return [known[key] for key in self._program]
        if self.choices["own"].isChecked():
            mine = [str(record["id"]) for record in own_references.own(self.store)]
            return [known[key] for key in mine if key in known]
        return list(known.values())

    # -- out and in --------------------------------------------------------------------------

    def try_keep(self) -> None:
        """Ask where to and write the file; stay open."""
        self.show_error("")
        form = Form(self.forms.currentData())
        suffix = SUFFIXES[form]
        name = tr("{form} (*{suffix})", form=tr(LABELS[form]), suffix=suffix)
        path_text, _ = QFileDialog.getSaveFileName(
            self, tr("Save references"), f"references{suffix}", name
        )
        if not path_text:
            return
        path = Path(path_text)
        if not path.suffix:
            path = path.with_name(path.name + suffix)
        try:
            count = own_references.write_to(path, self.wanted(), form)
        except CoachError as error:
            self.show_error(error.sentence)
            return
        self._say(trn("{n} reference saved.", "{n} references saved.", count))

    def take_in(self) -> None:
        """Ask for a file of references, and keep those that are new."""
        self.show_error("")
        kinds = f"{tr('References')} {FILTER}"
        found, _ = QFileDialog.getOpenFileName(self, tr("Take in references"), "", kinds)
        if found:
            self.take_in_file(Path(found))

    def take_in_file(self, path: Path) -> None:
        """Read the file off this thread, and keep what is new in it."""
        self.take_button.setEnabled(False)
        memory = _Remembered(self.store)
        self._job = worker.start(
            lambda: own_references.read_file(path, memory), self._taken, self._failed
        )

    def _failed(self, error: CoachError) -> None:
        self.take_button.setEnabled(True)
        self.show_error(error.sentence)

    def _taken(self, taken: Taken) -> None:
        self.take_button.setEnabled(True)
        try:
            if taken.fresh:
                own_references.keep(self.store, taken.fresh)
        except CoachError as error:
            self.show_error(error.sentence)
            return
        self.bench.shelf.read_references()
        self._show_own()
        said = [trn("{n} reference taken in.", "{n} references taken in.", len(taken.fresh))]
        if taken.known:
            said.append(trn("{n} was there already.", "{n} were there already.", taken.known))
        self._say(" ".join(said), *taken.left_out)

    def remove(self) -> None:
        """Take the chosen one out, unless an exercise rests on it."""
        key = chosen(self.tree)
        if key is None:
            return
        self.show_error("")
        mine = [exercise for exercise in self.bench.desk.catalogue.exercises if exercise.own]
        try:
            overrides = self.bench.desk.ranges.overrides
            own_references.remove(self.store, str(key), mine, overrides)
        except CoachError as error:
            self.show_error(error.sentence)
            return
        self.bench.shelf.read_references()
        self._show_own()
        self._say(tr("Removed."))

    def _say(self, *sentences: str) -> None:
        self.told.say(*sentences)
        self.told.show()
        self.bench.said.emit(sentences[0])

    def _let_go(self) -> None:
        if self._job is not None:
            self._job.cancel()


class _Remembered:
    """The own references as they are now, for another thread."""

    def __init__(self, store: Store) -> None:
        self._text = store.setting(own_references.KEY)

    def setting(self, key: str) -> str:
        """The value under the one key that is known."""
        return self._text if key == own_references.KEY else ""

    def set_setting(self, key: str, value: str) -> None:
        """Nothing is kept from another thread."""
