"""Long work off the window's thread: its value or its error comes back, unless nobody waits."""

from __future__ import annotations

import gc
import threading
from collections.abc import Iterator

import pytest
import shiboken6
from PySide6.QtCore import QCoreApplication, QObject, QThreadPool
from pytestqt.exceptions import capture_exceptions
from pytestqt.qtbot import QtBot

from app.domain.errors import CoachError
from app.ui import worker

WAIT_MS = 10_000


class Heard:
    """What came back, and on which thread."""

    def __init__(self) -> None:
        self.values: list[object] = []
        self.errors: list[CoachError] = []
        self.threads: set[threading.Thread] = set()

    def done(self, value: object) -> None:
        self.threads.add(threading.current_thread())
        self.values.append(value)

    def failed(self, error: CoachError) -> None:
        self.threads.add(threading.current_thread())
        self.errors.append(error)


@pytest.fixture
def heard(qtbot: QtBot) -> Iterator[Heard]:
    yield Heard()
    assert QThreadPool.globalInstance().waitForDone(WAIT_MS)
    QCoreApplication.processEvents()


def test_the_value_comes_back_to_the_thread_that_asked(qtbot: QtBot, heard: Heard) -> None:
    worked_on: list[threading.Thread] = []

    def work() -> int:
        worked_on.append(threading.current_thread())
        return 42

    job = worker.start(work, heard.done, heard.failed)
    qtbot.waitUntil(lambda: bool(heard.values), timeout=WAIT_MS)
    assert heard.values == [42]
    assert heard.threads == {threading.current_thread()}
    assert worked_on != [threading.current_thread()]
    assert not job.cancelled


def test_nothing_is_a_value_as_well(qtbot: QtBot, heard: Heard) -> None:
    worker.start(lambda: None, heard.done, heard.failed)
    qtbot.waitUntil(lambda: bool(heard.values), timeout=WAIT_MS)
    assert heard.values == [None]


def test_a_coachs_error_comes_back_as_it_was(qtbot: QtBot, heard: Heard) -> None:
    error = CoachError("The booklet has no page.", mend="Choose other weeks.")

    def work() -> None:
        raise error

    worker.start(work, heard.done, heard.failed)
    qtbot.waitUntil(lambda: bool(heard.errors), timeout=WAIT_MS)
    assert heard.errors == [error]
    assert heard.threads == {threading.current_thread()}
    assert not heard.values


def test_an_error_of_ours_reaches_the_last_resort(qtbot: QtBot, heard: Heard) -> None:
    def work() -> None:
        raise ZeroDivisionError

    with capture_exceptions() as caught:
        worker.start(work, heard.done, heard.failed)
        qtbot.waitUntil(lambda: bool(caught), timeout=WAIT_MS)
    assert [kind for kind, _, _ in caught] == [ZeroDivisionError]
    assert not heard.values
    assert not heard.errors


@pytest.mark.parametrize("error", [None, CoachError("No."), ZeroDivisionError()])
def test_cancelled_while_it_runs_nothing_comes_back(heard: Heard, error: Exception | None) -> None:
    running, go_on = threading.Event(), threading.Event()

    def work() -> int:
        running.set()
        assert go_on.wait(WAIT_MS / 1000)
        if error is not None:
            raise error
        return 1

    job = worker.start(work, heard.done, heard.failed)
    assert running.wait(WAIT_MS / 1000)
    job.cancel()
    go_on.set()
    assert QThreadPool.globalInstance().waitForDone(WAIT_MS)
    QCoreApplication.processEvents()
    assert not heard.values
    assert not heard.errors


@pytest.mark.parametrize("error", [None, CoachError("No."), ZeroDivisionError()])
def test_cancelled_when_it_is_done_but_not_yet_told_nothing_comes_back(
    heard: Heard, error: Exception | None
) -> None:
    def work() -> int:
        if error is not None:
            raise error
        return 1

    job = worker.start(work, heard.done, heard.failed)
    assert QThreadPool.globalInstance().waitForDone(WAIT_MS)
    job.cancel()
    QCoreApplication.processEvents()
    assert not heard.values
    assert not heard.errors


def test_a_job_that_nobody_keeps_is_kept_until_it_is_over(qtbot: QtBot, heard: Heard) -> None:
    may = threading.Event()
    worker.start(lambda: may.wait(WAIT_MS / 1000), heard.done, heard.failed)
    gc.collect()
    assert worker._running
    may.set()
    qtbot.waitUntil(lambda: not worker._running, timeout=WAIT_MS)
    assert heard.values == [True]


def test_a_window_that_is_gone_when_the_work_is_done_hears_nothing(heard: Heard) -> None:
    class Asker(QObject):
        def done(self, value: int) -> None:
            heard.done(value)

        def failed(self, error: CoachError) -> None:
            heard.failed(error)

    for work in (lambda: 1, _refused):
        asker = Asker()
        job = worker.start(work, asker.done, asker.failed)
        assert QThreadPool.globalInstance().waitForDone(WAIT_MS)
        shiboken6.delete(asker)
        QCoreApplication.processEvents()
        assert not job.cancelled
    assert not heard.values
    assert not heard.errors


def _refused() -> int:
    raise CoachError("No.")
