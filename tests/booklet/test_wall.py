"""One page for the wall: large enough, nothing on top of anything, the plan as it is."""

from __future__ import annotations

import re

import pytest

from app.booklet import Kind, Options, Paper, make
from app.booklet.bind import open_book
from app.booklet.wall import SMALLEST_READ_PT, base_week, dose_on_wall, fitted
from app.domain.wording import speaking
from app.resources.languages import PSEUDO, find_language
from tests.booklet.reading_pdf import MM, Printed
from tests.booklet.sample import TAUGHT, content, issue, season
from tests.booklet.test_bind import hard_issue, overlaps
from tests.builders import program

WALL = Options(kind=Kind.WALL)
FIVE = "Mon: {x} | Tue: {x} | Wed: {x} | Thu: {x} | Fri: {x}".format(
    x="back_squat 3x5 core, bench_press 3x5, romanian_deadlift 3x8, curl 2x12, plank 2x30"
)


@pytest.mark.parametrize("paper", [Paper.A4, Paper.LETTER])
@pytest.mark.parametrize("plan", ["season", "hard", "five", "empty", "year"])
def test_it_is_one_page_with_nothing_over_anything(paper: Paper, plan: str):
    handed = {
        "season": lambda: issue(season(21)),
        "hard": hard_issue,
        "five": lambda: issue(program(FIVE, times=3)),
        "empty": lambda: issue(program("", "")),
        "year": lambda: issue(season(52)),
    }[plan]()
    booklet = Printed(make(handed, content(), Options(kind=Kind.WALL, paper=paper)))
    assert len(booklet) == 1
    wide, tall = booklet.size_mm(1)
    assert wide > tall
    letters = list(booklet.letters(1))
    assert overlaps(letters) == []
    for one in letters:
        assert 11.5 <= one.left < one.right <= wide - 11.5, one
        assert 11.5 <= one.top < one.bottom <= tall - 9.0, one


@pytest.mark.parametrize("code", ["de", "es", PSEUDO])
def test_a_longer_language_stays_on_the_page(code: str):
    with speaking(find_language(code)):
        booklet = Printed(make(issue(season(21)), content(), WALL))
    assert len(booklet) == 1
    letters = list(booklet.letters(1))
    assert overlaps(letters) == []
    assert max(one.right for one in letters) <= booklet.size_mm(1)[0] - 11.5


def test_what_is_read_from_afar_has_capitals_of_five_millimetres():
    assert SMALLEST_READ_PT * 0.714 * MM >= 5.0
    booklet = Printed(make(issue(season(21)), content(), WALL))
    last = max(one.bottom for one in booklet.letters(1))
    small = [one for one in booklet.letters(1) if one.size < SMALLEST_READ_PT - 0.01]
    assert small
    assert all(one.top > last - 8.0 for one in small)  # the foot alone


def test_every_exercise_stands_with_its_first_and_last_repetitions():
    handed = issue(season(21))
    book = open_book(handed, content(), WALL)
    text = re.sub(r"\s+", " ", Printed(make(handed, content(), WALL)).whole)
    week = handed.program.weeks[base_week(book)]
    _, columns = fitted(book, week, room=110.0)
    assert len(columns) == 3
    for (_, session), column in zip(week.sessions(), columns, strict=True):
        assert len(column.lines) + column.more == len(session.slots)
        for slot, line in zip(session.slots, column.lines, strict=False):
            assert " ".join(line.name) == TAUGHT[slot.exercise].name
            assert line.name[0] in text
            assert dose_on_wall(book, slot).replace("\u00a0", " ") in text
    squat = next(slot for slot in week.slots() if slot.exercise == "back_squat")
    assert dose_on_wall(book, squat).replace("\u00a0", " ") == "3 × 15 → 3"  # the plan's own ends


def test_a_light_week_is_not_the_one_that_is_shown():
    book = open_book(issue(season(10)), content(), Options(kind=Kind.WALL, weeks=(5, 6)))
    assert base_week(book) == 5
    alone = open_book(issue(season(10)), content(), Options(kind=Kind.WALL, weeks=(5, 5)))
    assert base_week(alone) == 4
    assert base_week(open_book(issue(program("")), content(), WALL)) is None
