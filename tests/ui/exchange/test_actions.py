"""The commands of exchange stand in the menu File and open their dialogs."""

from __future__ import annotations

import pytest

from app.ui.exchange import actions
from app.ui.exchange.actions import EXCHANGE_ACTIONS
from app.ui.window import Window


def test_all_stand_in_the_menu_file() -> None:
    assert {action.menu for action in EXCHANGE_ACTIONS} == {"File"}
    assert all(action.tip for action in EXCHANGE_ACTIONS)


@pytest.mark.parametrize(
    ("name", "module", "kind"),
    [
        ("save_tables", "tables_dialog", "TablesDialog"),
        ("save_calendar", "calendar_dialog", "CalendarDialog"),
        ("plan_folder", "folder_dialog", "FolderDialog"),
        ("references", "references_dialog", "ReferencesDialog"),
    ],
)
def test_each_opens_its_dialog(
    window: Window, monkeypatch: pytest.MonkeyPatch, name: str, module: str, kind: str
) -> None:
    import importlib

    opened: list[str] = []
    dialog = getattr(importlib.import_module(f"app.ui.exchange.{module}"), kind)
    monkeypatch.setattr(dialog, "exec", lambda self: opened.append(type(self).__name__))
    next(action for action in EXCHANGE_ACTIONS if action.id == name).run(window)
    assert opened == [kind]


def test_a_table_that_was_read_refreshes_the_lists(
    window: Window, monkeypatch: pytest.MonkeyPatch
) -> None:
    from app.ui.exchange.table_import import dialog

    refreshed: list[bool] = []
    monkeypatch.setattr(window, "refresh_lists", lambda: refreshed.append(True))
    for kept in (False, True):
        monkeypatch.setattr(dialog, "read_table", lambda *_, kept=kept: kept)
        actions.read_table(window)
    assert refreshed == [True]
