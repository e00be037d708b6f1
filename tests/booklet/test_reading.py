"""How to read the booklet, with a row of the plan itself."""

from __future__ import annotations

from app.booklet import Options, make
from app.booklet.bind import open_book
from app.booklet.reading import STOP, sample
from tests.booklet.reading_pdf import Printed
from tests.booklet.sample import content, issue, season
from tests.builders import program


def test_the_row_that_is_explained_is_one_of_the_plan_with_a_load():
    book = open_book(issue(season(2)), content(), Options())
    found = sample(book)
    assert found.exercise.key == "hip_thrust"
    assert book.loads[found.slot.id]


def test_an_empty_plan_explains_without_a_row():
    assert sample(open_book(issue(program("")), content(), Options())) is None
    assert "One row" not in Printed(make(issue(program("")), content())).text(2)


def test_the_words_use_the_figures_of_that_row():
    text = Printed(make(issue(season(2)), content())).text(2)
    assert "4 × 15 means 4 sets of 15 repetitions" in text
    assert "RIR 2 with 15 reps means 17 would have been your honest limit" in text
    assert "15 done, 2 kept in reserve" in text


def test_words_that_the_plan_does_not_use_are_left_out():
    text = Printed(make(issue(program("Mon: back_squat 3x5")), content())).text(2)
    assert "Tempo" in text  # it stands on the exercise's page
    assert "Pairs" not in text
    text = Printed(make(issue(season(2)), content())).text(2)
    assert "Tempo" in text
    assert "Pairs" in text


def test_the_stop_signs_stand_on_the_page():
    text = Printed(make(issue(season(2)), content())).text(2)
    for sentence in STOP:
        assert sentence in text
