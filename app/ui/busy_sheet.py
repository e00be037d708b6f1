"""A form whose verb takes a while and must not be left in the middle: it works off this thread."""

from __future__ import annotations

from collections.abc import Callable
from typing import Any, TypeVar

from PySide6.QtGui import QCloseEvent
from PySide6.QtWidgets import QProgressBar, QWidget

from app.domain.errors import CoachError
from app.ui import worker
from app.ui.forms import Sheet

T = TypeVar("T")


class BusySheet(Sheet):
    """One piece of work; until it is over the form can be neither closed nor asked again.

    said: the sentences on what was done, empty until then.
    """

    def __init__(
        self, parent: QWidget | None, title: str, *, verb: str, progress: str, about: str = ""
    ) -> None:
        super().__init__(parent, title, verb=verb, about=about)
        self.said = ""
        self._job: worker.Job[Any] | None = None
        self._done: Callable[[Any], str] = str
        self.progress = QProgressBar()
        self.progress.setAccessibleName(progress)
        self.progress.setRange(0, 0)
        self.progress.hide()
        self.column.insertWidget(self.column.indexOf(self.wrong), self.progress)

    def verbs(self) -> tuple[QWidget, ...]:
        """What cannot be pressed while the work goes on."""
        return self.keep_button, self.cancel_button

    def work(self, work: Callable[[], T], done: Callable[[T], str]) -> None:
        """Do the work; then `done` says what came of it and the form closes, or an error stands."""
        self.show_error("")
        self._done = done
        self._set_busy(worker.start(work, self._over, self._failed))

    def _over(self, result: Any) -> None:
        self._set_busy(None)
        self.said = self._done(result)
        self.accept()

    def _failed(self, error: CoachError) -> None:
        self._set_busy(None)
        self.show_error(error.sentence)

    def _set_busy(self, job: worker.Job[Any] | None) -> None:
        self._job = job
        self.progress.setVisible(job is not None)
        for verb in self.verbs():
            verb.setEnabled(job is None)

    def reject(self) -> None:
        if self._job is None:
            super().reject()

    def closeEvent(self, event: QCloseEvent) -> None:
        if self._job is not None:  # what is worked on is in use
            event.ignore()
            return
        super().closeEvent(event)
