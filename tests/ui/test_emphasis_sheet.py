"""Choosing the emphasis: muscles in order, each once, kept as one step."""

from __future__ import annotations

import pytest
from PySide6.QtWidgets import QApplication
from pytestqt.qtbot import QtBot

from app.domain.exercise import Muscle
from app.ui.bench import Bench
from app.ui.emphasis_sheet import EmphasisChoice, EmphasisSheet
from tests.ui.access import marked_up, too_small, unnamed
from tests.ui.steps import choose, kept, nothing_kept, one_step


@pytest.fixture
def sheet(qtbot: QtBot, bench: Bench) -> EmphasisSheet:
    made = EmphasisSheet(bench, None)
    qtbot.addWidget(made)
    return made


def test_the_emphasis_is_kept_in_its_order_as_one_step(sheet: EmphasisSheet, bench: Bench) -> None:
    first, second, third = sheet.choice.boxes
    choose(first, "Calves")
    choose(second, "none")
    choose(third, "Hamstrings")
    with one_step(bench, "Change the emphasis"):
        kept(sheet)
    assert bench.desk.program.emphasis == (Muscle.CALVES, Muscle.HAMSTRINGS)


def test_a_muscle_chosen_twice_counts_once_where_it_is_first(
    sheet: EmphasisSheet, bench: Bench
) -> None:
    for box in sheet.choice.boxes:
        choose(box, "Chest")
    kept(sheet)
    assert bench.desk.program.emphasis == (Muscle.CHEST,)


def test_an_untouched_sheet_makes_no_step(sheet: EmphasisSheet, bench: Bench) -> None:
    assert sheet.choice.chosen() == bench.desk.program.emphasis
    with nothing_kept(bench):
        kept(sheet)


def test_the_client_keeps_an_emphasis_of_its_own(sheet: EmphasisSheet, bench: Bench) -> None:
    before = bench.desk.client
    choose(sheet.choice.boxes[0], "Chest")
    kept(sheet)
    assert bench.desk.client is before


def test_nothing_may_be_emphasised(sheet: EmphasisSheet, bench: Bench) -> None:
    for box in sheet.choice.boxes:
        choose(box, "none")
    kept(sheet)
    assert bench.desk.program.emphasis == ()


def test_every_muscle_can_be_chosen_and_comes_back(qtbot: QtBot, bench: Bench) -> None:
    for muscle in Muscle:
        choice = EmphasisChoice(bench, (muscle,))
        qtbot.addWidget(choice)
        assert choice.chosen() == (muscle,)


def test_each_place_has_its_name(qtbot: QtBot, bench: Bench) -> None:
    choice = EmphasisChoice(bench, tuple(Muscle)[:5])
    qtbot.addWidget(choice)
    names = [box.accessibleName() for box in choice.boxes]
    assert len(set(names)) == 5
    assert names[3] == "Emphasis, number 4"


def test_everybody_can_use_it(qtbot: QtBot, dressed: QApplication, sheet: EmphasisSheet) -> None:
    sheet.show()
    qtbot.waitExposed(sheet)
    assert unnamed(sheet) == []
    assert too_small(sheet) == []
    assert marked_up(sheet) == []
