"""Columns of compact cards: what a session is, or would become."""

from __future__ import annotations

from dataclasses import replace

import pytest
from pytestqt.qtbot import QtBot

from app.domain.effort import Rir
from app.ui.card_column import CardColumn, cards, foot_text, sets_text
from tests import builders

SESSION = builders.session("back_squat 4x10 RIR 2 core, leg_curl 3x8-12 RIR 1, plank 2x30")


@pytest.mark.parametrize(
    ("words", "timed", "text"),
    [
        ("curl 4x10", False, "4 × 10"),
        ("curl 3x8-10", False, "3 × 8–10"),
        ("plank 2x30", True, "2 × 30 s"),
    ],
)
def test_sets_and_repetitions_in_figures(words: str, timed: bool, text: str) -> None:
    assert sets_text(builders.slot(words), timed=timed) == text


def test_cards_name_exercise_sets_and_effort() -> None:
    made = cards(SESSION, builders.CATALOGUE)
    assert [c.name for c in made] == ["Back squat", "Leg curl", "Plank"]
    assert [c.sets for c in made] == ["4 × 10", "3 × 8–12", "2 × 30 s"]
    assert [c.core for c in made] == [True, False, False]
    assert "2" in made[0].effort
    assert not any(c.new or c.sets_changed or c.effort_changed for c in made)
    assert cards(None, builders.CATALOGUE) == ()


def test_against_the_session_before_what_is_new_or_changed_is_marked() -> None:
    squat, curl, plank = SESSION.slots
    after = replace(SESSION, slots=(replace(squat, sets=3), replace(curl, effort=Rir(0)), plank))
    before = replace(SESSION, slots=SESSION.slots[:2])
    made = cards(after, builders.CATALOGUE, before)
    assert [c.sets_changed for c in made] == [True, False, False]
    assert [c.effort_changed for c in made] == [False, True, False]
    assert [c.new for c in made] == [False, False, True]


@pytest.mark.parametrize(
    ("minutes", "cap", "text"),
    [(52.4, 60, "16 sets · 52 of 60 min"), (52.4, None, "16 sets · 52 min")],
)
def test_the_foot_says_sets_and_minutes(minutes: float, cap, text: str) -> None:
    assert foot_text(16, minutes, cap) == text


def test_a_column_makes_room_for_its_cards_and_tells_them(qtbot: QtBot) -> None:
    column = CardColumn()
    qtbot.addWidget(column)
    column.show_cards("Monday now", (), "–")
    empty = column.minimumHeight()
    column.show_cards("Monday now", cards(SESSION, builders.CATALOGUE), "9 sets · 40 min")
    assert column.minimumHeight() > empty
    assert column.accessibleName() == "Monday now"
    assert column.accessibleDescription().startswith("Back squat, 4 × 10, ")
    assert column.accessibleDescription().endswith("9 sets · 40 min")


def test_new_and_changed_cards_look_different(qtbot: QtBot) -> None:
    column = CardColumn()
    qtbot.addWidget(column)
    column.resize(220, 260)
    made = cards(SESSION, builders.CATALOGUE)
    pictures = []
    for shown in (
        made,
        (replace(made[0], new=True), *made[1:]),
        (replace(made[0], sets_changed=True), *made[1:]),
    ):
        column.show_cards("Monday", shown, "foot")
        pictures.append(column.grab().toImage())
    assert pictures[0] != pictures[1]
    assert pictures[0] != pictures[2]
