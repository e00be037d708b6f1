"""A drag in small steps, as a searching hand makes it, and an empty target to set it beside."""

from __future__ import annotations

import math

from PySide6.QtCore import QPointF
from PySide6.QtGui import QDragEnterEvent, QDragMoveEvent, QPainter, QPaintEvent
from PySide6.QtWidgets import QWidget

from app.domain.exercise import ExerciseKey
from app.ui.carry import Carried

STEPS = 500
CARRIED = Carried(exercise=ExerciseKey("leg_extension"), source="library")


class Bare(QWidget):
    """An empty target that takes every drag."""

    def __init__(self) -> None:
        super().__init__()
        self.setAcceptDrops(True)

    def dragEnterEvent(self, event: QDragEnterEvent) -> None:
        event.acceptProposedAction()

    def dragMoveEvent(self, event: QDragMoveEvent) -> None:
        event.acceptProposedAction()
        self.update()

    def paintEvent(self, event: QPaintEvent) -> None:
        QPainter(self).end()


def path(target: QWidget) -> list[QPointF]:
    """Points that wind over the target's whole width and up and down on the way."""
    width, height = target.width(), target.height()
    return [
        QPointF(
            10 + (width - 20) * step / STEPS, height / 2 + (height / 2 - 20) * math.sin(step / 9)
        )
        for step in range(STEPS)
    ]
