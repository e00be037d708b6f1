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
from db.across import NewestLine
from db.store import Store
from tests.ui.desks import PROGRAM, RUNA

TODAY = date(2026, 11, 25)


@pytest.fixture
def store() -> Iterator[Store]:
    two = Store.in_memory()
    two.save(None, Work(RUNA, PROGRAM), label="Add client")
    twin = replace(RUNA, id=ClientId("twin"))
    two.save(None, Work(twin, replace(PROGRAM, id=ProgramId("p-twin"))), label="Add client")
    yield two
    two.close()


def order(folder: Path, **changes: object) -> Order:
    plain = Order(folder, Options(), batch.PATTERN, TODAY, lambda issue, options: b"%PDF-")
    return replace(plain, **changes)  # type: ignore[arg-type]


def made(store: Store, line: NewestLine, order: Order) -> Path:
    """The file of a booklet that is prepared, bound and put away."""
    issue, options = batch.prepare(store, resources.catalogue(), line, order, coach=store.coach())
    return batch.put(store, issue, order.bind(issue, options), order=order)


def test_two_of_one_name_get_two_files_and_both_are_kept(store: Store, tmp_path: Path) -> None:
    lines = store.newest_programs()
    paths = [made(store, line, order(tmp_path)) for line in lines]
    assert len(set(paths)) == 2
    assert sorted(p.name for p in tmp_path.iterdir()) == sorted(p.name for p in paths)
    for line in lines:
        assert len(store.issues(line.program)) == 1


def test_what_stands_in_the_folder_is_never_overwritten(store: Store, tmp_path: Path) -> None:
    line = store.newest_programs()[0]
    first, second = (made(store, line, order(tmp_path)) for _ in range(2))
    assert first != second
    assert first.is_file()
    assert second.is_file()


def test_nothing_is_kept_as_handed_out_unless_it_is_asked_for(store: Store, tmp_path: Path) -> None:
    line = store.newest_programs()[0]
    made(store, line, order(tmp_path, keep=False))
    assert store.issues(line.program) == ()


def test_a_shorter_program_is_printed_to_its_end(store: Store) -> None:
    count = len(PROGRAM.weeks)
    assert batch.weeks_in(Options(weeks=(2, 52)), PROGRAM).weeks == (2, count)
    with pytest.raises(CoachError, match="earlier weeks"):
        batch.weeks_in(Options(weeks=(count + 1, 52)), PROGRAM)


@pytest.mark.parametrize("pattern", ["{cilent}", "{client} {}", "plan", "", "{date}"])
def test_a_pattern_that_names_nobody_is_refused(pattern: str) -> None:
    with pytest.raises(CoachError, match="Pattern of file names"):
        batch.require_pattern(pattern)


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

    for line in store.newest_programs():
        made(store, line, order(tmp_path, bind=bind))
    assert papers == {RUNA.id: Paper.A5, ClientId("twin"): Paper.A4}
