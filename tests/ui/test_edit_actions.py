"""The menu Edit: what acts on cards needs cards, and every step can be taken back."""

from __future__ import annotations

import pytest

from app.domain.edits.whole import rename
from app.domain.findings import edit
from app.ui.actions import ACTIONS
from app.ui.bench import Bench
from app.ui.edit_actions import EDIT_ACTIONS
from app.ui.window import Window
from tests.ui.desks import slot_ids, without_program

BY_ID = {action.id: action for action in EDIT_ACTIONS}


def enabled(bench: Bench) -> set[str]:
    return {action.id for action in EDIT_ACTIONS if action.enabled(bench)}


def test_they_are_the_commands_of_one_menu() -> None:
    assert {action.menu for action in EDIT_ACTIONS} == {"Edit"}
    assert set(EDIT_ACTIONS) <= set(ACTIONS)


def test_what_acts_on_cards_needs_cards(bench: Bench) -> None:
    assert not {"copy", "cut", "remove", "pair", "edit_line"} & enabled(bench)
    one, two = slot_ids(bench)[:2]
    bench.select((one,))
    assert {"edit_line", "substitute", "copy", "remove", "working"} <= enabled(bench)
    assert "pair" not in enabled(bench)
    bench.select((one, two))
    assert {"pair", "copy"} <= enabled(bench)
    assert not {"edit_line", "substitute"} & enabled(bench)


def test_undo_and_redo_follow_the_history(bench: Bench) -> None:
    assert not {"undo", "redo"} & enabled(bench)
    bench.keep(edit("Rename", rename, name="Winter"))
    assert "undo" in enabled(bench)
    bench.undo()
    assert "undo" not in enabled(bench)
    assert "redo" in enabled(bench)


def test_the_library_can_be_searched_without_a_program(bench: Bench) -> None:
    assert enabled(without_program(bench)) == {"history", "find"}


def test_cards_are_cut_pasted_and_brought_back(window: Window) -> None:
    bench = window.bench
    before = slot_ids(bench)
    bench.select((before[0],))
    BY_ID["cut"].run(window)
    assert slot_ids(bench) == before[1:]
    BY_ID["paste"].run(window)
    assert len(slot_ids(bench)) == len(before)
    BY_ID["undo"].run(window)
    BY_ID["undo"].run(window)
    assert slot_ids(bench) == before


def test_a_card_leads_to_the_test_its_load_rests_on(
    window: Window, monkeypatch: pytest.MonkeyPatch
) -> None:
    from app.ui.client.strength_dialog import StrengthDialog

    shown: list[str] = []
    monkeypatch.setattr(StrengthDialog, "exec", lambda dialog: shown.append(dialog.key))
    window.bench.select((slot_ids(window.bench)[0],))
    assert BY_ID["card_tests"].enabled(window.bench)
    BY_ID["card_tests"].run(window)
    assert shown == ["back_squat"]
