"""The warm-up page: each drill once, with its days."""

from __future__ import annotations

from dataclasses import replace

from app.booklet import make
from app.domain.exercise import Catalogue, ExerciseKey
from tests.booklet.reading_pdf import Printed
from tests.booklet.sample import TAUGHT, content, issue
from tests.builders import CATALOGUE, program


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


def warmup_text_of(text: str) -> str:
    booklet = Printed(make(issue(program(text)), content()))
    pages = (booklet.text(page) for page in range(1, len(booklet) + 1))
    return next(page for page in pages if page.startswith("Warm-up"))


def test_a_drill_says_how_much_of_it_where_all_sessions_agree():
    agreed = "Tue (band_walk 2x12): curl 3x8 | Fri (band_walk 2x12): curl 3x8"
    assert "Band walk 2 × 12" in warmup_text_of(agreed)
    assert "Band walk × 5–10" in warmup_text_of(agreed.replace(" 2x12", ""))
    differ = warmup_text_of("Tue (band_walk 2x12): curl 3x8 | Fri (band_walk): curl 3x8")
    assert "2 × 12" not in differ
    assert "× 5–10" not in differ


def test_the_page_says_where_ramp_sets_that_the_coach_set_come_from():
    plain = "Tue: back_squat 3x5 60kg core"
    assert "Load and reps of each; common practice." in warmup_text_of(plain)
    assert "or as your coach set them." in warmup_text_of(f"{plain} ramp 50%x5")


def test_without_drills_and_loads_the_steps_and_lines_remain():
    booklet = Printed(make(issue(program("Mon: push_up 3x8")), content()))
    (page,) = (p for p in range(1, len(booklet) + 1) if booklet.text(p).startswith("Warm-up"))
    assert "Drills" not in booklet.text(page)
    assert "Five minutes of easy movement" in booklet.text(page)


def first_page(text: str, *, easy_s: dict[str, int]) -> str:
    """The warm-up page where these drills are timed, so many seconds at least."""
    timed = [replace(CATALOGUE[ExerciseKey(k)], timed=True, rep_low=s) for k, s in easy_s.items()]
    catalogue = Catalogue((*(e for e in CATALOGUE if e.key not in easy_s), *timed))
    whole = program(text)
    booklet = Printed(make(issue(whole, catalogue=catalogue), content(catalogue=catalogue)))
    pages = (booklet.text(page) for page in range(1, len(booklet) + 1))
    return next(page for page in pages if page.startswith("Warm-up"))


def test_the_page_says_as_many_minutes_as_the_line_of_the_week():
    page = first_page("Tue (band_walk): curl 3x8", easy_s={"band_walk": 180})
    assert "Three minutes of easy movement" in page


def test_where_sessions_begin_with_different_minutes_the_page_says_a_few():
    page = first_page("Tue (band_walk): curl 3x8 | Fri: curl 3x8", easy_s={"band_walk": 180})
    assert "A few minutes of easy movement" in page
