"""What can be chosen about a booklet: what it means, what it switches off, what is remembered."""

from __future__ import annotations

from dataclasses import replace

import pytest
from PySide6.QtCore import Qt
from PySide6.QtWidgets import QApplication
from pytestqt.qtbot import QtBot

from app.booklet import ALL_PARTS, Kind, Options, Paper, Part
from app.domain.errors import CoachError
from app.ui.booklet_options import BookletOptions
from tests.ui.access import marked_up, too_small, unnamed
from tests.ui.desks import RUNA
from tests.ui.steps import retype


def made(qtbot: QtBot, weeks: int = 21, client=RUNA) -> BookletOptions:
    fields = BookletOptions(client, weeks)
    qtbot.addWidget(fields)
    return fields


def choose(combo, value: object) -> None:
    combo.setCurrentIndex(combo.findData(value))


def untick(fields: BookletOptions, part: Part) -> None:
    for row in range(fields.parts.count()):
        item = fields.parts.item(row)
        if item.data(Qt.ItemDataRole.UserRole) == part.value:
            item.setCheckState(Qt.CheckState.Unchecked)


def test_at_first_everything_is_printed(qtbot: QtBot) -> None:
    assert made(qtbot).options() == Options(weeks=(1, 21))


def test_every_choice_reaches_the_options(qtbot: QtBot) -> None:
    fields = made(qtbot)
    choose(fields.paper, Paper.LETTER)
    choose(fields.loads, "lb")
    fields.grey.setChecked(True)
    fields.large.setChecked(True)
    fields.spread.setChecked(False)
    untick(fields, Part.ENERGY)
    fields.name.setText("  R.  Estvik ")
    assert fields.options() == Options(
        paper=Paper.LETTER,
        grey=True,
        weeks=(1, 21),
        parts=ALL_PARTS - {Part.ENERGY},
        units="lb",
        large=True,
        spread=False,
        name="R. Estvik",
    )
    choose(fields.loads, "")
    assert fields.options().loads is False


def test_the_first_six_weeks_and_the_rest_are_one_choice_each(qtbot: QtBot) -> None:
    fields = made(qtbot)
    fields.span.setCurrentIndex(1)
    assert fields.options().weeks == (1, 6)
    fields.span.setCurrentIndex(2)
    assert fields.options().weeks == (7, 21)
    fields.span.setCurrentIndex(0)
    assert fields.options().weeks == (1, 21)
    assert made(qtbot, weeks=6).span.count() == 2


def test_weeks_that_are_typed_are_chosen_weeks(qtbot: QtBot) -> None:
    fields = made(qtbot)
    with qtbot.waitSignal(fields.typed):
        retype(fields.first, "5")
    assert fields.span.currentText() == "Chosen weeks"
    assert fields.options().weeks == (5, 21)
    retype(fields.last, "2")
    with pytest.raises(CoachError, match="Week 5 comes after week 2"):
        fields.options()


def test_a_form_is_meant_for_a_phone_and_a_booklet_for_paper(qtbot: QtBot) -> None:
    fields = made(qtbot)
    untick(fields, Part.ENERGY)
    choose(fields.kind, Kind.FORM)
    assert fields.options().paper is Paper.PHONE
    assert fields.options().parts == {Part.READING, Part.WARMUP, Part.WEEKS}
    assert "sends it back" in fields.note.text()
    choose(fields.kind, Kind.BOOKLET)
    assert fields.options().paper is Paper.A4
    assert fields.options().parts == ALL_PARTS - {Part.ENERGY}


def test_what_means_nothing_is_switched_off(qtbot: QtBot) -> None:
    fields = made(qtbot)
    fields.large.setChecked(True)
    choose(fields.paper, Paper.A5)
    assert not fields.large.isEnabled()
    assert fields.options().large is False
    assert "need A4 or Letter" in fields.note.text()
    choose(fields.kind, Kind.WALL)
    assert not fields.parts.isEnabled()
    fields.folded.setChecked(True)
    assert not fields.is_folded
    choose(fields.kind, Kind.BOOKLET)
    choose(fields.paper, Paper.A5)
    assert fields.is_folded


def test_what_is_remembered_comes_back_without_weeks(qtbot: QtBot) -> None:
    fields = made(qtbot)
    choose(fields.kind, Kind.FORM)
    choose(fields.paper, Paper.A4)
    fields.grey.setChecked(True)
    fields.spread.setChecked(False)
    choose(fields.loads, "")
    untick(fields, Part.WARMUP)
    fields.span.setCurrentIndex(1)
    again = made(qtbot)
    again.recall(fields.remembered(), "R. E.")
    expected = replace(fields.options(), weeks=(1, 21), name="R. E.")
    assert again.options() == expected


@pytest.mark.parametrize("text", ["", "{", "[]", "3", '{"paper": "A9", "grey": "yes"}', "null"])
def test_what_cannot_be_read_changes_nothing(qtbot: QtBot, text: str) -> None:
    fields = made(qtbot)
    fields.recall(text, "")
    assert fields.options() == Options(weeks=(1, 21))


def test_a_change_is_told_once(qtbot: QtBot) -> None:
    fields = made(qtbot)
    told: list[int] = []
    fields.changed.connect(lambda: told.append(1))
    fields.grey.click()
    choose(fields.kind, Kind.FORM)
    assert len(told) == 2


def test_everybody_can_use_it(qtbot: QtBot, dressed: QApplication) -> None:
    fields = made(qtbot)
    fields.show()
    assert unnamed(fields) == []
    assert too_small(fields) == []
    assert marked_up(fields) == []
