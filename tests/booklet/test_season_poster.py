from __future__ import annotations

from dataclasses import replace
from io import BytesIO

import pypdfium2
import pytest
from pypdf import PdfReader

from app.booklet import Paper
from app.booklet.season_poster import make_poster
from app.booklet.words import sets_text
from app.domain.dose import weekly_sets
from app.domain.exercise import Muscle
from app.domain.program import Block
from tests.booklet import sample


def text_of(pdf: bytes) -> str:
    return "\n".join(page.extract_text() for page in PdfReader(BytesIO(pdf)).pages)


@pytest.mark.parametrize("paper", [Paper.A4, Paper.LETTER])
@pytest.mark.parametrize("weeks", [1, 12, 21, 52])
def test_a_season_of_any_length_is_one_wide_page(weeks: int, paper: Paper) -> None:
    pdf = make_poster(sample.issue(sample.season(weeks)), sample.content(), paper=paper)
    (page,) = PdfReader(BytesIO(pdf)).pages
    assert page.mediabox.width > page.mediabox.height


def test_it_says_who_what_and_every_week() -> None:
    issue = sample.issue(sample.season(12))
    said = text_of(make_poster(issue, sample.content())).split()
    for number in range(1, 13):
        assert str(number) in said
    for word in ("Uphill", "Jorunn", "Settle", "Glutes", "Done"):
        assert word in said


def test_the_sets_are_those_of_the_weeks() -> None:
    issue = sample.issue(sample.season(12))
    said = text_of(make_poster(issue, sample.content())).split()
    for week in issue.program.weeks:
        sets = weekly_sets(week, sample.TAUGHT)[Muscle.GLUTEALS]
        assert sets_text(sets) in said


@pytest.mark.parametrize(
    ("name", "printed"),
    [
        ("Winter preparation for the long ridge, second attempt", "second attempt"),
        ("A season with a name that goes on and on, " * 4, "…"),
    ],
)
def test_a_long_name_is_whole_or_seen_to_be_cut(name: str, printed: str) -> None:
    program = replace(sample.season(12), name=name)
    assert printed in text_of(make_poster(sample.issue(program), sample.content()))


def test_nothing_leaves_the_page() -> None:
    # a long name and a block of one week, where letters would run over their neighbours
    program = sample.season(52)
    named = replace(
        program,
        name="A season with a name that goes on and on and on, longer than any coach would write",
        blocks=(Block("An introduction of one week", 1), Block("All the others", 51)),
    )
    pdf = make_poster(sample.issue(named), sample.content())
    page = pypdfium2.PdfDocument(pdf)[0]
    text = page.get_textpage()
    width, height = page.get_size()
    for number in range(text.count_chars()):
        left, bottom, right, top = text.get_charbox(number)
        assert left >= 40
        assert right <= width - 40
        assert bottom >= 20
        assert top <= height - 20


def test_an_empty_program_says_so() -> None:
    bare = replace(sample.season(4), emphasis=())
    weeks = tuple(
        replace(week, days=tuple(replace(day, sessions=()) for day in week.days))
        for week in bare.weeks
    )
    pdf = make_poster(sample.issue(replace(bare, weeks=weeks)), sample.content())
    assert "No sets are planned yet." in text_of(pdf)


def test_the_same_issue_gives_the_same_bytes() -> None:
    issue = sample.issue(sample.season(6))
    assert make_poster(issue, sample.content()) == make_poster(issue, sample.content())
