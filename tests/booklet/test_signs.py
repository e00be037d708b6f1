"""The cautions box is as tall as its sentences."""

from __future__ import annotations

from app.booklet import Options, make
from app.booklet.bind import open_book
from app.booklet.signs import caution_height, caution_lines
from tests.booklet.reading_pdf import Printed
from tests.booklet.sample import content, issue, season
from tests.builders import program

BOOK = open_book(issue(program("Mon: curl 3x8")), content(), Options())


def test_more_sentences_make_a_taller_box():
    one, two = ("Stop.",), ("Stop.", "Ask. " * 60)
    assert caution_height(BOOK, two) > caution_height(BOOK, one) + 10
    assert len(caution_lines(BOOK, two)[1]) > 1


def test_every_page_of_an_exercise_carries_the_small_sign():
    booklet = Printed(make(issue(season(1)), content()))
    exercises = {slot.exercise for slot in season(1).weeks[0].slots()}
    assert len(booklet.pages_with("Stop if a joint hurts or you feel dizzy.")) == len(exercises)


def test_every_page_of_a_week_has_its_strip_and_number():
    booklet = Printed(make(issue(season(3)), content()))
    for week in (1, 2, 3):
        assert len(booklet.pages_with(f"Week {week} of 3 ")) == 2
