"""The warm-up page: each drill once, with its days."""

from __future__ import annotations

from app.booklet import make
from app.domain.exercise import ExerciseKey
from tests.booklet.reading_pdf import Printed
from tests.booklet.sample import TAUGHT, content, issue
from tests.builders import program


def test_a_drill_stands_once_with_its_days_and_instructions():
    whole = program(
        "Tue (band_walk): back_squat 3x5 60kg core | Fri (band_walk): bench_press 3x5 40kg core"
    )
    booklet = Printed(make(issue(whole), content()))
    (page,) = (p for p in range(1, len(booklet) + 1) if booklet.text(p).startswith("Warm-up"))
    text = booklet.text(page)
    assert text.count("Band walk") == 1
    assert "Tuesday and Friday" in text
    assert " ".join(TAUGHT[ExerciseKey("band_walk")].cues) in text
    assert "Tuesday Back squat 20 kg × 8" in text
    assert "Friday Bench press 20 kg × 8" in text


def test_without_drills_and_loads_the_steps_and_lines_remain():
    booklet = Printed(make(issue(program("Mon: push_up 3x8")), content()))
    (page,) = (p for p in range(1, len(booklet) + 1) if booklet.text(p).startswith("Warm-up"))
    assert "Drills" not in booklet.text(page)
    assert "Five minutes of easy movement" in booklet.text(page)
