"""One page an exercise, with the words of its data."""

from __future__ import annotations

import pytest

from app.booklet import Options, Paper, make
from app.booklet.bind import open_book
from app.booklet.exercise_page import entries
from app.domain.edits.fields import set_prepared
from app.domain.exercise import ExerciseKey
from tests.booklet.reading_pdf import Printed
from tests.booklet.sample import TAUGHT, WIDE, content, issue, season
from tests.builders import CATALOGUE, program


def test_each_exercise_of_the_printed_weeks_has_one_page_in_the_order_of_the_plan():
    whole = program("Mon: curl 3x8, back_squat 3x5", "Mon: curl 3x8, plank 2x30")
    book = open_book(issue(whole), content(), Options())
    assert [entry.exercise.key for entry in entries(book)] == ["curl", "back_squat", "plank"]
    book = open_book(issue(whole), content(), Options(weeks=(1, 1)))
    assert [entry.exercise.key for entry in entries(book)] == ["curl", "back_squat"]


@pytest.mark.parametrize("paper", WIDE)
def test_set_up_steps_faults_and_muscles_are_all_printed(paper: Paper):
    booklet = Printed(make(issue(season(2)), content(), Options(paper=paper)))
    squat = TAUGHT[ExerciseKey("back_squat")]
    (page,) = (
        p for p in booklet.pages_with("If you notice this") if booklet.text(p)[:10] == "Back squat"
    )
    text = booklet.text(page)
    for part in (*squat.set_up, *squat.cues, squat.faults[0].notice, squat.faults[0].remedy):
        assert part in text
    assert "front thigh, glutes" in text
    assert "lower back, inner thigh" in text
    assert "barbell, rack" in text
    assert "Stop if a joint hurts" in text
    assert "on page 2" in text


def test_an_exercise_without_words_gets_a_page_to_write_on():
    booklet = Printed(make(issue(program("Mon: curl 3x8")), content(catalogue=CATALOGUE)))
    pages = [p for p in range(1, len(booklet) + 1) if booklet.text(p).startswith("Curl")]
    assert len(pages) == 1
    assert "Your notes" in booklet.text(pages[0])
    assert "Set up" not in booklet.text(pages[0])


@pytest.mark.parametrize("paper", WIDE)
def test_all_five_prepared_substitutes_are_printed(paper: Paper):
    whole = program("Mon: back_squat 3x8")
    keys = tuple(
        map(ExerciseKey, ("split_squat", "leg_press", "goblet_squat", "step_up", "leg_extension"))
    )
    whole = set_prepared(whole, next(whole.weeks[0].slots()).id, prepared=keys)
    booklet = Printed(make(issue(whole), content(), Options(paper=paper)))
    (page,) = booklet.pages_with("chosen for you")
    text = booklet.text(page)
    for key in keys:
        assert TAUGHT[key].name in text
