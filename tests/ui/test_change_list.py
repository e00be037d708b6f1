"""Findings that an edit would bring and take away, in dialogs."""

from __future__ import annotations

from dataclasses import replace

import pytest
from pytestqt.qtbot import QtBot

from app.domain.findings import Finding, Place, Weight
from app.domain.program import WeekId
from app.ui.bench import Bench
from app.ui.change_list import ChangeList

SHORT = Finding(
    "weekly_sets", Weight.OUTSIDE, Place(WeekId(1)), "chest", "8 sets", place_text="week 1"
)


@pytest.fixture
def changes(qtbot: QtBot, bench: Bench) -> ChangeList:
    made = ChangeList(bench)
    qtbot.addWidget(made)
    return made


def texts(changes: ChangeList) -> list[str]:
    return [changes.list.item(k).text() for k in range(changes.list.count())]


def test_nothing_that_changes_is_said_too(changes: ChangeList) -> None:
    changes.show_change((), ())
    assert changes.head.text() == "No finding would change"
    assert texts(changes) == []


def test_what_appears_is_marked_and_what_goes_is_struck_through(changes: ChangeList) -> None:
    gone = replace(SHORT, about="back", text="6 sets of rows")
    changes.show_change((SHORT,), (gone,))
    assert changes.head.text() == "1 finding would appear, 1 would go"
    assert texts(changes) == ["+ 8 sets · week 1", "6 sets of rows · week 1"]
    struck = [changes.list.item(k).font().strikeOut() for k in range(2)]
    assert struck == [False, True]
    tips = [changes.list.item(k).toolTip() for k in range(2)]
    assert tips == ["Outside, would appear", "Outside, would go"]
    assert not changes.list.item(0).icon().isNull()


def test_alike_findings_of_many_weeks_are_one_row_with_their_number(changes: ChangeList) -> None:
    many = tuple(replace(SHORT, place=Place(WeekId(week))) for week in range(1, 6))
    changes.show_change(many, ())
    assert texts(changes) == ["+ 8 sets · 5 weeks"]
    changes.show_change((), ())
    assert texts(changes) == [], "shown anew each time"
