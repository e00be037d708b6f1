"""One member of the team, read from a table: the client as a record, the plan as edits.

A table has `client` (the record of a plan file), and where there is a plan `program`, `sessions`
(written as in `resources/layouts.toml`), `progression`, and then, in the order they are made:
`pairs`, `swaps`, light weeks, `sets` (more or fewer), `by_hand`, `notes` and `accept`; and
`diary`, what was done (`app.demo.diary`).
"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from datetime import date
from typing import Any

from app.demo.diary import diary_from
from app.domain import checks, progression
from app.domain.client import Client
from app.domain.edits import fields, place, weeks
from app.domain.effort import Rir
from app.domain.exercise import Catalogue, Muscle
from app.domain.findings import Finding
from app.domain.layout import lay_out, layout_from_mapping
from app.domain.program import Field, Program, ProgramId, Reps, SlotId, Span, empty_program
from app.domain.ranges import RangeBook
from app.domain.results import Diary
from app.exchange.record import from_record

Table = Mapping[str, Any]


@dataclass(frozen=True, slots=True)
class Member:
    """A client of the demo with the client's program, if there is one yet, and the diary."""

    client: Client
    program: Program | None = None
    diary: Diary = Diary()


def member_from(table: Table, *, source: str, catalogue: Catalogue, ranges: RangeBook) -> Member:
    """The member that a table of the demo's data describes."""
    client = from_record(Client, table["client"], where=f"{source}, client")
    if "program" not in table:
        return Member(client)
    program = _laid_out(table, client, source=source, catalogue=catalogue)
    for scheme in table["progression"]:
        program = _progressed(program, scheme, catalogue)
    program = _edited(program, table, catalogue)
    diary = diary_from(table["diary"], program, catalogue) if "diary" in table else Diary()
    return Member(client, _accepting(program, table, client, (catalogue, ranges)), diary)


def _laid_out(table: Table, client: Client, *, source: str, catalogue: Catalogue) -> Program:
    about = table["program"]
    emphasis = tuple(Muscle(muscle) for muscle in about["emphasis"])
    program = empty_program(
        ProgramId(about["id"]),
        about["name"],
        start=date.fromisoformat(about["start"]),
        weeks=sum(length for _, length in about["blocks"]),
        emphasis=emphasis,
    )
    first = 0
    for name, length in about["blocks"]:
        program = weeks.start_block(program, first, name=name)
        first += length
    entry = {"name": about["name"], "about": about["name"], "sessions": table["sessions"]}
    layout = layout_from_mapping(about["id"], entry, source=source)
    return lay_out(program, layout, client=client, catalogue=catalogue, fits=lambda *_: True)


def _progressed(program: Program, table: Table, catalogue: Catalogue) -> Program:
    """The program with one scheme written into it, for some exercises or for all."""
    first, last = table["reps"]
    easy, hard = (Rir(reps) for reps in table["rir"])
    exercises = table.get("exercises", ())
    slots = (slot for week in program.weeks for slot in week.slots())
    scheme = progression.Scheme(
        path=progression.Stepwise(first, last),
        effort=progression.EffortPath(easy, hard),
        strands=frozenset(slot.strand for slot in slots if slot.exercise in exercises),
    )
    return progression.apply(program, scheme, catalogue)


def _edited(program: Program, table: Table, catalogue: Catalogue) -> Program:
    for exercises in table.get("pairs", ()):
        slots = tuple(_slot(program, 1, exercise) for exercise in exercises)
        program = place.pair(program, slots, span=Span.WHOLE_PROGRAM)
    for week, old, new in table.get("swaps", ()):
        program = place.replace_exercise(
            program,
            _slot(program, week, old),
            exercise=catalogue[new],
            old=catalogue[old],
            span=Span.FROM_HERE,
        )
    for week in table["program"].get("light", ()):
        program = weeks.make_light(program, week - 1)
    for week, exercise, more in table.get("sets", ()):
        slot = _slot(program, week, exercise)
        program = fields.add_sets(program, slot, by=more, span=Span.FROM_HERE)
    for week, exercise, field, value in table.get("by_hand", ()):
        given = Reps(*value) if field == Field.REPS else value
        # a load is for the week it was tried in; everything else is meant to stay
        span = Span.THIS_WEEK if field == Field.LOAD else Span.FROM_HERE
        slot = _slot(program, week, exercise)
        program = fields.set_field(program, slot, Field(field), value=given, span=span)
    for week, exercise, note in table.get("notes", ()):
        slot = _slot(program, week, exercise)
        program = fields.set_note(program, slot, note=note, span=Span.FROM_HERE)
    return program


def _slot(program: Program, week: int, exercise: str) -> SlotId:
    """The slot of that exercise in week `week`, counted from 1."""
    return next(s.id for s in program.weeks[week - 1].slots() if s.exercise == exercise)


def _accepting(
    program: Program, table: Table, client: Client, known: tuple[Catalogue, RangeBook]
) -> Program:
    if "accept" not in table:
        return program
    found = checks.check(program, client, *known)
    for wanted in table["accept"]:
        meant = (f for f in found if f.rule == wanted["rule"] and _about(f) == wanted["about"])
        for finding in meant:
            program = fields.accept(program, finding.id, reason=wanted["reason"])
    return program


def _about(finding: Finding) -> str:
    """The muscle or exercise, without what tells two findings on it apart."""
    return finding.about.partition(":")[0]
