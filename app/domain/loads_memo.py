"""The loads of slots, each worked out once for a client.

They are remembered by the identity of the slot beside a reference to it, as checks are of weeks.
"""

from __future__ import annotations

from app.domain.client import Client
from app.domain.exercise import Catalogue
from app.domain.loads import load_for
from app.domain.program import Program, Slot, SlotId
from app.domain.strength import Load

MOST = 20_000
"""So many slots are remembered; a year of full weeks has some 2,500."""


class LoadsMemo:
    """To be cleared for another client and other exercises."""

    def __init__(self) -> None:
        self._loads: dict[int, tuple[Slot, str, Load | None]] = {}
        self._days: tuple[Program | None, dict[SlotId, int]] = (None, {})

    def clear(self) -> None:
        """Forget everything."""
        self._loads.clear()

    def load(
        self, slot: Slot, program: Program, *, client: Client, catalogue: Catalogue
    ) -> Load | None:
        """The load for a slot, rounded to what there is at the place of its day in `program`.

        None where nothing was tested.
        """
        place = self._place_of(slot, program, client)
        known = self._loads.get(id(slot))
        if known is not None and known[0] is slot and known[1] == place:
            return known[2]
        steps = next((p.increments for p in client.places if p.name == place), None)
        load = load_for(slot, catalogue[slot.exercise], client, program.curve, increments=steps)
        if len(self._loads) > MOST:
            self._loads.clear()
        self._loads[id(slot)] = (slot, place, load)
        return load

    def _place_of(self, slot: Slot, program: Program, client: Client) -> str:
        """The name of the place that the slot is done at; empty for the usual one."""
        if not client.places:
            return ""
        if self._days[0] is not program:
            found = {
                slot.id: day
                for week in program.weeks
                for day, session in week.sessions()
                for slot in session.slots
            }
            self._days = (program, found)
        day = self._days[1].get(slot.id)
        return "" if day is None else client.free[day].place
