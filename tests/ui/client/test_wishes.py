"""Likes and dislikes: searched, ticked, kept as one step."""

from __future__ import annotations

import pytest
from PySide6.QtCore import Qt
from pytestqt.qtbot import QtBot

from app.domain.exercise import ExerciseKey
from app.ui.bench import Bench
from app.ui.client.wishes import DISLIKES, LIKES, WishesSheet
from app.ui.lines_table import KEY
from tests.ui.access import marked_up, too_small, unnamed
from tests.ui.desks import with_client
from tests.ui.steps import kept, nothing_kept, one_step

SQUAT, PRESS = ExerciseKey("back_squat"), ExerciseKey("leg_press")
TICKED = Qt.CheckState.Checked


@pytest.fixture
def sheet(qtbot: QtBot, dressed, bench: Bench) -> WishesSheet:
    gone = ExerciseKey("a_retired_one")
    with_client(bench, dislikes=frozenset({PRESS, gone}))
    made = WishesSheet(bench, None)
    qtbot.addWidget(made)
    made.show()
    return made


def item(sheet: WishesSheet, key: str):
    return next(one for one in sheet.items() if one.data(0, KEY) == key)


def test_what_was_said_is_ticked(sheet: WishesSheet) -> None:
    assert item(sheet, PRESS).checkState(DISLIKES) is TICKED
    assert sheet.told.text() == "likes 0, does not want 1"


def test_wishes_are_one_step_and_a_finding_says_so(sheet: WishesSheet, bench: Bench) -> None:
    item(sheet, SQUAT).setCheckState(DISLIKES, TICKED)
    item(sheet, "hip_thrust").setCheckState(LIKES, TICKED)
    with one_step(bench, "Change the wishes"):
        kept(sheet)
    client = bench.desk.client
    assert client.dislikes == {SQUAT, PRESS, "a_retired_one"}
    assert client.likes == {"hip_thrust"}
    assert any(f.rule == "dislikes" and f.about.startswith(SQUAT) for f in bench.desk.findings)


def test_nobody_likes_what_is_not_wanted(sheet: WishesSheet) -> None:
    item(sheet, PRESS).setCheckState(LIKES, TICKED)
    assert item(sheet, PRESS).checkState(DISLIKES) is Qt.CheckState.Unchecked


def test_the_search_shows_what_holds_the_words_and_keeps_the_boxes(
    sheet: WishesSheet, bench: Bench
) -> None:
    sheet.search.setText("leg pr")
    shown = [one.text(0) for one in sheet.items() if not one.isHidden()]
    assert "Leg press" in shown
    assert "Back squat" not in shown
    sheet.search.setText("")
    sheet.only.setChecked(True)
    assert [one.text(0) for one in sheet.items() if not one.isHidden()] == ["Leg press"]
    with nothing_kept(bench):
        kept(sheet)


def test_everybody_can_use_it(sheet: WishesSheet) -> None:
    assert unnamed(sheet) == []
    assert too_small(sheet) == []
    assert marked_up(sheet) == []
