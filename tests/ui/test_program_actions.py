"""The menu Program needs a program, and its commands are about the whole of it."""

from __future__ import annotations

import pytest

from app.ui.actions import ACTIONS
from app.ui.bench import Bench
from app.ui.program_actions import PROGRAM_ACTIONS
from app.ui.window import Window
from tests.ui.desks import without_program

BY_ID = {action.id: action for action in PROGRAM_ACTIONS}


def test_they_are_the_commands_of_one_menu() -> None:
    assert {action.menu for action in PROGRAM_ACTIONS} == {"Program"}
    assert set(PROGRAM_ACTIONS) <= set(ACTIONS)


def test_without_a_program_none_can_be_run(bench: Bench) -> None:
    assert all(action.enabled(bench) for action in PROGRAM_ACTIONS)
    without_program(bench)
    assert not any(action.enabled(bench) for action in PROGRAM_ACTIONS)


def test_a_program_is_archived_and_brought_back(window: Window) -> None:
    for archived in (True, False):
        BY_ID["archive_program"].run(window)
        assert window.bench.desk.program.archived is archived


@pytest.mark.parametrize(
    ("command", "module", "form"),
    [
        ("emphasis", "emphasis_sheet", "EmphasisSheet"),
        ("progression", "progression_dialog", "ProgressionDialog"),
        ("split", "split_dialog", "SplitDialog"),
        ("report", "report_dialog", "ReportDialog"),
    ],
)
def test_a_command_opens_its_form(
    window: Window, monkeypatch: pytest.MonkeyPatch, command: str, module: str, form: str
) -> None:
    opened: list[str] = []
    kind = getattr(__import__(f"app.ui.{module}", fromlist=[form]), form)

    def leave(dialog: object) -> int:
        opened.append(type(dialog).__name__)
        dialog.close()  # type: ignore[attr-defined]
        return 0

    monkeypatch.setattr(kind, "exec", leave)
    BY_ID[command].run(window)
    assert opened == [form]
