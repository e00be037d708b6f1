from __future__ import annotations

from datetime import timedelta
from io import BytesIO

import pytest
from pypdf import PdfReader

from app.booklet import Paper
from app.booklet.session_sheet import make_session_sheets
from app.booklet.words import full_day_text, mass_number
from app.domain.errors import CoachError
from tests.booklet import sample
from tests.builders import program


def pages_of(pdf: bytes) -> list[str]:
    return [" ".join(page.extract_text().split()) for page in PdfReader(BytesIO(pdf)).pages]


@pytest.mark.parametrize("paper", [Paper.A4, Paper.LETTER])
def test_every_session_of_the_week_has_its_sheet(paper: Paper) -> None:
    issue = sample.issue(sample.season(3))
    pages = pages_of(make_session_sheets(issue, sample.content(), week=1, paper=paper))
    sessions = list(issue.program.weeks[1].sessions())
    assert len(pages) == len(sessions)
    for said, (_, session) in zip(pages, sessions, strict=True):
        assert "Week 2" in said
        for slot in session.slots:
            assert sample.TAUGHT[slot.exercise].name in said


def test_the_loads_are_those_of_the_issue() -> None:
    issue = sample.issue(sample.season(3))
    said = " ".join(pages_of(make_session_sheets(issue, sample.content(), week=0)))
    of_week = {slot.id for slot in issue.program.weeks[0].slots()}
    loads = [load.load_kg for load in issue.loads if load.slot in of_week and load.load_kg]
    assert loads
    for load_kg in loads:
        # figures of neighbouring columns may touch in the extracted text
        assert mass_number(load_kg, "kg") in said


def test_a_sheet_names_the_day_it_is_for() -> None:
    issue = sample.issue(program("Wed: back_squat 3x8"))
    (said,) = pages_of(make_session_sheets(issue, sample.content(), week=0))
    on = issue.program.start + timedelta(days=2)
    assert full_day_text(on).replace("\u00a0", " ") in said.replace("\u00a0", " ")
    assert "Stop at pain" in said


def test_a_long_session_goes_on_on_a_second_sheet() -> None:
    slots = ", ".join(["back_squat 6x8"] * 12)
    pdf = make_session_sheets(sample.issue(program(f"Mon: {slots}")), sample.content(), week=0)
    pages = pages_of(pdf)
    assert len(pages) > 1
    assert "goes on" in pages[1]
    assert sum(page.count("Back squat") for page in pages) == 12


def test_a_week_without_a_session_says_so() -> None:
    (said,) = pages_of(make_session_sheets(sample.issue(program("")), sample.content(), week=0))
    assert "No session is planned" in said


@pytest.mark.parametrize("week", [-1, 3])
def test_a_week_that_is_not_there_is_refused(week: int) -> None:
    with pytest.raises(CoachError, match="from 1 to 3"):
        make_session_sheets(sample.issue(sample.season(3)), sample.content(), week=week)
