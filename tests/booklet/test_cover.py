"""The cover: the name large, whole, in two lines if it can be."""

from __future__ import annotations

import pytest

from app.booklet import Kind, Options, Paper, make
from app.booklet.bind import open_book
from app.booklet.cover import title_lines
from app.booklet.fonts import COVER, COVER_26, NBSP
from app.booklet.words import span_text, week_text
from app.domain.wording import speaking, trn
from app.resources.languages import NAMES, find_language
from tests.booklet.reading_pdf import Printed
from tests.booklet.sample import content, issue, lifter, season
from tests.builders import program

BOOK = open_book(issue(program("Mon: curl 3x8")), content(), Options())


def test_a_short_name_stands_in_two_lines_of_like_length():
    assert title_lines(BOOK, "Uphill with the stretcher", 174.0) == (
        ("Uphill with", "the stretcher"),
        COVER,
    )


def test_one_word_stays_one_line():
    assert title_lines(BOOK, "Ridge", 174.0)[0] == ("Ridge",)


@pytest.mark.parametrize("words", [6, 14, 40])
def test_a_long_name_gets_smaller_and_stays_whole(words: int):
    name = " ".join(["stretcher"] * words)[:200].strip()
    lines, style = title_lines(BOOK, name, 174.0)
    assert " ".join(lines) == name
    assert style.size < COVER.size or len(lines) <= 2
    assert len(lines) * style.lead_mm < 60
    assert COVER_26.size < COVER.size


def test_a_clients_name_of_two_hundred_letters_is_printed_whole():
    name = " ".join(["Alexandra", "Konstantinovna"] * 8)[:200].strip()
    handed = issue(season(2), lifter(name=name))
    assert f"for {name}" in Printed(make(handed, content())).text(1)


def test_the_cover_names_client_team_coach_dates_and_light_weeks():
    text = Printed(make(issue(season(21)), content())).text(1)
    for part in (
        "Training booklet, 21 weeks",
        "for Jorunn Aske",
        "Ombrel Valley Mountain Rescue, volunteer team",
        "Coach: Tavi Hellmark",
        "23 November 2026 to 18 April 2027",
        "Light weeks are 5, 10, 15 and 20.",
        "made with Weekloom",
    ):
        assert part in text


@pytest.mark.parametrize("code", NAMES)
def test_a_phone_says_the_kind_and_the_dates_whole(code: str):
    options = Options(kind=Kind.FORM, paper=Paper.PHONE, weeks=(1, 1))
    handed = issue(season(21))
    with speaking(find_language(code)):
        kind = trn(
            "Training booklet, week {last} of {count}",
            "Training booklet, weeks {first} to {last} of {count}",
            1,
            first=1,
            last=1,
            count=21,
        )
        start = handed.program.start
        dates = (span_text(start, 21), week_text(start, 21))
        said = Printed(make(handed, content(), options)).text(1).replace(NBSP, " ")
    assert kind in said
    assert any(text.replace(NBSP, " ") in said for text in dates)
