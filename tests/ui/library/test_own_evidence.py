"""Published figures of an own exercise, each with a shipped reference."""

from __future__ import annotations

from dataclasses import replace

import pytest
from PySide6.QtCore import Qt

from app import resources
from app.domain.errors import CoachError
from app.ui.library.own_evidence import FiguresField, left_behind
from tests.ui.library import scene

MEASURED = [one for one in resources.catalogue() if one.activation]


@pytest.fixture
def field(qtbot) -> FiguresField:
    made = FiguresField(scene.nobody())
    qtbot.addWidget(made)
    return made


@pytest.mark.parametrize("one", MEASURED[::5], ids=lambda one: one.key)
def test_figures_that_are_shown_are_read_back(field: FiguresField, one) -> None:
    field.show_values(one.activation)
    expected = [(a.muscle, a.low, a.high, a.study, a.detail) for a in one.activation]
    assert [tuple(row.values()) for row in field.values()] == expected


def test_a_figure_is_added_by_the_short_name_of_its_study(qtbot, field: FiguresField) -> None:
    assert not field.add_button.isEnabled()
    field.muscle.choose("gluteals")
    field.study.setCurrentText("Neto 2020")
    qtbot.keyClicks(field.percent, "29-45")
    qtbot.keyClicks(field.detail, "10RM")
    with qtbot.waitSignal(field.changed):
        field.add_button.click()
    (row,) = field.values()
    assert row == {"muscle": "gluteals", "low": 29, "high": 45, "study": "neto2020"} | {
        "detail": "10RM"
    }
    assert "Neto 2020" in field.list.item(0).text()
    assert field.percent.text() == ""


def test_every_shipped_reference_is_on_offer_by_its_short_name(field: FiguresField) -> None:
    offered = {field.study.itemData(n): field.study.itemText(n) for n in range(field.study.count())}
    assert offered == {key: one.short for key, one in resources.references().items()}


def test_what_is_typed_and_not_added_is_not_lost_in_silence(qtbot, field: FiguresField) -> None:
    qtbot.keyClicks(field.percent, "a lot")
    field.add()
    assert field.percent.text() == "a lot"
    with pytest.raises(CoachError, match="cannot be read"):
        field.values()
    field.percent.setText("42")
    with pytest.raises(CoachError, match="not added yet"):
        field.values()


def test_del_takes_a_figure_out(qtbot, field: FiguresField) -> None:
    field.show_values(MEASURED[0].activation[:1])
    field.list.setCurrentRow(0)
    with qtbot.waitSignal(field.changed):
        qtbot.keyClick(field.list, Qt.Key.Key_Delete)
    assert field.values() == []


def test_a_copy_says_how_many_figures_it_leaves_behind() -> None:
    one = MEASURED[0]
    assert left_behind(replace(one, activation=())) == ""
    single = left_behind(replace(one, activation=one.activation[:1]))
    assert single.startswith(f"The published figure of {one.name} is not copied")
