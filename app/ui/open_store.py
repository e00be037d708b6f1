"""Opening the coach's file for a window: its passphrase, its new place, or why it cannot be."""

from __future__ import annotations

from collections.abc import Callable
from pathlib import Path

from PySide6.QtCore import Qt
from PySide6.QtWidgets import QDialog

from app.domain.errors import CoachError
from app.domain.wording import tr
from app.moved import forget_move, is_settled, moved_to, settle_move
from app.ui.forms import Sheet
from app.ui.passphrase_field import PassphraseField
from db.errors import Cause, StoreFailure
from db.passphrase import Passphrase
from db.store import Store

Open = Callable[[Passphrase], Store]


class UnlockSheet(Sheet):
    """Asks for the passphrase and opens the file with it; it stays open while that fails."""

    def __init__(self, where: Path, unlock: Open) -> None:
        super().__init__(
            None,
            tr("The file is locked"),
            verb=tr("Open"),
            about=tr("{file} opens with its passphrase only.", file=where),
        )
        self.unlock = unlock
        self.store: Store | None = None
        self.field = PassphraseField(tr("Passphrase"))
        self.row(tr("Passphrase"), self.field)
        self.setMinimumWidth(480)
        self.field.setFocus()

    def keep(self) -> None:
        """Open the file. Raises CoachError for another passphrase, and for all else amiss."""
        try:
            self.store = self.unlock(self.field.passphrase)
        except CoachError:
            self.field.edit.selectAll()
            self.field.setFocus()
            raise


def open_store(path: Path) -> Store | None:
    """The coach's file, opened as the coach answers; None, once it was said why, if it is not."""
    path = place_of(path)
    try:
        return Store.open(path)
    except StoreFailure as failure:
        if failure.cause is Cause.NEEDS_PASSPHRASE:
            return unlocked(path)
        _refuse(failure)
    except CoachError as error:
        _refuse(error)
    return None


def unlocked(path: Path) -> Store | None:
    """The locked file, opened with the passphrase that the coach types; None if cancelled."""
    sheet = UnlockSheet(path, lambda key: Store.open(path, key=key))
    return sheet.store if sheet.exec() == QDialog.DialogCode.Accepted else None


def place_of(path: Path) -> Path:
    """Where the file is: at `path`, or where it was kept since that place was lost."""
    new = moved_to(path)
    if new is None:
        return path
    if not path.exists() or is_settled(path):
        return new
    if ask_new(path, new):
        settle_move(path)
        return new
    forget_move(path)
    return path


def ask_new(old: Path, new: Path) -> bool:
    """True if the coach wants the file at its new place."""
    from PySide6.QtWidgets import QMessageBox

    box = QMessageBox(
        QMessageBox.Icon.Question,
        "Weekloom",
        tr(
            "The file could not be written to last time, and is kept at another place since then. "
            "Which one do you want to open?"
        ),
    )
    box.setTextFormat(Qt.TextFormat.PlainText)
    box.setInformativeText(tr("New place: {new}\nOld place: {old}", new=new, old=old))
    newer = box.addButton(tr("The new place"), QMessageBox.ButtonRole.AcceptRole)
    box.addButton(tr("The old place"), QMessageBox.ButtonRole.RejectRole)
    box.setDefaultButton(newer)
    box.exec()
    return box.clickedButton() is newer


def _refuse(error: CoachError) -> None:
    from PySide6.QtWidgets import QMessageBox

    box = QMessageBox(QMessageBox.Icon.Critical, "Weekloom", error.sentence)
    box.setTextFormat(Qt.TextFormat.PlainText)
    box.exec()
