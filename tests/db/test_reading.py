"""Lists and single values are read in plain SQL, without SQLAlchemy."""

from __future__ import annotations

import subprocess
import sys
from collections.abc import Iterator
from dataclasses import replace
from datetime import date
from pathlib import Path

import pytest

from app.domain.client import ClientId
from app.domain.program import ProgramId
from app.domain.work import Coach, Work
from db import reading
from db.store import Store
from tests.db.samples import COACH, ISSUE, OVERRIDE, PLAN, RUNA, STEP_OVER, fill, filled_file

ROOT = Path(__file__).resolve().parents[2]


@pytest.fixture
def store() -> Iterator[Store]:
    store = Store.in_memory()
    fill(store)
    yield store
    store.close()


def test_lists_are_in_the_order_a_coach_expects(store):
    store.save(None, Work(replace(RUNA, id=ClientId("ann"), name="Ann", archived=True)), label="+")
    later = replace(PLAN, id=ProgramId("later"), name="Later", start=date(2031, 1, 6), blocks=())
    store.save(Work(RUNA), Work(RUNA, later), label="Add Later")
    clients = reading.list_clients(store._raw)
    assert [(c.name, c.archived, c.programs) for c in clients] == [
        ("Ann", True, 0),
        ("Runa Estvik", False, 2),
    ]
    assert [reading.client_line(store._raw, one.id) for one in clients] == list(clients)
    assert reading.client_line(store._raw, ClientId("nobody")) is None
    assert reading.count_clients(store._raw) == 2
    programs = reading.list_programs(store._raw, RUNA.id)
    assert [(p.id, p.start, p.weeks) for p in programs] == [
        ("later", later.start, 0),
        (PLAN.id, PLAN.start, sum(block.weeks for block in PLAN.blocks)),
    ]
    assert reading.list_edits(store._raw, later.id, limit=1)[0].label == "Add Later"


def test_what_was_kept_whole_comes_back_whole(store):
    assert reading.read_issue(store._raw, ISSUE.id) == ISSUE
    assert [line.id for line in reading.list_issues(store._raw, PLAN.id)] == [ISSUE.id]
    assert reading.read_exercises(store._raw, retired=False) == (STEP_OVER,)
    assert reading.read_overrides(store._raw) == (OVERRIDE,)
    assert reading.read_coach(store._raw) == COACH
    store.retire_exercise(STEP_OVER.key)
    assert reading.read_exercises(store._raw, retired=False) == ()
    assert reading.read_exercises(store._raw, retired=True) == (STEP_OVER,)


def test_where_nothing_was_kept_nothing_is_read():
    store = Store.in_memory()
    assert reading.list_clients(store._raw) == ()
    assert reading.count_clients(store._raw) == 0
    assert reading.read_coach(store._raw) == Coach()
    assert reading.read_setting(store._raw, "open") == ""
    store.close()


@pytest.mark.parametrize("text", ["", "2026-13-01", "soon", 5, b"2026-01-01"])
def test_a_stored_date_that_is_none_raises(text):
    with pytest.raises((ValueError, TypeError)):
        reading.date_of(text)


def test_opening_a_file_and_reading_from_it_needs_no_sqlalchemy(tmp_path):
    path = filled_file(tmp_path / "a.weekloom")
    probe = (
        "import sys; from pathlib import Path; from db.store import Store;"
        f"store = Store.open(Path({str(path)!r}));"
        f"store.clients(); store.load_client({RUNA.id!r}); store.load_program({PLAN.id!r});"
        "store.own_exercises(); store.range_overrides(); store.setting('open'); store.close();"
        "print('sqlalchemy' in sys.modules)"
    )
    said = subprocess.check_output([sys.executable, "-c", probe], cwd=ROOT, encoding="utf-8")
    assert said.strip() == "False"
