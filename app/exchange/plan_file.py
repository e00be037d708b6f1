"""Plan files: a client, a program and the coach's own exercises in it, as one JSON document.

The form is published in `resources/schema/plan.schema.json` and has a version of its own. Writing
and then reading gives equal values; a field that nobody knows is refused, never dropped.
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Mapping
from dataclasses import dataclass
from datetime import date
from typing import Any

from app.domain.client import Client
from app.domain.curve import find_curve
from app.domain.errors import CoachError, PlanFileError
from app.domain.exercise import Catalogue, Exercise, ExerciseKey
from app.domain.loads import require_load_of_test
from app.domain.program import MAX_REPS, Program, Reps, Session, Slot, broken_laws
from app.domain.wording import tr
from app.exchange.faults import fault, near_words
from app.exchange.json_text import read_json, write_json
from app.exchange.record import WEEKDAYS, from_record, to_record

FORMAT = "weekloom plan"
VERSION = 4
SUFFIX = ".plan.json"
"""How the names of plan files end."""

Schema = Mapping[str, Any]


@dataclass(frozen=True, slots=True)
class Plan:
    """What a plan file holds: a client, one program or none yet, and own exercises they name."""

    client: Client
    program: Program | None = None
    exercises: tuple[Exercise, ...] = ()

    @property
    def names(self) -> tuple[str, str]:
        """The client's name and the program's, empty if there is none."""
        return self.client.name, "" if self.program is None else self.program.name


def gather(client: Client, program: Program | None, catalogue: Catalogue) -> Plan:
    """The plan with every own exercise that the client or the program names."""
    wanted = [key for _, key in _named(client, program)]
    own: dict[ExerciseKey, Exercise] = {}
    while wanted:
        key = wanted.pop(0)
        if key in own or key not in catalogue or not catalogue[key].own:
            continue
        own[key] = catalogue[key]
        wanted += [*own[key].easier, *own[key].harder]
    return Plan(client, program, tuple(own[key] for key in sorted(own)))


def write_plan(plan: Plan) -> str:
    """The plan file's text; equal plans give equal text."""
    record: dict[str, Any] = {"format": FORMAT, "version": VERSION}
    record["client"] = to_record(plan.client)
    if plan.program is not None:
        record["program"] = to_record(plan.program)
    if plan.exercises:
        record["exercises"] = to_record(plan.exercises)
    return write_json(record)


def read_plan(
    data: bytes,
    *,
    source: str,
    schema: Schema,
    catalogue: Catalogue,
    today: date | None = None,
) -> Plan:
    """The plan in the bytes of the file that is called `source`.

    schema: the published one; catalogue: the exercises in reach beside those in the file; today:
    what a birth date is held against where the file has no program. Raises
    PlanFileError with the place in the file for anything that the schema, the laws of the values
    or the catalogue refuse.
    """
    record = read_json(data, source=source)
    _refuse_newer(record, source)
    _refuse_faults(record, source=source, schema=schema)
    try:
        program = (
            from_record(Program, record["program"], where="program")
            if "program" in record
            else None
        )
        plan = Plan(
            from_record(Client, record["client"], where="client"),
            program,
            tuple(
                from_record(Exercise, one, where=f"exercises[{number}]")
                for number, one in enumerate(record.get("exercises", []))
            ),
        )
        _refuse_unlawful(plan)
        _refuse_birth(plan, today)
        _refuse_unknown_exercises(plan, catalogue)
        _refuse_loads_of_tests(plan, catalogue)
        _refuse_long_sets(plan, catalogue)
    except CoachError as error:
        where = f"{source}, {error.where}" if error.where else source
        raise PlanFileError(error.what, where=where, mend=error.mend) from error
    return plan


def _refuse_newer(record: Any, source: str) -> None:
    version = record.get("version") if isinstance(record, dict) else None
    if isinstance(version, int) and version > VERSION:
        raise PlanFileError(
            tr(
                "The plan has version {version}; this Weekloom reads version {version_2}.",
                version=version,
                version_2=VERSION,
            ),
            where=source,
            mend=tr("Update Weekloom, or export the plan from an older one."),
        )


def _refuse_faults(record: Any, *, source: str, schema: Schema) -> None:
    from jsonschema import Draft202012Validator

    # the first one only: a file with 10,000 weeks has as many more to say
    error = next(Draft202012Validator(schema).iter_errors(record), None)
    if error is not None:
        raise fault(error, source=source)


def _refuse_unlawful(plan: Plan) -> None:
    if plan.program is None:
        return
    try:
        find_curve(plan.program.curve)
    except CoachError as error:
        raise PlanFileError(error.what, where="program.curve", mend=error.mend) from error
    broken = broken_laws(plan.program)
    if broken:
        raise PlanFileError(
            broken[0], where="program", mend=tr("Mend it, or export the plan again from Weekloom.")
        )


OLDEST_YEARS = 110
"""No client past this age is taken for meant. Common practice."""


def _refuse_birth(plan: Plan, today: date | None) -> None:
    born, latest = plan.client.born, today if plan.program is None else plan.program.start
    if born is None or latest is None:
        return
    # nobody is refused for a leap day
    earliest = date(latest.year - OLDEST_YEARS, latest.month, min(latest.day, 28))
    if not earliest <= born <= latest:
        against = "today" if plan.program is None else tr("the program's start")
        raise PlanFileError(
            tr(
                "The birth date {born} does not lie in the {oldest_years} years before {against}.",
                born=born,
                oldest_years=OLDEST_YEARS,
                against=against,
            ),
            where="client.born",
            mend=tr(
                "Write a day from {earliest} to {latest}, or leave it out.",
                earliest=earliest,
                latest=latest,
            ),
        )


def _refuse_long_sets(plan: Plan, catalogue: Catalogue) -> None:
    known = catalogue.with_own(plan.exercises)
    for where, key, reps in _counted(plan.program):
        if reps.high > MAX_REPS and not known[key].timed:
            raise PlanFileError(
                tr(
                    "{high} repetitions of {known}, which is not timed; only timed "
                    "exercises count seconds.",
                    high=reps.high,
                    known=known[key].name,
                ),
                where=where,
                mend=tr("Write 1 to {max_reps} repetitions.", max_reps=MAX_REPS),
            )


def _refuse_unknown_exercises(plan: Plan, catalogue: Catalogue) -> None:
    known = catalogue.with_own(plan.exercises)
    for where, key in _named(plan.client, plan.program):
        if key not in known:
            keys = [exercise.key for exercise in known]
            raise PlanFileError(
                tr("There is no exercise {key!r} in the library.", key=key),
                where=where,
                mend=near_words(key, list(map(str, keys))),
            )


def _refuse_loads_of_tests(plan: Plan, catalogue: Catalogue) -> None:
    known = catalogue.with_own(plan.exercises)
    for number, test in enumerate(plan.client.tests):
        try:
            require_load_of_test(test, known[test.exercise], plan.client)
        except CoachError as error:
            where = f"client.tests[{number}].load_kg"
            raise PlanFileError(error.what, where=where, mend=error.mend) from error


def _named(client: Client, program: Program | None) -> Iterator[tuple[str, ExerciseKey]]:
    """Every exercise that client and program name, with its place in the file."""
    yield from _keys("client.tests[{}].exercise", (test.exercise for test in client.tests))
    for number, test in enumerate(client.tests):
        if test.guessed_from is not None:
            yield f"client.tests[{number}].guessed_from", test.guessed_from
    yield from _keys("client.dislikes[{}]", sorted(client.dislikes))
    yield from _keys("client.likes[{}]", sorted(client.likes))
    for where, session in _sessions(program):
        yield from _keys(where + ".warmup[{}]", (drill.exercise for drill in session.warmup))
    for where, slot in _slots(program):
        yield f"{where}.exercise", slot.exercise
        yield from _keys(where + ".prepared[{}]", slot.prepared)


def _sessions(program: Program | None) -> Iterator[tuple[str, Session]]:
    """Every session of the program with its place in the file."""
    for number, week in enumerate(program.weeks if program else ()):
        for day, content in zip(WEEKDAYS, week.days, strict=True):
            for count, session in enumerate(content.sessions):
                yield f"program.weeks[{number}].days.{day}.sessions[{count}]", session


def _slots(program: Program | None) -> Iterator[tuple[str, Slot]]:
    """Every slot of the program with its place in the file."""
    for where, session in _sessions(program):
        for place, slot in enumerate(session.slots):
            yield f"{where}.slots[{place}]", slot


def _counted(program: Program | None) -> Iterator[tuple[str, ExerciseKey, Reps]]:
    """Repetitions or seconds of every slot and drill, with their place in the file."""
    for where, slot in _slots(program):
        yield f"{where}.reps", slot.exercise, slot.reps
    for where, session in _sessions(program):
        for place, drill in enumerate(session.warmup):
            if drill.dose is not None:
                yield f"{where}.warmup[{place}].dose.reps", drill.exercise, drill.dose.reps


def _keys(where: str, keys: Iterable[ExerciseKey]) -> Iterator[tuple[str, ExerciseKey]]:
    for number, key in enumerate(keys):
        yield where.format(number), key
