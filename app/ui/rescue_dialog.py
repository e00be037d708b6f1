"""The file was lost in mid-edit or while it was read: what happened, and another place for all.

The window stays as it is meanwhile, with what did not get through still to be done.
"""

from __future__ import annotations

from contextlib import suppress
from pathlib import Path

from PySide6.QtCore import QStandardPaths, QTimer
from PySide6.QtGui import QCloseEvent
from PySide6.QtWidgets import QDialog, QFileDialog, QProgressBar, QWidget

from app.domain.errors import CoachError
from app.domain.wording import tr
from app.moved import note_move
from app.rescue import carry_pictures
from app.ui import worker
from app.ui.forms import Sheet, Wrapped, button, tell
from db.elsewhere import Held
from db.errors import StoreFailure
from db.store import Store


class RescueDialog(Sheet):
    """Says why an edit was not kept, or something could not be read, and offers another place.

    written: where everything is now, None while it is not; whole: False if only what was held in
    memory could be written there; again: True if the old place is to be tried again.
    """

    def __init__(
        self, store: Store, held: Held, failure: StoreFailure, parent: QWidget | None
    ) -> None:
        super().__init__(
            parent,
            tr("The file is out of reach")
            if failure.reading
            else tr("The last edit is not kept yet"),
            verb=tr("Keep it elsewhere…"),
        )
        self.store, self.held = store, held
        self.written: Path | None = None
        self.whole = True
        self.again = False
        self._job: worker.Job[bool] | None = None
        self.body.addWidget(Wrapped(failure.sentence))
        self.body.addWidget(
            Wrapped(
                tr(
                    "All that was open is still on the screen, and every edit is kept. Try again "
                    "once the place is back, or choose another one: what can still be read is "
                    "written there, or else what was open since the start, and Weekloom goes on "
                    "with it."
                )
                if failure.reading
                else tr(
                    "Everything is still on the screen. Choose another place: the whole file is "
                    "written there, with this edit, and Weekloom goes on with it. The old file "
                    "stays as it is."
                )
            )
        )
        self.progress = QProgressBar()
        self.progress.setRange(0, 0)
        self.progress.setAccessibleName(tr("Writing the file"))
        self.progress.hide()
        self.body.addWidget(self.progress)
        self.again_button = button(tr("Try the old place again"), self.try_again)
        self.foot.insertWidget(1, self.again_button)
        self.cancel_button.setText(tr("Not now"))
        self.cancel_button.setToolTip(
            tr("What was asked for is not shown; what is on the screen stays.")
            if failure.reading
            else tr("The edit is not made; what was kept before stays.")
        )
        self.setMinimumWidth(560)
        self.keep_button.setFocus()

    def try_again(self) -> None:
        """Close, and let the old place be tried again."""
        self.again = True
        self.accept()

    def try_keep(self) -> None:
        """Ask for the place and write everything there; the dialog stays open if that fails."""
        self.show_error("")
        chosen, _ = QFileDialog.getSaveFileName(
            self,
            tr("Keep it elsewhere"),
            str(suggested(self.store.path)),
            tr("Weekloom files (*.db *.weekloom);;All files (*)"),
            options=QFileDialog.Option.DontConfirmOverwrite,
        )
        if chosen:
            self.write_to(Path(chosen))

    def write_to(self, target: Path) -> None:
        """Write everything to a new file at `target`, off this thread."""
        if not target.suffix:
            target = target.with_name(f"{target.name}.db")
        self._busy(writing=True)
        self._job = worker.start(
            lambda: self._written(target),
            lambda whole: self._done(target, whole=whole),
            self._failed,
        )

    def _written(self, target: Path) -> bool:
        old = self.store.path
        whole = self.store.keep_elsewhere(target, self.held)
        if old is not None:
            carry_pictures(old, target, key=self.store.key)
        return whole

    def _busy(self, *, writing: bool) -> None:
        self.progress.setVisible(writing)
        for verb in (self.keep_button, self.cancel_button, self.again_button):
            verb.setEnabled(not writing)

    def _done(self, target: Path, *, whole: bool) -> None:
        self._job = None
        self._busy(writing=False)
        self.written, self.whole = target, whole
        self.accept()

    def _failed(self, error: CoachError) -> None:
        self._job = None
        self._busy(writing=False)
        self.show_error(error.sentence)
        self.keep_button.setFocus()

    def reject(self) -> None:
        if self._job is None:
            super().reject()

    def closeEvent(self, event: QCloseEvent) -> None:
        if self._job is not None:  # the store is in use by the job
            event.ignore()
            return
        super().closeEvent(event)


def suggested(path: Path | None) -> Path:
    """A free name among the user's documents."""
    found = QStandardPaths.writableLocation(QStandardPaths.StandardLocation.DocumentsLocation)
    folder = Path(found) if found else Path.home()
    if not folder.is_dir():
        folder = Path.home()
    name = Path("weekloom.db") if path is None else path
    made, number = folder / name.name, 2
    while made.exists():
        made, number = folder / f"{name.stem} {number}{name.suffix}", number + 1
    return made


def rescue(store: Store, held: Held, failure: StoreFailure, parent: QWidget) -> bool:
    """Offers another place for the file; True if the edit or read should be tried again."""
    old = store.path
    dialog = RescueDialog(store, held, failure, parent)
    if dialog.exec() != QDialog.DialogCode.Accepted:
        return False
    if dialog.again and failure.reading:
        with suppress(CoachError):  # the read itself says it if it is not back
            store.reach_again()
    if dialog.written is not None:
        noted = old is not None and note_move(old, dialog.written)
        sentence = _where(dialog.written, whole=dialog.whole, noted=noted)
        # once the edit is made again, not before
        QTimer.singleShot(0, parent, lambda: tell(parent, tr("Kept elsewhere"), sentence))
    return True


def _where(written: Path, *, whole: bool, noted: bool) -> str:
    parts = [tr("Everything is kept in {place} from now on.", place=written)]
    if not whole:
        parts = [
            tr(
                "The old file could not be read any more. What was open or edited since the start "
                "is kept in {place}; the other clients are in the old file and its copies.",
                place=written,
            )
        ]
    if noted:
        parts.append(tr("The next start opens it there; if the old one is back, it asks."))
    else:
        parts.append(tr("Open it next time with: weekloom --file {place}", place=written))
    return " ".join(parts)
