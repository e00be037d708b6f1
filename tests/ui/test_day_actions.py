"""Commands on sessions, days, weeks and blocks, and the context menu of a day."""

from __future__ import annotations

from PySide6.QtCore import QPoint
from PySide6.QtWidgets import QMenu

from app.ui.actions import ACTIONS, BY_ID
from app.ui.day_actions import BLOCK_ACTIONS, DAY_ACTIONS, DAY_MENU, ON_A_SESSION
from app.ui.window import Window
from tests.ui.desks import slot_ids


def texts(menu: QMenu) -> list[str]:
    return [a.text() for a in menu.actions() if not a.isSeparator()]


def menu_on(window: Window, slots: tuple[object, ...]) -> list[str]:
    window._context_menu(slots, QPoint(10, 10))
    menu = window.findChildren(QMenu)[-1]
    found = texts(menu)
    menu.close()
    return found


def test_they_are_commands_of_the_window() -> None:
    assert {*DAY_ACTIONS, *BLOCK_ACTIONS} <= set(ACTIONS)
    assert all(name in BY_ID for group in DAY_MENU for name in group)


def test_the_menu_of_a_day_is_about_the_day_and_its_session(window: Window) -> None:
    window.grid.go_to_day(0)
    found = menu_on(window, ())
    assert BY_ID["session_note"].text in found
    assert BY_ID["day_note"].text in found
    assert BY_ID["remove"].text not in found
    assert BY_ID["remove"].text in menu_on(window, tuple(slot_ids(window.bench)[:1]))


def test_a_day_without_a_session_offers_nothing_on_one(window: Window) -> None:
    window.grid.go_to_day(1)
    found = menu_on(window, ())
    assert not {BY_ID[name].text for name in ON_A_SESSION} & set(found)
    assert BY_ID["add_session"].text in found


def test_each_does_what_it_says(window: Window, qtbot) -> None:
    window.grid.go_to_day(1)
    BY_ID["add_session"].run(window)
    assert len(window.bench.open_week.days[1].sessions) == 1
    BY_ID["remove_session"].run(window)
    assert not window.bench.open_week.days[1].sessions
    window.grid.go_to_day(0)
    for name in ("session_title", "session_note", "day_note", "week_note"):
        BY_ID[name].run(window)
        assert window.grid._editor is not None
        window.grid._editor.reject()
    BY_ID["pick_session"].run(window)
    assert window.grid.carrier.is_carrying
    window.grid.carrier.put_back()
    BY_ID["clear_day"].run(window)
    assert not window.bench.open_week.days[0].sessions
