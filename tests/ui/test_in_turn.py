"""One step after the other: how far it is, how it is stopped, and what is said at the end."""

from __future__ import annotations

from collections.abc import Callable

import pytest
from PySide6.QtWidgets import QLineEdit, QWidget
from pytestqt.qtbot import QtBot

from app.ui.bench import Bench
from app.ui.in_turn import InTurn
from app.ui.tick_list import TickList, TickModel


class Counting(InTurn):
    """Counts its steps."""

    def __init__(self, bench: Bench) -> None:
        super().__init__(bench, None, "Counting", verb="Count")
        self.counted = 0
        self.over = 0
        self.field = QLineEdit()
        self.body.addWidget(self.field)
        model = TickModel[int](("Number", "How it went"), lambda n: (str(n),), str)
        self.add_list(TickList("Numbers", model, letters=(10,)), progress="Counted")

    def held(self) -> tuple[QWidget, ...]:
        return (self.field,)

    def summed_up(self) -> list[str]:
        return [f"{self.counted} counted."]

    def after_all(self) -> None:
        self.over += 1

    def count(self) -> None:
        self.counted += 1
        self.step_over()


@pytest.fixture
def dialog(qtbot: QtBot, dressed, bench: Bench) -> Counting:
    made = Counting(bench)
    qtbot.addWidget(made)
    made.show()
    return made


def wait(dialog: Counting, qtbot: QtBot) -> None:
    qtbot.waitUntil(lambda: not dialog.running)


def test_steps_that_are_over_at_once_do_not_pile_up(dialog: Counting, qtbot: QtBot) -> None:
    dialog.begin([dialog.count] * 3_000)
    assert dialog.counted == 1, "the window is free between two steps"
    assert not dialog.field.isEnabled()
    wait(dialog, qtbot)
    assert (dialog.counted, dialog.over, dialog.progress.value()) == (3_000, 1, 3_000)
    assert dialog.summary.text() == "3000 counted."
    assert dialog.field.isEnabled()


def test_it_is_said_to_the_window_as_well(dialog: Counting, qtbot: QtBot) -> None:
    with qtbot.waitSignal(dialog.bench.said) as said:
        dialog.begin([dialog.count])
    assert said.args == ["1 counted."]


def test_no_step_is_begun_after_a_stop(dialog: Counting, qtbot: QtBot) -> None:
    dialog.begin([dialog.count] * 5)
    dialog.stop_button.click()
    wait(dialog, qtbot)
    assert dialog.summary.text() == "1 counted. 4 were not begun."


def test_closing_means_to_stop_while_steps_run(dialog: Counting, qtbot: QtBot) -> None:
    held: list[Callable[[], None]] = []
    dialog.begin([lambda: held.append(dialog.step_over), dialog.count])
    dialog.reject()
    assert dialog.isVisible()
    assert not dialog.stop_button.isEnabled()
    held[0]()
    wait(dialog, qtbot)
    assert dialog.counted == 0
    dialog.reject()
    assert not dialog.isVisible()


def test_it_can_be_begun_again(dialog: Counting, qtbot: QtBot) -> None:
    for _ in range(2):
        dialog.begin([dialog.count] * 2)
        wait(dialog, qtbot)
    assert (dialog.counted, dialog.progress.maximum()) == (4, 2)
