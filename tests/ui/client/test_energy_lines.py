"""What the pane says of energy: targets of the open week, a referral, or what is missing."""

from __future__ import annotations

from dataclasses import replace
from datetime import date

from app.domain import energy
from app.domain.client import Client, EnergyGoal
from app.ui.bench import Bench
from app.ui.client.energy_lines import lines
from tests.ui.desks import RUNA, TODAY, without_program

GAINING = replace(RUNA, energy_goal=EnergyGoal.GAIN, kcal_now=2200.0)


def texts(bench: Bench, client: Client = GAINING) -> list[str]:
    return [text for text, _ in lines(client, bench, TODAY)]


def test_without_a_goal_nothing_is_counted(bench: Bench) -> None:
    assert lines(RUNA, bench, TODAY) == [
        ("No energy goal. Meals stay the client's own matter.", True)
    ]


def test_the_target_is_the_open_weeks(bench: Bench) -> None:
    plan = energy.plan(
        GAINING,
        EnergyGoal.GAIN,
        on=bench.desk.program.start,
        aim=energy.Aim(weeks=len(bench.desk.program.weeks), pal=GAINING.activity_level),
    )
    for index, week in enumerate(plan.weeks):
        bench.show_week(index)
        assert texts(bench)[0] == f"Target, week {index + 1}: {week.kcal:,.0f} kcal a day"


def test_the_doubt_about_equations_is_said(bench: Bench) -> None:
    assert texts(bench)[-1].startswith("An equation can miss one person by 10 %")


def test_a_minor_is_referred_and_given_no_number(bench: Bench) -> None:
    minor = replace(GAINING, born=date(2011, 1, 1))
    told, *why = lines(minor, bench, TODAY)
    assert told[1] is False
    assert [quiet for _, quiet in why] == [True]
    assert "minors" in why[0][0]
    assert not any("kcal" in text for text, _ in (told, *why))


def test_who_was_not_screened_is_asked_first(bench: Bench) -> None:
    told = texts(bench, replace(GAINING, screenings=()))
    assert any("screening questions first" in text for text in told)
    assert not any("kcal" in text for text in told)


def test_eating_below_the_resting_energy_is_said_before_the_target(bench: Bench) -> None:
    told = texts(bench, replace(GAINING, kcal_now=1300.0))
    assert "less now than the body needs at rest" in told[0]
    assert told[1].startswith("Target, week ")


def test_what_is_missing_is_said(bench: Bench) -> None:
    (told,) = lines(replace(GAINING, mass_kg=None), bench, TODAY)
    assert "mass" in told[0]


def test_without_a_program_the_targets_begin_today(bench: Bench) -> None:
    without_program(bench)
    assert texts(bench)[0].startswith("Target, week 1: ")
