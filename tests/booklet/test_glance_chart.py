"""What the panels show: steps of repetitions, and the ranges that hold in each week."""

from __future__ import annotations

from app.booklet import Options, make
from app.booklet.bind import open_book
from app.booklet.glance_chart import _beds, cites_of, steps_of
from app.booklet.season import sum_up
from app.domain.ranges import Range, RangeBook, Who
from tests.booklet.reading_pdf import Printed
from tests.booklet.sample import content, issue, season
from tests.builders import CATALOGUE, program

EARLY = Range("weekly_sets", 8, 14, "sets", "common practice", who=Who(week_high=2))
LATER = Range("weekly_sets", 12, 20, "sets", "bazvalle2022")


def test_weeks_with_equal_reps_make_one_step():
    whole = program(
        "Mon: back_squat 3x8 core", "Mon: back_squat 3x8 core", "", "Mon: back_squat 3x5 core"
    )
    assert steps_of(sum_up(whole, CATALOGUE).weeks) == [(0, 2, 8), (3, 4, 5)]


def test_a_range_lies_under_the_weeks_it_holds_for():
    ranges = RangeBook({"weekly_sets": (EARLY, LATER)})
    book = open_book(issue(season(5)), content(ranges=ranges), Options())
    assert [(bed.first, bed.stop, bed.range) for bed in _beds(book)] == [
        (0, 2, EARLY),
        (2, 5, LATER),
    ]
    assert "bazvalle2022" in {cite.key for cite in cites_of(book)}
    assert "common practice" not in {cite.key for cite in cites_of(book)}


def test_without_emphasis_no_range_is_shown():
    book = open_book(issue(program("Mon: curl 3x8", emphasis=())), content(), Options())
    assert _beds(book) == ()


def test_the_sets_of_each_kind_of_week_stand_over_their_bars():
    handed = issue(season(6))
    booklet = Printed(make(handed, content()))
    (page,) = booklet.pages_with("The program at a glance 23 November")
    for week in open_book(handed, content(), Options()).season.weeks:
        assert f"{week.sets:g}" in booklet.text(page)
