"""A file with 5 million sets of 10,000 clients: opening a client, reading and keeping the diary.

WEEKLOOM_BENCH_SETS makes the file smaller or larger. It is filled in the order of its keys by
SQLite itself, which is how a file of years would lie after its backup was put back.
"""

from __future__ import annotations

import os
import sqlite3
import time
from collections.abc import Iterator
from contextlib import closing
from dataclasses import replace
from datetime import date, timedelta
from functools import partial
from pathlib import Path
from statistics import median, quantiles

import pytest

from app import resources
from app.demo import fill
from app.domain.client import ClientId
from app.domain.results import Diary, SetDone, SlotResult
from app.domain.work import Work
from db.engine import SWITCHES
from db.store import Store
from tests.bench.budgets import hold
from tests.bench.test_keep_edit import season, seconds
from tests.bench.test_start import BARE, FULL, painted_after_ms, surroundings
from tests.db.samples import RUNA

pytestmark = pytest.mark.bench

__all__ = ["surroundings"]

SETS = int(os.environ.get("WEEKLOOM_BENCH_SETS", "5000000"))
CLIENTS = 10_000
READ_BUDGET = 6.0
"""Reading 2,500 sets as values, in plain fetches of the same rows: a few ms."""
KEEP_BUDGET = 3.0
GROWTH = 2.0
START_GROWTH = 1.3
ROUNDS = 40
PROGRAM = season()


def full_diary() -> Diary:
    """Every slot of 21 weeks done, four sets each: about 2,700 sets."""
    results = []
    for index, week in enumerate(PROGRAM.weeks):
        for day, session in week.sessions():
            on = PROGRAM.week_start(index) + timedelta(days=day)
            for slot in session.slots:
                sets = tuple(SetDone(60.0 + index + n / 2, 8 - n, 2.0) for n in range(4))
                results.append(SlotResult(PROGRAM.id, slot.id, slot.exercise, on, sets))
    return Diary(results=tuple(results))


FULL_DIARY = full_diary()
COUNT = sum(len(result.sets) for result in FULL_DIARY.results)


def small_file(path: Path) -> Path:
    """The demo, Runa with a full season and diary, and one more client with 125 results."""
    store = Store.open(path)
    first = fill(store, resources.catalogue())
    store.save(None, Work(RUNA, PROGRAM, FULL_DIARY), label="Add")
    other = replace(RUNA, id=ClientId("other-00000"), name="Other 0")
    results = FULL_DIARY.results[:125]
    store.save(None, Work(other, diary=Diary(results=results)), label="Add")
    store.set_setting("open", f"{first} {store.programs(first)[0].id} 3")
    store.close()
    return path


def grow(path: Path) -> float:
    """Gives 10,000 more clients the diary of that one, as many sets as there are to be; s."""
    start = time.perf_counter()
    with closing(sqlite3.connect(path)) as raw:
        for switch in ("journal_mode = OFF", "synchronous = OFF", "cache_size = -200000"):
            raw.execute(f"PRAGMA {switch}")
        mine = raw.execute(
            "SELECT count(*) FROM result_sets WHERE client_id = 'other-00000'"
        ).fetchone()[0]
        clients = max(1, SETS // mine)
        for table in ("clients", "results", "result_sets"):
            columns = [row[1] for row in raw.execute(f"PRAGMA table_info({table})")]
            owner = "id" if table == "clients" else "client_id"
            values = ", ".join(
                "printf('other-%05d', x)" if name == owner else f"t.{name}" for name in columns
            )
            raw.execute(
                "WITH RECURSIVE n(x) AS (SELECT 1 UNION ALL SELECT x + 1 FROM n "
                f"WHERE x < {clients}) INSERT INTO {table} SELECT {values} FROM n CROSS JOIN "
                f"(SELECT * FROM {table} WHERE {owner} = 'other-00000') t"
            )
        raw.commit()
    return time.perf_counter() - start


@pytest.fixture(scope="module")
def files(tmp_path_factory: pytest.TempPathFactory) -> Iterator[tuple[Path, Path]]:
    """The small file, and the one with millions of sets."""
    few = small_file(tmp_path_factory.mktemp("diaries") / "few.weekloom")
    many = few.with_name("many.weekloom")
    many.write_bytes(few.read_bytes())
    taken = grow(many)
    size_mb = many.stat().st_size / 1e6
    print(f"file with {SETS:,} sets: {size_mb:.0f} MB, filled in {taken:.0f} s")
    yield few, many
    many.unlink()


def p95_ms(store: Store) -> float:
    """The slow end of opening the client with the season and diary, ms."""
    taken = []
    for _ in range(ROUNDS):
        start = time.perf_counter()
        store.load_client(RUNA.id)
        store.load_program(PROGRAM.id)
        diary = store.load_diary(RUNA.id)
        taken.append((time.perf_counter() - start) * 1000)
    assert len(diary.results) == len(FULL_DIARY.results)
    return quantiles(taken[5:], n=20)[-1]


def test_a_client_opens_as_quickly_among_millions_of_sets(files: tuple[Path, Path]) -> None:
    few, many = (Store.open(path) for path in files)
    start = time.perf_counter()
    listed = many.clients()
    listed_ms = (time.perf_counter() - start) * 1000
    small, large = p95_ms(few), p95_ms(many)
    print(
        f"open client, program and diary of {COUNT:,} sets, p95: {small:.1f} ms; among "
        f"{len(listed):,} clients {large:.1f} ms; their list {listed_ms:.0f} ms"
    )
    few.close()
    many.close()
    hold("open a client with a diary, 5 million sets", large / small, GROWTH, unit="times as long")


def test_a_diary_is_read_in_a_few_plain_fetches(files: tuple[Path, Path]) -> None:
    store = Store.open(files[1])
    ours, floor = [], []
    with closing(sqlite3.connect(files[1])) as raw:
        for _ in range(ROUNDS):
            ours.append(seconds(partial(load, store)))
            floor.append(seconds(partial(fetch, raw)))
    store.close()
    ratio = median(ours) / median(floor)
    print(
        f"read a diary of {COUNT:,} sets: {median(ours) * 1000:.1f} ms, plain fetch "
        f"{median(floor) * 1000:.1f} ms, ratio {ratio:.1f}"
    )
    hold("read a diary among 5 million sets", ratio, READ_BUDGET, unit="plain fetches")


def load(store: Store) -> None:
    """The diary as values."""
    assert store.load_diary(RUNA.id).results


def fetch(raw: sqlite3.Connection) -> None:
    """The same rows, as SQLite hands them over."""
    sets = raw.execute("SELECT * FROM result_sets WHERE client_id = 'runa'").fetchall()
    results = raw.execute("SELECT * FROM results WHERE client_id = 'runa'").fetchall()
    assert sets
    assert results


def test_keeping_a_session_costs_at_most_three_raw_transactions(files: tuple[Path, Path]) -> None:
    store = Store.open(files[1])
    work = Work(store.load_client(RUNA.id), diary=store.load_diary(RUNA.id))
    ours, floor = [], []
    with closing(sqlite3.connect(files[1], isolation_level=None)) as raw:
        for switch in SWITCHES:
            raw.execute(switch)
        for number in range(ROUNDS):
            session = [
                SlotResult(
                    PROGRAM.id, one.slot, one.exercise, date(2028, 1, 3), one.sets, str(number)
                )
                for one in FULL_DIARY.results[:8]
            ]
            assert work.diary is not None
            after = replace(work, diary=work.diary.with_results(session))
            ours.append(seconds(partial(store.save, work, after, label="Results")))
            floor.append(seconds(partial(raw_session, raw, number)))
            work = after
    store.close()
    ratio = median(ours) / median(floor)
    print(
        f"keep a session of 8 exercises: {median(ours) * 1000:.2f} ms, raw "
        f"{median(floor) * 1000:.2f} ms, ratio {ratio:.2f}"
    )
    hold("keep a session among 5 million sets", ratio, KEEP_BUDGET)


def raw_session(raw: sqlite3.Connection, number: int) -> None:
    """The rows of one session as plain SQL, in one transaction."""
    day = (date(2029, 1, 1) + timedelta(days=number)).isoformat()
    raw.execute("BEGIN IMMEDIATE")
    raw.execute("UPDATE clients SET version = version WHERE id = 'runa'")
    for one in FULL_DIARY.results[:8]:
        key = ("runa", day, PROGRAM.id, one.slot)
        raw.execute("INSERT INTO results VALUES (?, ?, ?, ?, ?, '')", (*key, one.exercise))
        raw.executemany(
            "INSERT INTO result_sets VALUES (?, ?, ?, ?, ?, ?, ?, ?)",
            [(*key, n, done.load_kg, done.reps, done.rir) for n, done in enumerate(one.sets)],
        )
    raw.execute(
        "INSERT INTO edits (client_id, program_id, at, label) VALUES ('runa', NULL, '', 'Results')"
    )
    raw.execute("COMMIT")


def test_the_window_starts_without_a_look_at_the_diaries(
    files: tuple[Path, Path], surroundings: dict[str, str]
) -> None:
    taken: list[list[float]] = [[], [], []]
    starts = ((BARE, ()), *((FULL, (str(path),)) for path in files))
    for number in range(5):
        for (code, arguments), into in zip(starts, taken, strict=True):
            found = painted_after_ms(code, surroundings, *arguments)
            if number:
                into.append(found)
    bare, few, many = (min(times) for times in taken)
    print(f"first paint: bare {bare:.0f} ms, small file {few:.0f} ms, 5 million sets {many:.0f} ms")
    hold("start with 5 million sets", many / few, START_GROWTH, unit="starts of a small file")
