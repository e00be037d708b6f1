"""What can be done with the clients that are chosen in the roster."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import replace

from PySide6.QtWidgets import QComboBox, QLabel, QVBoxLayout, QWidget

from app import people
from app.domain.client import Client, ClientId, Stage
from app.domain.errors import CoachError
from app.domain.wording import tr, trn
from app.ui.bench import Bench
from app.ui.forms import Sheet, button, plain, text_field
from app.ui.roster.finder import Entry
from app.ui.words import STAGE_WORDS
from db.store import Store


class Roster(Sheet):
    """What the acts ask of the dialog they stand in."""

    bench: Bench
    store: Store
    told: QLabel

    @property
    def chosen(self) -> tuple[Entry, ...]:
        """The entries of the chosen rows; overridden."""
        return ()

    def refresh(self, keep: tuple[ClientId, ...] | None = None) -> None:
        """Read the list again, with those lines chosen; overridden."""


class RosterActs(QWidget):
    """Stage, tags, archive, copy and merge; the last change of several can be taken back."""

    def __init__(self, dialog: Roster) -> None:
        super().__init__()
        self.dialog = dialog
        self.done: list[people.Change] = []
        self.who = plain("", step="head")
        self.stage = QComboBox()
        self.stage.setMinimumHeight(32)
        self.stage.setAccessibleName(tr("Stage of the chosen"))
        for stage, word in STAGE_WORDS.items():
            self.stage.addItem(tr(word), stage.value)
        self.tags = text_field(hint=tr("add, or -take away"))
        self.tags.setAccessibleName(tr("Tags to add, parted by commas; a minus takes one away"))
        self.tag_button = button(tr("Change tags"), self.change_tags)
        self.archive_button = button(tr("Archive"), self.archive)
        self.copy_button = button(tr("Duplicate…"), self.copy)
        self.merge_button = button(tr("Merge two…"), self.merge)
        self.merge_button.setToolTip(
            tr("Two records of one person become one; choose them with Ctrl")
        )
        self.undo_button = button(tr("Undo"), self.undo)
        column = QVBoxLayout(self)
        column.setContentsMargins(0, 0, 0, 0)
        column.setSpacing(8)
        for widget in (
            self.who,
            plain(tr("Stage"), role="small"),
            self.stage,
            plain(tr("Tags"), role="small"),
            self.tags,
            self.tag_button,
            self.archive_button,
            self.copy_button,
            self.merge_button,
            self.undo_button,
        ):
            column.addWidget(widget)
        column.insertSpacing(6, 8)
        self.setFixedWidth(190)
        self.stage.activated.connect(lambda _at: self.set_stage())
        self.tags.returnPressed.connect(self.change_tags)
        self.undo_button.setEnabled(False)

    def show_chosen(self, chosen: tuple[Entry, ...]) -> None:
        """Offer what can be done with these."""
        one = chosen[0].line if len(chosen) == 1 else None
        self.who.setText(trn("{n} chosen", "{n} chosen", len(chosen)))
        for widget in (self.stage, self.tags, self.tag_button, self.archive_button):
            widget.setEnabled(bool(chosen))
        self.copy_button.setEnabled(one is not None)
        self.merge_button.setEnabled(len(chosen) == 2)
        stages = {entry.line.standing.stage for entry in chosen}
        self.stage.setCurrentIndex(
            self.stage.findData(next(iter(stages)).value) if len(stages) == 1 else -1
        )
        self.archive_button.setText(
            tr("Bring back") if self._all_archived(chosen) else tr("Archive")
        )

    @staticmethod
    def _all_archived(chosen: tuple[Entry, ...]) -> bool:
        return bool(chosen) and all(entry.line.standing.archived for entry in chosen)

    # -- acts ------------------------------------------------------------------------------

    def set_stage(self) -> None:
        """Put the chosen ones at the stage of the box."""
        stage = Stage(self.stage.currentData())
        word = tr(STAGE_WORDS[stage])
        self._change(
            people.with_stage(stage),
            lambda name: tr("Stage of {client}: {stage}", client=name, stage=word),
            lambda n: trn(
                "Stage of {n} client: {stage}", "Stage of {n} clients: {stage}", n, stage=word
            ),
        )

    def change_tags(self) -> None:
        """Add and take away the tags typed; the field is emptied once it is done."""
        words = [word.strip() for word in self.tags.text().split(",") if word.strip()]
        if not words:
            return
        add = [word for word in words if not word.startswith("-")]
        gone = [word.removeprefix("-").strip() for word in words if word.startswith("-")]
        changed = self._change(
            people.with_tags(add, gone),
            lambda name: tr("Tags of {client}", client=name),
            lambda n: trn("Tags of {n} client", "Tags of {n} clients", n),
        )
        if changed:
            self.tags.clear()

    def archive(self) -> None:
        """Put the chosen ones into the archive, or bring them back."""
        if self._all_archived(self.dialog.chosen):
            self._change(
                lambda client: replace(client, archived=False),
                lambda name: tr("Bring back {client}", client=name),
                lambda n: trn("Bring back {n} client", "Bring back {n} clients", n),
            )
        else:
            self._change(
                lambda client: replace(client, archived=True),
                lambda name: tr("Archive {client}", client=name),
                lambda n: trn("Archive {n} client", "Archive {n} clients", n),
            )

    def _change(
        self,
        edit: Callable[[Client], Client],
        of_one: Callable[[str], str],
        of_several: Callable[[int], str],
    ) -> bool:
        """Keep an edit of all chosen ones; False, with a sentence, if it cannot be.

        of_one and of_several: what the undo menu says of it, for a name and for a number.
        """
        dialog = self.dialog
        chosen = dialog.chosen
        if not chosen:
            return False
        dialog.show_error("")
        label = of_one(chosen[0].line.name) if len(chosen) == 1 else of_several(len(chosen))
        try:
            change = people.change_clients(
                dialog.bench.desk,
                dialog.store,
                [entry.line.id for entry in chosen],
                label=label,
                edit=edit,
            )
        except CoachError as error:
            dialog.show_error(error.sentence)
            dialog.refresh()
            return False
        if change.pairs:
            self._did(change)
        dialog.refresh()
        return True

    def _did(self, change: people.Change) -> None:
        self.done.append(change)
        self._offer_undo()

    def _offer_undo(self) -> None:
        self.undo_button.setEnabled(bool(self.done))
        label = self.done[-1].label if self.done else ""
        self.undo_button.setToolTip(label)
        self.undo_button.setAccessibleDescription(label)

    def undo(self) -> None:
        """Take the last change made here back."""
        if not self.done:
            return
        self.dialog.show_error("")
        change = self.done.pop()
        try:
            people.take_back(self.dialog.bench.desk, self.dialog.store, change)
        except CoachError as error:
            self.dialog.show_error(error.sentence)
        self._offer_undo()
        self.dialog.refresh()

    def copy(self) -> None:
        """Ask what to copy, and keep the copy."""
        from app.ui.roster.copy_sheet import CopySheet

        line = self.dialog.chosen[0].line
        sheet = CopySheet(self.dialog.store, line.id, line.name, self.dialog)
        if sheet.exec() == CopySheet.DialogCode.Accepted and sheet.made is not None:
            self.dialog.refresh((sheet.made.id,))

    def merge(self) -> None:
        """Show the two chosen records side by side, and make one of them."""
        from app.ui.roster.merge_dialog import MergeDialog

        first, second = (entry.line.id for entry in self.dialog.chosen)
        try:
            dialog = MergeDialog(
                self.dialog.bench, self.dialog.store, self.dialog, mine=first, other=second
            )
        except CoachError as error:
            self.dialog.show_error(error.sentence)
            return
        if dialog.exec() == MergeDialog.DialogCode.Accepted:
            self.done.clear()  # what was done before the merge cannot be put back into one record
            self._offer_undo()
            self.dialog.refresh((first, second))
            self.dialog.told.setText(dialog.told)
