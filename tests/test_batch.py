from __future__ import annotations

from collections.abc import Iterator
from dataclasses import replace
from datetime import date
from pathlib import Path

import pytest
from hypothesis import given
from hypothesis import strategies as st

from app import batch, resources
from app.batch import Order
from app.booklet import Options, Paper
from app.domain.client import ClientId
from app.domain.errors import CoachError
from app.domain.program import ProgramId
from app.domain.work import Issue, Work
from db.store import Store
from tests.ui.desks import PROGRAM, RUNA

TODAY = date(2026, 11, 25)


@pytest.fixture
def store() -> Iterator[Store]:
    made = Store.in_memory()
    made.save(None, Work(RUNA, PROGRAM), label="Add client")
    twin = replace(RUNA, id=ClientId("twin"))
    made.save(None, Work(twin, replace(PROGRAM, id=ProgramId("p-twin"))), label="Add client")
    gone = replace(RUNA, id=ClientId("gone"), name="Hanne Moe", archived=True)
    made.save(None, Work(gone, replace(PROGRAM, id=ProgramId("p-gone"))), label="Add client")
    made.save(None, Work(replace(RUNA, id=ClientId("bare"), name="Bare")), label="Add client")
    yield made
    made.close()


def order(folder: Path, **changes: object) -> Order:
    made = Order(folder, Options(), batch.PATTERN, TODAY, lambda issue, options: b"%PDF-")
    return replace(made, **changes)  # type: ignore[arg-type]


def test_every_client_with_a_program_can_have_one(store: Store) -> None:
    found = batch.wishes(store)
    assert [wish.client for wish in found] == [RUNA.id, ClientId("twin")]
    assert {wish.weeks for wish in found} == {len(PROGRAM.weeks)}


def test_two_of_one_name_get_two_files_and_both_are_kept(store: Store, tmp_path: Path) -> None:
    outcomes = list(batch.make(store, resources.catalogue(), batch.wishes(store), order(tmp_path)))
    paths = [outcome.path for outcome in outcomes]
    assert len(set(paths)) == 2
    assert sorted(p.name for p in tmp_path.iterdir()) == sorted(p.name for p in paths)
    for wish in batch.wishes(store):
        assert len(store.issues(wish.program)) == 1


def test_what_stands_in_the_folder_is_never_overwritten(store: Store, tmp_path: Path) -> None:
    wish = batch.wishes(store)[0]
    first, second = (
        next(batch.make(store, resources.catalogue(), [wish], order(tmp_path))) for _ in range(2)
    )
    assert first.path != second.path
    assert first.path.is_file()
    assert second.path.is_file()


def test_one_that_fails_is_told_of_and_the_others_are_made(store: Store, tmp_path: Path) -> None:
    def bind(issue: Issue, options: Options) -> bytes:
        if issue.client.id == RUNA.id:
            raise CoachError("The fonts have no such letter.", mend="Write another.")
        return b"%PDF-"

    failed, made = batch.make(
        store, resources.catalogue(), batch.wishes(store), order(tmp_path, bind=bind)
    )
    assert failed.path is None
    assert "no such letter" in failed.problem
    assert made.path is not None
    assert store.issues(batch.wishes(store)[0].program) == ()


def test_nothing_is_kept_as_handed_out_unless_it_is_asked_for(store: Store, tmp_path: Path) -> None:
    wish = batch.wishes(store)[0]
    list(batch.make(store, resources.catalogue(), [wish], order(tmp_path, keep=False)))
    assert store.issues(wish.program) == ()


def test_a_shorter_program_is_printed_to_its_end(store: Store) -> None:
    count = len(PROGRAM.weeks)
    assert batch.weeks_in(Options(weeks=(2, 52)), PROGRAM).weeks == (2, count)
    with pytest.raises(CoachError, match="earlier weeks"):
        batch.weeks_in(Options(weeks=(count + 1, 52)), PROGRAM)


@pytest.mark.parametrize("pattern", ["{cilent}", "{client} {}", "plan", "", "{date}"])
def test_a_pattern_that_names_nobody_is_refused(pattern: str, store: Store, tmp_path: Path) -> None:
    with pytest.raises(CoachError, match="Pattern of file names"):
        list(batch.make(store, resources.catalogue(), [], order(tmp_path, pattern=pattern)))


@given(st.text(max_size=300), st.text(max_size=300))
def test_a_name_never_leaves_its_folder(client: str, program: str) -> None:
    parts = {"client": client, "program": program, "date": "2026-11-25", "weeks": "1-6"}
    stem = batch.stem_of("{client} {program} {date}", parts)
    assert Path(stem).name == stem
    assert 0 < len(stem) <= 80
    assert stem not in (".", "..")


def test_a_clients_own_paper_goes_before_the_usual_one(store: Store, tmp_path: Path) -> None:
    small = replace(RUNA, paper="A5")
    store.save(Work(RUNA), Work(small), label="Change the profile")
    papers = {}

    def bind(issue: Issue, options: Options) -> bytes:
        papers[issue.client.id] = options.paper
        return b"%PDF-"

    list(batch.make(store, resources.catalogue(), batch.wishes(store), order(tmp_path, bind=bind)))
    assert papers == {RUNA.id: Paper.A5, ClientId("twin"): Paper.A4}
