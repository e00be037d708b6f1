"""Own exercises saved as a file and taken in, by way of file dialogs."""

from __future__ import annotations

import pytest
from PySide6.QtWidgets import QFileDialog, QWidget

from app import own_exercises
from app.ui.library import own_files
from tests.ui.library import scene


@pytest.fixture
def window(qtbot) -> QWidget:
    made = QWidget()
    qtbot.addWidget(made)
    return made


@pytest.fixture
def told(monkeypatch) -> list[str]:
    """What the boxes say instead of waiting for somebody."""
    said: list[str] = []
    monkeypatch.setattr(own_files, "tell", lambda _w, title, text: said.append(f"{title}: {text}"))
    return said


def choose(monkeypatch, path) -> None:
    for name in ("getSaveFileName", "getOpenFileName"):
        monkeypatch.setattr(QFileDialog, name, lambda *_: (str(path), ""))


def test_own_exercises_go_from_one_coach_to_another(monkeypatch, window, tmp_path, told):
    bench, other = scene.bench(), scene.bench()
    own_exercises.keep(bench.desk, scene.own())
    choose(monkeypatch, tmp_path / "mine")
    path = own_files.save_own(bench, window)
    assert path == tmp_path / "mine.exercises.toml"
    choose(monkeypatch, path)
    assert own_files.take_in_own(other, window) == 1
    assert other.desk.store.own_exercises() == (scene.own(),)
    assert told == []


def test_with_nothing_to_save_it_says_what_to_do(window, told):
    assert own_files.save_own(scene.bench(), window) is None
    assert "copy and change" in told[0]


def test_a_cancelled_dialog_changes_nothing(monkeypatch, window, told):
    bench = scene.bench()
    own_exercises.keep(bench.desk, scene.own())
    choose(monkeypatch, "")
    assert own_files.save_own(bench, window) is None
    assert own_files.take_in_own(bench, window) == 0
    assert told == []


def test_a_folder_that_is_not_there_is_told(monkeypatch, window, tmp_path, told):
    bench = scene.bench()
    own_exercises.keep(bench.desk, scene.own())
    choose(monkeypatch, tmp_path / "nowhere" / "mine.toml")
    assert own_files.save_own(bench, window) is None
    assert told[0].startswith("The exercises were not saved: ")


def test_a_bad_file_is_told_with_its_line_and_nothing_is_taken_in(window, tmp_path, told):
    bench = scene.bench()
    path = tmp_path / "bad.toml"
    path.write_text('[row]\nname = "<i>Row</i>"\npattern = "squat"\n', encoding="utf-8")
    assert own_files.take_in_file(bench, path, window) == 0
    assert "bad.toml, line" in told[0]
    assert bench.desk.store.own_exercises() == ()


@pytest.mark.parametrize(("replacing", "cue"), [(True, "Theirs."), (False, "Mine.")])
def test_another_form_of_an_own_exercise_is_asked_about(
    monkeypatch, window, tmp_path, told, replacing, cue
):
    bench, other = scene.bench(), scene.bench()
    own_exercises.keep(bench.desk, scene.own(cues=("Mine.",)))
    own_exercises.keep(other.desk, scene.own(cues=("Theirs.",)))
    path = tmp_path / "theirs.toml"
    own_exercises.write_own(path, other.desk.store.own_exercises(), other.desk.catalogue)
    monkeypatch.setattr(own_files, "ask_to_replace", lambda *_: replacing)
    own_files.take_in_file(bench, path, window)
    assert bench.desk.catalogue[scene.own().key].cues == (cue,)


def test_a_retired_exercise_can_be_brought_back(qtbot):
    bench = scene.bench()
    own_exercises.keep(bench.desk, scene.own())
    own_exercises.retire(bench.desk, scene.own().key)
    sheet = own_files.BringBack(bench, None)
    qtbot.addWidget(sheet)
    assert sheet.some == (scene.own(),)
    sheet.keep_button.click()
    assert scene.own() in tuple(bench.desk.catalogue)
    assert own_exercises.retired(bench.desk.store) == ()


def test_with_nothing_retired_there_is_nothing_to_bring_back(qtbot):
    sheet = own_files.BringBack(scene.bench(), None)
    qtbot.addWidget(sheet)
    assert not sheet.keep_button.isEnabled()


def test_a_name_that_was_taken_meanwhile_keeps_it_retired(qtbot):
    bench = scene.bench()
    own_exercises.keep(bench.desk, scene.own())
    own_exercises.retire(bench.desk, scene.own().key)
    own_exercises.keep(bench.desk, scene.own(key="another"))
    sheet = own_files.BringBack(bench, None)
    qtbot.addWidget(sheet)
    sheet.keep_button.click()
    assert "already an exercise called 'Ledge step-up'" in sheet.wrong.text()
    assert scene.own() not in tuple(bench.desk.catalogue)
