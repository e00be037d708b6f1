"""The grid as a screen reader meets it: a list of days and cards, each with its name and place."""

from __future__ import annotations

from PySide6.QtGui import QAccessible, QAccessibleAnnouncementEvent
from PySide6.QtWidgets import QWidget

from app.domain.wording import tr
from app.ui import parts
from app.ui.grid.face import spoken_card, spoken_day
from app.ui.grid.surface import WeekSurface
from app.ui.parts import Part


def items_of(grid: WeekSurface) -> tuple[Part, ...]:
    """Every day with its cards, in reading order."""
    items: list[Part] = []
    here = (grid.cursor_day, grid.cursor_slot)
    for day, box in zip(grid.face.days, grid.layout_now.days, strict=True):
        focused = here == (day.number, None)
        heading = QAccessible.Role.Heading
        items.append(Part(spoken_day(day), box.head, heading, focused=focused))
        for card, placed in zip(day.cards, box.cards, strict=True):
            slot_id = card.slot.id
            items.append(
                Part(
                    spoken_card(day, card),
                    grid.card_rect(box, placed),
                    selected=slot_id in grid.bench.selection,
                    focused=here == (day.number, slot_id),
                )
            )
    return tuple(items)


def install() -> None:
    """Let grids speak for their days and cards."""
    parts.install(
        parts.Speaker(
            WeekSurface,
            count=lambda grid: len(items_of(grid)),
            part=lambda grid, number: items_of(grid)[number],
            name=lambda grid: tr("Week {week}", week=grid.bench.week + 1),
        )
    )


def announce(widget: QWidget, text: str) -> None:
    """Have a screen reader say the text, if one is listening."""
    if text and QAccessible.isActive():
        QAccessible.updateAccessibility(QAccessibleAnnouncementEvent(widget, text))


def focus_moved(grid: WeekSurface) -> None:
    """Tell a screen reader which item has the focus now."""
    parts.focus_moved(grid)
