"""Saving the open plan as a file and opening one, around the file dialogs."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import replace
from pathlib import Path

import pytest
from PySide6.QtWidgets import QFileDialog, QWidget
from pytestqt.qtbot import QtBot

from app import resources
from app.desk import Desk
from app.domain.client import ClientId
from app.domain.exercise import ExerciseKey
from app.domain.program import ProgramId
from app.domain.work import Work
from app.exchange.plan_file import Plan, write_plan
from app.ui import plan_files
from app.ui.bench import Bench
from app.ui.plan_files import Answer, export_plan, import_plan, take_in_plan
from db.store import Store
from tests.builders import client, program

RUNA = client()
PLAN = program("Mon: back_squat 3x5, leg_extension 3x12")


@pytest.fixture
def store() -> Iterator[Store]:
    made = Store.in_memory()
    made.save(None, Work(RUNA, PLAN), label="Add")
    yield made
    made.close()


@pytest.fixture
def bench(store: Store, qtbot: QtBot) -> Bench:
    desk = Desk(store, resources.catalogue(), resources.range_book())
    desk.open(RUNA.id, PLAN.id)
    return Bench(desk)


@pytest.fixture
def window(qtbot: QtBot) -> QWidget:
    made = QWidget()
    qtbot.addWidget(made)
    return made


def choosing(monkeypatch: pytest.MonkeyPatch, path: Path | str) -> None:
    for name in ("getSaveFileName", "getOpenFileName"):
        monkeypatch.setattr(QFileDialog, name, lambda *_: (str(path), ""))


def told(monkeypatch: pytest.MonkeyPatch) -> list[str]:
    sentences: list[str] = []
    monkeypatch.setattr(plan_files, "tell", lambda _, __, sentence: sentences.append(sentence))
    return sentences


def saved(plan: Plan, folder: Path) -> Path:
    path = folder / "a.plan.json"
    path.write_text(write_plan(plan), encoding="utf-8")
    return path


def test_what_is_saved_is_the_open_plan(
    bench: Bench, window: QWidget, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    choosing(monkeypatch, tmp_path / "mine")
    path = export_plan(bench, window)
    assert path == tmp_path / "mine.plan.json"
    assert path.read_text(encoding="utf-8") == write_plan(Plan(RUNA, PLAN))


def test_cancelling_does_nothing(
    bench: Bench, store: Store, window: QWidget, monkeypatch: pytest.MonkeyPatch
) -> None:
    choosing(monkeypatch, "")
    assert export_plan(bench, window) is None
    assert not import_plan(bench, store, window)


def test_a_place_that_cannot_be_written_to_is_told(
    bench: Bench, window: QWidget, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    choosing(monkeypatch, tmp_path / "none" / "a.json")
    sentences = told(monkeypatch)
    assert export_plan(bench, window) is None
    assert "There is no such file or folder" in sentences[0]


def test_a_broken_file_is_told_and_changes_nothing(
    bench: Bench,
    store: Store,
    window: QWidget,
    tmp_path: Path,
    monkeypatch: pytest.MonkeyPatch,
) -> None:
    path = tmp_path / "a.json"
    path.write_text('{"format": "weekloom plan"}', encoding="utf-8")
    choosing(monkeypatch, path)
    sentences = told(monkeypatch)
    before = bench.desk.work
    assert not import_plan(bench, store, window)
    assert "'version' is missing" in sentences[0]
    assert bench.desk.work is before
    assert len(store.clients()) == 1


def test_a_new_client_is_added_and_opened(
    bench: Bench, store: Store, window: QWidget, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    jorunn = replace(RUNA, id=ClientId("jorunn"), name="Jorunn Aske")
    hers = replace(PLAN, id=ProgramId("uphill"))
    choosing(monkeypatch, saved(Plan(jorunn, hers), tmp_path))
    assert import_plan(bench, store, window)
    assert bench.desk.work == Work(jorunn, hers)
    assert store.load_program(hers.id) == hers


def test_another_program_of_a_known_client_is_added_without_a_question(
    bench: Bench, store: Store, window: QWidget, tmp_path: Path
) -> None:
    second = replace(PLAN, id=ProgramId("second"))
    assert take_in_plan(bench, store, saved(Plan(RUNA, second), tmp_path), window=window)
    assert bench.desk.program == second
    assert len(store.programs(RUNA.id)) == 2


def test_replacing_can_be_undone(
    bench: Bench, store: Store, window: QWidget, tmp_path: Path
) -> None:
    changed = Plan(replace(RUNA, mass_kg=70), replace(PLAN, name="From the file"))
    path = saved(changed, tmp_path)
    assert take_in_plan(bench, store, path, window=window, ask=lambda *_: Answer.REPLACE)
    assert bench.desk.work == Work(changed.client, changed.program)
    assert store.load_program(PLAN.id) == changed.program
    bench.undo()
    bench.undo()
    assert bench.desk.work == Work(RUNA, PLAN)
    assert store.load_program(PLAN.id) == PLAN
    assert store.load_client(RUNA.id) == RUNA


def test_keeping_both_leaves_what_was_there(
    bench: Bench, store: Store, window: QWidget, tmp_path: Path
) -> None:
    own = replace(
        resources.catalogue()[ExerciseKey("leg_extension")],
        key=ExerciseKey("band_march_2"),
        own=True,
    )
    store.save_exercise(own)
    changed = Plan(RUNA, replace(PLAN, name="Other"), (replace(own, name="Other march"),))
    path = saved(changed, tmp_path)
    assert take_in_plan(bench, store, path, window=window, ask=lambda *_: Answer.KEEP_BOTH)
    assert store.load_program(PLAN.id) == PLAN
    assert len(store.clients()) == 2
    assert bench.desk.client.name == "Runa Estvik, from a plan file"
    assert bench.desk.program.name == "Other"
    assert store.own_exercises() == (own,)


def test_own_exercises_of_the_plan_are_at_hand_at_once(
    bench: Bench, store: Store, window: QWidget, tmp_path: Path
) -> None:
    own = replace(
        resources.catalogue()[ExerciseKey("leg_extension")], key=ExerciseKey("sled_march"), own=True
    )
    theirs = program("Mon: sled_march 3x10", id=ProgramId("march"))
    path = saved(Plan(RUNA, theirs, (own,)), tmp_path)
    assert take_in_plan(bench, store, path, window=window)
    assert bench.desk.catalogue[own.key] == own
    assert bench.desk.findings is not None
    assert store.own_exercises() == (own,)


def test_leaving_it_changes_nothing(
    bench: Bench, store: Store, window: QWidget, tmp_path: Path
) -> None:
    path = saved(Plan(RUNA, replace(PLAN, name="Other")), tmp_path)
    assert not take_in_plan(bench, store, path, window=window, ask=lambda *_: Answer.LEAVE)
    assert store.load_program(PLAN.id) == PLAN
    assert bench.desk.work == Work(RUNA, PLAN)
