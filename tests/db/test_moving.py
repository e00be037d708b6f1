"""What one client holds goes over to another."""

from __future__ import annotations

from dataclasses import replace

from app.domain.client import ClientId
from app.domain.work import Work
from db.moving import HOLDERS, hand_over
from db.store import Store
from tests import builders
from tests.db.samples import fill


def test_every_row_that_names_the_client_goes_over_or_goes() -> None:
    store = Store.in_memory()
    work = fill(store)
    old, heir = work.client.id, ClientId("heir")
    store.save(None, Work(replace(builders.client(), id=heir)), label="Add")
    raw = store._raw
    counts = {
        table.name: raw.execute(
            f"SELECT count(*) FROM {table.name} WHERE client_id = ?", (old,)
        ).fetchone()[0]
        for table in HOLDERS
    }
    assert all(counts.values())
    store._write(lambda connection: hand_over(connection, of=old, to=heir))
    for table, count in counts.items():
        found = raw.execute(f"SELECT count(*) FROM {table} WHERE client_id = ?", (heir,))
        assert found.fetchone()[0] >= count
    names = [n for (n,) in raw.execute("SELECT name FROM sqlite_master WHERE type = 'table'")]
    for name in names:
        columns = [row[1] for row in raw.execute(f"PRAGMA table_info({name})")]
        if "client_id" in columns:
            left = raw.execute(f"SELECT count(*) FROM {name} WHERE client_id = ?", (old,))
            assert left.fetchone()[0] == 0, name
    assert store.check_integrity() == ()
    store.close()
