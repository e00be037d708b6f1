"""Locking the whole file with a passphrase, changing it, taking the lock away."""

from __future__ import annotations

from PySide6.QtGui import QCloseEvent
from PySide6.QtWidgets import QButtonGroup, QCheckBox, QProgressBar, QRadioButton, QWidget

from app.domain.errors import CoachError
from app.domain.wording import tr, trn
from app.locking import Changed, change_lock, copies_of, require_new, require_present
from app.ui import worker
from app.ui.forms import Sheet, Wrapped
from app.ui.passphrase_field import PassphraseField
from db.passphrase import LEAST_LETTERS, Passphrase
from db.store import Store


class LockSheet(Sheet):
    """Asks for the passphrases and does it off this thread; open until it is done or refused.

    said: the sentence on what was done, empty until then.
    """

    def __init__(self, store: Store, parent: QWidget | None) -> None:
        self.locked = store.key is not None
        super().__init__(
            parent,
            tr("The passphrase of the file") if self.locked else tr("Lock the file"),
            verb=tr("Change it") if self.locked else tr("Lock it"),
            about=tr("Everything in the file is then readable with the passphrase only."),
        )
        self.store = store
        self.said = ""
        self._job: worker.Job[Changed] | None = None
        warning = Wrapped(
            tr(
                "Nobody can open the file without it: a forgotten passphrase cannot be found out, "
                "and nothing in the file can be brought back. Write it down and keep the paper "
                "where you keep your papers of value."
            ),
            role="wrong",
        )
        self.column.insertWidget(2, warning)
        self.present = PassphraseField(tr("Passphrase now"))
        self.first = PassphraseField(tr("New passphrase"))
        self.second = PassphraseField(tr("The same again"), follow=self.first)
        self.change = QRadioButton(tr("Another passphrase"))
        self.remove = QRadioButton(tr("No lock: the file can be read by whoever gets hold of it"))
        self._build_form()
        self.copies = QCheckBox()
        self.copies.setMinimumHeight(24)
        self._build_copies()
        self.progress = QProgressBar()
        self.progress.setAccessibleName(tr("Files done"))
        self.progress.hide()
        self.body.addWidget(self.progress)
        self.setMinimumWidth(560)
        (self.present if self.locked else self.first).setFocus()

    def _build_form(self) -> None:
        if self.locked:
            self.row(tr("Passphrase now"), self.present)
            group = QButtonGroup(self)
            for choice in (self.change, self.remove):
                choice.setMinimumHeight(24)
                group.addButton(choice)
                self.form.addRow("", choice)
            self.change.setChecked(True)
            self.remove.toggled.connect(self._chosen)
        else:
            self.present.hide()
            self.present.setParent(self)
        self.row(tr("New passphrase"), self.first)
        self.row(tr("The same again"), self.second)
        hint = tr(
            "At least {n} letters. Four or more unrelated words are easy to keep in mind and hard "
            "to guess.",
            n=LEAST_LETTERS,
        )
        self.form.addRow(Wrapped(hint, role="small", step="small"))

    def _build_copies(self) -> None:
        number = len(copies_of(self.store))
        self.copies.setText(
            trn("Also the copy beside the file", "Also the {n} copies beside the file", number)
        )
        self.copies.setChecked(True)
        self.copies.setVisible(number > 0)
        self.body.addWidget(self.copies)
        self.body.addWidget(
            Wrapped(
                tr(
                    "Pictures of check-ins are locked with it. Booklets and files that you saved "
                    "stay readable. So may parts of old files that the disk has not written over "
                    "yet: the encryption of your computer covers those."
                ),
                role="small",
                step="small",
            )
        )

    def _chosen(self, removing: bool) -> None:
        for field in (self.first, self.second):
            field.setEnabled(not removing)
        self.keep_button.setText(tr("Take the lock away") if removing else tr("Change it"))

    def try_keep(self) -> None:
        """Check what was typed and start; the sheet closes when it is done."""
        self.show_error("")
        try:
            new = self._wanted()
        except CoachError as error:
            self.show_error(error.sentence)
            return
        copies = self.copies.isChecked() and bool(copies_of(self.store))
        self._busy(working=True)
        self._job = worker.start(
            lambda: change_lock(self.store, new, copies=copies),
            lambda changed: self._done(changed, locked=new is not None),
            self._failed,
        )

    def _wanted(self) -> Passphrase | None:
        if self.locked:
            require_present(self.store, self.present.passphrase)
            if self.remove.isChecked():
                return None
        return require_new(self.first.text, self.second.text)

    def _busy(self, *, working: bool) -> None:
        self.progress.setRange(0, 0)
        self.progress.setVisible(working)
        for widget in (self.keep_button, self.cancel_button, self.copies):
            widget.setEnabled(not working)

    def _done(self, changed: Changed, *, locked: bool) -> None:
        self._job = None
        self._busy(working=False)
        parts = [
            tr("The file is locked with its passphrase.")
            if locked
            else tr("The file has no lock any more.")
        ]
        if changed.copies:
            parts.append(trn("So is {n} copy.", "So are {n} copies.", changed.copies))
        if changed.left:
            names = ", ".join(path.name for path in changed.left)
            parts.append(tr("These copies stayed as they were: {names}.", names=names))
        if changed.pictures_left:
            parts.append(
                trn(
                    "{n} file of pictures could not be removed and lies in the folder as before; "
                    "Weekloom tries again when it is closed.",
                    "{n} files of pictures could not be removed and lie in the folder as before; "
                    "Weekloom tries again when it is closed.",
                    changed.pictures_left,
                )
            )
        self.said = " ".join(parts)
        self._empty()
        self.accept()

    def _failed(self, error: CoachError) -> None:
        self._job = None
        self._busy(working=False)
        self.show_error(error.sentence)

    def _empty(self) -> None:
        for field in (self.present, self.first, self.second):
            field.clear()

    def reject(self) -> None:
        if self._job is None:
            self._empty()
            super().reject()

    def closeEvent(self, event: QCloseEvent) -> None:
        if self._job is not None:  # the store is in use by the job
            event.ignore()
            return
        super().closeEvent(event)
