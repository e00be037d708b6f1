"""What the coach can do to the selection without a drag; menus, keys and the window call these.

Each act is one edit, kept through the bench with its span, and named for the undo menu.
"""

from __future__ import annotations

from collections.abc import Callable
from typing import Any, Protocol

from PySide6.QtWidgets import QApplication

from app.domain.edits import fields, pasted, place, written
from app.domain.edits.parts import Spot, find_slot, locate
from app.domain.errors import CoachError
from app.domain.exercise import ExerciseKey
from app.domain.findings import Edit, edit
from app.domain.prescription_text import Written, parse
from app.domain.program import DAYS, Program, Role, Session, Slot, SlotId, day_name
from app.domain.wording import mark, tr, trn
from app.ui.bench import Bench
from app.ui.carry import Carried
from app.ui.grid import drop
from app.ui.grid.clip import from_clipboard, put
from app.ui.grid.geometry import Target


class Cursor(Protocol):
    """Where the keyboard stands."""

    @property
    def cursor_day(self) -> int:
        """The day, 0 for Monday."""

    @property
    def cursor_slot(self) -> SlotId | None:
        """The card, if it stands on one."""


class Acts:
    """Edits of the selection, or of the card that the keyboard stands on."""

    def __init__(self, bench: Bench, cursor: Cursor) -> None:
        self._bench = bench
        self._cursor = cursor

    # -- what they act on ------------------------------------------------------------------

    @property
    def slots(self) -> tuple[SlotId, ...]:
        """The selected slots in the order of the week; else the one under the keyboard."""
        chosen = set(self._bench.selection)
        week = self._bench.open_week
        if not chosen and self._cursor.cursor_slot is not None:
            chosen = {self._cursor.cursor_slot}
        if week is None:
            return ()
        return tuple(slot.id for slot in week.slots() if slot.id in chosen)

    def _values(self) -> tuple[Slot, ...]:
        program = self._bench.desk.program
        return tuple(find_slot(program, slot) for slot in self.slots)

    def _ground(self) -> drop.Ground:
        bench = self._bench
        return drop.Ground(
            bench.desk.program, bench.desk.catalogue, bench.week, bench.span, bench.source
        )

    def _name(self) -> str:
        return drop.what_text(self.slots, self._ground())

    def _keep(self, change: Edit) -> bool:
        kept = self._bench.keep(change)
        if kept:
            self._bench.said.emit(f"{change.label}.")
        return kept

    def _do(self, label: str, change: Callable[..., Program], **arguments: Any) -> bool:
        """Keep an edit that reaches as far as the span."""
        return self._keep(edit(label, change, **arguments, span=self._bench.span))

    def _keep_fresh(self, change: Edit) -> bool:
        """Keep an edit that adds cards, and select those."""
        before = self._ids()
        if not self._keep(change):
            return False
        self._bench.select(tuple(i for i in self._ids() if i not in before))
        return True

    def _ids(self) -> tuple[SlotId, ...]:
        week = self._bench.open_week
        return () if week is None else tuple(slot.id for slot in week.slots())

    # -- cards -----------------------------------------------------------------------------

    def remove(self) -> bool:
        """Take the selected exercises out."""
        return self._remove(mark("Remove {what}"))

    def _remove(self, label: str) -> bool:
        slots = self.slots
        if not slots:
            return False
        return self._do(tr(label, what=self._name()), drop.remove_all, slot_ids=slots)

    def copy(self) -> bool:
        """Put the selected exercises on the clipboard."""
        values = self._values()
        if not values:
            return False
        put(values, self._bench.desk.catalogue)
        self._bench.said.emit(
            tr("Copied {name}. Paste puts it after the card in focus.", name=self._name())
        )
        return True

    def cut(self) -> bool:
        """Put the selected exercises on the clipboard and take them out."""
        return self.copy() and self._remove(mark("Cut {what}"))

    def paste(self) -> bool:
        """Put what is on the clipboard after the card in focus, or at the end of its day."""
        slots = from_clipboard(QApplication.clipboard().mimeData())
        if not slots or not self._bench.desk.has_program:
            self._bench.refused.emit(
                tr("There is no exercise on the clipboard. Copy one from a week first.")
            )
            return False
        catalogue = self._bench.desk.catalogue
        try:
            names = [catalogue[slot.exercise].name for slot in slots]
        except CoachError as error:
            self._bench.refused.emit(error.sentence)
            return False
        slots = tuple(pasted.with_known_prepared(slot, catalogue) for slot in slots)
        what = names[0] if len(names) == 1 else tr("{names} exercises", names=len(names))
        spot = self._spot_after()
        label = tr("Paste {what} on {day_name}", what=what, day_name=day_name(spot.day))
        fresh = pasted.relettered(slots, self._session_at(spot))
        return self._keep_fresh(
            edit(label, place.paste, slots=fresh, to=spot, span=self._bench.span)
        )

    def place(self, key: ExerciseKey) -> bool:
        """Place an exercise after the card in focus, or at the end of the day in focus."""
        if not self._bench.desk.has_program:
            return False
        spot = self._spot_after()
        target = Target(spot.day, spot.session, spot.position)
        try:
            change = drop.edit_for(Carried(exercise=key), target, self._ground())
        except CoachError as error:
            self._bench.refused.emit(error.sentence)
            return False
        return self._keep_fresh(change)

    def duplicate(self) -> bool:
        """Copy the selected exercises right behind the last of them."""
        slots = self.slots
        if not slots:
            return False
        at = locate(self._bench.desk.program, slots[-1])
        session = self._bench.desk.program.weeks[at.week].days[at.day].sessions[at.session]
        target = Target(at.day, session.id, at.slot + 1)
        return self._keep_fresh(self._edit_to(slots, target, copy=True))

    def _edit_to(self, slots: tuple[SlotId, ...], target: Target, *, copy: bool = False) -> Edit:
        carried = Carried(slots=slots, source=self._bench.source)
        return drop.edit_for(carried, target, self._ground(), copy=copy)

    def _spot_after(self) -> Spot:
        """Right behind the card in focus; at the end of the day in focus without one."""
        week, slot = self._bench.week, self._cursor.cursor_slot
        if slot is not None:
            at = locate(self._bench.desk.program, slot)
            session = self._bench.desk.program.weeks[at.week].days[at.day].sessions[at.session]
            return Spot(at.week, at.day, session.id, at.slot + 1)
        sessions = self._bench.desk.program.weeks[week].days[self._cursor.cursor_day].sessions
        return Spot(week, self._cursor.cursor_day, sessions[-1].id if sessions else None)

    def _session_at(self, spot: Spot) -> Session | None:
        sessions = self._bench.desk.program.weeks[spot.week].days[spot.day].sessions
        return next((s for s in sessions if s.id == spot.session), None)

    def pair(self) -> bool:
        """Pair the selected neighbours: done in turn, with one rest."""
        slots = self.slots
        if not slots:
            return False
        names = [self._bench.desk.catalogue[slot.exercise].name for slot in self._values()]
        label = tr("Pair {names}", names=tr(" and ").join(names))
        return self._do(label, place.pair, slot_ids=slots)

    def unpair(self) -> bool:
        """Dissolve the pair of the first selected exercise."""
        slots = self.slots
        if not slots:
            return False
        name = self._exercise(slots[0])
        return self._do(tr("Unpair {name}", name=name), place.unpair, slot_id=slots[0])

    def pair_or_unpair(self) -> bool:
        """Pair the selection; if all of it is one pair already, dissolve that."""
        letters = {slot.pair for slot in self._values()}
        return self.unpair() if len(letters) == 1 and letters != {""} else self.pair()

    def move_to_day(self, days: int) -> bool:
        """Move the selection so many days on, to the end of the day."""
        slots = self.slots
        if not slots:
            return False
        at = locate(self._bench.desk.program, slots[0])
        day = at.day + days
        if not 0 <= day < len(DAYS):
            self._bench.said.emit(tr("The week ends here."))
            return False
        sessions = self._bench.desk.program.weeks[at.week].days[day].sessions
        target = Target(day, sessions[-1].id if sessions else None)
        return self._keep(self._edit_to(slots, target))

    def move_within(self, places: int) -> bool:
        """Move the selection up (-1) or down (1) within its session."""
        slots = self.slots
        if not slots:
            return False
        program = self._bench.desk.program
        ats = [locate(program, slot) for slot in slots]
        first = ats[0]
        if any((at.day, at.session) != (first.day, first.session) for at in ats):
            self._bench.refused.emit(
                tr(
                    "The selection lies in several sessions. Select cards of one "
                    "session to move them."
                )
            )
            return False
        session = program.weeks[first.week].days[first.day].sessions[first.session]
        position = first.slot - 1 if places < 0 else ats[-1].slot + 2
        if not 0 <= position <= len(session.slots):
            self._bench.said.emit(tr("The session ends here."))
            return False
        return self._keep(self._edit_to(slots, Target(first.day, session.id, position)))

    def add_sets(self, by: int) -> bool:
        """Add sets to the first selected exercise, or take some off."""
        slots = self.slots
        if not slots:
            return False
        name = self._exercise(slots[0])
        label = (
            trn("Add {n} set to {name}", "Add {n} sets to {name}", by, name=name)
            if by > 0
            else tr("Take {by} off {name}", by=-by, name=name)
        )
        return self._do(label, fields.add_sets, slot_id=slots[0], by=by)

    def unpin(self) -> bool:
        """Leave what was set by hand on the selected exercises to progressions and tests."""
        slots = self.slots
        if not slots:
            return False
        label = tr("Unpin {name}", name=self._name())
        return self._do(label, written.unpin_all, slot_ids=slots)

    # -- what a card says ------------------------------------------------------------------

    def write_line(self, slot_id: SlotId, line: str) -> CoachError | None:
        """Set what the line says, '4 x 8-10, RIR 2, rest 120 s'; the error if it cannot be kept.

        Nothing changes where there is an error.
        """
        try:
            read = parse(line)
            changed = written.differing(find_slot(self._bench.desk.program, slot_id), read)
        except CoachError as error:
            return error
        if not changed:
            return None
        what = changed[0].value if len(changed) == 1 else "prescription"
        label = tr("Set {what} of {name}", what=what, name=self._exercise(slot_id))
        span = self._bench.span
        change = edit(label, written.write, slot_id=slot_id, written=read, span=span)
        refused = self._bench.try_keep(change)
        if refused is None:
            self._bench.said.emit(f"{change.label}.")
        return refused

    def write_all(self, slot_id: SlotId, read: Written, *, note: str, role: Role) -> bool:
        """Set every field of one exercise as one step. Raises CoachError if it is gone."""
        label = tr("Set prescription of {name}", name=self._exercise(slot_id))
        return self._do(label, written.write, slot_id=slot_id, written=read, note=note, role=role)

    def write_note(self, slot_id: SlotId, note: str) -> bool:
        """Set the note for the client on one exercise."""
        label = tr("Note on {name}", name=self._exercise(slot_id))
        return self._do(label, fields.set_note, slot_id=slot_id, note=note)

    def _exercise(self, slot_id: SlotId) -> str:
        """The name of a slot's exercise. Raises CoachError if the slot is gone."""
        slot = find_slot(self._bench.desk.program, slot_id)
        return self._bench.desk.catalogue[slot.exercise].name
