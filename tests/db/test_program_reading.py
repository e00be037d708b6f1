"""A program comes back from the file as it was kept, to the kind of every field."""

from __future__ import annotations

import pytest
from hypothesis import given

from app.domain.program import ProgramId
from app.domain.work import Work
from db.canonical import encode
from db.errors import Cause, StoreFailure
from db.program_reading import read_program
from db.store import Store
from tests.db.samples import PLAN, RUNA
from tests.strategies import programs


@given(programs())
def test_every_field_comes_back_as_the_same_kind_of_value(program):
    store = Store.in_memory()
    store.save(None, Work(RUNA, program), label="Add")
    read, version = read_program(store._raw, program.id)
    store.close()
    assert (read, version) == (program, 1)
    # as JSON, true is not 1, and 2.0 is not 2
    assert encode(read) == encode(program)


def test_prescriptions_that_recur_are_one_object():
    store = Store.in_memory()
    store.save(None, Work(RUNA, PLAN), label="Add")
    read, _ = read_program(store._raw, PLAN.id)
    store.close()
    reps = [slot.reps for week in read.weeks for slot in week.slots()]
    assert len(set(map(id, reps))) == len(set(reps))


def test_no_program_of_that_id_is_said():
    store = Store.in_memory()
    with pytest.raises(StoreFailure, match="no program 'base'") as refused:
        read_program(store._raw, ProgramId("base"))
    assert refused.value.cause is Cause.MISSING
    store.close()
