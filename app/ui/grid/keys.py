"""What keys mean on the grid: one table for rest and one for carrying."""

from __future__ import annotations

from collections.abc import Callable, Mapping
from typing import TYPE_CHECKING, Protocol

from PySide6.QtCore import Qt, SignalInstance
from PySide6.QtGui import QKeyEvent

from app.domain.program import SlotId
from app.ui.bench import Bench
from app.ui.grid.carrier import Carrier

if TYPE_CHECKING:
    from app.ui.grid.acts import Acts


class Keyed(Protocol):
    """What keys act on: the grid."""

    bench: Bench
    carrier: Carrier
    insert_wanted: SignalInstance

    @property
    def acts(self) -> Acts:
        """What can be done to the selection."""

    @property
    def cursor_day(self) -> int:
        """The day that the keyboard stands on."""

    def walk(self, days: int, cards: int, *, extend: bool = False) -> None:
        """Move the keyboard."""

    def select_day(self) -> None:
        """Select the day's cards."""

    def pick_up_by_keys(self) -> None:
        """Carry by keys."""

    def pick_up_by_click(self) -> None:
        """Carry by clicks."""

    def edit_card(self, slot_id: SlotId | None = None) -> None:
        """Edit in place."""

    def edit_fields(self, slot_id: SlotId | None = None) -> None:
        """Edit in a sheet."""

    def edit_note(self) -> None:
        """Edit the note in place."""


Key = Qt.Key
Chord = tuple[Qt.Key, Qt.KeyboardModifier]
Act = Callable[[Keyed], object]

_PLAIN = Qt.KeyboardModifier.NoModifier
_SHIFT = Qt.KeyboardModifier.ShiftModifier
_CTRL = Qt.KeyboardModifier.ControlModifier
_ALT = Qt.KeyboardModifier.AltModifier

AT_REST: Mapping[Chord, Act] = {
    (Key.Key_Up, _PLAIN): lambda g: g.walk(0, -1),
    (Key.Key_Down, _PLAIN): lambda g: g.walk(0, 1),
    (Key.Key_Left, _PLAIN): lambda g: g.walk(-1, 0),
    (Key.Key_Right, _PLAIN): lambda g: g.walk(1, 0),
    (Key.Key_Up, _SHIFT): lambda g: g.walk(0, -1, extend=True),
    (Key.Key_Down, _SHIFT): lambda g: g.walk(0, 1, extend=True),
    (Key.Key_Home, _PLAIN): lambda g: g.walk(0, -99),
    (Key.Key_End, _PLAIN): lambda g: g.walk(0, 99),
    (Key.Key_PageUp, _PLAIN): lambda g: g.bench.show_week(g.bench.week - 1),
    (Key.Key_PageDown, _PLAIN): lambda g: g.bench.show_week(g.bench.week + 1),
    (Key.Key_A, _CTRL): lambda g: g.select_day(),
    (Key.Key_Space, _PLAIN): lambda g: g.pick_up_by_keys(),
    (Key.Key_C, _PLAIN): lambda g: g.pick_up_by_click(),
    (Key.Key_Return, _PLAIN): lambda g: g.edit_card(),
    (Key.Key_Enter, _PLAIN): lambda g: g.edit_card(),
    (Key.Key_F2, _PLAIN): lambda g: g.edit_card(),
    (Key.Key_Return, _ALT): lambda g: g.edit_fields(),
    (Key.Key_N, _PLAIN): lambda g: g.edit_note(),
    (Key.Key_Insert, _PLAIN): lambda g: g.insert_wanted.emit(g.cursor_day),
    (Key.Key_Delete, _PLAIN): lambda g: g.acts.remove(),
    (Key.Key_Backspace, _PLAIN): lambda g: g.acts.remove(),
    (Key.Key_C, _CTRL): lambda g: g.acts.copy(),
    (Key.Key_X, _CTRL): lambda g: g.acts.cut(),
    (Key.Key_V, _CTRL): lambda g: g.acts.paste(),
    (Key.Key_D, _CTRL): lambda g: g.acts.duplicate(),
    (Key.Key_P, _PLAIN): lambda g: g.acts.pair_or_unpair(),
    (Key.Key_Plus, _PLAIN): lambda g: g.acts.add_sets(1),
    (Key.Key_Plus, _SHIFT): lambda g: g.acts.add_sets(1),
    (Key.Key_Minus, _PLAIN): lambda g: g.acts.add_sets(-1),
    (Key.Key_Left, _ALT): lambda g: g.acts.move_to_day(-1),
    (Key.Key_Right, _ALT): lambda g: g.acts.move_to_day(1),
    (Key.Key_Up, _ALT): lambda g: g.acts.move_within(-1),
    (Key.Key_Down, _ALT): lambda g: g.acts.move_within(1),
    (Key.Key_Escape, _PLAIN): lambda g: g.bench.select(()),
}

CARRYING: Mapping[Chord, Act] = {
    (Key.Key_Up, _PLAIN): lambda g: g.carrier.step(0, -1),
    (Key.Key_Down, _PLAIN): lambda g: g.carrier.step(0, 1),
    (Key.Key_Left, _PLAIN): lambda g: g.carrier.step(-1, 0),
    (Key.Key_Right, _PLAIN): lambda g: g.carrier.step(1, 0),
    (Key.Key_Home, _PLAIN): lambda g: g.carrier.step(0, -99),
    (Key.Key_End, _PLAIN): lambda g: g.carrier.step(0, 99),
    (Key.Key_PageUp, _PLAIN): lambda g: g.bench.show_week(g.bench.week - 1),
    (Key.Key_PageDown, _PLAIN): lambda g: g.bench.show_week(g.bench.week + 1),
    (Key.Key_Return, _PLAIN): lambda g: g.carrier.put_down(),
    (Key.Key_Enter, _PLAIN): lambda g: g.carrier.put_down(),
    (Key.Key_Space, _PLAIN): lambda g: g.carrier.put_down(),
    (Key.Key_Escape, _PLAIN): lambda g: g.carrier.put_back(),
}

_COPYING = (Key.Key_Up, Key.Key_Down, Key.Key_Left, Key.Key_Right, Key.Key_Return, Key.Key_Enter)
"""Keys that mean the same with Ctrl held while carrying: Ctrl copies."""


def act_for(event: QKeyEvent, *, carrying: bool) -> Act | None:
    """What the key means now; None if it is not ours."""
    modifiers = event.modifiers() & ~Qt.KeyboardModifier.KeypadModifier
    key = Key(event.key())
    if carrying and modifiers == _CTRL and key in _COPYING:
        modifiers = _PLAIN
    return (CARRYING if carrying else AT_REST).get((key, modifiers))


def press(grid: Keyed, event: QKeyEvent) -> bool:
    """Do what the key means; False if it is not ours."""
    if grid.carrier.is_carrying and event.key() == Key.Key_Control:
        grid.carrier.set_copy(True)
        return True
    act = act_for(event, carrying=grid.carrier.is_carrying)
    if act is None:
        return False
    act(grid)
    return True


def release(grid: Keyed, event: QKeyEvent) -> bool:
    """Let go of a key: without Ctrl it is a move again."""
    if grid.carrier.is_carrying and event.key() == Key.Key_Control:
        grid.carrier.set_copy(False)
        return True
    return False
