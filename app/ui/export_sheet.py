"""Writing a large export off the window's thread, with progress and a way to stop."""

from __future__ import annotations

from collections.abc import Callable
from pathlib import Path

from PySide6.QtGui import QCloseEvent
from PySide6.QtWidgets import QProgressBar, QWidget

from app.domain.errors import CoachError
from app.domain.wording import tr
from app.ui import worker
from app.ui.forms import Sheet

Write = Callable[[Callable[[], bool]], object]
"""The work: it is given what to ask whether it was called off."""


class ExportSheet(Sheet):
    """Shows that a file is being written, and what went wrong if it could not be.

    given: what the work gave, None until then.
    """

    def __init__(self, title: str, about: str, work: Write, parent: QWidget | None) -> None:
        super().__init__(parent, title, verb=tr("Try again"), about=about)
        self.work = work
        self.given: object = None
        self.stopped = False
        self._job: worker.Job[object] | None = None
        self.progress = QProgressBar()
        self.progress.setRange(0, 0)
        self.progress.setAccessibleName(title)
        self.body.addWidget(self.progress)
        self.setMinimumWidth(460)
        self.try_keep()

    def try_keep(self) -> None:
        """Start, or start once more."""
        self.show_error("")
        self.stopped = False
        self.progress.show()
        self.keep_button.hide()
        self.cancel_button.setText(tr("Stop"))
        self.cancel_button.setEnabled(True)
        self._job = worker.start(
            lambda: self.work(lambda: self.stopped), self._written, self._failed
        )

    def _written(self, value: object) -> None:
        self._job = None
        if self.stopped:
            super().reject()
            return
        self.given = value
        self.accept()

    def _failed(self, error: CoachError) -> None:
        self._job = None
        self.progress.hide()
        if self.stopped:
            super().reject()
            return
        self.show_error(error.sentence)
        self.keep_button.show()
        self.cancel_button.setText(tr("Close"))
        self.cancel_button.setEnabled(True)

    def reject(self) -> None:
        if self._job is None:
            super().reject()
            return
        self.stopped = True  # the sheet closes when the work has let go of the file
        self.cancel_button.setEnabled(False)

    def closeEvent(self, event: QCloseEvent) -> None:
        if self._job is not None:
            event.ignore()
            self.reject()
            return
        super().closeEvent(event)


def with_ending(chosen: str, ending: str) -> Path:
    """The path that was chosen, with the ending it should have."""
    path = Path(chosen)
    return path if path.suffix else path.with_name(path.name + ending)
