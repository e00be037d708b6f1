"""A window with a library list and the week grid, told what to do by lines on standard input.

Started as a process of its own by the tests of this folder, never collected by pytest. Every
answer is one line of JSON. It ends by itself, so that a hung drag cannot outlive its test.
"""

from __future__ import annotations

import json
import os
import sys
from collections.abc import Callable
from typing import Any

from PySide6.QtCore import QPointF, QSocketNotifier, Qt, QTimer
from PySide6.QtWidgets import QApplication, QHBoxLayout, QListWidget, QWidget

from app.domain.exercise import ExerciseKey
from app.domain.program import SlotId, Span
from app.ui.bench import Bench
from app.ui.carry import Carried
from app.ui.grid import WeekGrid
from app.ui.grid.drag import start_drag
from tests.ui.grid import scene

LONGEST_S = 40


class Source(QListWidget):
    """A list whose rows are dragged as an exercise, or as cards of some other window."""

    def __init__(self, bench: Bench, rows: dict[str, Carried]) -> None:
        super().__init__()
        self._bench = bench
        self._rows = rows
        self.addItems(list(rows))
        self.setDragEnabled(True)

    def startDrag(self, actions: Qt.DropAction) -> None:
        start_drag(self, self._bench, self._rows[self.currentItem().text()])

    def point(self, row: str) -> QPointF:
        item = self.findItems(row, Qt.MatchFlag.MatchExactly)[0]
        inside = self.visualItemRect(item).center()
        return QPointF(self.viewport().mapToGlobal(inside))


def say(answer: object) -> None:
    sys.stdout.write(json.dumps(answer) + "\n")
    sys.stdout.flush()


def state(bench: Bench) -> dict[str, object]:
    """All that a drag can change, in a form that compares."""
    return {
        "program": repr(bench.desk.program),
        "labels": [step.label for step in bench.desk.history.steps],
        "preview": bench.preview is not None,
    }


class Window(QWidget):
    """The source and the grid side by side; answers one command at a time."""

    def __init__(self, bench: Bench) -> None:
        super().__init__()
        self.bench = bench
        self.grid = WeekGrid(bench, today=lambda: scene.TODAY)
        self.source = Source(
            bench,
            {
                "leg_extension": Carried(exercise=ExerciseKey("leg_extension")),
                "step_up": Carried(exercise=ExerciseKey("step_up")),
                "elsewhere": Carried(slots=(SlotId(6),), source="another window"),
            },
        )
        self.source.setFixedWidth(180)
        box = QHBoxLayout(self)
        box.addWidget(self.source)
        box.addWidget(self.grid)
        self.setGeometry(20, 20, 1260, 560)

    def point(self, kind: str, *where: Any) -> tuple[int, int]:
        """Where on the screen: a row of the source, a card, the edge above one, or ground."""
        if kind == "row":
            at = self.source.point(where[0])
        elif kind == "card":
            at = self._global(scene.card(self.grid, *where).center())
        elif kind == "between":
            at = self._global(scene.between(self.grid, *where))
        else:
            at = self._global(scene.ground(self.grid, *where))
        return round(at.x()), round(at.y())

    def _global(self, at: QPointF) -> QPointF:
        return self.grid.mapToGlobal(at)

    def answer(self, line: str) -> None:
        command, *where = json.loads(line)
        if command == "state":
            say(state(self.bench))
        elif command == "point":
            say(self.point(*where))
        elif command == "window":
            say(int(self.winId()))
        elif command == "quit":
            QApplication.quit()


def on_line(answer: Callable[[str], None]) -> QSocketNotifier:
    """Call `answer` with every line of standard input."""
    notifier = QSocketNotifier(sys.stdin.fileno(), QSocketNotifier.Type.Read)
    notifier.activated.connect(lambda: answer(sys.stdin.readline() or '["quit"]'))
    return notifier


def main() -> int:
    app = QApplication(sys.argv)
    QTimer.singleShot(LONGEST_S * 1000, lambda: os._exit(3))
    bench = scene.bench()
    bench.choose_span(Span.FROM_HERE)
    window = Window(bench)
    window.show()
    notifier = on_line(window.answer)
    QTimer.singleShot(0, lambda: say("ready"))
    code = app.exec()
    notifier.setEnabled(False)
    return code


if __name__ == "__main__":
    sys.exit(main())
