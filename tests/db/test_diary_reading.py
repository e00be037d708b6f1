"""A diary comes back from the file as it was kept, to the kind of every field."""

from __future__ import annotations

import pytest
from hypothesis import given

from app.domain.client import ClientId
from app.domain.work import Work
from db.canonical import encode
from db.diary_reading import read_diary
from db.errors import Cause, StoreFailure
from db.store import Store
from tests.builders import client
from tests.db.samples import DIARY, RUNA
from tests.strategies import diaries


@given(diaries)
def test_every_field_comes_back_as_the_same_kind_of_value(diary):
    store = Store.in_memory()
    store.save(None, Work(RUNA, diary=diary), label="Add")
    read, version = read_diary(store._raw, RUNA.id)
    store.close()
    assert (read, version) == (diary, 1)
    # as JSON, true is not 1, and 2.0 is not 2
    assert encode(read) == encode(diary)


def test_nobody_of_that_id_is_said():
    store = Store.in_memory()
    with pytest.raises(StoreFailure, match="no client 'nobody'") as refused:
        store.load_diary(ClientId("nobody"))
    assert refused.value.cause is Cause.MISSING
    store.close()


def test_only_the_rows_of_that_client_are_read():
    store = Store.in_memory()
    other = client(id=ClientId("other"), name="Jorunn Aske")
    store.save(None, Work(RUNA, diary=DIARY), label="Add")
    store.save(None, Work(other), label="Add")
    assert store.load_diary(other.id).results == ()
    assert store.load_diary(RUNA.id) == DIARY
    store.close()


def test_a_stored_value_that_breaks_its_laws_is_called_damage():
    store = Store.in_memory()
    store.save(None, Work(RUNA, diary=DIARY), label="Add")
    store._raw.execute("UPDATE check_ins SET sleep = 9")
    with pytest.raises(StoreFailure) as refused:
        store.load_diary(RUNA.id)
    assert refused.value.cause is Cause.DAMAGED
    store.close()
