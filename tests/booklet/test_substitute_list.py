from __future__ import annotations

from dataclasses import replace
from io import BytesIO

from pypdf import PdfReader

from app.booklet.bind import open_book
from app.booklet.content import Options
from app.booklet.instead import instead_of
from app.booklet.substitute_list import make_substitute_list
from app.domain.exercise import Equipment, ExerciseKey
from tests.booklet import sample


def text_of(pdf: bytes) -> str:
    pages = PdfReader(BytesIO(pdf)).pages
    return " ".join(" ".join(page.extract_text() for page in pages).split())


def test_every_exercise_stands_once_with_what_the_booklet_offers() -> None:
    issue = sample.issue(sample.season(2))
    content = sample.content()
    said = text_of(make_substitute_list(issue, content))
    book = open_book(issue, content, Options())
    seen = set()
    for slot in issue.program.weeks[0].slots():
        exercise = book.exercise(slot.exercise)
        seen.add(exercise.name)
        for one in instead_of(book, slot, exercise):
            assert one.exercise.name in said
    for name in seen:
        assert name in said


def test_what_the_coach_prepared_is_marked() -> None:
    program = sample.season(1)
    week = program.weeks[0]

    def with_prepared(slot):
        return replace(slot, prepared=(ExerciseKey("goblet_squat"),))

    days = tuple(
        replace(
            day,
            sessions=tuple(
                replace(s, slots=tuple(map(with_prepared, s.slots))) for s in day.sessions
            ),
        )
        for day in week.days
    )
    who = sample.lifter(equipment=frozenset(Equipment))
    issue = sample.issue(replace(program, weeks=(replace(week, days=days),)), who)
    assert "prepared by your coach" in text_of(make_substitute_list(issue, sample.content()))


def test_an_empty_program_says_so() -> None:
    program = sample.season(1)
    week = program.weeks[0]
    bare = replace(week, days=tuple(replace(day, sessions=()) for day in week.days))
    pdf = make_substitute_list(sample.issue(replace(program, weeks=(bare,))), sample.content())
    assert "no exercise yet" in text_of(pdf)
