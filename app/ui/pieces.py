"""Work on values that the window holds, done in small pieces between events.

For what another thread must not look at, such as the memory of the checks: the window answers after
each piece.
"""

from __future__ import annotations

from collections.abc import Iterator
from time import monotonic

from PySide6.QtCore import QObject, QTimer

PIECE_S = 0.01
"""How long one piece may hold the window, unless a single step takes longer."""


class Pieces(QObject):
    """One work at a time; every `yield` of it is a place where the window may answer."""

    def __init__(self, parent: QObject) -> None:
        super().__init__(parent)
        self._work: Iterator[None] | None = None
        self._timer = QTimer(self, interval=0)
        self._timer.timeout.connect(self._go_on)

    @property
    def is_busy(self) -> bool:
        """True until the work is done."""
        return self._work is not None

    def begin(self, work: Iterator[None]) -> None:
        """Do that, and no longer what was being done."""
        self._work = work
        self._timer.start()

    def stop(self) -> None:
        """Leave the work undone."""
        self._work = None
        self._timer.stop()

    def finish(self) -> None:
        """Do at once what is left."""
        while self._work is not None:
            self._go_on()

    def _go_on(self) -> None:
        until = monotonic() + PIECE_S
        work = self._work
        while work is not None and work is self._work and monotonic() < until:
            try:
                next(work)
            except StopIteration:
                if work is self._work:  # its end may have begun another
                    self.stop()
            except BaseException:
                self.stop()
                raise
