"""Sets per muscle over all weeks, row by row: what the season's heat strip shows. No painting."""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from dataclasses import dataclass

from app.desk import Desk
from app.domain.exercise import Muscle
from app.domain.program import Program
from app.domain.wording import tr
from app.ui.tally_rows import TallyRow, range_text, tally
from app.ui.words import number

BOUNDS = (4.0, 8.0, 12.0, 16.0)
"""Weekly sets at which the ramp takes its next step: the same in every plan, so plans compare."""
STEPS = len(BOUNDS) + 1


@dataclass(frozen=True, slots=True)
class HeatRow:
    """One muscle or group; cells: its line of each week's tally, None where nothing trains it."""

    about: str
    name: str
    emphasised: bool
    cells: tuple[TallyRow | None, ...]


def step_of(sets: float) -> int:
    """The step of the ramp, 0 the lightest; each step's upper bound belongs to it."""
    return sum(sets > bound for bound in BOUNDS)


def heat_rows(
    desk: Desk, program: Program, names: dict[Muscle, str], *, untrained: bool = True
) -> tuple[HeatRow, ...]:
    """The rows of a program: the emphasis first, then the main groups and any other with a set.

    untrained: with the main groups that no week trains.
    """
    lines = [
        {row.about: row for row in tally(desk.facts(week), desk.context, index, names)}
        for index, week in enumerate(program.weeks)
    ]
    seen: dict[str, TallyRow] = {}
    for line in lines:
        seen |= {about: row for about, row in line.items() if about not in seen}
    rows = [
        HeatRow(about, row.name, row.emphasised, tuple(_trained(line.get(about)) for line in lines))
        for about, row in seen.items()
    ]
    return tuple(row for row in rows if untrained or row.emphasised or any(row.cells))


def _trained(row: TallyRow | None) -> TallyRow | None:
    """The line itself where there are sets or a range to fall short of."""
    return row if row is not None and (row.sets > 0 or row.range is not None) else None


def heat_sets(desk: Desk, program: Program, only: Iterable[int]) -> dict[int, Mapping[str, float]]:
    """Weekly sets by row for some weeks of a program that is tried."""
    names = {muscle: muscle.value for muscle in Muscle}
    return {
        index: {
            row.about: row.sets
            for row in tally(desk.facts(program.weeks[index]), desk.context, index, names)
        }
        for index in only
    }


def spoken_cell(row: HeatRow, week: int, *, light: bool = False) -> str:
    """'Week 7: quadriceps 11.5 sets, range 12–20, below'."""
    amount = _amount(row, week, light=light)
    if light:
        return tr("Week {week}, light: {amount}", week=week + 1, amount=amount)
    return tr("Week {week}: {amount}", week=week + 1, amount=amount)


def spoken_week(rows: Iterable[HeatRow], week: int, *, light: bool = False) -> str:
    """All of a week's cells in words, the emphasis first."""
    amounts = "; ".join(_amount(row, week, light=light) for row in rows)
    if light:
        return tr("Week {week}, light week: {amounts}", week=week + 1, amounts=amounts)
    return tr("Week {week}: {amounts}", week=week + 1, amounts=amounts)


def _amount(row: HeatRow, week: int, *, light: bool) -> str:
    cell, name = row.cells[week], row.name.lower()
    if cell is None:
        return tr("{name} not trained", name=name)
    text = tr("{name} {sets} sets", name=name, sets=number(cell.sets))
    if cell.range is not None and not light:
        text += tr(", range {range_text}", range_text=range_text(cell))
        text += tr(", below") * cell.below + tr(", above") * cell.above
    return text
