"""Weeks as the calendar standard counts them, and the last day of a program."""

from __future__ import annotations

import re
from datetime import date, timedelta

import pytest

from app.domain.program import ProgramId, empty_program
from tests.literature.table import Answer, Row, check, rows, says


def dates(row: Row) -> Answer:
    day = date.fromisoformat(re.search(r"\d{4}-\d\d-\d\d", row.inputs)[0])
    weeks = int(row.number("programme")) if "programme" in row.inputs else 1
    program = empty_program(ProgramId("dates"), "Dates", start=day, weeks=weeks)
    if "programme" in row.inputs:
        last = program.week_start(weeks - 1) + timedelta(days=6)
        return says(last.isoformat(), row.expected)
    # a program that starts on that day begins on the Monday of its standard week
    year, week, _ = program.start.isocalendar()
    return says(f"{year}-W{week:02}-{(day - program.start).days + 1}", row.expected)


ANSWERS = {"dates": dates}


@pytest.mark.parametrize("row", rows(*ANSWERS), ids=str)
def test_weeks_agree_with_the_calendar(row):
    check(row, ANSWERS)
