"""How the window writes numbers and dates."""

from __future__ import annotations

from datetime import date
from html.parser import HTMLParser

import pytest
from hypothesis import given
from hypothesis import strategies as st
from PySide6.QtCore import QLocale

from app.domain.client import Limitation, Side, Status
from app.domain.exercise import Joint, Motion
from app.ui import words
from tests import builders


@pytest.mark.parametrize(
    ("value", "places", "text"),
    [
        (8.0, 1, "8"),
        (8.5, 1, "8.5"),
        (8.24, 1, "8.2"),
        (8.25, 2, "8.25"),
        (1.2, 0, "1"),
        (-2, 1, "-2"),
    ],
)
def test_numbers_have_no_needless_zeros(value: float, places: int, text: str) -> None:
    assert words.number(value, places=places) == text


def test_numbers_follow_the_platform() -> None:
    QLocale.setDefault(QLocale(QLocale.Language.German, QLocale.Country.Germany))
    assert words.number(8.5) == "8,5"
    assert words.number(8.0) == "8"
    assert words.number(20.0, places=0) == "20"


@given(st.integers(0, 3600))
def test_a_rest_can_be_read_back(seconds: int) -> None:
    minutes, rest = words.clock(seconds).split(":")
    assert int(minutes) * 60 + int(rest) == seconds
    assert len(rest) == 2


@given(st.dates())
def test_dates_go_to_qt_and_back(day: date) -> None:
    assert words.pydate(words.qdate(day)) == day


def test_dates_name_the_month() -> None:
    day = date(2026, 10, 2)
    assert words.day_and_month(day) == "2 October"
    assert words.day_and_month(day, short=True) == "2 Oct"
    assert words.full_date(day) == "2 Oct 2026"


@pytest.mark.parametrize(
    ("week", "text"),
    [(0, "23 to 29 November"), (1, "30 November to 6 December"), (5, "28 December to 3 January")],
)
def test_a_week_says_its_first_and_last_day(week: int, text: str) -> None:
    program = builders.program("Mon: curl", times=6)
    assert words.week_span(program, week) == text


def test_a_client_in_one_line_says_only_what_is_known() -> None:
    today = date(2026, 11, 25)
    whole = builders.client(trained_years=3.0)
    assert words.client_line(whole, today) == "34 · 171 cm · 66.4 kg · intermediate, 3 years"
    one = builders.client(trained_years=1, born=None, height_cm=None, mass_kg=None)
    assert words.client_line(one, today) == "intermediate, 1 year"
    assert set(words.STATUS_WORDS) == set(Status)


@pytest.mark.parametrize(
    ("names", "text"),
    [([], ""), (["a"], "a"), (["a", "b"], "a and b"), (["a", "b", "c"], "a, b and c")],
)
def test_lists_are_read_as_a_sentence(names: list[str], text: str) -> None:
    assert words.list_of(names) == text


class _Reader(HTMLParser):
    def __init__(self) -> None:
        super().__init__(convert_charrefs=True)
        self.tags: list[str] = []
        self.text = ""

    def handle_starttag(self, tag: str, attrs: object) -> None:
        self.tags.append(tag)

    def handle_data(self, data: str) -> None:
        self.text += data


@given(st.lists(st.text(st.characters(codec="utf-8", exclude_categories=["Cc"])), max_size=3))
def test_a_tip_holds_the_text_and_no_markup_but_its_own(lines: list[str]) -> None:
    reader = _Reader()
    reader.feed(words.tip(*lines))
    reader.close()
    assert set(reader.tags) <= {"qt", "br"}
    assert reader.text == "".join(lines)


def test_no_lines_are_no_tip() -> None:
    assert words.tip() == words.tip("", "") == ""


def test_an_ampersand_is_shown_and_underlines_nothing() -> None:
    assert words.label_text("R&D & more") == "R&&D && more"


@pytest.mark.parametrize(
    ("limitation", "text"),
    [
        (Limitation(Joint.KNEE, Motion.FLEXION), "Knee: no bending"),
        (
            Limitation(Joint.KNEE, Motion.FLEXION, Side.LEFT, 90, until=date(2027, 2, 28)),
            "Left knee: no bending past 90° until 28 Feb 2027",
        ),
        (
            Limitation(Joint.SHOULDER, Motion.OVERHEAD, Side.RIGHT, since=date(2026, 12, 1)),
            "Right shoulder: no overhead work from 1 Dec 2026",
        ),
        (Limitation(Joint.HIP, Motion.IMPACT, note="told"), "Hip: no jolts and jumps (told)"),
        (Limitation(Joint.KNEE, Motion.FLEXION, past_degrees=0), "Knee: no bending past 0°"),
    ],
)
def test_a_limitation_is_told_in_words(limitation: Limitation, text: str) -> None:
    assert words.limitation_text(limitation) == text
