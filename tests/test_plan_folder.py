"""A folder of plan files, in and out."""

from __future__ import annotations

import os
import subprocess
import sys
from collections.abc import Iterator
from dataclasses import replace
from pathlib import Path

import pytest

from app import resources
from app.domain.client import Client, ClientId
from app.domain.program import ProgramId
from app.domain.work import Work
from app.exchange.files import FileTrouble
from app.exchange.plan_file import Plan
from app.plan_folder import (
    Fate,
    Outcome,
    already_there,
    leaving,
    load_plan,
    plan_files_in,
    read_folder,
    write_out,
)
from db.store import Store
from tests.ui.desks import PROGRAM, RUNA

CATALOGUE = resources.catalogue()
ROOT = Path(__file__).resolve().parents[1]


@pytest.fixture
def store() -> Iterator[Store]:
    made = Store.in_memory()
    made.save(None, Work(RUNA, PROGRAM), label="Add")
    made.save(None, Work(Client(ClientId("ask"), "Ask Elverum")), label="Add")
    yield made
    made.close()


@pytest.fixture
def empty() -> Iterator[Store]:
    made = Store.in_memory()
    yield made
    made.close()


def everybody(store: Store) -> tuple[Plan, ...]:
    return tuple(load_plan(store, CATALOGUE, line) for line in store.plans())


def put_out(store: Store, folder: Path) -> list[Outcome]:
    """Writes the plans of everybody."""
    going = leaving(store, folder, {line.id for line in store.clients()})
    return [write_out(load_plan(store, CATALOGUE, one.line), one.path) for one in going]


def test_everything_goes_out_and_comes_back(store: Store, empty: Store, tmp_path: Path) -> None:
    outcomes = put_out(store, tmp_path)
    assert {one.fate for one in outcomes} == {Fate.DONE}
    assert len(plan_files_in(tmp_path)) == 2
    back = list(read_folder(empty, CATALOGUE, plan_files_in(tmp_path)))
    assert {one.fate for one in back} == {Fate.DONE}
    assert everybody(empty) == everybody(store)


def test_what_is_there_already_is_the_same(store: Store, tmp_path: Path) -> None:
    put_out(store, tmp_path)
    again = list(read_folder(store, CATALOGUE, plan_files_in(tmp_path)))
    assert {one.fate for one in again} == {Fate.SAME}


def test_one_that_fails_says_why_and_the_others_go_on(
    store: Store, empty: Store, tmp_path: Path
) -> None:
    spoilt = put_out(store, tmp_path)[1].path
    whole = spoilt.read_bytes()
    spoilt.write_bytes(whole[: len(whole) // 2])
    (tmp_path / "z.plan.json").write_text("{}", encoding="utf-8")
    outcomes = list(read_folder(empty, CATALOGUE, plan_files_in(tmp_path)))
    assert [one.fate for one in outcomes].count(Fate.FAILED) == 2
    assert all(str(tmp_path) not in one.text for one in outcomes if one.fate is Fate.FAILED)
    assert len(empty.clients()) == 1


def test_another_version_of_the_same_is_left_unless_it_may_be_replaced(
    store: Store, tmp_path: Path
) -> None:
    put_out(store, tmp_path)
    store.save(Work(RUNA, PROGRAM), Work(replace(RUNA, team="Other"), PROGRAM), label="Change")
    paths = plan_files_in(tmp_path)
    fates = {one.fate for one in read_folder(store, CATALOGUE, paths)}
    assert Fate.FAILED in fates
    assert store.load_client(RUNA.id).team == "Other"
    list(read_folder(store, CATALOGUE, paths, replacing=True))
    assert store.load_client(RUNA.id).team == RUNA.team


def test_only_the_programs_of_those_asked_for_leave(store: Store, tmp_path: Path) -> None:
    (one,) = leaving(store, tmp_path, {ClientId("ask")})
    assert (one.line.program, one.path.name) == (None, "ask-elverum.plan.json")


def test_files_that_stand_there_are_named_before_anything_is_written(
    store: Store, tmp_path: Path
) -> None:
    going = leaving(store, tmp_path, {RUNA.id, ClientId("ask")})
    assert already_there(going) == ()
    write_out(load_plan(store, CATALOGUE, going[0].line), going[0].path)
    assert already_there(going) == (going[0].path,)


@pytest.mark.parametrize(
    "name", ["../../x", "CON", "a/b\\c", "x" * 180, "N\u202eul\u0000", "..", "   .  "]
)
def test_a_name_decides_no_path(name: str, empty: Store, tmp_path: Path) -> None:
    program = replace(PROGRAM, id=ProgramId("q"), name=name)
    empty.save(None, Work(Client(ClientId("x"), name), program), label="Add")
    (outcome,) = put_out(empty, tmp_path)
    assert outcome.path.parent == tmp_path
    assert outcome.path.resolve().is_relative_to(tmp_path.resolve())
    assert list(tmp_path.iterdir()) == [outcome.path]


def test_a_folder_without_plan_files_is_told(tmp_path: Path) -> None:
    (tmp_path / ".hidden.plan.json").write_text("{}", encoding="utf-8")
    (tmp_path / "note.txt").write_text("x", encoding="utf-8")
    with pytest.raises(FileTrouble, match="no plan file"):
        plan_files_in(tmp_path)
    with pytest.raises(FileTrouble):
        plan_files_in(tmp_path / "no")


def test_a_full_disk_leaves_nothing_behind(tmp_path: Path) -> None:
    probe = (
        "import resource, sys; from pathlib import Path\n"
        "from app.exchange.files import FileTrouble, write_file\n"
        "import signal; signal.signal(signal.SIGXFSZ, signal.SIG_IGN)\n"
        "resource.setrlimit(resource.RLIMIT_FSIZE, (1000, 1000))\n"
        "try:\n    write_file(Path(sys.argv[1]), bytes(5000))\n"
        "except FileTrouble as error:\n    print('told')\n"
    )
    done = subprocess.run(
        [sys.executable, "-c", probe, str(tmp_path / "a.plan.json")],
        cwd=ROOT,
        capture_output=True,
        text=True,
        check=True,
    )
    assert done.stdout.strip() == "told"
    assert list(tmp_path.iterdir()) == []


@pytest.mark.skipif(os.geteuid() == 0, reason="the superuser may write anywhere")
def test_a_folder_that_may_not_be_written_to_is_told(store: Store, tmp_path: Path) -> None:
    tmp_path.chmod(0o500)
    with pytest.raises(FileTrouble):
        put_out(store, tmp_path)
    tmp_path.chmod(0o700)
    assert list(tmp_path.iterdir()) == []
