"""A program as rows, and back; only the parts that an edit changed, where there was an edit.

Parts that are the same object before and after are skipped without looking inside: edits share
everything they do not change.
"""

from __future__ import annotations

from collections import defaultdict
from dataclasses import dataclass
from typing import Any

from sqlalchemy import Connection, Row, Table, select

from app.domain.client import ClientId
from app.domain.effort import Effort, PercentOneRm, PercentRepMax, Rir
from app.domain.exercise import ExerciseKey, Muscle
from app.domain.program import (
    Acceptance,
    Block,
    Day,
    Field,
    Program,
    ProgramId,
    Reps,
    Role,
    Session,
    SessionId,
    Slot,
    SlotId,
    StrandId,
    Week,
    WeekId,
)
from db import models
from db.errors import missing
from db.rows import Rows, Values, put, table_of

PROGRAMS = table_of(models.ProgramRow)
EMPHASIS = table_of(models.ProgramEmphasisRow)
BLOCKS = table_of(models.BlockRow)
ACCEPTANCES = table_of(models.AcceptanceRow)
WEEKS = table_of(models.WeekRow)
DAYS = table_of(models.DayRow)
SESSIONS = table_of(models.SessionRow)
WARMUPS = table_of(models.WarmupRow)
SLOTS = table_of(models.SlotRow)


@dataclass(frozen=True, slots=True)
class Kept:
    """What two programs share, by identity: it need not be laid out.

    weeks and sessions: their `id()`; slots: `id()`, session and place in it.
    """

    weeks: frozenset[int] = frozenset()
    sessions: frozenset[int] = frozenset()
    slots: frozenset[tuple[int, int, int]] = frozenset()


NOTHING_KEPT = Kept()


def program_rows(client_id: ClientId, program: Program, kept: Kept = NOTHING_KEPT) -> Rows:
    """The rows of a program, without the insides of what is `kept`."""
    rows: Rows = {}
    put(rows, PROGRAMS, [_program_row(client_id, program)])
    _put_lists(rows, program)
    weeks: list[Values] = []
    days: list[Values] = []
    sessions: list[Values] = []
    warmups: list[Values] = []
    slots: list[Values] = []
    for position, week in enumerate(program.weeks):
        weeks.append(_week_row(program.id, week, position))
        if id(week) in kept.weeks:
            continue
        for number, day in enumerate(week.days):
            if day.note:
                days.append(_day_row(program.id, week.id, number, note=day.note))
            for order, session in enumerate(day.sessions):
                row = _session_row(program.id, session, day=number, position=order)
                row["week_id"] = week.id
                sessions.append(row)
                if id(session) not in kept.sessions:
                    warmups.extend(_warmup_rows(program.id, session))
                    slots.extend(_slot_rows(program.id, session, kept))
    for table, found in zip(
        (WEEKS, DAYS, SESSIONS, WARMUPS, SLOTS),
        (weeks, days, sessions, warmups, slots),
        strict=True,
    ):
        put(rows, table, found)
    return rows


def changed_rows(client_id: ClientId, before: Program, after: Program) -> tuple[Rows, Rows]:
    """The rows before and after an edit, without the insides of what both programs share."""
    kept = kept_between(before, after)
    return program_rows(client_id, before, kept), program_rows(client_id, after, kept)


def kept_between(before: Program, after: Program) -> Kept:
    """The weeks, and within the others the sessions and slots, that are the same objects."""
    weeks = _ids(before.weeks) & _ids(after.weeks)
    old = _sessions_outside(before, weeks)
    new = _sessions_outside(after, weeks)
    sessions = _ids(old) & _ids(new)
    slots = _placed_slots(old, sessions) & _placed_slots(new, sessions)
    return Kept(weeks, sessions, slots)


def _ids(things: tuple[object, ...]) -> frozenset[int]:
    return frozenset(map(id, things))


def _sessions_outside(program: Program, weeks: frozenset[int]) -> tuple[Session, ...]:
    return tuple(
        session for week in program.weeks if id(week) not in weeks for _, session in week.sessions()
    )


def _placed_slots(
    sessions: tuple[Session, ...], kept: frozenset[int]
) -> frozenset[tuple[int, int, int]]:
    return frozenset(
        (id(slot), session.id, position)
        for session in sessions
        if id(session) not in kept
        for position, slot in enumerate(session.slots)
    )


# ---------------------------------------------------------------------------- values to rows


def _program_row(client_id: ClientId, program: Program) -> Values:
    return {
        "id": program.id,
        "client_id": client_id,
        "name": program.name,
        "start": program.start,
        "curve": program.curve,
        "next_id": program.next_id,
        "archived": program.archived,
    }


def _put_lists(rows: Rows, program: Program) -> None:
    put(
        rows,
        EMPHASIS,
        (
            {"program_id": program.id, "position": n, "muscle": muscle.value}
            for n, muscle in enumerate(program.emphasis)
        ),
    )
    put(
        rows,
        BLOCKS,
        (
            {"program_id": program.id, "position": n, "name": b.name, "weeks": b.weeks}
            for n, b in enumerate(program.blocks)
        ),
    )
    put(
        rows,
        ACCEPTANCES,
        (
            {"program_id": program.id, "position": n, "finding": a.finding, "reason": a.reason}
            for n, a in enumerate(program.accepted)
        ),
    )


def _week_row(program_id: ProgramId, week: Week, position: int) -> Values:
    return {
        "program_id": program_id,
        "id": week.id,
        "position": position,
        "light": week.light,
        "note": week.note,
    }


def _day_row(program_id: ProgramId, week_id: WeekId, number: int, *, note: str) -> Values:
    return {"program_id": program_id, "week_id": week_id, "day": number, "note": note}


def _session_row(program_id: ProgramId, session: Session, *, day: int, position: int) -> Values:
    return {
        "program_id": program_id,
        "id": session.id,
        "day": day,
        "position": position,
        "strand": session.strand,
        "title": session.title,
        "note": session.note,
    }


def _warmup_rows(program_id: ProgramId, session: Session) -> list[Values]:
    return [
        {
            "program_id": program_id,
            "session_id": session.id,
            "position": position,
            "exercise": exercise,
        }
        for position, exercise in enumerate(session.warmup)
    ]


def _slot_rows(program_id: ProgramId, session: Session, kept: Kept) -> list[Values]:
    return [
        _slot_row(program_id, session.id, position, slot=slot)
        for position, slot in enumerate(session.slots)
        if (id(slot), session.id, position) not in kept.slots
    ]


def _slot_row(program_id: ProgramId, session_id: SessionId, position: int, *, slot: Slot) -> Values:
    kind, effort = _effort_columns(slot.effort)
    return {
        "program_id": program_id,
        "id": slot.id,
        "session_id": session_id,
        "position": position,
        "strand": slot.strand,
        "exercise": slot.exercise,
        "sets": slot.sets,
        "reps_low": slot.reps.low,
        "reps_high": slot.reps.high,
        "effort_kind": kind,
        "effort": effort,
        "rest_s": slot.rest_s,
        "tempo": slot.tempo,
        "pair": slot.pair,
        "note": slot.note,
        "role": slot.role.value,
        "load_kg": slot.load_kg,
        "pinned": " ".join(sorted(slot.pinned)),
    }


def _effort_columns(effort: Effort) -> tuple[str, float]:
    match effort:
        case Rir(reps):
            return "rir", reps
        case PercentOneRm(percent):
            return "one_rm", percent
        case PercentRepMax(percent):
            return "rep_max", percent


# ---------------------------------------------------------------------------- rows to values

_EFFORTS: dict[str, type[Rir] | type[PercentOneRm] | type[PercentRepMax]] = {
    "rir": Rir,
    "one_rm": PercentOneRm,
    "rep_max": PercentRepMax,
}


def read_program(connection: Connection, program_id: ProgramId) -> tuple[Program, int]:
    """The stored program and its version, in one query a table.

    Raises StoreFailure if there is none of that id.
    """
    row = connection.execute(select(PROGRAMS).where(PROGRAMS.c.id == program_id)).one_or_none()
    if row is None:
        raise missing("program", program_id)

    def rows(table: Table, *order: str) -> list[Row[Any]]:
        columns = [table.c[name] for name in order]
        of_this = select(table).where(table.c.program_id == program_id)
        return list(connection.execute(of_this.order_by(*columns)))

    slots = _slots(rows(SLOTS, "position"))
    warmups = _warmups(rows(WARMUPS, "position"))
    sessions = _sessions(rows(SESSIONS, "day", "position"), slots, warmups)
    notes = {(r.week_id, r.day): r.note for r in rows(DAYS)}
    program = Program(
        id=ProgramId(row.id),
        name=row.name,
        start=row.start,
        weeks=tuple(_week(r, sessions, notes) for r in rows(WEEKS, "position")),
        blocks=tuple(Block(r.name, r.weeks) for r in rows(BLOCKS, "position")),
        emphasis=tuple(Muscle(r.muscle) for r in rows(EMPHASIS, "position")),
        curve=row.curve,
        accepted=tuple(Acceptance(r.finding, r.reason) for r in rows(ACCEPTANCES, "position")),
        next_id=row.next_id,
        archived=row.archived,
    )
    return program, row.version


def _slots(rows: list[Row[Any]]) -> dict[int, list[Slot]]:
    by_session: dict[int, list[Slot]] = defaultdict(list)
    repeated: dict[tuple[object, ...], Any] = {}  # one object for each prescription that recurs

    for r in rows:
        reps_key, effort_key = (r.reps_low, r.reps_high), (r.effort_kind, r.effort)
        if (reps := repeated.get(reps_key)) is None:
            reps = repeated[reps_key] = Reps(*reps_key)
        if (effort := repeated.get(effort_key)) is None:
            effort = repeated[effort_key] = _EFFORTS[r.effort_kind](r.effort)
        by_session[r.session_id].append(
            Slot(
                id=SlotId(r.id),
                strand=StrandId(r.strand),
                exercise=ExerciseKey(r.exercise),
                sets=r.sets,
                reps=reps,
                effort=effort,
                rest_s=r.rest_s,
                tempo=r.tempo,
                pair=r.pair,
                note=r.note,
                role=Role(r.role),
                load_kg=r.load_kg,
                pinned=frozenset(map(Field, r.pinned.split())),
            )
        )
    return by_session


def _warmups(rows: list[Row[Any]]) -> dict[int, list[ExerciseKey]]:
    by_session: dict[int, list[ExerciseKey]] = defaultdict(list)
    for r in rows:
        by_session[r.session_id].append(ExerciseKey(r.exercise))
    return by_session


def _sessions(
    rows: list[Row[Any]], slots: dict[int, list[Slot]], warmups: dict[int, list[ExerciseKey]]
) -> dict[tuple[int, int], list[Session]]:
    by_day: dict[tuple[int, int], list[Session]] = defaultdict(list)
    for r in rows:
        session = Session(
            id=SessionId(r.id),
            strand=StrandId(r.strand),
            title=r.title,
            slots=tuple(slots.get(r.id, ())),
            note=r.note,
            warmup=tuple(warmups.get(r.id, ())),
        )
        by_day[r.week_id, r.day].append(session)
    return by_day


def _week(
    row: Row[Any],
    sessions: dict[tuple[int, int], list[Session]],
    notes: dict[tuple[int, int], str],
) -> Week:
    days = tuple(
        Day(tuple(sessions.get((row.id, day), ())), notes.get((row.id, day), ""))
        for day in range(7)
    )
    return Week(id=WeekId(row.id), days=days, light=row.light, note=row.note)
