"""The mouse on the grid: clicks select, a press that moves becomes a drag, clicks carry.

One object for one gesture at a time; what it means is decided when the button comes up.
"""

from __future__ import annotations

from collections.abc import Callable

from PySide6.QtCore import QPointF, Qt
from PySide6.QtGui import QMouseEvent
from PySide6.QtWidgets import QApplication

from app.domain.program import SlotId
from app.domain.wording import tr
from app.ui.carry import Carried, Via
from app.ui.grid.geometry import Hit, Zone
from app.ui.grid.surface import WeekSurface

CTRL, SHIFT = Qt.KeyboardModifier.ControlModifier, Qt.KeyboardModifier.ShiftModifier
_HANDLES = (Zone.HEAD, Zone.CAPTION)


class Press:
    """A button held down: nothing until it has moved by the platform's distance, then a drag.

    slots: what a drag would carry; whole: they are a session, taken by its head.
    """

    def __init__(self, at: QPointF, slots: tuple[SlotId, ...], *, whole: bool = False) -> None:
        self.at = at
        self.slots = slots
        self.whole = whole

    def is_drag(self, now: QPointF) -> bool:
        """True once the pointer has gone far enough for a drag."""
        way = (now - self.at).manhattanLength()
        return bool(self.slots) and way >= QApplication.startDragDistance()


class Mouse:
    """Presses, moves and releases on one grid. chosen: the slots that a drag of one would carry."""

    def __init__(self, surface: WeekSurface, chosen: Callable[[], tuple[SlotId, ...]]) -> None:
        self._surface = surface
        self._bench = surface.bench
        self._chosen = chosen
        self._press: Press | None = None
        self.gathers = False

    def gather(self, on: bool) -> None:
        """Let a click add a card to the selection or take it away, as Ctrl and a click do."""
        self.gathers = on
        self._surface.bench.said.emit(
            tr("A click on a card now adds it or takes it away; the same command ends this.")
            if on
            else tr("A click chooses one card again.")
        )

    def cancel(self) -> None:
        """Forget the press."""
        self._press = None

    # -- the button goes down --------------------------------------------------------------

    def press(self, event: QMouseEvent) -> None:
        """Select, and remember what a drag would carry."""
        found = self._surface.hit(event.position())
        if found is None or self._surface.carrier.is_carrying:
            return
        left = event.button() == Qt.MouseButton.LeftButton
        if found.slot_id is None:
            self._press_day(event, found, left=left)
            return
        slot = found.slot_id
        if event.modifiers() & SHIFT:
            self._extend_to(slot)
        elif slot not in self._bench.selection and not self._adds(event):
            self._bench.select((slot,))
        elif slot not in self._bench.selection and not left:
            self._toggle(slot)  # the menu that opens is about it as well
        if left:
            inside = slot in self._bench.selection
            self._press = Press(event.position(), self._chosen() if inside else (slot,))
        self._surface.go_to(slot)

    def _press_day(self, event: QMouseEvent, found: Hit, *, left: bool) -> None:
        """A head or a caption is the handle of its session; ground and foot are of the day."""
        self._surface.go_to_day(found.day, found.session_id)
        self._bench.select(())  # of the other button too: its menu is about the day
        if left:
            slots = self._session_slots(found) if found.zone in _HANDLES else ()
            self._press = Press(event.position(), slots, whole=True)

    def _session_slots(self, found: Hit) -> tuple[SlotId, ...]:
        for day in self._surface.face.days:
            for session in day.sessions:
                if session.id == found.session_id:
                    return tuple(card.slot.id for card in session.cards)
        return ()

    def _extend_to(self, slot: SlotId) -> None:
        ids = [card.slot.id for day in self._surface.face.days for card in day.cards]
        start = self._surface.cursor_slot
        first, last = sorted((ids.index(start if start in ids else slot), ids.index(slot)))
        self._bench.select(tuple(ids[first : last + 1]))

    # -- it moves --------------------------------------------------------------------------

    def move(self, event: QMouseEvent) -> None:
        """Aim what is carried by clicks; begin a drag."""
        hand = self._surface.carrier.hand
        if hand is not None and hand.via is not Via.MOUSE:
            copy = bool(event.modifiers() & CTRL)
            self._surface.carrier.point_at(event.position(), copy=copy)
            return
        if not event.buttons() & Qt.MouseButton.LeftButton or self._press is None:
            return
        if self._press.is_drag(event.position()):
            press, self._press = self._press, None
            source = self._bench.source
            carried = Carried(slots=press.slots, source=source, whole=press.whole)
            from app.ui.grid.drag import start_drag

            start_drag(self._surface, self._bench, carried)
            self._surface.carrier.put_back()

    # -- it comes up -----------------------------------------------------------------------

    def release(self, event: QMouseEvent) -> None:
        """Put down what is carried by clicks; finish a click."""
        hand = self._surface.carrier.hand
        if hand is not None and hand.via is not Via.MOUSE:
            self._release_carried(event)
            return
        pressed, self._press = self._press, None
        found = self._surface.hit(event.position())
        if pressed is not None and found is not None and found.zone is Zone.FOOT:
            if self._surface.hit(pressed.at) == found and self._surface.face.days[found.day].cards:
                self._surface.show_day_account(found.day)
            return
        if pressed is None or found is None or found.slot_id is None:
            return
        if self._adds(event):
            self._toggle(found.slot_id)
        elif not event.modifiers() & SHIFT:
            self._bench.select((found.slot_id,))

    def _release_carried(self, event: QMouseEvent) -> None:
        carrier = self._surface.carrier
        if event.button() == Qt.MouseButton.RightButton:
            carrier.put_back()
            return
        copy = bool(event.modifiers() & CTRL)
        if carrier.point_at(event.position(), copy=copy) is not None:
            carrier.put_down()

    def _adds(self, event: QMouseEvent) -> bool:
        return self.gathers or bool(event.modifiers() & CTRL)

    def _toggle(self, slot: SlotId) -> None:
        chosen = self._bench.selection
        if slot in chosen:
            self._bench.select(tuple(i for i in chosen if i != slot))
        else:
            self._bench.select((*chosen, slot))
