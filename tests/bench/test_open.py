"""Opening a client and a program, from a file of 10 clients and from one of 10,000."""

from __future__ import annotations

import sqlite3
import time
from contextlib import closing
from dataclasses import replace
from pathlib import Path
from statistics import quantiles

import pytest

from app.domain.client import ClientId
from app.domain.program import ProgramId
from app.domain.work import Work
from db.store import Store
from tests.bench.budgets import hold
from tests.bench.test_keep_edit import season
from tests.db.samples import RUNA

pytestmark = pytest.mark.bench

GROWTH = 2.0
ROUNDS = 40
TABLES = ("clients", "programs", "blocks", "weeks", "sessions", "slots")


def file_of(path: Path, clients: int) -> Path:
    """A file with so many clients, the first with a full season, each other with a short one."""
    store = Store.open(path)
    store.save(None, Work(RUNA, season()), label="Add")
    other = replace(RUNA, id=ClientId("other-0"), name="Other 0")
    store.save(None, Work(other, replace(season(weeks=2), id=ProgramId("season-0"))), label="Add")
    store.close()
    with closing(sqlite3.connect(path)) as raw, raw:
        for table in TABLES:
            copy_for_others(raw, table, clients - 2)
    return path


def copy_for_others(raw: sqlite3.Connection, table: str, others: int) -> None:
    """Gives `others` more clients what the other client has in `table`."""
    columns = [row[1] for row in raw.execute(f"PRAGMA table_info({table})")]
    owner = "id" if table in ("clients", "programs") else "program_id"
    mine = "other-0" if table == "clients" else "season-0"
    values = [
        f"replace({name}, '-0', '-' || x)" if name in (owner, "client_id") else name
        for name in columns
    ]
    raw.execute(
        f"WITH RECURSIVE n(x) AS (SELECT 1 UNION ALL SELECT x + 1 FROM n WHERE x < {others}) "
        f"INSERT INTO {table} SELECT {', '.join(values)} FROM {table}, n WHERE {owner} = '{mine}'"
    )


def p95_ms(store: Store) -> float:
    """The slow end of opening the full client and program, ms."""
    taken = []
    for _ in range(ROUNDS):
        start = time.perf_counter()
        store.load_client(RUNA.id)
        store.load_program(ProgramId("season"))
        store.programs(RUNA.id)
        taken.append((time.perf_counter() - start) * 1000)
    return quantiles(taken[5:], n=20)[-1]  # the first ones fill caches


def test_opening_a_program_takes_no_longer_in_a_file_of_ten_thousand_clients(tmp_path: Path):
    few = Store.open(file_of(tmp_path / "few.weekloom", 10))
    many = Store.open(file_of(tmp_path / "many.weekloom", 10_000))
    start = time.perf_counter()
    listed = many.clients()
    listed_ms = (time.perf_counter() - start) * 1000
    assert (len(few.clients()), len(listed)) == (10, 10_000)
    small, large = p95_ms(few), p95_ms(many)
    size_mb = (tmp_path / "many.weekloom").stat().st_size / 1e6
    print(
        f"open client and program, p95: {small:.1f} ms of 10 clients, {large:.1f} ms of 10,000 "
        f"({size_mb:.0f} MB); list of 10,000 clients {listed_ms:.0f} ms"
    )
    few.close()
    many.close()
    hold("open a client, 10,000 against 10", large / small, GROWTH, unit="times as long")
