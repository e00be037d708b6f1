"""The menu of a row."""

from __future__ import annotations

from app.domain.exercise import ExerciseKey
from app.ui.library.menu import exercise_menu
from tests.ui.library import scene


def made(pane, exercise):
    """The menu of a pane's row."""
    return exercise_menu(
        pane.acts, exercise, place=pane.place_wanted.emit, pick=pane.pick_wanted.emit
    )


def entries(pane, exercise) -> dict[str, bool]:
    menu = made(pane, exercise)
    found = {a.text().split("\t")[0]: a.isEnabled() for a in menu.actions() if a.text()}
    menu.deleteLater()
    return found


def test_a_shipped_exercise_can_be_copied_but_not_changed(qtbot):
    found = entries(scene.pane(qtbot), scene.shipped("step_up"))
    assert "Copy and change…" in found
    assert not {"Change…", "Retire"} & set(found)


def test_an_own_exercise_can_be_changed_and_retired(qtbot):
    assert {"Change…", "Retire"} <= set(entries(scene.pane(qtbot), scene.own()))


def test_without_a_program_nothing_can_be_placed(qtbot):
    found = entries(scene.pane(qtbot, scene.bench(program=False)), scene.shipped("step_up"))
    assert not found["Place on the open day"]
    assert not found["Pick up, to put down"]


def test_the_star_says_which_way_it_turns(qtbot):
    pane = scene.pane(qtbot)
    assert "Keep at hand" in entries(pane, scene.shipped("step_up"))
    pane.acts.turn_star(ExerciseKey("step_up"))
    assert "No longer at hand" in entries(pane, scene.shipped("step_up"))


def test_an_entry_does_what_it_says(qtbot):
    pane = scene.pane(qtbot)
    menu = made(pane, scene.shipped("step_up"))
    by_name = {a.text().split("\t")[0]: a for a in menu.actions() if a.text()}
    with qtbot.waitSignal(pane.place_wanted) as placed:
        by_name["Place on the open day"].trigger()
    assert placed.args == ["step_up"]
    by_name["Keep at hand"].trigger()
    assert pane.acts.at_hand == {"step_up"}
    menu.deleteLater()
