"""Work in pieces: all of it in order, one work at a time, and events in between."""

from __future__ import annotations

from collections.abc import Iterator
from time import sleep

import pytest
from PySide6.QtCore import QObject, QTimer

from app.ui.pieces import PIECE_S, Pieces


@pytest.fixture
def pieces(qtbot) -> Iterator[Pieces]:
    parent = QObject()
    yield Pieces(parent)
    parent.deleteLater()


def counting(done: list[int], until: int, *, pause_s: float = 0.0) -> Iterator[None]:
    for number in range(until):
        sleep(pause_s)
        done.append(number)
        yield


def test_all_is_done_in_order(qtbot, pieces: Pieces) -> None:
    done: list[int] = []
    pieces.begin(counting(done, 50))
    assert not done
    qtbot.waitUntil(lambda: not pieces.is_busy)
    assert done == list(range(50))


def test_the_window_answers_between_pieces(qtbot, pieces: Pieces) -> None:
    done: list[int] = []
    told: list[int] = []
    QTimer.singleShot(0, lambda: told.append(len(done)))
    pieces.begin(counting(done, 8, pause_s=PIECE_S))
    qtbot.waitUntil(lambda: not pieces.is_busy)
    assert told[0] < len(done) == 8


def test_another_work_takes_the_place_of_the_first(qtbot, pieces: Pieces) -> None:
    first: list[int] = []
    second: list[int] = []
    pieces.begin(counting(first, 50))
    pieces.begin(counting(second, 3))
    pieces.finish()
    assert (first, second) == ([], [0, 1, 2])
    assert not pieces.is_busy


def test_work_may_begin_another_at_its_end(pieces: Pieces) -> None:
    done: list[int] = []

    def first() -> Iterator[None]:
        yield
        pieces.begin(counting(done, 3))

    pieces.begin(first())
    pieces.finish()
    assert done == [0, 1, 2]


def test_stopped_work_stays_undone(qtbot, pieces: Pieces) -> None:
    done: list[int] = []
    pieces.begin(counting(done, 5))
    pieces.stop()
    qtbot.wait(20)
    assert not done


def test_work_that_fails_is_over(pieces: Pieces) -> None:
    def broken() -> Iterator[None]:
        yield
        raise ValueError("of ours")

    pieces.begin(broken())
    with pytest.raises(ValueError, match="of ours"):
        pieces.finish()
    assert not pieces.is_busy
