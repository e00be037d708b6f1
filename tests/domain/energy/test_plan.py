from __future__ import annotations

from dataclasses import replace
from datetime import date

import pytest
from hypothesis import given
from hypothesis import strategies as st

from app.domain.client import Client, ClientId, Screening, Sex, Status
from app.domain.energy import Aim, EnergyPlan, Referral, kcal_of, plan
from app.domain.errors import CoachError, QuantityError

TODAY = date(2030, 9, 2)
HEALTHY = Screening(date(2030, 8, 26), active=True, known_disease=False, symptoms=False)
JORUNN = Client(
    ClientId("jorunn"),
    "Jorunn Aske",
    born=date(1996, 3, 1),
    sex=Sex.FEMALE,
    height_cm=172,
    mass_kg=68,
    screenings=(HEALTHY,),
)


def planned(client=JORUNN, goal="gain", current_kcal=2260.0, **aim) -> EnergyPlan:
    found = plan(client, goal, current_kcal, on=TODAY, aim=Aim(**aim))
    assert isinstance(found, EnergyPlan)
    return found


def test_the_targets_follow_from_the_published_steps():
    found = planned(weeks=21, arrive_in=9, pal=1.70, protein_now_g=95)
    # 10 x 68 + 6.25 x 172 - 5 x 34 - 161 (mifflin1990); times 1.70; plus 10 %
    assert found.resting.kcal == pytest.approx(1424)
    assert found.need_kcal == pytest.approx(2420.8)
    assert found.target_kcal == 2660
    assert [week.kcal for week in found.weeks][:4] == [2260, 2310, 2360, 2410]
    assert [week.macros.protein_g for week in found.weeks][:5] == [95, 100, 105, 110, 110]
    assert found.reached_in == 9


@given(
    st.sampled_from(["gain", "hold", "lose"]),
    st.floats(76, 120),  # 30 weeks of losing 1 % a week end above 18.5 kg/m2
    st.floats(1600, 3500),
    st.floats(1.4, 2.4),
    st.integers(1, 30),
)
def test_each_weeks_grams_make_up_its_energy(goal, mass_kg, current, pal, weeks):
    found = planned(replace(JORUNN, mass_kg=mass_kg), goal, current, pal=pal, weeks=weeks)
    assert [week.number for week in found.weeks] == list(range(1, weeks + 1))
    for week in found.weeks:
        kcal = kcal_of(
            protein_g=week.macros.protein_g,
            carbohydrate_g=week.macros.carbohydrate_g,
            fat_g=week.macros.fat_g,
        )
        assert kcal == pytest.approx(week.kcal)
        assert week.macros.share("fat") == pytest.approx(0.30)


@given(
    st.sampled_from(["gain", "hold", "lose"]),
    st.floats(62, 150),
    st.floats(0.8, 2.5) | st.none(),
    st.floats(1.0, 2.4),
)
def test_no_week_and_no_target_lies_below_the_resting_energy(goal, mass_kg, eaten, pal):
    client = replace(JORUNN, mass_kg=mass_kg)
    # mifflin1990 at 172 cm and 34 years
    eaten_kcal = None if eaten is None else (eaten + 1e-9) * (10 * mass_kg + 744)
    found = planned(client, goal, eaten_kcal, pal=pal)
    assert found.target_kcal >= found.resting.kcal
    assert all(week.kcal >= found.resting.kcal for week in found.weeks)
    if found.eats_below_rest:
        assert any("below the resting energy" in remark for remark in found.remarks)
    if found.target_kcal > found.need_kcal * 1.05 and goal != "gain":
        assert any("resting energy" in remark for remark in found.remarks)


def test_goals_move_the_target_and_the_corridor():
    gain, hold, lose = (planned(goal=goal, pal=1.7) for goal in ("gain", "hold", "lose"))
    assert gain.target_kcal > hold.target_kcal > lose.target_kcal
    assert hold.target_kcal == pytest.approx(hold.need_kcal, abs=5)
    low, high = gain.weeks[11].mass_kg
    # iraki2019: 0.25 to 0.5 % a week
    assert low == pytest.approx(68 * 1.0025**12)
    assert high == pytest.approx(68 * 1.005**12)
    assert lose.weeks[0].mass_kg[1] < 68


def test_advanced_lifters_gain_on_less():
    advanced = planned(replace(JORUNN, status=Status.ADVANCED), pal=1.7)
    assert advanced.target_kcal == pytest.approx(advanced.need_kcal * 1.05, abs=5)


def test_a_target_out_of_the_steps_reach_says_so():
    found = planned(current_kcal=1900.0, weeks=6, arrive_in=3, most_step_kcal=50, pal=1.7)
    assert found.reached_in is None
    assert any("not reached in these weeks" in remark for remark in found.remarks)


def test_an_unknown_intake_begins_at_the_need_and_says_so():
    found = planned(current_kcal=None, pal=1.7)
    assert found.weeks[0].kcal == 2420
    assert any("not known" in remark for remark in found.remarks)
    noted = planned(replace(JORUNN, kcal_now=2300.0), current_kcal=None, pal=1.7)
    assert noted.weeks[0].kcal == 2300


@pytest.mark.parametrize("need_kcal", [800.0, 1423.0])
def test_a_need_from_logs_below_the_resting_energy_lowers_no_week(need_kcal):
    for goal in ("gain", "hold", "lose"):
        found = planned(goal=goal, current_kcal=None, need_kcal=need_kcal)
        assert min(week.kcal for week in found.weeks) >= 1424


def test_what_is_eaten_just_below_the_resting_energy_begins_at_it():
    # resting 1,424 (mifflin1990), in whole tens 1,430
    found = planned(current_kcal=1300.0, pal=1.7)
    assert [week.kcal for week in found.weeks][:2] == [1430, 1530]
    assert found.eats_below_rest
    assert any("1,300 kcal eaten now lies below" in remark for remark in found.remarks)
    assert not planned(current_kcal=1424.0).eats_below_rest


@pytest.mark.parametrize(("eaten", "sent_on"), [(1139.0, True), (1140.0, False)])
def test_eating_under_four_fifths_of_the_resting_energy_is_sent_on(eaten, sent_on):
    # 0.8 x 1,424 is 1,139.2
    found = plan(replace(JORUNN, kcal_now=eaten), "gain", on=TODAY)
    assert isinstance(found, Referral) is sent_on
    if isinstance(found, Referral):
        assert "far below the resting energy" in found.reasons[0]


@pytest.mark.parametrize(("mass_kg", "weeks", "sent_on"), [(54.5, 1, True), (68, 12, False)])
def test_losing_towards_a_low_body_mass_is_sent_on(mass_kg, weeks, sent_on):
    # 54.5 kg at 171 cm is 18.64 kg/m2, 1 % less is 18.45; 68 kg after 12 weeks 20.6
    light = replace(JORUNN, height_cm=171, mass_kg=mass_kg)
    found = plan(light, "lose", on=TODAY, aim=Aim(weeks=weeks))
    assert isinstance(found, Referral) is sent_on
    assert isinstance(plan(light, "gain", on=TODAY, aim=Aim(weeks=weeks)), EnergyPlan)


def test_large_bodies_count_protein_for_less_mass():
    found = planned(replace(JORUNN, mass_kg=120))
    # 25 kg/m2 at 1.72 m is 74 kg; 1.6 g for each, to the next 5
    assert found.target.protein_g == 120
    assert any("body mass index of 25" in remark for remark in found.remarks)


@pytest.mark.parametrize(
    ("change", "reason"),
    [
        ({"born": date(2014, 1, 1)}, "minors"),
        ({"mass_kg": 50.0}, "body mass is low"),
        ({"refer": ("kidney disease",)}, "kidney disease"),
        ({"refer": ("history of disordered eating",)}, "disordered eating"),
        (
            {"screenings": (Screening(TODAY, True, False, False, pregnant=True),)},
            "obstetric",
        ),
        ({"screenings": ()}, "screening questions first"),
        ({"screenings": (replace(HEALTHY, known_disease=True),)}, "not one for food"),
        (
            {"screenings": (replace(HEALTHY, known_disease=True, cleared_on=TODAY),)},
            "not one for food",
        ),
        ({"screenings": (replace(HEALTHY, symptoms=True),)}, "Signs or symptoms"),
        (
            {"screenings": (replace(HEALTHY, symptoms=True, cleared_on=date(2030, 8, 25)),)},
            "Signs or symptoms",
        ),
        (
            {"screenings": (replace(HEALTHY, symptoms=True, cleared_on=date(2030, 9, 3)),)},
            "Signs or symptoms",
        ),
    ],
)
def test_who_must_not_get_numbers_gets_a_referral(change, reason):
    found = plan(replace(JORUNN, **change), "lose", 2000.0, on=TODAY)
    assert isinstance(found, Referral)
    assert any(reason in sentence for sentence in found.reasons)
    assert "doctor" in found.text


def test_symptoms_that_a_practitioner_has_cleared_get_numbers():
    cleared = replace(HEALTHY, symptoms=True, cleared_on=TODAY)
    assert planned(replace(JORUNN, screenings=(cleared,))).target_kcal > 0


@pytest.mark.parametrize(
    ("change", "name"),
    [
        ({"born": None}, "date of birth"),
        ({"sex": None}, "sex"),
        ({"height_cm": None}, "height"),
        ({"mass_kg": None}, "body mass"),
    ],
)
def test_missing_figures_are_named(change, name):
    with pytest.raises(CoachError, match=rf"Jorunn Aske: .*{name}.*Enter it"):
        plan(replace(JORUNN, **change), "hold", 2000.0, on=TODAY)


def test_an_unknown_goal_is_named_with_the_ones_there_are():
    with pytest.raises(CoachError, match="'bulk'. Choose one of gain, hold, lose"):
        plan(JORUNN, "bulk", 2000.0, on=TODAY)


@pytest.mark.parametrize("current", [0, -100, 90_000, float("nan"), float("inf")])
def test_impossible_intakes_are_refused(current):
    with pytest.raises(QuantityError, match="energy eaten now"):
        plan(JORUNN, "hold", current, on=TODAY)
