"""A program as rows: every field has its column, and what two programs share is skipped."""

from __future__ import annotations

import random
from dataclasses import fields

from hypothesis import given
from hypothesis import strategies as st

from app.domain.program import Program, Session, Slot, Week
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
