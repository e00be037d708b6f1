"""The quick twin of a real drag: mime data of the real source, sent straight to the grid."""

from __future__ import annotations

from PySide6.QtCore import QMimeData, QPoint, QPointF, Qt
from PySide6.QtGui import QDragEnterEvent, QDragLeaveEvent, QDragMoveEvent, QDropEvent
from PySide6.QtWidgets import QApplication, QWidget

from app.ui.carry import Carried, to_mime
from app.ui.grid import WeekGrid

BOTH = Qt.DropAction.CopyAction | Qt.DropAction.MoveAction
NONE = Qt.KeyboardModifier.NoModifier
CTRL = Qt.KeyboardModifier.ControlModifier
LEFT = Qt.MouseButton.LeftButton


class Drag:
    """One drag over a grid, step by step; the mime data lives as long as this does."""

    def __init__(self, grid: QWidget, carried: Carried, mime: QMimeData | None = None) -> None:
        self.grid = grid
        self.mime = mime or to_mime(carried)

    def enter(self, at: QPointF) -> bool:
        event = QDragEnterEvent(_whole(at), BOTH, self.mime, LEFT, NONE)
        QApplication.sendEvent(self.grid, event)
        return event.isAccepted()

    def move(self, at: QPointF, modifiers: Qt.KeyboardModifier = NONE) -> bool:
        event = QDragMoveEvent(_whole(at), BOTH, self.mime, LEFT, modifiers)
        QApplication.sendEvent(self.grid, event)
        self.action = event.dropAction()
        return event.isAccepted()

    def leave(self) -> None:
        QApplication.sendEvent(self.grid, QDragLeaveEvent())

    def drop(self, at: QPointF, modifiers: Qt.KeyboardModifier = NONE) -> bool:
        event = QDropEvent(at, BOTH, self.mime, LEFT, modifiers)
        QApplication.sendEvent(self.grid, event)
        return event.isAccepted()


def _whole(at: QPointF) -> QPoint:
    return at.toPoint()


def drag_to(
    grid: WeekGrid, carried: Carried, at: QPointF, modifiers: Qt.KeyboardModifier = NONE
) -> bool:
    """Enter, move, drop; stops with a leave at the first refusal, as a platform does."""
    drag = Drag(grid, carried)
    if drag.enter(at) and drag.move(at, modifiers):
        return drag.drop(at, modifiers)
    drag.leave()
    return False
