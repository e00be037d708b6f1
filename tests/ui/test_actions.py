"""Every command as data."""

from __future__ import annotations

from collections import Counter

import pytest
from PySide6.QtGui import QKeySequence
from PySide6.QtWidgets import QApplication

from app.ui.actions import ACTIONS, BY_ID, MENUS
from app.ui.bench import Bench
from tests.ui.desks import without_program


def enabled(bench: Bench) -> set[str]:
    return {action.id for action in ACTIONS if action.enabled(bench)}


def test_ids_and_texts_are_unique() -> None:
    assert len(BY_ID) == len(ACTIONS)
    texts = Counter((action.menu, action.text) for action in ACTIONS)
    assert [text for text, count in texts.items() if count > 1] == []


def test_no_two_commands_share_a_shortcut(qapp: QApplication) -> None:
    keys = Counter(QKeySequence(keys).toString() for action in ACTIONS for keys in action.shortcuts)
    assert [key for key, count in keys.items() if count > 1] == []


@pytest.mark.parametrize("action", ACTIONS, ids=lambda a: a.id)
def test_every_shortcut_can_be_pressed(qapp: QApplication, action) -> None:
    for keys in action.shortcuts:
        sequence = QKeySequence(keys, QKeySequence.SequenceFormat.PortableText)
        assert sequence.toString(QKeySequence.SequenceFormat.PortableText) == keys


def test_the_menus_stand_in_the_usual_order() -> None:
    assert MENUS[0] == "File"
    assert MENUS[1] == "Edit"
    assert MENUS[-1] == "Help"
    assert {action.menu for action in ACTIONS} == set(MENUS)


def test_commands_that_ask_first_end_in_dots() -> None:
    for action in ACTIONS:
        assert "..." not in action.text, "one character, not three"


def test_with_nobody_open_only_what_needs_nobody_is_on(empty_bench: Bench) -> None:
    on = enabled(empty_bench)
    assert {"new_client", "import_plan", "quit", "guide"} <= on
    assert not {"new_program", "booklet", "undo", "redo", "paste", "profile", "emphasis"} & on


def test_with_a_client_open_a_program_can_be_made(bench: Bench) -> None:
    on = enabled(without_program(bench))
    assert {"new_program", "profile", "test", "limitation", "screening"} <= on
    assert not {"booklet", "light", "add_week", "span_all"} & on


def test_with_a_program_open_its_commands_are_on(bench: Bench) -> None:
    on = enabled(bench)
    assert {"booklet", "export_plan", "progression", "split", "light", "next_week", "paste"} <= on
    assert not {"undo", "redo", "copy", "cut", "remove", "pair", "edit_line"} & on


def test_the_menu_of_a_card_has_what_acts_on_it() -> None:
    assert {"substitute", "remove", "copy", "pair"} <= {a.id for a in ACTIONS if a.card}


def test_closing_stands_last_in_its_menu() -> None:
    assert [action.id for action in ACTIONS if action.menu == "File"][-1] == "quit"
