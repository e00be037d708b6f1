"""The sentences over the chart are read off the plan."""

from __future__ import annotations

from dataclasses import replace

import pytest

from app.booklet import Options, Paper, Part
from app.booklet.bind import make, open_book
from app.booklet.book import frame_of
from app.booklet.glance import intro, pages
from app.domain.exercise import Muscle
from app.domain.program import Block
from app.domain.wording import speaking
from app.resources.languages import NAMES, find_language
from tests.booklet.reading_pdf import Printed
from tests.booklet.sample import content, issue, season
from tests.builders import program

A4_LAST_MM = frame_of(Paper.A4).last


def book_of(whole):
    return open_book(issue(whole), content(), Options())


def test_falling_reps_are_told_with_both_ends_and_the_light_weeks():
    text = intro(book_of(season(21)))
    assert "come down, from about 15 to 3" in text
    assert "weeks 5, 10, 15 and 20" in text


def test_rising_and_level_reps_are_told_as_they_are():
    rising = program("Mon: back_squat 3x5 core", "Mon: back_squat 3x8 core")
    assert "go up, from about 5 to 8" in intro(book_of(rising))
    level = program("Mon: back_squat 3x5 core", times=2)
    assert "stay near 5 repetitions" in intro(book_of(level))


def test_an_empty_plan_promises_nothing():
    assert intro(book_of(program("", ""))) == "2 weeks, nothing planned yet."


def test_many_blocks_go_on_on_another_page():
    whole = replace(season(52), blocks=tuple(Block(f"Block {n}", 1) for n in range(52)))
    assert len(list(pages(book_of(whole)))) > 1


@pytest.mark.parametrize("code", NAMES)
@pytest.mark.parametrize("weeks", range(5, 53, 5))
def test_the_key_below_the_blocks_stays_above_the_foot(code: str, weeks: int) -> None:
    parts = frozenset({Part.GLANCE})
    with speaking(find_language(code)):
        booklet = Printed(make(issue(season(weeks)), content(), Options(parts=parts)))
    for page in range(2, len(booklet) + 1):
        ends = [one.bottom for one in booklet.letters(page)]
        last = A4_LAST_MM + 1.5  # what hangs under the last baseline
        assert [end for end in ends if last < end < A4_LAST_MM + 5.0] == [], page


def test_charts_shrink_before_the_last_blocks_get_a_page_of_their_own_and_the_foot_stays_free():
    words = "Mon: hip_thrust 4x12 core, curl 3x8, plank 2x30 | Mon: step_up 2x8"
    other = "Mon: back_squat 4x12 core, leg_press 3x8, bench_press 2x30"
    counts = []
    for count in range(1, 13):
        weeks = (*((words, other) * 7)[: count - 1], f"light | {words}")
        whole = program(*weeks, emphasis=(Muscle.GLUTEALS,))
        whole = replace(whole, blocks=tuple(Block(f"Block {n}", 1) for n in range(count)))
        counts.append(len(list(pages(book_of(whole)))))
        booklet = Printed(make(issue(whole), content(), Options()))
        page = next(n for n in booklet.pages_with("The program at a glance") if n > 3)
        lows = [one.bottom for one in booklet.letters(page)]
        above_foot = max(low for low in lows if low < max(lows) - 2.0)
        assert above_foot <= book_of(whole).frame.last + 1.5, count
    assert counts[0] == 1
    assert counts[-1] > 1
    assert counts == sorted(counts)
