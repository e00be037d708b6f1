"""A program as rows: every field has its column, and what two programs share is skipped."""

from __future__ import annotations

import random
from dataclasses import fields, replace

from hypothesis import given
from hypothesis import strategies as st

from app.domain.program import Day, Program, Session, Slot, Week
from db.program_rows import (
    DAYS,
    PROGRAMS,
    SESSIONS,
    SLOTS,
    WARMUPS,
    WEEKS,
    changed_rows,
    kept_between,
    program_rows,
)
from tests.db.samples import PLAN, RUNA
from tests.strategies import programs, rearranged


def names(kind: type) -> set[str]:
    return {field.name for field in fields(kind)}


def columns(table) -> set[str]:
    return {column.name for column in table.columns}


def test_every_field_has_its_column():
    lists = {"weeks", "blocks", "emphasis", "accepted"}
    assert columns(PROGRAMS) == names(Program) - lists | {"client_id", "version"}
    assert columns(WEEKS) == names(Week) - {"days"} | {"program_id", "position"}
    placed = {"program_id", "week_id", "day", "position"}
    assert columns(SESSIONS) == names(Session) - {"slots", "warmup"} | placed
    spread = {"reps_low", "reps_high", "effort_kind", "program_id", "session_id", "position"}
    assert columns(SLOTS) == names(Slot) - {"reps"} | spread


def test_only_days_with_a_note_have_a_row():
    assert [(row["day"], row["note"]) for row in program_rows(RUNA.id, PLAN)[DAYS].values()] == [
        (6, "rest")
    ]


def test_a_program_and_itself_share_every_week():
    kept = kept_between(PLAN, PLAN)
    assert kept.weeks == {id(week) for week in PLAN.weeks}
    old, new = changed_rows(RUNA.id, PLAN, PLAN)
    assert old == new
    assert [len(old[table]) for table in (DAYS, SESSIONS, WARMUPS, SLOTS)] == [0] * 4


def test_a_session_that_only_moves_is_not_laid_out_inside():
    week = PLAN.weeks[0]
    session = week.days[0].sessions[0]
    moved = replace(week, days=(Day(), Day((session,)), *week.days[2:]))
    after = replace(PLAN, weeks=(moved, *PLAN.weeks[1:]))
    old, new = changed_rows(RUNA.id, PLAN, after)
    assert [len(new[table]) for table in (SESSIONS, WARMUPS, SLOTS)] == [1, 0, 0]
    assert [row["day"] for row in (*old[SESSIONS].values(), *new[SESSIONS].values())] == [0, 1]


def test_only_the_slots_that_change_in_a_session_are_laid_out():
    week = PLAN.weeks[0]
    session = week.days[0].sessions[0]
    first, *others = session.slots
    changed = replace(session, slots=(replace(first, sets=9), *others))
    after = replace(
        PLAN, weeks=(replace(week, days=(Day((changed,)), *week.days[1:])), *PLAN.weeks[1:])
    )
    old, new = changed_rows(RUNA.id, PLAN, after)
    assert [list(rows[SLOTS]) for rows in (old, new)] == [[(PLAN.id, first.id)]] * 2


def differing(old, new) -> dict:
    """The rows of both that differ, by table."""
    return {
        table: {
            key: (old.get(table, {}).get(key), new.get(table, {}).get(key))
            for key in old.get(table, {}).keys() | new.get(table, {}).keys()
            if old.get(table, {}).get(key) != new.get(table, {}).get(key)
        }
        for table in old.keys() | new.keys()
    }


@given(programs(), st.integers(0, 2**32))
def test_skipping_what_is_shared_loses_no_difference(program, seed):
    after = rearranged(program, random.Random(seed))
    quick = differing(*changed_rows(RUNA.id, program, after))
    whole = differing(program_rows(RUNA.id, program), program_rows(RUNA.id, after))
    assert quick == whole
