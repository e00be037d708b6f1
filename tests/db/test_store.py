"""The store keeps what it is given, writes only differences, and says no in sentences."""

from __future__ import annotations

import random
from collections.abc import Iterator
from contextlib import suppress
from dataclasses import replace
from datetime import date
from pathlib import Path

import pytest
from hypothesis import given
from hypothesis import strategies as st
from sqlalchemy import event

from app.domain.client import Client, ClientId
from app.domain.exercise import ExerciseKey
from app.domain.program import (
    Block,
    Day,
    Program,
    ProgramId,
    Reps,
    Session,
    SessionId,
    Slot,
    SlotId,
    StrandId,
    Week,
    WeekId,
    broken_laws,
    empty_program,
)
from app.domain.results import CheckIn, Diary, SetDone, SlotResult
from app.domain.work import Work
from db.errors import Cause, StoreFailure
from db.store import Store
from tests.strategies import clients, diaries, programs, rearranged

RUNA = Client(ClientId("runa"), "Runa Estvik")


def slot(number: int, sets: int = 3) -> Slot:
    return Slot(SlotId(number), StrandId(number), "back_squat", sets, Reps(5, 5))  # type: ignore[arg-type]


def plan(weeks: int = 3, slots: int = 4, name: str = "Base") -> Program:
    """A program with one session of `slots` slots on each Monday."""
    number = 100
    made = []
    for index in range(weeks):
        number += 100
        session = Session(
            SessionId(number),
            StrandId(1),
            "Lower body",
            tuple(slot(number + 1 + place) for place in range(slots)),
        )
        made.append(Week(WeekId(index + 1), (Day((session,)), *(Day(),) * 6)))
    return Program(
        ProgramId(name.lower()),
        name,
        date(2026, 1, 5),
        tuple(made),
        (Block("All", weeks),),
        next_id=number + 100,
    )


@pytest.fixture
def store() -> Iterator[Store]:
    store = Store.in_memory()
    yield store
    store.close()


def kept(store: Store, program: Program) -> Work:
    work = Work(RUNA, program)
    store.save(None, work, label="Add the program")
    return work


@given(clients)
def test_a_client_comes_back_equal(client):
    store = Store.in_memory()
    store.save(None, Work(client), label="Add the client")
    assert store.load_client(client.id) == client
    assert store.check_integrity() == ()
    store.close()


@given(clients, clients)
def test_a_changed_client_comes_back_equal(first, second):
    store = Store.in_memory()
    second = replace(second, id=first.id)
    store.save(None, Work(first), label="Add the client")
    store.save(Work(first), Work(second), label="Change the client")
    assert store.load_client(first.id) == second
    store.close()


@given(programs())
def test_a_program_comes_back_equal(program):
    assert broken_laws(program) == ()
    store = Store.in_memory()
    kept(store, program)
    assert store.load_program(program.id) == program
    assert store.check_integrity() == ()
    store.close()


@given(programs(), st.lists(st.integers(0, 2**32), min_size=1, max_size=4))
def test_every_step_of_a_random_history_comes_back_equal(program, seeds):
    store = Store.in_memory()
    work = kept(store, program)
    for seed in seeds:
        after = Work(RUNA, rearranged(work.program, random.Random(seed)))
        assert broken_laws(after.program) == ()
        store.save(work, after, label="Rearrange")
        assert store.load_program(program.id) == after.program
        work = after
    store.save(work, Work(RUNA, program), label="Undo all")
    assert store.load_program(program.id) == program
    assert store.check_integrity() == ()
    store.close()


@given(programs(), programs())
def test_a_program_can_become_any_other(first, second):
    store = Store.in_memory()
    second = replace(second, id=first.id)
    work = kept(store, first)
    store.save(work, Work(RUNA, second), label="Replace everything")
    assert store.load_program(first.id) == second
    store.close()


def statements_of(store: Store) -> list[tuple[str, int]]:
    """A list that fills with each statement the store runs, and for how many rows."""
    seen: list[tuple[str, int]] = []

    def note(_connection, _cursor, statement, parameters, _context, many):
        seen.append((statement, len(parameters) if many else 1))

    event.listen(store._connection.engine, "before_cursor_execute", note)
    return seen


def queries_of(store: Store) -> list[str]:
    """A list that fills with each query the store asks, its values put in."""
    seen: list[str] = []
    store._raw.set_trace_callback(seen.append)
    return seen


def test_one_changed_number_writes_one_column_of_one_slot(store):
    work = kept(store, plan(weeks=20))
    weeks = work.program.weeks
    session = weeks[4].days[0].sessions[0]
    changed = replace(session, slots=(replace(session.slots[0], sets=5), *session.slots[1:]))
    week = replace(weeks[4], days=(Day((changed,)), *weeks[4].days[1:]))
    after = replace(work.program, weeks=(*weeks[:4], week, *weeks[5:]))
    seen = statements_of(store)
    store.save(work, Work(RUNA, after), label="Set 5 sets")
    written = [(s.split("WHERE")[0].strip(), n) for s, n in seen if not s.startswith("BEGIN")]
    assert written == [
        ("UPDATE programs SET version=?", 1),
        ("UPDATE slots SET sets=?", 1),
        ("INSERT INTO edits (client_id, program_id, at, label) VALUES (?, ?, ?, ?)", 1),
        ("COMMIT", 1),
    ]


@pytest.mark.parametrize("weeks", [1, 50])
def test_loading_takes_the_same_number_of_queries_for_any_program(store, weeks):
    kept(store, plan(weeks=weeks, slots=8))
    seen = queries_of(store)
    store.load_program(ProgramId("base"))
    store.load_client(RUNA.id)
    store.clients()
    store.programs(RUNA.id)
    selects = [query for query in seen if query.startswith("SELECT")]
    assert len(selects) == 9 + 14 + 1 + 1


def test_a_save_that_fails_changes_nothing(store):
    work = kept(store, plan())
    broken = replace(work.program, weeks=work.program.weeks[:1], name="")  # breaks a law of SQL
    with pytest.raises(Exception, match="CHECK constraint"):
        store.save(work, Work(RUNA, broken), label="Break it")
    assert store.load_program(work.program.id) == work.program
    assert [line.label for line in store.log(work.program.id)] == ["Add the program"]


def test_a_half_character_is_refused_with_a_sentence(store):
    work = kept(store, plan())
    bad = replace(work.program, name="Base \ud800")
    with pytest.raises(StoreFailure, match="character that cannot be stored") as refused:
        store.save(work, Work(RUNA, bad), label="Rename")
    assert refused.value.cause is Cause.TEXT
    assert store.load_program(work.program.id) == work.program


def test_something_new_never_takes_the_place_of_something_else(store):
    work = kept(store, plan())
    other = Client(ClientId("jorunn"), "Jorunn Aske")
    same_program = Work(other, replace(plan(), name="Not yours"))
    for after in (same_program, Work(replace(RUNA, name="Another Runa"))):
        with pytest.raises(StoreFailure, match="already holds '(Base|Runa Estvik)'") as refused:
            store.save(None, after, label="Import")
        assert refused.value.cause is Cause.TAKEN
    assert [line.name for line in store.clients()] == ["Runa Estvik"]
    assert store.load_program(ProgramId("base")) == work.program


def test_several_writes_together_are_kept_all_or_not_at_all(store):
    work = kept(store, plan())
    renamed = Work(RUNA, replace(work.program, name="Peak"))
    with suppress(ZeroDivisionError), store.together():
        store.set_setting("open", "runa")
        store.save(work, renamed, label="Rename")
        assert store.load_program(ProgramId("base")).name == "Peak"
        _ = 1 / 0
    assert store.setting("open") == ""
    assert store.load_program(ProgramId("base")) == work.program
    with store.together():
        store.set_setting("open", "runa")
        store.save(work, renamed, label="Rename")
    assert store.setting("open") == "runa"
    assert store.load_program(ProgramId("base")).name == "Peak"


def test_the_log_tells_edits_in_the_order_they_were_kept(store):
    work = kept(store, plan())
    renamed = Work(RUNA, replace(work.program, name="Peak"))
    store.save(work, renamed, label="Rename to Peak")
    store.save(renamed, work, label="Undo Rename to Peak")
    lines = store.log(work.program.id)
    assert [line.label for line in lines] == [
        "Undo Rename to Peak",
        "Rename to Peak",
        "Add the program",
    ]
    assert all(line.at.utcoffset().total_seconds() == 0 for line in lines)
    assert len(store.log(work.program.id, limit=2)) == 2


def test_lists_show_clients_by_name_and_programs_by_start(store):
    kept(store, plan())
    later = replace(plan(weeks=5, name="Peak"), start=date(2026, 6, 1))
    store.save(Work(RUNA), Work(RUNA, later), label="Add Peak")
    store.save(None, Work(Client(ClientId("a"), "Jorunn Aske", team="Ombrel")), label="Add")
    assert [store.client_line(line.id) for line in store.clients()] == list(store.clients())
    assert store.count_clients() == len(store.clients())
    assert [(c.name, c.team, c.programs) for c in store.clients()] == [
        ("Jorunn Aske", "Ombrel", 0),
        ("Runa Estvik", "", 2),
    ]
    assert [(p.name, p.weeks) for p in store.programs(RUNA.id)] == [("Peak", 5), ("Base", 3)]


def test_a_second_program_can_be_added_while_one_is_open(store):
    work = kept(store, plan())
    other = empty_program(ProgramId("other"), "Other", start=date(2026, 3, 4), weeks=2)
    store.save(work, Work(RUNA, other), label="Add Other")
    assert store.load_program(ProgramId("other")) == other
    assert store.load_program(work.program.id) == work.program


def test_removing_a_client_removes_everything_of_theirs(store):
    work = kept(store, plan())
    store.remove_client(RUNA.id)
    assert store.clients() == ()
    counts = [
        store._connection.exec_driver_sql(f"SELECT count(*) FROM {table}").scalar()
        for table in ("programs", "weeks", "sessions", "slots", "blocks", "edits")
    ]
    assert counts == [0] * 6
    with pytest.raises(StoreFailure, match="no program 'base'") as refused:
        store.load_program(work.program.id)
    assert refused.value.cause is Cause.MISSING


def test_removing_a_program_leaves_the_client_and_the_others(store):
    work = kept(store, plan())
    other = plan(name="Peak")
    store.save(Work(RUNA), Work(RUNA, other), label="Add Peak")
    store.remove_program(work.program.id)
    assert [p.name for p in store.programs(RUNA.id)] == ["Peak"]
    assert store.load_program(other.id) == other


def test_two_windows_cannot_overwrite_each_other(tmp_path):
    path = tmp_path / "coach.weekloom"
    here, there = Store.open(path), Store.open(path)
    work = kept(here, plan())
    theirs = Work(there.load_client(RUNA.id), there.load_program(ProgramId("base")))
    assert not here.changed_outside()
    there.save(theirs, Work(theirs.client, replace(theirs.program, name="Theirs")), label="Rename")
    assert here.changed_outside()
    assert not here.changed_outside()
    with pytest.raises(StoreFailure, match="another window") as refused:
        here.save(work, Work(RUNA, replace(work.program, name="Ours")), label="Rename")
    assert refused.value.cause is Cause.CHANGED_OUTSIDE
    again = here.load_program(ProgramId("base"))
    assert again.name == "Theirs"
    here.save(Work(RUNA, again), Work(RUNA, replace(again, name="Both")), label="Rename")
    assert there.load_program(ProgramId("base")).name == "Both"
    here.close()
    there.close()


def test_a_client_that_was_removed_in_another_window_is_not_brought_back_by_halves(tmp_path):
    path = tmp_path / "coach.weekloom"
    here, there = Store.open(path), Store.open(path)
    here.save(None, Work(RUNA), label="Add the client")
    there.remove_client(RUNA.id)
    for after in (Work(RUNA, plan()), Work(replace(RUNA, note="new"))):
        with pytest.raises(StoreFailure) as refused:
            here.save(Work(RUNA), after, label="Edit")
        assert refused.value.cause is Cause.CHANGED_OUTSIDE
    assert there.clients() == ()
    here.close()
    there.close()


def test_the_queries_of_an_open_program_use_its_key_and_never_read_a_whole_table(store):
    kept(store, plan(weeks=20))
    seen = queries_of(store)
    store.load_program(ProgramId("base"))
    store.load_client(RUNA.id)
    store.programs(RUNA.id)
    store.log(ProgramId("base"))
    store.issues(ProgramId("base"))
    queries = [query for query in seen if query.startswith("SELECT")]
    store._raw.set_trace_callback(None)
    assert len(queries) == 26
    for query in queries:
        plan_of = store._connection.exec_driver_sql(f"EXPLAIN QUERY PLAN {query}")
        steps = [row.detail for row in plan_of]
        assert not [step for step in steps if step.startswith("SCAN")], (query, steps)


def test_a_value_in_the_file_that_breaks_its_laws_is_called_damage(store):
    kept(store, plan())
    store._connection.exec_driver_sql("UPDATE slots SET role = 'bogus'")
    with pytest.raises(StoreFailure) as refused:
        store.load_program(ProgramId("base"))
    assert refused.value.cause is Cause.DAMAGED


def test_closing_twice_is_harmless_and_leaves_one_file(tmp_path: Path):
    path = tmp_path / "coach.weekloom"
    store = Store.open(path)
    kept(store, plan())
    store.close()
    store.close()
    assert list(tmp_path.iterdir()) == [path]


def test_the_list_of_clients_is_read_again_only_when_it_has_changed(tmp_path):
    path = tmp_path / "coach.weekloom"
    store, other = Store.open(path), Store.open(path)
    work = kept(store, plan())
    seen = queries_of(store)
    first = store.clients()
    renamed = Work(RUNA, replace(work.program, name="Other"))
    store.save(work, renamed, label="Rename")
    assert store.clients() is first
    assert sum("FROM clients" in query for query in seen) == 1
    store._raw.set_trace_callback(None)

    store.save(renamed, Work(replace(RUNA, name="Ann"), renamed.program), label="Name")
    assert [line.name for line in store.clients()] == ["Ann"]
    store.save(Work(RUNA), Work(RUNA, plan(name="Peak")), label="Add Peak")
    assert [line.programs for line in store.clients()] == [2]
    other.remove_program(ProgramId("peak"))
    assert [line.programs for line in store.clients()] == [1]
    with suppress(ZeroDivisionError), store.together():
        store.remove_client(RUNA.id)
        assert store.clients() == ()
        _ = 1 / 0
    assert [line.name for line in store.clients()] == ["Ann"]
    store.remove_client(RUNA.id)
    assert store.clients() == ()
    store.close()
    other.close()


# ---------------------------------------------------------------------------- diaries


def squats(on: date, *reps: int) -> SlotResult:
    sets = tuple(SetDone(60.0, n, 2.0) for n in reps)
    return SlotResult(ProgramId("base"), SlotId(201), ExerciseKey("back_squat"), on, sets)


FIRST = Diary((CheckIn(date(2026, 1, 6), mass_kg=74.0),), (squats(date(2026, 1, 5), 5, 5, 4),))


@given(diaries, diaries)
def test_a_diary_can_become_any_other_and_back(first, second):
    store = Store.in_memory()
    work = Work(RUNA, diary=first)
    store.save(None, work, label="Add the client")
    store.save(work, Work(RUNA, diary=second), label="Fill in")
    assert store.load_diary(RUNA.id) == second
    store.save(Work(RUNA, diary=second), work, label="Undo")
    assert store.load_diary(RUNA.id) == first
    assert store.check_integrity() == ()
    store.close()


def test_a_diary_that_was_not_read_stays_as_it_is_stored(store):
    store.save(None, Work(RUNA, diary=FIRST), label="Add the client")
    renamed = Work(replace(RUNA, note="new"))
    store.save(Work(RUNA), renamed, label="Note")
    assert store.load_diary(RUNA.id) == FIRST


def test_a_diary_that_was_not_read_is_replaced_by_one_that_is_given(store):
    store.save(None, Work(RUNA, diary=FIRST), label="Add the client")
    other = Diary(results=(squats(date(2026, 1, 8), 5),))
    store.save(Work(RUNA), Work(RUNA, diary=other), label="Bring")
    assert store.load_diary(RUNA.id) == other


def test_one_more_session_writes_its_rows_and_no_others(store):
    days = [date(2026, 1, day) for day in range(5, 25)]
    diary = Diary(results=tuple(squats(day, 5, 5, 5) for day in days))
    work = Work(RUNA, diary=diary)
    store.save(None, work, label="Add the client")
    seen = statements_of(store)
    after = Work(RUNA, diary=diary.with_results([squats(date(2026, 1, 30), 5, 5)]))
    store.save(work, after, label="Results")
    written = [(s.split("(")[0].strip(), n) for s, n in seen if s.startswith(("INSERT", "UPDATE"))]
    assert written == [
        (
            "UPDATE clients SET diary_version=? WHERE clients.id = ? AND clients.diary_version = ?",
            1,
        ),
        ("INSERT INTO results", 1),
        ("INSERT INTO result_sets", 2),
        ("INSERT INTO edits", 1),
    ]


def test_two_windows_cannot_overwrite_each_others_diary(tmp_path):
    path = tmp_path / "coach.weekloom"
    here, there = Store.open(path), Store.open(path)
    here.save(None, Work(RUNA, diary=FIRST), label="Add the client")
    theirs = there.load_diary(RUNA.id)
    mine = here.load_diary(RUNA.id)
    more = theirs.with_results([squats(date(2026, 1, 8), 5)])
    there.save(Work(RUNA, diary=theirs), Work(RUNA, diary=more), label="Results")
    with pytest.raises(StoreFailure) as refused:
        here.save(
            Work(RUNA, diary=mine),
            Work(RUNA, diary=mine.without_check_in(date(2026, 1, 6))),
            label="x",
        )
    assert refused.value.cause is Cause.CHANGED_OUTSIDE
    assert here.load_diary(RUNA.id) == more
    # the client itself is another matter
    here.save(Work(RUNA), Work(replace(RUNA, note="new")), label="Note")
    here.close()
    there.close()


def test_a_diary_that_cannot_be_kept_whole_is_not_kept_at_all(store):
    store.save(None, Work(RUNA, diary=FIRST), label="Add the client")
    bad = replace(squats(date(2026, 1, 8), 5), note="half \ud800")
    after = FIRST.with_results([squats(date(2026, 1, 7), 5), bad])
    with pytest.raises(StoreFailure):
        store.save(Work(RUNA, diary=FIRST), Work(RUNA, diary=after), label="Results")
    assert store.load_diary(RUNA.id) == FIRST
