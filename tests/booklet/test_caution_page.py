"""Cautions: what the screening asks, and what was agreed to leave out."""

from __future__ import annotations

from datetime import date

import pytest

from app.booklet import Options, make
from app.booklet.bind import open_book
from app.booklet.caution_page import limitation_lines, screening_words
from app.domain.client import Limitation, Screening, Side
from app.domain.exercise import Joint, Motion
from tests.booklet.reading_pdf import Printed
from tests.booklet.sample import content, issue, lifter
from tests.builders import program

DAY = date(2026, 10, 2)


def book_of(**fields):
    return open_book(issue(program("Mon: curl 3x8"), lifter(**fields)), content(), Options())


@pytest.mark.parametrize(
    ("screening", "title"),
    [
        (Screening(DAY, True, False, False), "Begin as agreed"),
        (Screening(DAY, True, True, False), "Keep to moderate effort"),
        (Screening(DAY, True, False, True), "See a doctor before the first session"),
        (Screening(DAY, False, True, False), "See a doctor before the first session"),
        (Screening(DAY, True, False, False, pregnant=True), "See a doctor before"),
    ],
)
def test_the_newest_screening_heads_the_page(screening: Screening, title: str):
    older = Screening(date(2020, 1, 1), active=True, known_disease=False, symptoms=False)
    book = book_of(screenings=(older, screening))
    said, sentences = screening_words(book)
    assert said.startswith(title)
    assert any("2 October 2026" in s.replace("\u00a0", " ") for s in sentences)


def test_without_a_screening_the_questions_come_first():
    said, sentences = screening_words(book_of(screenings=()))
    assert said == "No screening yet"
    assert "before the first session" in sentences[0]


def test_limitations_in_force_during_the_plan_are_named():
    lines = limitation_lines(
        book_of(
            limitations=(
                Limitation(Joint.KNEE, Motion.FLEXION, Side.LEFT, past_degrees=90, note="cranky"),
                Limitation(Joint.SHOULDER, Motion.OVERHEAD, until=date(2026, 11, 1)),
                Limitation(Joint.SPINE, Motion.COMPRESSION, since=date(2027, 1, 1)),
            )
        )
    )
    assert lines == ("Left knee: no bending past 90°. cranky",)


def test_a_clearance_dated_after_the_issue_is_not_called_given():
    ahead = Screening(date(2026, 10, 2), True, False, False, cleared_on=date(2099, 1, 1))
    _, sentences = screening_words(book_of(screenings=(ahead,)))
    assert not any("agreed to training" in sentence for sentence in sentences)


def test_the_last_day_of_a_limitation_is_a_day_to_ask():
    ends = Limitation(Joint.SHOULDER, Motion.OVERHEAD, until=date(2027, 2, 28))
    (line,) = limitation_lines(book_of(limitations=(ends,)))
    said = line.replace("\u00a0", " ")
    assert said.endswith("until 28 February 2027; ask before you begin again.")


def test_the_page_orders_no_treatment_and_promises_nothing():
    booklet = Printed(make(issue(program("Mon: curl 3x8")), content()))
    text = " ".join(booklet.text(page) for page in (2, 3)).lower()
    assert "stop" in text
    assert "doctor or physiotherapist" in text
    assert "local rules" in text
    for word in ("cure", "heal", "treat", "diagnos", "guarantee", "safe for"):
        assert word not in text
