"""Every field of a diary has its column, and a save lays out only what differs."""

from __future__ import annotations

from dataclasses import fields, replace

import pytest
from hypothesis import given

from app.domain.client import ClientId
from app.domain.results import CheckIn, Diary, Girth, SetDone, SlotResult
from db.diary_rows import (
    CHECK_INS,
    GIRTHS,
    PICTURES,
    RESULT_SETS,
    RESULTS,
    changed_diary_rows,
    diary_rows,
)
from tests.db.samples import DIARY, RUNA
from tests.strategies import diaries


def names(kind: type) -> set[str]:
    renamed = {"on": "on_date", "slot": "slot_id", "program": "program_id"}
    return {renamed.get(field.name, field.name) for field in fields(kind)}


@pytest.mark.parametrize(
    ("kind", "table", "elsewhere"),
    [
        (CheckIn, CHECK_INS, {"girths", "pictures"}),
        (Girth, GIRTHS, set()),
        (SlotResult, RESULTS, {"sets"}),
        (SetDone, RESULT_SETS, set()),
    ],
)
def test_every_field_has_its_column(kind, table, elsewhere):
    keys = {column.name for column in table.primary_key}
    assert {c.name for c in table.columns} - keys == names(kind) - elsewhere - keys
    assert names(kind) - elsewhere <= {c.name for c in table.columns}


@given(diaries)
def test_there_is_a_row_for_every_part(diary: Diary):
    rows = diary_rows(ClientId("runa"), diary)
    assert len(rows.get(CHECK_INS, {})) == len(diary.check_ins)
    assert len(rows.get(GIRTHS, {})) == sum(len(one.girths) for one in diary.check_ins)
    assert len(rows.get(PICTURES, {})) == sum(len(one.pictures) for one in diary.check_ins)
    assert len(rows.get(RESULT_SETS, {})) == sum(len(one.sets) for one in diary.results)


@given(diaries)
def test_what_is_the_same_is_not_laid_out(diary: Diary):
    assert changed_diary_rows(RUNA.id, diary, Diary(diary.check_ins, diary.results)) == ({}, {})
    old, new = changed_diary_rows(RUNA.id, Diary(), diary)
    assert old == {}
    assert new == diary_rows(RUNA.id, diary)


def test_one_changed_set_lays_out_one_result():
    result = DIARY.results[0]
    changed = replace(result, sets=(SetDone(55.0, 10, 2.0), *result.sets[1:]))
    old, new = changed_diary_rows(RUNA.id, DIARY, DIARY.with_results([changed]))
    assert [len(old[t]) for t in (RESULTS, RESULT_SETS)] == [1, 3]
    assert [len(new[t]) for t in (RESULTS, RESULT_SETS)] == [1, 3]
    differing = [k for k, row in new[RESULT_SETS].items() if old[RESULT_SETS][k] != row]
    assert len(differing) == 1
