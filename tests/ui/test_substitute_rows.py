"""Rows of the substitute dialog: words, ticks under the pointer, painting."""

from __future__ import annotations

import pytest
from PySide6.QtCore import QPoint, QPointF, Qt
from PySide6.QtGui import QFontMetricsF
from PySide6.QtTest import QTest
from PySide6.QtWidgets import QApplication
from pytestqt.qtbot import QtBot

from app.domain.exercise import ExerciseKey
from app.domain.substitute import Demand, Substitute
from app.ui.bench import Bench
from app.ui.substitute_rows import SubstituteList, in_two_lines, spoken


@pytest.fixture
def ticked() -> list[str]:
    return []


@pytest.fixture
def rows(qtbot: QtBot, dressed: QApplication, bench: Bench, ticked: list[str]) -> SubstituteList:
    made = SubstituteList(bench, lambda key: ticked.index(key) + 1 if key in ticked else 0)
    qtbot.addWidget(made)
    made.fill((one(bench, "goblet_squat"), one(bench, "leg_press", blocked="needs leg press")))
    made.resize(560, 300)
    made.show()
    qtbot.waitExposed(made)
    return made


def one(bench: Bench, key: str, *, blocked: str = "") -> Substitute:
    exercise = bench.desk.catalogue[ExerciseKey(key)]
    return Substitute(exercise, 0.5, Demand.EASIER, ("same movement", "easier"), blocked)


def on_tick(rows: SubstituteList, row: int) -> QPoint:
    return rows.tick_rect(row).center().toPoint()


def test_a_row_is_spoken_with_its_demand_once(bench: Bench) -> None:
    assert spoken(one(bench, "goblet_squat")) == "Goblet squat, easier, same movement"
    held = spoken(one(bench, "leg_press", blocked="needs leg press"), 2)
    assert held.endswith("held back: needs leg press, printed for the client as number 2")


def test_a_click_on_the_tick_asks_for_it_and_marks_the_row(
    rows: SubstituteList, qtbot: QtBot
) -> None:
    with qtbot.waitSignal(rows.tick_asked) as asked:
        QTest.mouseClick(rows.viewport(), Qt.MouseButton.LeftButton, pos=on_tick(rows, 1))
    assert asked.args == [1]
    assert rows.currentRow() == 1


def test_a_click_beside_the_tick_only_marks_the_row(rows: SubstituteList, qtbot: QtBot) -> None:
    with qtbot.assertNotEmitted(rows.tick_asked):
        where = rows.visualItemRect(rows.item(1)).center()
        QTest.mouseClick(rows.viewport(), Qt.MouseButton.LeftButton, pos=where)
    assert rows.currentRow() == 1


def test_two_quick_clicks_on_a_tick_never_substitute(rows: SubstituteList, qtbot: QtBot) -> None:
    with qtbot.assertNotEmitted(rows.itemDoubleClicked), qtbot.waitSignal(rows.tick_asked):
        QTest.mouseDClick(rows.viewport(), Qt.MouseButton.LeftButton, pos=on_tick(rows, 0))
    with qtbot.waitSignal(rows.itemDoubleClicked):
        where = rows.visualItemRect(rows.item(0)).center()
        QTest.mouseClick(rows.viewport(), Qt.MouseButton.LeftButton, pos=where)
        QTest.mouseDClick(rows.viewport(), Qt.MouseButton.LeftButton, pos=where)


def test_a_tick_is_painted_and_said_once_it_is_set(rows: SubstituteList, ticked: list[str]) -> None:
    def colour() -> str:
        box = rows.tick_rect(0)
        inside = QPointF(box.right() - 23, box.center().y())  # inside the box, beside its figure
        return rows.viewport().grab().toImage().pixelColor(inside.toPoint()).name()

    plain = colour()
    ticked.append("goblet_squat")
    rows.show_ticks()
    assert colour() != plain
    assert "number 1" in rows.item(0).text()


def test_reasons_take_two_lines_and_end_in_an_ellipsis(dressed: QApplication) -> None:
    metrics = QFontMetricsF(dressed.font())
    width = metrics.horizontalAdvance("same prime movers; same")
    assert in_two_lines("same", metrics, width) == ("same",)
    first, second = in_two_lines("same prime movers; " * 6, metrics, width)
    assert first == "same prime movers; same"
    assert second.endswith("\N{HORIZONTAL ELLIPSIS}")
    assert metrics.horizontalAdvance(second) <= width
