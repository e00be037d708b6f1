"""A drag with the mouse: its mime data, its ghost, and the actions it offers."""

from __future__ import annotations

from PySide6.QtCore import QPoint, Qt
from PySide6.QtGui import QDrag, QPixmap
from PySide6.QtWidgets import QWidget

from app.domain.edits.parts import find_slot
from app.domain.edits.prescribe import make_slot, start_for
from app.domain.errors import CoachError
from app.domain.program import Slot, SlotId, StrandId
from app.ui.bench import Bench
from app.ui.carry import Carried, to_mime
from app.ui.grid.card import ghost
from app.ui.grid.face import card_face
from app.ui.grid.pens import Pens, make_pens

HOT_SPOT = QPoint(-14, -10)
"""The ghost hangs right and below the pointer."""


def carried_slot(bench: Bench, carried: Carried) -> Slot | None:
    """The first slot carried, or the one that a library exercise would become in the open week."""
    desk, week = bench.desk, bench.open_week
    try:
        if carried.exercise is None:
            return find_slot(desk.program, carried.slots[0]) if carried.slots else None
        if week is None:
            return None
        exercise = desk.catalogue[carried.exercise]
        start = start_for(exercise, week)
        return make_slot(exercise, start, slot_id=SlotId(0), strand=StrandId(0))
    except CoachError:
        return None


def ghost_pixmap(
    bench: Bench, carried: Carried, *, ratio: float = 1.0, pens: Pens | None = None
) -> QPixmap:
    """The compact card that is carried along; empty for what this window does not know."""
    slot = carried_slot(bench, carried)
    if slot is None:
        return QPixmap()
    exercise = bench.desk.catalogue[slot.exercise]
    # a made-up slot is not remembered: its id is nobody's
    card = card_face(slot, exercise, load=bench.desk.load(slot), unit=bench.desk.client.units)
    more = max(0, len(carried.slots) - 1)
    return ghost(card, pens or make_pens(), ratio=ratio, more=more)


def start_drag(source: QWidget, bench: Bench, carried: Carried) -> Qt.DropAction:
    """Drag it from `source` until it is let go; what became of it.

    Copying and moving are offered, never linking, which some compositors take for a refusal.
    """
    drag = QDrag(source)
    drag.setMimeData(to_mime(carried))
    pixmap = ghost_pixmap(bench, carried, ratio=source.devicePixelRatioF())
    if not pixmap.isNull():
        drag.setPixmap(pixmap)
        drag.setHotSpot(HOT_SPOT)
    return drag.exec(Qt.DropAction.CopyAction | Qt.DropAction.MoveAction, Qt.DropAction.MoveAction)
