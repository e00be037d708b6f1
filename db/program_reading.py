"""A program from the rows that `program_rows` laid out."""

from __future__ import annotations

import sqlite3
from collections import defaultdict
from typing import Any

from app.domain.effort import PercentOneRm, PercentRepMax, Rir
from app.domain.exercise import ExerciseKey, Muscle
from app.domain.program import (
    Acceptance,
    Block,
    Day,
    Drill,
    DrillDose,
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
from app.domain.ramp import Ramp, RampStep
from db.errors import missing
from db.reading import date_of, rows_of

_EFFORTS: dict[str, type[Rir] | type[PercentOneRm] | type[PercentRepMax]] = {
    "rir": Rir,
    "one_rm": PercentOneRm,
    "rep_max": PercentRepMax,
}


def read_program(raw: sqlite3.Connection, program_id: ProgramId) -> tuple[Program, int]:
    """The stored program and its version, in one query a table.

    Raises StoreFailure if there is none of that id.
    """
    row = next(iter(rows_of(raw, "SELECT * FROM programs WHERE id = ?", program_id)), None)
    if row is None:
        raise missing("program", program_id)

    def rows(table: str, order: str = "position") -> list[sqlite3.Row]:
        query = f"SELECT * FROM {table} WHERE program_id = ? ORDER BY {order}"  # noqa: S608
        return rows_of(raw, query, program_id)

    slots = _slots(rows("slots"))
    warmups = _warmups(rows("warmups"))
    sessions = _sessions(rows("sessions", "day, position"), slots, warmups)
    notes = {(r["week_id"], r["day"]): r["note"] for r in rows("days", "week_id, day")}
    program = Program(
        id=ProgramId(row["id"]),
        name=row["name"],
        start=date_of(row["start"]),
        weeks=tuple(_week(r, sessions, notes) for r in rows("weeks")),
        blocks=tuple(Block(r["name"], r["weeks"]) for r in rows("blocks")),
        emphasis=tuple(Muscle(r["muscle"]) for r in rows("program_emphasis")),
        curve=row["curve"],
        accepted=tuple(Acceptance(r["finding"], r["reason"]) for r in rows("acceptances")),
        next_id=row["next_id"],
        archived=bool(row["archived"]),
    )
    return program, row["version"]


def _slots(rows: list[sqlite3.Row]) -> dict[int, list[Slot]]:
    by_session: dict[int, list[Slot]] = defaultdict(list)
    repeated: dict[tuple[object, ...], Any] = {}  # one object for each prescription that recurs

    for r in rows:
        reps_key, effort_key = (r["reps_low"], r["reps_high"]), (r["effort_kind"], r["effort"])
        if (reps := repeated.get(reps_key)) is None:
            reps = repeated[reps_key] = Reps(*reps_key)
        if (effort := repeated.get(effort_key)) is None:
            effort = repeated[effort_key] = _EFFORTS[r["effort_kind"]](r["effort"])
        by_session[r["session_id"]].append(
            Slot(
                id=SlotId(r["id"]),
                strand=StrandId(r["strand"]),
                exercise=ExerciseKey(r["exercise"]),
                sets=r["sets"],
                reps=reps,
                effort=effort,
                rest_s=r["rest_s"],
                tempo=r["tempo"],
                pair=r["pair"],
                note=r["note"],
                role=Role(r["role"]),
                load_kg=r["load_kg"],
                pinned=frozenset(map(Field, r["pinned"].split())),
                prepared=tuple(map(ExerciseKey, r["prepared"].split())),
                ramp=_ramp(r["ramp"]),
            )
        )
    return by_session


def _ramp(text: str | None) -> Ramp | None:
    """'50%x5 60kgx2' as `program_rows` writes it; empty: no ramp set; None: worked out."""
    if text is None:
        return None
    steps = []
    for part in text.split():
        amount, _, reps = part.rpartition("x")
        if amount.endswith("%"):
            steps.append(RampStep(int(reps), percent=float(amount[:-1])))
        else:
            steps.append(RampStep(int(reps), load_kg=float(amount.removesuffix("kg"))))
    return Ramp(tuple(steps))


def _warmups(rows: list[sqlite3.Row]) -> dict[int, list[Drill]]:
    by_session: dict[int, list[Drill]] = defaultdict(list)
    for r in rows:
        dose = None
        if r["rounds"] is not None:
            dose = DrillDose(r["rounds"], Reps(r["reps_low"], r["reps_high"]))
        by_session[r["session_id"]].append(Drill(ExerciseKey(r["exercise"]), dose))
    return by_session


def _sessions(
    rows: list[sqlite3.Row], slots: dict[int, list[Slot]], warmups: dict[int, list[Drill]]
) -> dict[tuple[int, int], list[Session]]:
    by_day: dict[tuple[int, int], list[Session]] = defaultdict(list)
    for r in rows:
        session = Session(
            id=SessionId(r["id"]),
            strand=StrandId(r["strand"]),
            title=r["title"],
            slots=tuple(slots.get(r["id"], ())),
            note=r["note"],
            warmup=tuple(warmups.get(r["id"], ())),
        )
        by_day[r["week_id"], r["day"]].append(session)
    return by_day


def _week(
    row: sqlite3.Row,
    sessions: dict[tuple[int, int], list[Session]],
    notes: dict[tuple[int, int], str],
) -> Week:
    days = tuple(
        Day(tuple(sessions.get((row["id"], day), ())), notes.get((row["id"], day), ""))
        for day in range(7)
    )
    return Week(id=WeekId(row["id"]), days=days, light=bool(row["light"]), note=row["note"])
