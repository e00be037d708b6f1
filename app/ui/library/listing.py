"""The list that exercises are dragged from; everything in it can be done by keys."""

from __future__ import annotations

from PySide6.QtCore import QPoint, Qt, Signal
from PySide6.QtGui import QContextMenuEvent, QKeyEvent
from PySide6.QtWidgets import QAbstractItemView, QListView

from app.domain.exercise import Exercise
from app.domain.wording import tr
from app.ui.bench import Bench
from app.ui.library.model import EXERCISE, ExerciseModel


class ExerciseList(QListView):
    """The list.

    Enter places the exercise on the grid's day, Space picks it up, F2 shows all there is on it,
    F3 compares it, Ctrl+K keeps it at hand; the menu key opens all of them.
    """

    place_wanted = Signal(object)
    pick_wanted = Signal(object)
    detail_wanted = Signal(object)
    compare_wanted = Signal(object)
    star_wanted = Signal(object)
    menu_wanted = Signal(object, QPoint)

    def __init__(self, bench: Bench) -> None:
        super().__init__()
        self.bench = bench
        self.setUniformItemSizes(True)
        self.setDragEnabled(True)
        self.setMouseTracking(True)
        self.setVerticalScrollMode(QAbstractItemView.ScrollMode.ScrollPerPixel)
        self.setHorizontalScrollBarPolicy(Qt.ScrollBarPolicy.ScrollBarAlwaysOff)
        self.setSelectionMode(QAbstractItemView.SelectionMode.SingleSelection)
        self.setAccessibleName(tr("Exercises"))

    def exercise(self) -> Exercise | None:
        """The exercise of the current row."""
        found = self.currentIndex().data(EXERCISE)
        return found if isinstance(found, Exercise) else None

    def startDrag(self, supported: Qt.DropAction) -> None:
        index = self.currentIndex()
        model = self.model()
        if index.isValid() and isinstance(model, ExerciseModel):
            from app.ui.grid.drag import start_drag

            start_drag(self, self.bench, model.carried(index))

    def keyPressEvent(self, event: QKeyEvent) -> None:
        exercise = self.exercise()
        if exercise is not None:
            with_ctrl = event.modifiers() & Qt.KeyboardModifier.ControlModifier
            match event.key():
                case Qt.Key.Key_Return | Qt.Key.Key_Enter:
                    self.place_wanted.emit(exercise.key)
                    return
                case Qt.Key.Key_Space:
                    self.pick_wanted.emit(exercise.key)
                    return
                case Qt.Key.Key_F2:
                    self.detail_wanted.emit(exercise)
                    return
                case Qt.Key.Key_F3:
                    self.compare_wanted.emit(exercise)
                    return
                case Qt.Key.Key_K if with_ctrl:
                    self.star_wanted.emit(exercise.key)
                    return
        super().keyPressEvent(event)

    def contextMenuEvent(self, event: QContextMenuEvent) -> None:
        index = self.indexAt(event.pos())
        if event.reason() is QContextMenuEvent.Reason.Keyboard:
            index = self.currentIndex()
        if not index.isValid():
            return
        self.setCurrentIndex(index)
        where = self.visualRect(index).center()
        if event.reason() is not QContextMenuEvent.Reason.Keyboard:
            where = event.pos()
        self.menu_wanted.emit(index.data(EXERCISE), self.viewport().mapToGlobal(where))
