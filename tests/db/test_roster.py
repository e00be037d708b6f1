"""The list of all clients in one query: each day is that of the values kept."""

from __future__ import annotations

import sqlite3
from collections.abc import Iterator
from dataclasses import replace
from datetime import date, timedelta

import pytest

from app.domain.client import ClientId, Consent, Screening, Stage, StrengthTest
from app.domain.due import Standing
from app.domain.exercise import ExerciseKey
from app.domain.program import ProgramId
from app.domain.results import CheckIn, Diary
from app.domain.work import Coach, Issue, IssueId, Work
from db.roster import RosterLine, query_for
from db.store import Store
from tests import builders
from tests.db.samples import fill

RUNA = builders.client(
    stage=Stage.PAUSED,
    tags=("south, high", "north"),
    consent=Consent(date(2026, 1, 5)),
    keep_until=date(2029, 1, 1),
    screenings=tuple(
        Screening(date(2026, month, 2), active=True, known_disease=False, symptoms=False)
        for month in (10, 3)
    ),
    tests=(
        StrengthTest(ExerciseKey("back_squat"), date(2026, 9, 2), 90, 5),
        StrengthTest(ExerciseKey("leg_press"), date(2026, 2, 2), 90, 5),
        StrengthTest(
            ExerciseKey("leg_curl"), date(2026, 11, 2), 30, 5, guessed_from=ExerciseKey("leg_press")
        ),
    ),
)
PLAN = builders.program("Mon: back_squat 3x8", times=3)
DIARY = Diary((CheckIn(date(2026, 11, 20)), CheckIn(date(2026, 11, 27))))


@pytest.fixture
def store() -> Iterator[Store]:
    made = Store.in_memory()
    made.save(None, Work(RUNA, PLAN, DIARY), label="Add")
    yield made
    made.close()


def test_a_line_holds_the_days_of_the_values(store: Store) -> None:
    (line,) = store.roster()
    assert (line.id, line.name, line.programs) == (RUNA.id, RUNA.name, 1)
    assert line.tags == ("north", "south, high")
    assert line.standing == Standing(
        stage=Stage.PAUSED,
        screened=date(2026, 10, 2),
        tested=date(2026, 9, 2),
        checked_in=date(2026, 11, 27),
        program_start=PLAN.start,
        program_end=PLAN.start + timedelta(weeks=3),
        consent=date(2026, 1, 5),
        keep_until=date(2029, 1, 1),
    )


def test_of_several_programs_the_one_that_ends_last_counts(store: Store) -> None:
    long_ago = replace(PLAN, id=ProgramId("old"), start=date(2020, 1, 6))
    archived = replace(PLAN, id=ProgramId("gone"), start=date(2030, 1, 7), archived=True)
    for plan in (long_ago, archived):
        store.save(Work(RUNA), Work(RUNA, plan), label="Add")
    (line,) = store.roster()
    assert line.programs == 3
    assert line.standing.program_start == PLAN.start


def test_the_last_booklet_ends_with_the_weeks_it_held(store: Store) -> None:
    for number, weeks in enumerate((3, 1)):
        plan = replace(PLAN, weeks=PLAN.weeks[:weeks], blocks=())
        issue = Issue(IssueId(f"i{number}"), date(2026, 11, 20), Coach("M"), RUNA, plan, ())
        store.add_issue(issue)
    assert store.roster()[0].standing.issue_end == PLAN.start + timedelta(weeks=1)
    store.remove_program(PLAN.id)
    assert store.roster()[0].standing.issue_end == date(2026, 11, 27), "from the day it was made"
    assert store.roster()[0].standing.program_end is None


def test_a_client_with_a_name_alone_is_a_line_too(store: Store) -> None:
    bare = replace(
        builders.client(), id=ClientId("a"), name="Aase", screenings=(), tests=(), born=None
    )
    store.save(None, Work(bare), label="Add")
    first, second = store.roster()
    assert first.name == "Aase"
    assert first.standing == Standing()
    assert second.name == RUNA.name


def test_a_file_with_rows_in_every_table_is_read() -> None:
    store = Store.in_memory()
    work = fill(store)
    (line,) = (x for x in store.roster() if x.id == work.client.id)
    assert line.tags == work.client.tags
    assert line.standing.stage is work.client.stage
    store.close()


def test_no_table_that_grows_is_scanned(store: Store) -> None:
    raw: sqlite3.Connection = store._raw
    plan = [row[3] for row in raw.execute(f"EXPLAIN QUERY PLAN {query_for()}")]
    scanned = {step.split()[1] for step in plan if step.startswith("SCAN")}
    assert scanned <= {"c", "p", "i", "runs", "plans", "papers"}, plan


def test_a_piece_scans_no_table_of_the_file(store: Store) -> None:
    raw: sqlite3.Connection = store._raw
    plan = [row[3] for row in raw.execute(f"EXPLAIN QUERY PLAN {query_for(3)}", ("a", "b", "c"))]
    scanned = {step.split()[1] for step in plan if step.startswith("SCAN")}
    assert scanned <= {"runs", "plans", "papers"}, plan


def test_pieces_are_the_whole_list() -> None:
    store = Store.in_memory()
    fill(store)
    store.save(None, Work(replace(RUNA, id=ClientId("z"))), label="Add")
    every = store.roster()
    ids = tuple(line.id for line in every)
    assert len(ids) > 1
    pieces = (*store.roster(ids[:1]), *store.roster(ids[1:]))
    assert sorted(pieces, key=ids_of) == sorted(every, key=ids_of)
    assert store.roster((*ids[:1], ClientId("gone"))) == every[:1]
    assert store.roster(()) == ()
    store.close()


def ids_of(line: RosterLine) -> str:
    return line.id
