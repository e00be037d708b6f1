"""An excerpt says what it continues and what continues it."""

from __future__ import annotations

import pytest

from app.booklet import Options, Paper, make
from app.booklet.bind import open_book
from app.booklet.going_on import after_text, before_text
from tests.booklet.reading_pdf import Printed
from tests.booklet.sample import content, issue, season


@pytest.mark.parametrize(
    ("weeks", "before", "after"),
    [
        (None, "", ""),
        ((1, 6), "", "weeks 7 to 9 come in the next booklet"),
        ((1, 8), "", "week 9 come"),
        ((7, 9), "It continues weeks 1 to 6.", ""),
        ((2, 2), "It continues week 1.", "weeks 3 to 9"),
    ],
)
def test_what_comes_before_and_after(weeks, before: str, after: str):
    book = open_book(issue(season(9)), content(), Options(weeks=weeks))
    assert before_text(book) == before
    assert after in after_text(book)
    assert bool(after_text(book)) is bool(after)


@pytest.mark.parametrize("options", [Options(weeks=(2, 3)), Options(paper=Paper.A5, weeks=(2, 3))])
def test_cover_and_last_week_say_it(options: Options):
    booklet = Printed(make(issue(season(9)), content(), options))
    assert "weeks 2 to 3 of 9" in booklet.text(1)
    assert "It continues week 1." in booklet.text(1)
    said = "weeks 4 to 9 come in the next booklet"
    last = max(booklet.pages_with("Week 3 of 9"))
    assert said in booklet.text(1)
    assert said in booklet.text(last)


def test_a_whole_booklet_continues_nothing():
    assert "continue" not in Printed(make(issue(season(2)), content(), Options())).whole
