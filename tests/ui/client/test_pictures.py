"""The small pictures of the client pane: what they say in words, and that they paint it."""

from __future__ import annotations

import pytest
from PySide6.QtGui import QImage
from PySide6.QtWidgets import QApplication, QWidget
from pytestqt.qtbot import QtBot

from app.domain.client import FreeTime
from app.domain.program import DAYS
from app.ui.client.pictures import DayBars, Interval, Rail
from app.ui.theme import current
from tests.ui.painted import watched

WEEK = (
    FreeTime(75),
    FreeTime(0, "team evening <b>"),
    FreeTime(30),
    FreeTime(75),
    FreeTime(0),
    FreeTime(60),
    FreeTime(0),
)


def picture(widget: QWidget) -> QImage:
    return widget.grab().toImage()


def columns_of(image: QImage, colour: int) -> list[int]:
    """The columns in which a pixel of that colour stands."""
    return [
        x
        for x in range(image.width())
        if any(image.pixelColor(x, y).rgb() == colour for y in range(image.height()))
    ]


@pytest.fixture
def days(qtbot: QtBot, dressed: QApplication) -> DayBars:
    made = DayBars()
    qtbot.addWidget(made)
    made.resize(252, made.height())
    return made


def test_every_weekday_is_told_with_its_minutes(days: DayBars) -> None:
    days.show_days(WEEK, frozenset())
    told = days.accessibleDescription().split(", ")
    assert told[0] == "Monday 75 minutes"
    assert told[1] == "Tuesday not free"
    assert [line.split()[0] for line in told] == list(DAYS)


def test_notes_are_in_the_tip_as_plain_text(days: DayBars) -> None:
    days.show_days(WEEK, frozenset())
    assert "Tuesday: team evening &lt;b&gt;" in days.toolTip()
    assert "Monday" not in days.toolTip()


def test_only_days_with_a_session_are_dark(days: DayBars) -> None:
    days.show_days(WEEK, frozenset({3}))
    dark = columns_of(picture(days), current().bar.rgb())
    wide = days.width() / 7
    assert {int(x // wide) for x in dark} == {3}


def test_more_minutes_make_a_taller_bar(days: DayBars) -> None:
    days.show_days(WEEK, frozenset({0, 2}))
    image, bar = picture(days), current().bar.rgb()

    def tall(day: int) -> int:
        x = round((day + 0.5) * days.width() / 7)
        return sum(image.pixelColor(x, y).rgb() == bar for y in range(image.height()))

    assert 0 < tall(2) < tall(0)


def test_nothing_known_paints_nothing(days: DayBars) -> None:
    days.show_days((), frozenset())
    assert days.accessibleDescription() == ""
    assert not columns_of(picture(days), current().bar.rgb())


def test_a_wider_interval_has_a_longer_whisker(qtbot: QtBot, dressed: QApplication) -> None:
    narrow, wide = Interval(99, 100, 101), Interval(96, 100, 104)
    for widget in (narrow, wide):
        qtbot.addWidget(widget)
    bar = current().bar.rgb()
    assert len(columns_of(picture(narrow), bar)) < len(columns_of(picture(wide), bar))


@pytest.mark.parametrize(("low", "median", "high"), [(0, 0, 0), (10, 100, 900), (100, 100, 100)])
def test_no_interval_leaves_its_picture(
    qtbot: QtBot, dressed: QApplication, low: float, median: float, high: float
) -> None:
    made = Interval(low, median, high)
    qtbot.addWidget(made)
    assert columns_of(picture(made), current().bar.rgb())


def test_the_rail_writes_its_words_one_below_the_other(qtbot: QtBot, dressed: QApplication) -> None:
    rail = Rail()
    qtbot.addWidget(rail)
    rail.resize(34, 400)
    bare = picture(rail)
    rail.show_words(("Runa Estvik",))
    one = picture(rail)
    rail.show_words(("Runa Estvik", "Screening"))
    two = picture(rail)
    assert bare != one
    assert one != two
    top = two.copy(0, 0, 34, 60)
    assert top == one.copy(0, 0, 34, 60)


def test_the_names_of_days_have_room_in_a_narrow_pane(
    days: DayBars, monkeypatch: pytest.MonkeyPatch
) -> None:
    days.show_days(WEEK, frozenset())
    days.setFixedWidth(250)
    with watched(monkeypatch) as painted:
        days.grab()
    assert "Mon" in painted.texts
    assert painted.cut == set()
