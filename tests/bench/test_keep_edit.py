"""Keeping one edit, durable, beside one raw sqlite3 transaction of the same rows."""

from __future__ import annotations

import sqlite3
import time
from collections.abc import Callable
from contextlib import closing
from dataclasses import replace
from datetime import UTC, date, datetime
from functools import partial
from pathlib import Path
from statistics import median

import pytest

from app.domain.client import Client, ClientId
from app.domain.exercise import ExerciseKey
from app.domain.program import (
    Block,
    Day,
    Program,
    ProgramId,
    Reps,
    Session,
    SessionId,
    Slot,
    SlotId,
    StrandId,
    Week,
    WeekId,
)
from app.domain.work import Work
from db.engine import SWITCHES
from db.store import Store
from tests.bench.budgets import hold

pytestmark = pytest.mark.bench

BUDGET = 3.0
ROUNDS = 60


def season(weeks: int = 21, sessions: int = 4, slots: int = 8) -> Program:
    """A full program: `sessions` a week of `slots` slots each."""
    next_id = iter(range(100, 1_000_000))

    def session(number: int) -> Session:
        return Session(
            SessionId(next(next_id)),
            StrandId(number),
            "Lower body",
            tuple(
                Slot(
                    SlotId(next(next_id)),
                    StrandId(10 + number * 10 + place),
                    ExerciseKey("back_squat"),
                    3,
                    Reps(5, 8),
                )
                for place in range(slots)
            ),
        )

    made = tuple(
        Week(
            WeekId(index + 1),
            tuple(Day((session(n),)) if n < sessions else Day() for n in range(7)),
        )
        for index in range(weeks)
    )
    return Program(
        ProgramId("season"),
        "Season",
        date(2026, 1, 5),
        made,
        (Block("All", weeks),),
        next_id=next(next_id),
    )


def with_sets(program: Program, week: int, sets: int) -> Program:
    """The program with another number of sets in the first slot of `week`."""
    before = program.weeks[week]
    session = before.days[0].sessions[0]
    slots = (replace(session.slots[0], sets=sets), *session.slots[1:])
    days = (Day((replace(session, slots=slots),)), *before.days[1:])
    weeks = (*program.weeks[:week], replace(before, days=days), *program.weeks[week + 1 :])
    return replace(program, weeks=weeks)


def seconds(run: Callable[[], None]) -> float:
    """How long `run` takes, s."""
    start = time.perf_counter()
    run()
    return time.perf_counter() - start


def raw_edit(raw: sqlite3.Connection, slot: int, sets: int) -> None:
    """The rows of one edit as plain SQL, in one transaction."""
    raw.execute("BEGIN IMMEDIATE")
    raw.execute("UPDATE programs SET version = version + 1 WHERE id = 'season'")
    raw.execute("UPDATE slots SET sets = ? WHERE program_id = 'season' AND id = ?", (sets, slot))
    raw.execute(
        "INSERT INTO edits (client_id, program_id, at, label) VALUES (?, ?, ?, ?)",
        ("runa", "season", datetime.now(UTC).isoformat(timespec="milliseconds"), "Set sets"),
    )
    raw.execute("COMMIT")


@pytest.mark.parametrize("weeks", [21, 52])
def test_keeping_one_edit_costs_at_most_three_raw_transactions(tmp_path: Path, weeks: int):
    client = Client(ClientId("runa"), "Runa Estvik")
    program = season(weeks)
    for name in ("ours", "raw"):
        store = Store.open(tmp_path / f"{name}.weekloom")
        store.save(None, Work(client, program), label="Add the program")
        store.close()
    store = Store.open(tmp_path / "ours.weekloom")
    slot = program.weeks[10].days[0].sessions[0].slots[0].id
    ours, floor = [], []
    with closing(sqlite3.connect(tmp_path / "raw.weekloom", isolation_level=None)) as raw:
        for switch in SWITCHES:
            raw.execute(switch)
        work = Work(client, program)
        for number in range(ROUNDS):
            after = Work(client, with_sets(program, 10, 4 + number % 2))
            ours.append(seconds(partial(store.save, work, after, label="Set sets")))
            floor.append(seconds(partial(raw_edit, raw, slot, 4 + number % 2)))
            work = after
    store.close()
    ratio = median(ours) / median(floor)
    print(
        f"keep one edit, {weeks} weeks: {median(ours) * 1000:.2f} ms, raw "
        f"{median(floor) * 1000:.2f} ms, ratio {ratio:.2f}"
    )
    hold(f"keep one edit, {weeks} weeks", ratio, BUDGET)
