"""Exercises, energy and sources in one column."""

from __future__ import annotations

import re
from datetime import date

import pytest

from app import press, resources
from app.booklet import Kind, Options, Paper, Part, make
from app.domain import energy
from app.domain.client import EnergyGoal
from app.resources.languages import NAMES, spoken_catalogue
from tests.booklet.reading_pdf import Printed
from tests.booklet.sample import SOURCES, TAUGHT, content, issue, lifter, season
from tests.builders import program

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


@pytest.mark.parametrize("code", NAMES)
def test_no_page_holds_nothing_but_when_to_stop(code: str):
    shipped = resources.catalogue()
    keys = [exercise.key for exercise in shipped.exercises if exercise.harder][:36]
    whole = program("Mon: " + ", ".join(f"{key} 3x8" for key in keys))
    options = Options(paper=Paper.PHONE, kind=Kind.FORM, parts=frozenset({Part.EXERCISES}))
    handed = issue(whole, catalogue=shipped)
    bound = press.bind(handed, shipped, resources.range_book(), options=options, language=code)
    booklet = Printed(bound)
    names = "|".join(re.escape(one.name) for one in spoken_catalogue(shipped, code).exercises)
    alone = re.compile(rf"(?:{names}) !")
    assert [page for page in range(1, len(booklet) + 1) if alone.match(booklet.text(page))] == []
