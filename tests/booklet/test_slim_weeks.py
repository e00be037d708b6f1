"""Weeks in one column: every slot with its figures, sessions that go on, excerpts."""

from __future__ import annotations

import pytest

from app.booklet import Kind, Options, Paper, make
from app.booklet.bind import open_book
from app.booklet.slim_weeks import pages
from app.booklet.words import dose_text, rest_text
from app.domain.units import number_text
from tests.booklet.reading_pdf import Printed
from tests.booklet.sample import TAUGHT, content, issue, season
from tests.builders import program

OPTIONS = {
    "A5": Options(paper=Paper.A5),
    "large": Options(large=True),
    "form": Options(kind=Kind.FORM),
    "phone": Options(kind=Kind.FORM, paper=Paper.PHONE),
}


@pytest.mark.parametrize("options", OPTIONS.values(), ids=OPTIONS)
def test_every_slot_stands_on_its_week_with_sets_load_and_rest(options: Options):
    handed = issue(season(3))
    booklet = Printed(make(handed, content(), options))
    loads = {load.slot: load.load_kg for load in handed.loads}
    for number, week in enumerate(handed.program.weeks, start=1):
        found = booklet.pages_with(f"Week {number} of 3")
        text = " ".join(booklet.text(page) for page in found)
        for slot in week.slots():
            exercise = TAUGHT[slot.exercise]
            said = f"{exercise.name} .*?{dose_text(slot, exercise)}"
            assert exercise.name.split()[0] in text
            assert dose_text(slot, exercise).replace("\u00a0", " ") in text, said
            if load_kg := loads[slot.id]:
                assert number_text(load_kg, 2) in text
            if slot.rest_s:
                assert f"rest {rest_text(slot.rest_s)}" in text


def test_in_large_print_every_session_begins_a_page():
    handed = issue(season(1))
    book = open_book(handed, content(), Options(large=True))
    assert len(list(pages(book))) >= 3
    booklet = Printed(make(handed, content(), Options(large=True)))
    found = booklet.pages_with("Week 1 of 1")
    for page in found:
        days = [day for day in ("Tuesday", "Friday", "Sunday") if day in booklet.text(page)]
        assert len(days) <= 1


def test_a_session_of_twelve_goes_on_and_says_so():
    text = "Mon: " + ", ".join(["back_squat 5x5", "curl 6x8"] * 6)
    booklet = Printed(make(issue(program(text)), content(), Options(paper=Paper.A5)))
    found = booklet.pages_with("Week 1 of 1")
    assert len(found) > 1
    assert all(
        "goes on" in booklet.text(page) for page in found[1:] if "load" in booklet.text(page)
    )


def test_weeks_without_anything_share_a_page():
    booklet = Printed(make(issue(program("", "", "Mon: curl 3x8")), content(), OPTIONS["A5"]))
    assert len(booklet.pages_with("Weeks 1 to 2")) >= 1
    assert booklet.pages_with("Week 3 of 3")
