"""Long work off the GUI thread: a function that returns a value, and what to do with it."""

from __future__ import annotations

from collections.abc import Callable
from typing import Generic, TypeVar

from PySide6.QtCore import QObject, QRunnable, QThreadPool, Signal
from shiboken6 import isValid

from app.domain.errors import CoachError

T = TypeVar("T")

_running: set[QRunnable] = set()
"""Jobs that are not over: somebody may let go of one while the pool still has it."""


class _Signals(QObject):
    done = Signal(object)
    failed = Signal(object)
    over = Signal()


class Job(QRunnable, Generic[T]):
    """One piece of work; `cancel` makes its result be dropped.

    done(value) and failed(error) arrive in the thread that made the job.
    """

    def __init__(self, work: Callable[[], T]) -> None:
        super().__init__()
        self.work = work
        self.signals = _Signals()
        self.cancelled = False
        self.setAutoDelete(False)

    def cancel(self) -> None:
        """Drop the result, whatever it is."""
        self.cancelled = True

    def run(self) -> None:
        """Do the work; called by the pool."""
        try:
            value = self.work()
        except CoachError as error:
            self._tell(self.signals.failed, error)
        except Exception as error:  # noqa: BLE001 - carried over to the thread that asked
            self._tell(self.signals.failed, error)
        else:
            self._tell(self.signals.done, value)
        finally:
            if isValid(self.signals):
                self.signals.over.emit()

    def _tell(self, signal: object, value: object) -> None:
        if not self.cancelled and isValid(self.signals):  # the program may have ended meanwhile
            signal.emit(value)  # type: ignore[attr-defined]


def start(
    work: Callable[[], T], done: Callable[[T], object], failed: Callable[[CoachError], object]
) -> Job[T]:
    """Start the work; the job that is returned can be dropped or cancelled at any time.

    An error that is not the coach's is raised again in the GUI thread, where the last resort
    catches it.
    """
    job = Job(work)

    def on_done(value: T) -> None:
        if not job.cancelled and not _is_gone(done):  # it may have been on its way already
            done(value)

    def on_failed(error: Exception) -> None:
        if job.cancelled or (isinstance(error, CoachError) and _is_gone(failed)):
            return
        if not isinstance(error, CoachError):
            raise error
        failed(error)

    def on_over() -> None:
        _running.discard(job)

    _running.add(job)
    job.signals.over.connect(on_over)
    job.signals.done.connect(on_done)
    job.signals.failed.connect(on_failed)
    QThreadPool.globalInstance().start(job)
    return job


def _is_gone(callback: Callable[..., object]) -> bool:
    """True for a method of a window that was closed and deleted while the work went on."""
    owner = getattr(callback, "__self__", None)
    return isinstance(owner, QObject) and not isValid(owner)
