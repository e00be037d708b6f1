"""The weeks of a program as one table: a row for each exercise of each session.

The columns are those that the import of tables knows, so what is written here is read back whole.
"""

from __future__ import annotations

from collections.abc import Callable, Iterator, Mapping
from datetime import timedelta

from app.domain.client import Client
from app.domain.effort import PercentOneRm, PercentRepMax, Rir
from app.domain.exercise import Catalogue, Exercise
from app.domain.loads import printed_loads
from app.domain.program import DAYS, Program, Role, Slot, SlotId
from app.domain.units import lb_from_kg
from app.domain.wording import mark, tr
from app.exchange.tables.cell import Cell
from app.exchange.tables.table import Row, Table

HEADS = (
    mark("Week"),
    mark("Light week"),
    mark("Date"),
    mark("Day"),
    mark("Session"),
    mark("Exercise"),
    mark("Pair"),
    mark("Sets"),
    mark("Reps from"),
    mark("Reps to"),
    mark("Counted in"),
    mark("RIR"),
    mark("% 1RM"),
    mark("% of RM"),
    mark("Rest, s"),
    mark("Tempo"),
    mark("Load, {unit}"),
    mark("Load set by hand"),
    mark("Role"),
    mark("Note"),
)
ROLES = {Role.CORE: mark("core"), Role.ASSISTANCE: mark("assistance")}


def plan_table(program: Program, client: Client, catalogue: Catalogue) -> Table:
    """Every week of the program; loads as a booklet handed out now would print them."""
    loads = {one.slot: one.load_kg for one in printed_loads(program, client, catalogue)}
    heads = tuple(tr(head, unit=client.units) for head in HEADS)
    rows = tuple(_rows(program, catalogue, mass_in(client.units), loads))
    return Table(tr("Plan"), heads, rows)


def mass_in(unit: str) -> Callable[[float], float]:
    """How a mass in kg is written: as it is, or in pounds to a tenth."""
    return (lambda kg: round(lb_from_kg(kg), 1)) if unit == "lb" else (lambda kg: kg)


def _rows(
    program: Program,
    catalogue: Catalogue,
    mass: Callable[[float], float],
    loads: Mapping[SlotId, float | None],
) -> Iterator[Row]:
    for index, week in enumerate(program.weeks):
        light = tr("light") if week.light else None
        for day, session in week.sessions():
            on = program.week_start(index) + timedelta(days=day)
            for slot in session.slots:
                load_kg = loads[slot.id]
                yield (
                    index + 1,
                    light,
                    on,
                    tr(DAYS[day]),
                    session.title,
                    *_prescribed(slot, catalogue[slot.exercise]),
                    None if load_kg is None else mass(load_kg),
                    tr("yes") if slot.load_kg is not None else None,
                    tr(ROLES[slot.role]),
                    slot.note or None,
                )


def _prescribed(slot: Slot, exercise: Exercise) -> Iterator[Cell]:
    yield from (exercise.name, slot.pair or None, slot.sets, slot.reps.low, slot.reps.high)
    yield tr("seconds") if exercise.timed else tr("repetitions")
    effort = slot.effort
    yield effort.reps if isinstance(effort, Rir) else None
    yield effort.percent if isinstance(effort, PercentOneRm) else None
    yield effort.percent if isinstance(effort, PercentRepMax) else None
    yield from (slot.rest_s, slot.tempo or None)
