"""Things to tick: what is shown, what is ticked, and the two apart."""

from __future__ import annotations

import pytest
from hypothesis import given
from hypothesis import strategies as st
from PySide6.QtCore import QPoint, Qt
from PySide6.QtTest import QAbstractItemModelTester
from pytestqt.qtbot import QtBot

from app.ui.tick_list import TickList, TickModel
from tests.ui.access import marked_up, too_small, unnamed

NAMES = ("Runa Estvik", "Jorunn Aske", "Tavi <b>Lied</b>", "Zoë Vik")


def made(things: tuple[str, ...] = NAMES, *, ticked: bool = False) -> TickModel[str]:
    model = TickModel[str](
        ("Name", "Letters", "How it went"), lambda name: (name, str(len(name))), lambda name: name
    )
    model.show_things(things, ticked=ticked)
    return model


@pytest.fixture
def ticks(qtbot: QtBot, dressed) -> TickList[str]:
    widget = TickList("Names", made(), letters=(20, 8))
    widget.head.setText("Who")
    qtbot.addWidget(widget)
    widget.resize(600, 400)
    widget.show()
    return widget


def shown(model: TickModel[str]) -> list[str]:
    return [model.index(row, 0).data() for row in range(model.rowCount())]


def test_the_model_keeps_the_rules_of_models(qapp: object) -> None:
    model = made()
    tester = QAbstractItemModelTester(model, QAbstractItemModelTester.FailureReportingMode.Fatal)
    model.tick((0, 2))
    model.look_for("runa")
    model.tell((1,), "done")
    model.look_for("")
    model.show_things(("One",), ticked=True)
    assert tester.model() is model


def test_every_word_is_looked_for_without_accents(qapp: object) -> None:
    model = made()
    model.look_for("VIK est")
    assert shown(model) == ["Runa Estvik"]
    model.look_for("zoe")
    assert shown(model) == ["Zoë Vik"]
    model.look_for("nobody")
    assert shown(model) == []
    model.look_for("", lambda name: name.startswith("T"))
    assert shown(model) == ["Tavi <b>Lied</b>"]


@given(
    st.lists(st.text(max_size=6), max_size=12),
    st.sets(st.integers(0, 11)),
    st.text(max_size=3),
)
def test_a_search_neither_loses_nor_gives_a_tick(
    things: list[str], ticked: set[int], words: str
) -> None:
    model = made(tuple(things))
    rows = sorted(row for row in ticked if row < len(things))
    model.tick(rows)
    model.look_for(words)
    assert model.ticked == rows
    assert model.ticked_and_shown <= len(rows)
    model.look_for("")
    assert shown(model) == things


def test_all_that_is_shown_is_ticked_and_nothing_else(ticks: TickList[str]) -> None:
    ticks.search.setText("vik")
    ticks.all_button.click()
    assert [NAMES[row] for row in ticks.model.ticked] == ["Runa Estvik", "Zoë Vik"]
    assert ticks.all_button.text() == "Untick all shown"
    ticks.search.setText("aske")
    assert ticks.all_button.text() == "Tick all shown"
    assert ticks.count.text() == "2 of 4 ticked, 2 not shown"
    ticks.search.setText("")
    assert ticks.count.text() == "2 of 4 ticked"


def test_ticks_go_where_all_that_is_shown_has_one(ticks: TickList[str]) -> None:
    ticks.show_things(NAMES, ticked=True)
    ticks.search.setText("runa")
    ticks.all_button.click()
    assert ticks.model.ticked == [1, 2, 3]


def test_nothing_that_fits_is_said(ticks: TickList[str]) -> None:
    ticks.search.setText("nobody")
    assert ticks.count.text() == "Nothing fits what is looked for"
    assert not ticks.all_button.isEnabled()


def test_other_things_are_looked_through_with_the_words_that_stand_there(
    ticks: TickList[str],
) -> None:
    ticks.search.setText("ivo")
    ticks.show_things(("Ivo Berg", "Mette Moe"))
    assert shown(ticks.model) == ["Ivo Berg"]


def test_a_click_and_the_space_bar_tick(ticks: TickList[str], qtbot: QtBot) -> None:
    tree = ticks.tree
    rect = tree.visualRect(ticks.model.index(1, 0))
    qtbot.mouseClick(
        tree.viewport(), Qt.MouseButton.LeftButton, pos=rect.topLeft() + QPoint(12, 14)
    )
    assert ticks.model.ticked == [1]
    tree.setCurrentIndex(ticks.model.index(3, 0))
    qtbot.keyClick(tree, Qt.Key.Key_Space)
    assert ticks.model.ticked == [1, 3]


def test_how_it_went_stands_in_the_last_column_and_whole_in_its_tip(ticks: TickList[str]) -> None:
    ticks.tell(2, "left out <i>")
    index = ticks.model.index(2, 2)
    assert index.data() == "left out <i>"
    assert "&lt;i&gt;" in index.data(Qt.ItemDataRole.ToolTipRole)
    ticks.search.setText("runa")
    ticks.tell(2, "done")
    assert ticks.model.told(2) == "done"


def test_everybody_can_use_it(ticks: TickList[str]) -> None:
    assert unnamed(ticks) == []
    assert too_small(ticks) == []
    assert marked_up(ticks) == []
