from __future__ import annotations

from dataclasses import replace
from datetime import date

import pytest

from app.domain.client import Client, ClientId, EnergyGoal, Screening, Sex
from app.domain.energy import (
    Aim,
    Referral,
    corridor_working,
    macro_rows,
    need_working,
    plan,
    usual_plan,
    week_working,
)
from app.domain.errors import CoachError

TODAY = date(2030, 9, 2)
JORUNN = Client(
    ClientId("jorunn"),
    "Jorunn Aske",
    born=date(1996, 3, 1),
    sex=Sex.FEMALE,
    height_cm=172,
    mass_kg=68,
    activity_level=1.70,
    energy_goal=EnergyGoal.GAIN,
    kcal_now=2260.0,
    screenings=(Screening(date(2030, 8, 26), active=True, known_disease=False, symptoms=False),),
)


def usual(client=JORUNN, weeks=12):
    return usual_plan(client, weeks=weeks, on=TODAY)


def test_it_is_the_plan_of_the_clients_own_figures():
    assert usual() == plan(JORUNN, "gain", on=TODAY, aim=Aim(weeks=12, pal=1.70))
    assert usual_plan(replace(JORUNN, energy_goal=None), weeks=4, on=TODAY) is None
    assert isinstance(usual(replace(JORUNN, screenings=())), Referral)
    with pytest.raises(CoachError, match="body mass"):
        usual(replace(JORUNN, mass_kg=None))


def test_nutrients_stand_beside_what_is_advised():
    found = usual()
    rows = {row.key: row for row in macro_rows(found, JORUNN, TODAY)}
    # 1.6 to 2.2 g for each of 68 kg (iraki2019), in steps of 5 g
    assert (rows["protein"].low, rows["protein"].high) == (110, 150)
    # 20 to 35 % and 45 to 65 % of 2,660 kcal at 9 and 4 kcal a gram (iom2005, fao2003)
    assert rows["fat"].low == pytest.approx(2660 * 0.20 / 9)
    assert rows["fat"].high == pytest.approx(2660 * 0.35 / 9)
    assert rows["carbohydrate"].low == pytest.approx(2660 * 0.45 / 4)
    assert rows["protein"].grams == found.target.protein_g
    assert "iraki2019" in rows["protein"].working.sources


@pytest.mark.parametrize("goal", EnergyGoal)
def test_the_usual_protein_lies_in_the_range_beside_it(goal):
    client = replace(JORUNN, energy_goal=goal)
    row, *_ = macro_rows(usual(client), client, TODAY)
    assert row.low <= row.grams <= row.high


def test_each_week_tells_where_it_comes_from():
    found = usual()
    first = {line.label: line for line in week_working(found, 1).lines}
    assert first["The weeks begin at"].value == "2,260 kcal"
    assert "From week 0" not in first
    third = {line.label: line.value for line in week_working(found, 3).lines}
    assert third["From week 2"] == "+100 kcal"
    assert third["Week 3"] == "2,460 kcal"
    assert third["+10% to gain"] == "2,660 kcal"
    unknown = usual(replace(JORUNN, kcal_now=None))
    assert "not known" in week_working(unknown, 1).lines[0].remark
    with pytest.raises(IndexError):
        week_working(found, 13)


def test_the_need_tells_rest_and_activity():
    lines = need_working(usual()).lines
    assert [line.value for line in lines] == ["68 kg, 172 cm, 34 years", "1,424 kcal", "2,421 kcal"]


def test_a_weeks_nutrients_are_those_of_the_week():
    found = usual()
    week = found.weeks[1]
    rows = {row.key: row for row in macro_rows(found, JORUNN, TODAY, week=week)}
    assert rows["fat"].grams == week.macros.fat_g
    assert rows["fat"].low == pytest.approx(week.kcal * 0.20 / 9)


def test_the_corridor_tells_its_start_and_its_rate():
    found = usual()
    account = corridor_working(found, found.weeks[3], 68)
    assert [line.value for line in account.lines] == [
        "68 kg",
        "+0.25% – +0.50%",  # iraki2019
        "68.7–69.4 kg",  # 68 x 1.0025^4 and 68 x 1.005^4
    ]
    losing = usual(replace(JORUNN, energy_goal=EnergyGoal.LOSE, mass_kg=90))
    assert corridor_working(losing, losing.weeks[0], 90).sources == ("common practice",)
