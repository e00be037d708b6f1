"""Taking in a whole export in the place of the open file."""

from __future__ import annotations

from pathlib import Path

from PySide6.QtGui import QCloseEvent
from PySide6.QtWidgets import QProgressBar, QWidget

from app.desk import Desk
from app.domain.errors import CoachError
from app.domain.wording import tr, trn
from app.ui import worker
from app.ui.forms import Sheet, Wrapped
from app.whole import TakenIn, import_whole
from db.store import Store


class TakeInSheet(Sheet):
    """Says what it would do, and does it off this thread.

    said: the sentences on what was done, empty until then.
    """

    def __init__(self, desk: Desk, store: Store, source: Path, parent: QWidget | None) -> None:
        super().__init__(
            parent, tr("Take in a whole export"), verb=tr("Take it in"), about=str(source)
        )
        self.desk, self.store, self.source = desk, store, source
        self.said = ""
        self._job: worker.Job[TakenIn] | None = None
        self.body.addWidget(
            Wrapped(
                tr(
                    "What the export holds takes the place of everything in your file. Your file "
                    "as it is now is put aside as a copy first. Undo does not reach across it."
                )
            )
        )
        self.progress = QProgressBar()
        self.progress.setRange(0, 0)
        self.progress.setAccessibleName(tr("Taking in"))
        self.progress.hide()
        self.body.addWidget(self.progress)
        self.setMinimumWidth(520)
        self.cancel_button.setFocus()

    def try_keep(self) -> None:
        """Start; the sheet closes when it is done."""
        self.show_error("")
        self._busy(working=True)
        self._job = worker.start(self._taken_in, self._done, self._failed)

    def _taken_in(self) -> TakenIn:
        assert self.store.path is not None
        done = import_whole(self.source, self.store.path, key=self.store.key, replacing=True)
        self.store.open_again()
        return done

    def _busy(self, *, working: bool) -> None:
        self.progress.setVisible(working)
        for verb in (self.keep_button, self.cancel_button):
            verb.setEnabled(not working)

    def _done(self, done: TakenIn) -> None:
        self._job = None
        self._busy(working=False)
        self.desk.close()
        self.desk.forget_all_steps()
        self.said = _summary(done)
        self.accept()

    def _failed(self, error: CoachError) -> None:
        self._job = None
        self._busy(working=False)
        self.show_error(error.sentence)

    def reject(self) -> None:
        if self._job is None:
            super().reject()

    def closeEvent(self, event: QCloseEvent) -> None:
        if self._job is not None:  # the store is in use by the job
            event.ignore()
            return
        super().closeEvent(event)


def _summary(done: TakenIn) -> str:
    parts = [trn("The file now holds {n} client.", "The file now holds {n} clients.", done.clients)]
    if done.aside is not None:
        parts.append(tr("The file as it was: {place}.", place=done.aside))
    if done.pictures_left:
        parts.append(
            trn(
                "{n} picture could not be written.",
                "{n} pictures could not be written.",
                done.pictures_left,
            )
        )
    parts.append(tr("Own exercises and ranges show after the next start."))
    return " ".join(parts)
