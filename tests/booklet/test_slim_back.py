"""Exercises, energy and sources in one column."""

from __future__ import annotations

import re
from datetime import date

import pytest

from app.booklet import Options, Paper, make
from app.domain import energy
from app.domain.client import EnergyGoal
from tests.booklet.reading_pdf import Printed
from tests.booklet.sample import SOURCES, TAUGHT, content, issue, lifter, season

A5 = Options(paper=Paper.A5)


def text_of(options: Options, **more) -> str:
    return re.sub(r"\s+", " ", Printed(make(issue(season(2)), content(**more), options)).whole)


@pytest.mark.parametrize("options", [A5, Options(large=True), Options(paper=Paper.PHONE)])
def test_set_up_steps_and_faults_of_every_exercise_are_printed(options: Options):
    booklet = Printed(make(issue(season(1)), content(), options))
    for key in {slot.exercise for slot in season(1).weeks[0].slots()}:
        exercise = TAUGHT[key]
        pages = [p for p in booklet.pages_with(exercise.name) if "Set up" in booklet.text(p)]
        text = " ".join(booklet.text(page) for page in pages)
        for line in (*exercise.set_up, *exercise.cues):
            assert line in text
        assert "The heels lift" in text


def test_every_target_stands_in_a_row_of_its_week():
    who = lifter(energy_goal=EnergyGoal.GAIN)
    plan = energy.plan(who, EnergyGoal.GAIN, on=date(2026, 11, 23), aim=energy.Aim(weeks=2))
    assert isinstance(plan, energy.EnergyPlan)
    text = text_of(A5, energy=plan)
    for week in plan.weeks:
        assert re.search(rf"\b{week.number} \d+ \w+ {week.kcal:,.0f}\b", text), week
    assert "A starting point, not a measurement" in text


def test_a_referral_takes_the_place_of_numbers():
    who = lifter(refer=("kidney disease",))
    referral = energy.plan(who, EnergyGoal.GAIN, on=date(2026, 11, 23))
    text = text_of(A5, energy=referral)
    assert "Ask your doctor or a dietitian" in text
    assert "kcal" not in text


def test_sources_are_listed_with_their_pages():
    text = text_of(A5)
    listed = [key for key in SOURCES if f"{key} (a source made up for tests)." in text]
    assert "zourdos2016" in listed
    assert "Used for: " in text
