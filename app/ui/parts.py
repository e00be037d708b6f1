"""Painted things as a screen reader meets them: what paints many parts speaks for each of them.

A part is asked for by its number whenever it is spoken, so that no stale one is ever told.
"""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass
from typing import Any

from PySide6.QtCore import QObject, QPoint, QRect, QRectF
from PySide6.QtGui import QAccessible, QAccessibleEvent, QAccessibleInterface
from PySide6.QtWidgets import QAccessibleWidget, QWidget


@dataclass(frozen=True, slots=True)
class Part:
    """One thing that is spoken. rect: in its widget, px."""

    name: str
    rect: QRectF
    role: QAccessible.Role = QAccessible.Role.ListItem
    selected: bool = False
    focused: bool = False


@dataclass(frozen=True, slots=True)
class Speaker:
    """How the widgets of one class speak: for how many parts, for which, and under what name.

    name: None is the widget's accessible name.
    """

    kind: type[QWidget]
    count: Callable[[Any], int]
    part: Callable[[Any, int], Part | None]
    name: Callable[[Any], str] | None = None
    role: QAccessible.Role = QAccessible.Role.List


class PartInterface(QAccessibleInterface):
    """The n-th part of a widget."""

    def __init__(self, owner: PartsInterface, number: int) -> None:
        super().__init__()
        self._owner = owner
        self._number = number

    def _part(self) -> Part | None:
        return self._owner.part(self._number)

    def isValid(self) -> bool:
        return self._part() is not None

    def object(self) -> QObject | None:  # type: ignore[override]
        return None

    def parent(self) -> QAccessibleInterface:
        return self._owner

    def child(self, index: int) -> QAccessibleInterface | None:  # type: ignore[override]
        return None

    def childCount(self) -> int:
        return 0

    def indexOfChild(self, child: QAccessibleInterface) -> int:
        return -1

    def childAt(self, x: int, y: int) -> QAccessibleInterface | None:  # type: ignore[override]
        return None

    def text(self, which: QAccessible.Text) -> str:
        part = self._part()
        return part.name if part is not None and which == QAccessible.Text.Name else ""

    def setText(self, which: QAccessible.Text, text: str) -> None:
        """Names follow from the plan; nothing is set from outside."""

    def rect(self) -> QRect:
        part = self._part()
        if part is None:
            return QRect()
        shown = part.rect.toAlignedRect()
        return QRect(self._owner.painter.mapToGlobal(shown.topLeft()), shown.size())

    def role(self) -> QAccessible.Role:
        part = self._part()
        return QAccessible.Role.ListItem if part is None else part.role

    def state(self) -> QAccessible.State:
        part, state = self._part(), QAccessible.State()
        if part is not None:
            state.focusable = state.selectable = True
            state.invisible = not self._owner.painter.isVisible()
            state.selected = part.selected
            state.focused = part.focused and self._owner.painter.hasFocus()
        return state


class PartsInterface(QAccessibleWidget):
    """The widget itself, most often a list of what it paints."""

    def __init__(self, painter: QWidget, speaker: Speaker) -> None:
        super().__init__(painter, speaker.role)
        self.painter = painter
        self._speaker = speaker
        self._children: list[PartInterface] = []

    def part(self, number: int) -> Part | None:
        """The n-th part as it is now; None when there are fewer."""
        if not 0 <= number < self.childCount():
            return None
        return self._speaker.part(self.painter, number)

    def childCount(self) -> int:
        return self._speaker.count(self.painter)

    def child(self, index: int) -> QAccessibleInterface | None:  # type: ignore[override]
        if not 0 <= index < self.childCount():
            return None
        while len(self._children) <= index:
            self._children.append(PartInterface(self, len(self._children)))
        return self._children[index]

    def indexOfChild(self, child: QAccessibleInterface) -> int:
        return self._children.index(child) if child in self._children else -1

    def childAt(self, x: int, y: int) -> QAccessibleInterface | None:  # type: ignore[override]
        point = self.painter.mapFromGlobal(QPoint(x, y)).toPointF()
        # what is painted last lies on top
        for number in reversed(range(self.childCount())):
            part = self.part(number)
            if part is not None and part.rect.contains(point):
                return self.child(number)
        return None

    def text(self, which: QAccessible.Text) -> str:
        if which == QAccessible.Text.Name and self._speaker.name is not None:
            return self._speaker.name(self.painter)
        return str(super().text(which))


_speakers: list[Speaker] = []
_kept: dict[int, PartsInterface] = {}
"""Qt only borrows interfaces: without a reference of ours they would be gone."""


def _factory(key: str, thing: QObject | None) -> QAccessibleInterface | None:
    speaker = next((one for one in _speakers if isinstance(thing, one.kind)), None)
    if speaker is None or not isinstance(thing, QWidget):
        return None
    found = _kept.get(id(thing))
    if found is None:
        number = id(thing)
        found = _kept[number] = PartsInterface(thing, speaker)
        thing.destroyed.connect(lambda: _kept.pop(number, None))
    return found


def install(speaker: Speaker) -> None:
    """Let widgets of a class speak for their parts; once a process for each class."""
    if any(known.kind is speaker.kind for known in _speakers):
        return
    if not _speakers:
        QAccessible.installFactory(_factory)
    _speakers.append(speaker)


def tell_as_picture(widget: QWidget) -> None:
    """Let widgets of this class be told as one picture, by their name and description."""
    role = QAccessible.Role.Graphic
    install(Speaker(type(widget), lambda _: 0, lambda *_: None, role=role))


def focus_moved(painter: QWidget) -> None:
    """Tell a screen reader which part has the focus now, if one is listening."""
    if not QAccessible.isActive():
        return
    speaker = next(one for one in _speakers if isinstance(painter, one.kind))
    for number in range(speaker.count(painter)):
        part = speaker.part(painter, number)
        if part is not None and part.focused:
            event = QAccessibleEvent(painter, QAccessible.Event.Focus)
            event.setChild(number)
            QAccessible.updateAccessibility(event)
            return
