"""A program as rows; only the parts that an edit changed, where there was an edit.

Parts that are the same object before and after are skipped without looking inside: edits share
everything they do not change. `program_reading` reads the rows back.
"""

from __future__ import annotations

from dataclasses import dataclass

from app.domain.client import ClientId
from app.domain.effort import Effort, PercentOneRm, PercentRepMax, Rir
from app.domain.program import (
    Program,
    ProgramId,
    Session,
    SessionId,
    Slot,
    Week,
    WeekId,
)
from app.domain.ramp import Ramp
from db import models
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
            "exercise": drill.exercise,
            "rounds": None if drill.dose is None else drill.dose.rounds,
            "reps_low": None if drill.dose is None else drill.dose.reps.low,
            "reps_high": None if drill.dose is None else drill.dose.reps.high,
        }
        for position, drill in enumerate(session.warmup)
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
        "prepared": " ".join(slot.prepared),
        "ramp": None if slot.ramp is None else _ramp_column(slot.ramp),
    }


def _ramp_column(ramp: Ramp) -> str:
    """'50%x5 60kgx2', empty for no ramp set."""
    return " ".join(
        f"{step.percent!r}%x{step.reps}"
        if step.load_kg is None
        else f"{step.load_kg!r}kgx{step.reps}"
        for step in ramp.steps
    )


def _effort_columns(effort: Effort) -> tuple[str, float]:
    match effort:
        case Rir(reps):
            return "rir", reps
        case PercentOneRm(percent):
            return "one_rm", percent
        case PercentRepMax(percent):
            return "rep_max", percent
