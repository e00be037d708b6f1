"""A scheme's whole table, week by week, before anything is applied."""

from __future__ import annotations

from dataclasses import dataclass

from app.domain import effort as efforts
from app.domain.effort import Effort
from app.domain.exercise import Catalogue, ExerciseKey
from app.domain.program import Program, Reps, Role, SlotId
from app.domain.progression.apply import apply
from app.domain.progression.paths import targets
from app.domain.progression.scheme import Scheme, Series


@dataclass(frozen=True, slots=True)
class Cell:
    """One slot as the scheme would leave it; changed: it differs from the plan as it stands."""

    slot: SlotId
    exercise: ExerciseKey
    day: int
    role: Role
    sets: int
    reps: Reps
    effort: Effort
    changed: bool
    pinned: bool

    @property
    def text(self) -> str:
        """'4 × 10 RIR 2'."""
        low, high = self.reps.low, self.reps.high
        reps = f"{low}" if low == high else f"{low}–{high}"
        return f"{self.sets} × {reps} {efforts.text(self.effort, high)}"


@dataclass(frozen=True, slots=True)
class WeekRow:
    """One week of the table. index: from 0; target: the path's own, for the sessions in turn.

    was_light: it is a light week in the plan as it stands.
    """

    index: int
    light: bool
    target: tuple[Reps, ...]
    sets: int
    cells: tuple[Cell, ...]
    was_light: bool = False

    @property
    def changed(self) -> bool:
        """True if anything in the week would change."""
        return self.light != self.was_light or any(cell.changed for cell in self.cells)


def table(
    program: Program,
    scheme: Scheme | Series,
    catalogue: Catalogue,
    *,
    after: Program | None = None,
) -> tuple[WeekRow, ...]:
    """What applying the scheme would make of each week in its reach, in order.

    It is read off the applied program, so table and result cannot differ; `after` is that program
    where it is known already.
    """
    after = after or apply(program, scheme, catalogue)
    aims: dict[int, tuple[Reps, ...]] = {}
    for part in scheme.schemes if isinstance(scheme, Series) else (scheme,):
        span = part.span(program)
        aims.update(zip(span, targets(part.path, len(span)), strict=True))
    return tuple(_row(program, after, index, aims[index]) for index in sorted(aims))


def _row(program: Program, after: Program, index: int, target: tuple[Reps, ...]) -> WeekRow:
    """One week before and after, side by side."""
    old = {slot.id: slot for slot in program.weeks[index].slots()}
    week, was_light = after.weeks[index], program.weeks[index].light
    cells = tuple(
        Cell(
            slot=slot.id,
            exercise=slot.exercise,
            day=day,
            role=slot.role,
            sets=slot.sets,
            reps=slot.reps,
            effort=slot.effort,
            changed=slot != old[slot.id],
            pinned=bool(slot.pinned),
        )
        for day, session in week.sessions()
        for slot in session.slots
    )
    sets = sum(cell.sets for cell in cells)
    return WeekRow(index, week.light, target, sets, cells, was_light)
