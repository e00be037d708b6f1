"""A dialog that does one thing after the other: what is ticked, how far it is, and a summary."""

from __future__ import annotations

from collections import deque
from collections.abc import Callable, Iterable
from typing import Any

from PySide6.QtCore import QTimer
from PySide6.QtWidgets import QProgressBar, QWidget

from app.domain.wording import tr, trn
from app.ui import worker
from app.ui.bench import Bench
from app.ui.forms import Sheet, Wrapped, button
from app.ui.tick_list import TickList


class InTurn(Sheet):
    """Steps that are begun one by one; a step ends by saying `step_over`, whenever that is.

    The next one waits for the event loop, so that a thousand that fail at once neither hold the
    window nor pile up. While they run, closing means to stop after the step that is being done.
    """

    def __init__(
        self, bench: Bench, parent: QWidget | None, title: str, *, verb: str, about: str = ""
    ) -> None:
        super().__init__(parent, title, verb=verb, about=about)
        self.bench = bench
        self.running = self.stopping = False
        self.job: worker.Job[Any] | None = None
        self._steps: deque[Callable[[], object]] = deque()
        self._next = QTimer(self)
        self._next.setSingleShot(True)
        self._next.timeout.connect(self._go_on)
        self.finished.connect(lambda _result: self._let_go())
        self.cancel_button.setText(tr("Close"))
        self.stop_button = button(tr("Stop"), self.stop)
        self.stop_button.setEnabled(False)
        self.foot.insertWidget(self.foot.indexOf(self.cancel_button), self.stop_button)

    def add_list(self, ticks: TickList[Any], *, progress: str) -> None:
        """Put the list into the dialog, with what is said of it under it."""
        self.ticks = ticks
        self.body.addWidget(ticks, 1)
        self.progress = QProgressBar()
        self.progress.setAccessibleName(progress)
        self.progress.setTextVisible(False)
        self.progress.hide()
        self.body.addWidget(self.progress)
        self.summary = Wrapped()
        self.summary.setAccessibleName(tr("What was done"))
        self.summary.hide()
        self.body.addWidget(self.summary)
        ticks.model.ticks_changed.connect(self.say)

    # -- overridden ------------------------------------------------------------------------

    def held(self) -> tuple[QWidget, ...]:
        """What cannot be changed while steps run, beside the list."""
        return ()

    def say(self) -> None:
        """Say on the verb what would be done."""

    def summed_up(self) -> list[str]:
        """Sentences on how the steps went."""
        return []

    def after_all(self) -> None:
        """What follows once the steps are over."""

    # -- steps -----------------------------------------------------------------------------

    def begin(self, steps: Iterable[Callable[[], object]]) -> None:
        """Do the steps; the first one at once."""
        self._steps = deque(steps)
        self.progress.setRange(0, len(self._steps))
        self.progress.setValue(0)
        self.progress.show()
        self.summary.hide()
        self._set_running(True)
        self._go_on()

    def step_over(self) -> None:
        """Go on to the next step."""
        self.progress.setValue(self.progress.value() + 1)
        self._next.start()

    def _go_on(self) -> None:
        if self._steps and not self.stopping:
            self._steps.popleft()()
        else:
            self._end()

    def _end(self) -> None:
        said = self.summed_up()
        if self._steps:
            said.append(trn("{n} was not begun.", "{n} were not begun.", len(self._steps)))
        self.summary.setText(" ".join(said))
        self.summary.show()
        self.bench.said.emit(" ".join(said))
        self._set_running(False)
        self.after_all()

    def _set_running(self, on: bool) -> None:
        self.running, self.stopping = on, False
        self.stop_button.setEnabled(on)
        self.cancel_button.setEnabled(not on)
        for part in (self.ticks, *self.held()):
            part.setEnabled(not on)
        self.say()

    def stop(self) -> None:
        """Begin no more after the step that is being done."""
        self.stopping = True
        self.stop_button.setEnabled(False)

    def reject(self) -> None:
        """Close, but not in the middle of it."""
        if self.running:
            self.stop()
            return
        super().reject()

    def _let_go(self) -> None:
        if self.job is not None:
            self.job.cancel()
