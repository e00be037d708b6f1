"""The menu Week: from week to week, weeks more and fewer, light ones, and the chosen ones."""

from __future__ import annotations

from app.ui.actions import ACTIONS
from app.ui.week_actions import WEEK_ACTIONS
from app.ui.window import Window
from tests.ui.desks import PROGRAM

BY_ID = {action.id: action for action in WEEK_ACTIONS}
COUNT = len(PROGRAM.weeks)


def run(window: Window, *commands: str) -> None:
    for command in commands:
        BY_ID[command].run(window)


def test_they_are_the_commands_of_one_menu() -> None:
    assert {action.menu for action in WEEK_ACTIONS} == {"Week"}
    assert set(WEEK_ACTIONS) <= set(ACTIONS)


def test_the_week_beside_it_is_shown(window: Window) -> None:
    run(window, "next_week", "next_week", "last_week")
    assert window.bench.week == 1


def test_weeks_are_added_copied_and_removed(window: Window) -> None:
    desk = window.bench.desk
    run(window, "add_week")
    assert len(desk.program.weeks) == COUNT + 1
    run(window, "double_week")
    assert len(desk.program.weeks) == COUNT + 2
    window.bench.show_week(1)
    run(window, "remove_week", "remove_week")
    assert len(desk.program.weeks) == COUNT


def test_a_week_is_made_light_and_ordinary_again(window: Window) -> None:
    for light in (True, False):
        run(window, "light")
        assert window.bench.desk.program.weeks[0].light is light


def test_what_acts_on_chosen_weeks_needs_some(window: Window) -> None:
    ids = ("fill_chosen", "clear_chosen", "remove_chosen")
    assert not any(BY_ID[one].enabled(window.bench) for one in ids)
    window.bench.chosen = range(2, 4)
    assert all(BY_ID[one].enabled(window.bench) for one in ids)
    run(window, "remove_chosen")
    assert len(window.bench.desk.program.weeks) == COUNT - 2
