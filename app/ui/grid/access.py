"""The grid as a screen reader meets it: a list of days and cards, each with its name and place.

Items are made once and read what the grid shows at the moment, so that no stale one is spoken.
"""

from __future__ import annotations

from dataclasses import dataclass

from PySide6.QtCore import QObject, QPoint, QRect, QRectF
from PySide6.QtGui import (
    QAccessible,
    QAccessibleAnnouncementEvent,
    QAccessibleEvent,
    QAccessibleInterface,
)
from PySide6.QtWidgets import QAccessibleWidget, QWidget

from app.domain.program import SlotId
from app.domain.wording import tr
from app.ui.grid.face import spoken_card, spoken_day
from app.ui.grid.surface import WeekSurface


@dataclass(frozen=True, slots=True)
class Item:
    """One thing that is spoken: a day's head, or a card. rect: in the grid, px."""

    name: str
    rect: QRectF
    day: int
    slot_id: SlotId | None = None
    selected: bool = False
    focused: bool = False


def items_of(grid: WeekSurface) -> tuple[Item, ...]:
    """Every day with its cards, in reading order."""
    items: list[Item] = []
    here = (grid.cursor_day, grid.cursor_slot)
    for day, box in zip(grid.face.days, grid.layout_now.days, strict=True):
        focused = here == (day.number, None)
        items.append(Item(spoken_day(day), box.head, day.number, focused=focused))
        for card, placed in zip(day.cards, box.cards, strict=True):
            slot_id = card.slot.id
            items.append(
                Item(
                    spoken_card(day, card),
                    grid.card_rect(box, placed),
                    day.number,
                    slot_id,
                    selected=slot_id in grid.bench.selection,
                    focused=here == (day.number, slot_id),
                )
            )
    return tuple(items)


class ItemInterface(QAccessibleInterface):
    """The n-th item of a grid."""

    def __init__(self, grid: WeekSurface, owner: GridInterface, number: int) -> None:
        super().__init__()
        self._grid = grid
        self._owner = owner
        self._number = number

    def _item(self) -> Item | None:
        items = self._owner.items()
        return items[self._number] if self._number < len(items) else None

    def isValid(self) -> bool:
        return self._item() is not None

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
        item = self._item()
        return item.name if item is not None and which == QAccessible.Text.Name else ""

    def setText(self, which: QAccessible.Text, text: str) -> None:
        """Names follow from the plan; nothing is set from outside."""

    def rect(self) -> QRect:
        item = self._item()
        if item is None:
            return QRect()
        shown = item.rect.toAlignedRect()
        return QRect(self._grid.mapToGlobal(shown.topLeft()), shown.size())

    def role(self) -> QAccessible.Role:
        item = self._item()
        is_head = item is not None and item.slot_id is None
        return QAccessible.Role.Heading if is_head else QAccessible.Role.ListItem

    def state(self) -> QAccessible.State:
        item, state = self._item(), QAccessible.State()
        if item is not None:
            state.focusable = state.selectable = True
            state.selected = item.selected
            state.focused = item.focused and self._grid.hasFocus()
        return state


class GridInterface(QAccessibleWidget):
    """The grid itself: a list named after its week."""

    def __init__(self, grid: WeekSurface) -> None:
        super().__init__(grid, QAccessible.Role.List)
        self._grid = grid
        self._children: list[ItemInterface] = []

    def items(self) -> tuple[Item, ...]:
        """What there is to speak of now."""
        return items_of(self._grid)

    def childCount(self) -> int:
        return len(self.items())

    def child(self, index: int) -> QAccessibleInterface | None:  # type: ignore[override]
        if not 0 <= index < self.childCount():
            return None
        while len(self._children) <= index:
            self._children.append(ItemInterface(self._grid, self, len(self._children)))
        return self._children[index]

    def indexOfChild(self, child: QAccessibleInterface) -> int:
        return self._children.index(child) if child in self._children else -1

    def childAt(self, x: int, y: int) -> QAccessibleInterface | None:  # type: ignore[override]
        point = self._grid.mapFromGlobal(QPoint(x, y)).toPointF()
        for number, item in enumerate(self.items()):
            if item.rect.contains(point):
                return self.child(number)
        return None

    def text(self, which: QAccessible.Text) -> str:
        if which == QAccessible.Text.Name:
            return tr("Week {week}", week=self._grid.bench.week + 1)
        return str(super().text(which))


_kept: dict[int, GridInterface] = {}
"""Qt only borrows interfaces: without a reference of ours they would be gone."""


def _factory(key: str, thing: QObject | None) -> QAccessibleInterface | None:
    if not isinstance(thing, WeekSurface):
        return None
    found = _kept.get(id(thing))
    if found is None:
        found = _kept[id(thing)] = GridInterface(thing)
        number = id(thing)
        thing.destroyed.connect(lambda: _kept.pop(number, None))
    return found


_installed: list[bool] = []


def install() -> None:
    """Let grids speak for their days and cards; once a process."""
    if not _installed:
        QAccessible.installFactory(_factory)
        _installed.append(True)


def announce(widget: QWidget, text: str) -> None:
    """Have a screen reader say the text, if one is listening."""
    if text and QAccessible.isActive():
        QAccessible.updateAccessibility(QAccessibleAnnouncementEvent(widget, text))


def focus_moved(grid: WeekSurface) -> None:
    """Tell a screen reader which item has the focus now."""
    if not QAccessible.isActive():
        return
    for number, item in enumerate(items_of(grid)):
        if item.focused:
            event = QAccessibleEvent(grid, QAccessible.Event.Focus)
            event.setChild(number)
            QAccessible.updateAccessibility(event)
            return
