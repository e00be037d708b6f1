"""Watches how long the thread that paints is held, and by what. Off unless it is asked for.

An application that is watched notes every stretch from the moment Qt hands it an event until it
has dealt with it. A loop inside a loop (a dialog, a drag) ends one stretch and begins others, so
that waiting for somebody never counts. While a long stretch lasts, a timer signal looks where in
our code it is: in the painting thread itself, since a frame held by another thread would let Qt's
objects die there.
"""

from __future__ import annotations

import atexit
import logging
import signal
import threading
import traceback
from collections.abc import Callable, Iterable
from dataclasses import dataclass, replace
from time import perf_counter, thread_time
from types import FrameType

from PySide6.QtCore import QEvent, QObject, QThread, QTimer
from PySide6.QtWidgets import QApplication

log = logging.getLogger(__name__)

STEP_MS = 8.0
"""What one stretch of a drag may take: a 120 Hz frame."""

HELD_MS = 100.0
"""What any other stretch may take: longer work belongs to a worker, with progress."""

LOOK_EVERY_S = 0.02
MOST_KEPT = 200_000


@dataclass(frozen=True, slots=True)
class Stretch:
    """Work between two moments at which the window could answer.

    what: who was told what, 'WeekGrid DragMove'; held_ms: by the clock; worked_ms: what the
    processor spent on it; carrying: during a drag; where: our line that was seen at work, if it
    lasted long enough to be looked at.
    """

    what: str
    held_ms: float
    worked_ms: float
    carrying: bool = False
    where: str = ""

    @property
    def line(self) -> str:
        """One line for a report."""
        return f"{self.held_ms:7.1f} ms ({self.worked_ms:.1f} at work) {self.what} {self.where}"


@dataclass(frozen=True, slots=True)
class Spread:
    """How long stretches were: how many, and the 50th and 95th of 100 and the longest, ms."""

    count: int
    p50: float
    p95: float
    longest: float

    @property
    def line(self) -> str:
        """One line for a report."""
        return (
            f"{self.count} stretches, p50 {self.p50:.2f}, p95 {self.p95:.2f}, "
            f"max {self.longest:.2f} ms"
        )


def spread(times_ms: Iterable[float]) -> Spread:
    """The spread of times; zeros where there are none."""
    ranked = sorted(times_ms)
    if not ranked:
        return Spread(0, 0.0, 0.0, 0.0)
    p50, p95 = (ranked[min(len(ranked) - 1, int(part * len(ranked)))] for part in (0.5, 0.95))
    return Spread(len(ranked), p50, p95, ranked[-1])


@dataclass(slots=True)
class _Open:
    level: int
    what: str
    began: float
    worked: float
    inner: int = 0
    waits: bool = False  # an inner loop has run: until it ends, time passes without work


class Watchdog:
    """Stretches as they end.

    level: how many event loops run inside each other; clock and work in seconds.
    """

    def __init__(
        self,
        level: Callable[[], int],
        *,
        clock: Callable[[], float] = perf_counter,
        work: Callable[[], float] = thread_time,
    ) -> None:
        self._level, self._clock, self._work = level, clock, work
        self._open: list[_Open] = []
        self._where = ""
        self.stretches: list[Stretch] = []
        self.is_carrying: Callable[[], bool] = bool
        """True while something is dragged; said by whoever knows."""

    def enter(self, what: Callable[[], str]) -> None:
        """Qt hands over an event; `what` names it if it begins a stretch."""
        level = self._level()
        if self._open and level <= self._open[-1].level:
            self._open[-1].inner += 1
            return
        if self._open and not self._open[-1].waits:
            self._note(self._open[-1])  # what led to the inner loop
        self._open.append(_Open(level, what(), self._clock(), self._work()))

    def leave(self) -> None:
        """The event was dealt with."""
        last = self._open[-1]
        if last.inner:
            last.inner -= 1
            return
        self._note(self._open.pop())
        if self._open:  # back in the outer loop's event, which goes on from here
            outer = self._open[-1]
            outer.began, outer.worked, outer.waits = self._clock(), self._work(), True

    def _note(self, ended: _Open) -> None:
        held, worked = self._clock() - ended.began, self._work() - ended.worked
        if len(self.stretches) < MOST_KEPT:
            found = Stretch(ended.what, 1000 * held, 1000 * worked, self.is_carrying())
            self.stretches.append(replace(found, where=self._where) if self._where else found)
        self._where = ""

    @property
    def held_s(self) -> float:
        """How long the present stretch has lasted; 0 without one."""
        return self._clock() - self._open[-1].began if self._open else 0.0

    def saw(self, where: str) -> None:
        """Remember where the present stretch was seen at work."""
        self._where = where

    def too_long(self) -> tuple[Stretch, ...]:
        """Stretches outside a drag that held the window over `HELD_MS`, the longest first."""
        found = [s for s in self.stretches if not s.carrying and s.held_ms > HELD_MS]
        return tuple(sorted(found, key=lambda stretch: -stretch.held_ms))

    def report(self) -> str:
        """Spreads of drags and of the rest, and the stretches that were too long."""
        drag, rest = (
            spread(s.held_ms for s in self.stretches if s.carrying is carrying)
            for carrying in (True, False)
        )
        lines = [f"carrying: {drag.line}", f"otherwise: {rest.line}"]
        return "\n".join((*lines, *(stretch.line for stretch in self.too_long())))


class WatchedApplication(QApplication):
    """An application that tells its watchdog of every event."""

    def __init__(self, arguments: list[str]) -> None:
        self._gui = 0  # Qt hands over the first events while the application is being made
        super().__init__(arguments)
        self.watchdog = Watchdog(QThread.currentThread().loopLevel)
        self._gui = threading.get_ident()
        if hasattr(signal, "setitimer"):  # else stretches are told without a place
            signal.signal(signal.SIGALRM, self._look)
            signal.setitimer(signal.ITIMER_REAL, LOOK_EVERY_S, LOOK_EVERY_S)
            # Python forgets its handlers at the end, and the signal would then end the process
            atexit.register(signal.setitimer, signal.ITIMER_REAL, 0)

    def notify(self, receiver: QObject, event: QEvent) -> bool:
        if threading.get_ident() != self._gui:
            return super().notify(receiver, event)
        self.watchdog.enter(lambda: _name_of(receiver, event))
        try:
            return super().notify(receiver, event)
        finally:
            self.watchdog.leave()

    def _look(self, _number: int, frame: FrameType | None) -> None:
        if self.watchdog.held_s > HELD_MS / 2000:
            seen = [f for f in traceback.extract_stack(frame) if _is_ours(f.filename)]
            self.watchdog.saw(" < ".join(f"{f.name}:{f.lineno}" for f in reversed(seen[-4:])))


def _name_of(receiver: QObject, event: QEvent) -> str:
    """'WeekGrid DragMove'; a timer is named by whose it is."""
    whose = receiver.parent() if isinstance(receiver, QTimer) else None
    owner = "" if whose is None else f"{type(whose).__name__}'s "
    return f"{owner}{type(receiver).__name__} {event.type().name}"


def _is_ours(filename: str) -> bool:
    parts = filename.replace("\\", "/").split("/")
    return ("app" in parts or "db" in parts) and not filename.endswith("watchdog.py")


def tell(application: QApplication) -> None:
    """Write what a watched application saw to the log; nothing for another."""
    if isinstance(application, WatchedApplication):
        log.info("watchdog\n%s", application.watchdog.report())
