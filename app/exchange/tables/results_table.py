"""What was done as a table: a row for each set."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Mapping

from app.domain.client import Client
from app.domain.exercise import Catalogue, ExerciseKey
from app.domain.program import Program, SlotId
from app.domain.results import SlotResult
from app.domain.wording import mark, tr
from app.exchange.tables.plan_table import mass_in
from app.exchange.tables.table import Row, Table

HEADS = (
    mark("Date"),
    mark("Week"),
    mark("Session"),
    mark("Exercise"),
    mark("Set"),
    mark("Load, {unit}"),
    mark("Reps done"),
    mark("Counted in"),
    mark("RIR"),
    mark("Note"),
)


def results_table(
    results: Iterable[SlotResult], program: Program, client: Client, catalogue: Catalogue
) -> Table:
    """The results of the program in the order of their days.

    What was left out is a row without a set; a slot that the program no longer holds keeps its
    row, without week and session.
    """
    heads = tuple(tr(head, unit=client.units) for head in HEADS)
    places: dict[SlotId, tuple[int, str]] = {
        slot.id: (index + 1, session.title)
        for index, week in enumerate(program.weeks)
        for _, session in week.sessions()
        for slot in session.slots
    }
    ordered = sorted(results, key=lambda one: one.on)
    rows = tuple(row for one in ordered for row in _rows(one, places, client, catalogue))
    return Table(tr("Results"), heads, rows)


def _rows(
    result: SlotResult,
    places: Mapping[SlotId, tuple[int, str]],
    client: Client,
    catalogue: Catalogue,
) -> Iterator[Row]:
    week, title = places.get(result.slot, (None, None))
    name, timed = _named(result.exercise, catalogue)
    start: Row = (result.on, week, title, name)
    note = result.note or None
    if not result.sets:
        yield (*start, None, None, None, None, None, note)
    mass = mass_in(client.units)
    counted = tr("seconds") if timed else tr("repetitions")
    for number, done in enumerate(result.sets, 1):
        said = note if number == 1 else None
        yield (*start, number, mass(done.load_kg), done.reps, counted, done.rir, said)


def _named(key: ExerciseKey, catalogue: Catalogue) -> tuple[str, bool]:
    """The exercise's name and whether it is timed; the key where the library has it no longer."""
    return (catalogue[key].name, catalogue[key].timed) if key in catalogue else (str(key), False)
