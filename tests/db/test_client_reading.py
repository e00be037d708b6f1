"""A client comes back from the file as it was kept, to the kind of every field."""

from __future__ import annotations

import pytest
from hypothesis import given

from app.domain.client import ClientId
from app.domain.work import Work
from db.canonical import encode
from db.client_reading import read_client
from db.errors import Cause, StoreFailure
from db.store import Store
from tests.db.samples import RUNA
from tests.strategies import clients


@given(clients)
def test_every_field_comes_back_as_the_same_kind_of_value(client):
    store = Store.in_memory()
    store.save(None, Work(client), label="Add")
    read, version = read_client(store._raw, client.id)
    store.close()
    assert (read, version) == (client, 1)
    # as JSON, true is not 1, and 2.0 is not 2
    assert encode(read) == encode(client)


def test_nobody_of_that_id_is_said():
    store = Store.in_memory()
    with pytest.raises(StoreFailure, match="no client 'runa'") as refused:
        read_client(store._raw, RUNA.id)
    assert refused.value.cause is Cause.MISSING
    store.close()


def test_only_the_rows_of_that_client_are_read():
    store = Store.in_memory()
    store.save(None, Work(RUNA), label="Add")
    store._raw.execute("INSERT INTO bands SELECT client_id, 7, 'red' FROM plates LIMIT 1")
    other = ClientId("other")
    store._raw.execute("PRAGMA foreign_keys = OFF")
    store._raw.execute("INSERT INTO bands VALUES (?, 0, 'blue')", (other,))
    client, _ = read_client(store._raw, RUNA.id)
    assert client.increments.bands[-1] == "red"
    assert "blue" not in client.increments.bands
    store.close()
