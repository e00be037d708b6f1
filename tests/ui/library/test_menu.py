"""The menu of a row."""

from __future__ import annotations

from app.ui.library.menu import exercise_menu
from tests.ui.library import scene


def entries(pane, exercise) -> dict[str, bool]:
    menu = exercise_menu(pane, exercise)
    found = {a.text().split("\t")[0]: a.isEnabled() for a in menu.actions() if a.text()}
    menu.deleteLater()
    return found


def test_a_shipped_exercise_can_be_copied_but_not_changed(qtbot):
    found = entries(scene.pane(qtbot), scene.shipped("step_up"))
    assert "Copy and change\u2026" in found
    assert not {"Change\u2026", "Retire"} & set(found)


def test_an_own_exercise_can_be_changed_and_retired(qtbot):
    assert {"Change\u2026", "Retire"} <= set(entries(scene.pane(qtbot), scene.own()))


def test_without_a_program_nothing_can_be_placed(qtbot):
    found = entries(scene.pane(qtbot, scene.bench(program=False)), scene.shipped("step_up"))
    assert not found["Place on the open day"]
    assert not found["Pick up, to put down"]


def test_the_star_says_which_way_it_turns(qtbot):
    pane = scene.pane(qtbot)
    assert "Keep at hand" in entries(pane, scene.shipped("step_up"))
    pane.acts.turn_star("step_up")
    assert "No longer at hand" in entries(pane, scene.shipped("step_up"))
