"""Many random gestures: nothing is raised, the laws hold, disk and memory agree at the end."""

from __future__ import annotations

import os
import random

import pytest
from PySide6.QtCore import QPointF, Qt
from PySide6.QtGui import QKeyEvent
from PySide6.QtWidgets import QApplication

from app.domain.program import Span, broken_laws
from app.history import DEPTH
from app.ui.carry import Carried
from app.ui.grid import WeekGrid
from tests import builders
from tests.ui.grid import scene
from tests.ui.grid.gestures import CTRL, Drag

GESTURES = int(os.environ.get("WEEKLOOM_GESTURES", "400"))
NONE = Qt.KeyboardModifier.NoModifier
SHIFT, ALT = Qt.KeyboardModifier.ShiftModifier, Qt.KeyboardModifier.AltModifier
Key = Qt.Key
KEYS = (
    *((key, NONE) for key in (Key.Key_Up, Key.Key_Down, Key.Key_Left, Key.Key_Right)),
    *((key, NONE) for key in (Key.Key_Home, Key.Key_End, Key.Key_Space, Key.Key_Return)),
    *((key, NONE) for key in (Key.Key_Escape, Key.Key_Delete, Key.Key_P, Key.Key_C)),
    *((key, NONE) for key in (Key.Key_PageUp, Key.Key_PageDown, Key.Key_Plus, Key.Key_Minus)),
    *((key, SHIFT) for key in (Key.Key_Up, Key.Key_Down)),
    *((key, CTRL) for key in (Key.Key_C, Key.Key_X, Key.Key_V, Key.Key_D, Key.Key_A)),
    *((key, ALT) for key in (Key.Key_Up, Key.Key_Down, Key.Key_Left, Key.Key_Right)),
)


class Hands:
    """Somebody who does anything anywhere."""

    def __init__(self, grid: WeekGrid, seed: int) -> None:
        self.grid = grid
        self.bench = grid.bench
        self.any = random.Random(seed)

    def point(self) -> QPointF:
        return QPointF(
            self.any.uniform(0, self.grid.width() - 1), self.any.uniform(0, self.grid.height() - 1)
        )

    def key(self) -> None:
        key, held = self.any.choice(KEYS)
        for kind in (QKeyEvent.Type.KeyPress, QKeyEvent.Type.KeyRelease):
            QApplication.sendEvent(self.grid, QKeyEvent(kind, key, held))
        if self.grid._editor is not None:
            self.line()

    def line(self) -> None:
        """Write something in the open editor, sense or nonsense."""
        editor = self.grid._editor
        lines = ("4 x 8-10, RIR 2", "5 x 5, 80 %, rest 3 min", "nonsense", "3 x 12, 20 kg", "")
        editor.field.setText(self.any.choice(lines))
        editor.accept()
        if self.grid._editor is not None:
            editor.reject()

    def drag(self) -> None:
        ids = [slot.id for slot in self.bench.open_week.slots()]
        if ids and self.any.random() < 0.6:
            chosen = tuple(self.any.sample(ids, k=min(len(ids), self.any.randint(1, 3))))
            source = self.bench.source if self.any.random() < 0.9 else "other"
            carried = Carried(slots=chosen, source=source)
        else:
            exercise = self.any.choice(builders.CATALOGUE.exercises)
            carried = Carried(exercise=exercise.key)
        drag = Drag(self.grid, carried)
        drag.enter(self.point())
        for _ in range(self.any.randint(0, 4)):
            drag.move(self.point())
        held = CTRL if self.any.random() < 0.3 else NONE
        end = self.point()
        if self.any.random() < 0.75 and drag.move(end, held):
            drag.drop(end, held)
        else:
            drag.leave()

    def other(self) -> None:
        act = self.any.choice(("undo", "redo", "span", "size", "fold", "wait"))
        match act:
            case "undo":
                self.bench.undo()
            case "redo":
                self.bench.redo()
            case "span":
                self.bench.choose_span(self.any.choice(tuple(Span)))
            case "size":
                self.grid.resize(self.any.randint(600, 1600), self.any.randint(260, 900))
            case "fold":
                self.grid.hide_rest_days(self.any.random() < 0.5)
            case _:
                QApplication.processEvents()

    def act(self) -> None:
        self.any.choice((self.key, self.key, self.key, self.drag, self.drag, self.other))()


@pytest.mark.parametrize("seed", [1, 2, 3])
def test_whatever_hands_do_the_plan_stays_sound_and_kept(qtbot, seed: int):
    grid = scene.grid(qtbot)
    hands = Hands(grid, seed)
    bench = grid.bench
    for number in range(GESTURES):
        hands.act()
        assert broken_laws(bench.desk.program) == (), f"after gesture {number}"
        if number % 50 == 0:
            assert not grid.grab().isNull()
    grid.carrier.put_back()
    assert bench.preview is None
    assert [card.slot for day in grid.face.days for card in day.cards] == list(
        bench.open_week.slots()
    )
    assert bench.desk.store.load_program(bench.desk.program.id) == bench.desk.program
    steps = bench.desk.history.done
    if steps < DEPTH:  # else the first ones are forgotten
        for _ in range(steps):
            bench.undo()
        assert bench.desk.program == scene.bench().desk.program
