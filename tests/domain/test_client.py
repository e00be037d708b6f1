"""A client as a value: free time, limitations, tests, screenings, age."""

from __future__ import annotations

from dataclasses import replace
from datetime import date, timedelta

import pytest
from hypothesis import given
from hypothesis import strategies as st

from app.domain.client import (
    Client,
    ClientId,
    FreeTime,
    Increments,
    Limitation,
    Place,
    Screening,
    StrengthTest,
)
from app.domain.errors import CoachError, QuantityError
from app.domain.exercise import Equipment, ExerciseKey, Joint, Motion
from tests import builders

DAY = date(2026, 11, 25)


def test_a_name_is_enough() -> None:
    client = Client(ClientId("jorunn"), "Jorunn Aske")
    assert client.latest_screening is None
    assert client.age_on(DAY) is None
    assert len(client.free) == 7


@pytest.mark.parametrize(
    ("on", "age"),
    [
        (date(2026, 3, 13), 33),
        (date(2026, 3, 14), 34),
        (date(2026, 12, 31), 34),
        (date(1992, 3, 14), 0),
    ],
)
def test_age_counts_whole_years(on: date, age: int) -> None:
    assert builders.client(born=date(1992, 3, 14)).age_on(on) == age


def test_who_was_born_on_the_leap_day_is_a_year_older_on_the_first_of_march() -> None:
    client = builders.client(born=date(2004, 2, 29))
    assert client.age_on(date(2026, 2, 28)) == 21
    assert client.age_on(date(2026, 3, 1)) == 22
    assert client.age_on(date(2028, 2, 29)) == 24


@given(st.dates(date(1920, 1, 1), date(2020, 1, 1)), st.integers(0, 40_000))
def test_age_never_falls(born: date, days: int) -> None:
    client = builders.client(born=born)
    on = born + timedelta(days=days)
    assert 0 <= client.age_on(on) <= client.age_on(on + timedelta(days=1))


def test_the_newest_screening_counts_whatever_their_order() -> None:
    old = Screening(date(2025, 5, 1), active=True, known_disease=False, symptoms=False)
    new = Screening(date(2026, 5, 1), active=False, known_disease=False, symptoms=True)
    assert builders.client(screenings=(new, old)).latest_screening is new


@pytest.mark.parametrize(
    ("since", "until", "applies"),
    [
        (None, None, True),
        (DAY, DAY, True),
        (DAY + timedelta(1), None, False),
        (None, DAY - timedelta(1), False),
        (DAY - timedelta(9), DAY + timedelta(9), True),
    ],
)
def test_a_limitation_holds_from_its_first_to_its_last_day(since, until, applies) -> None:
    limitation = Limitation(Joint.KNEE, Motion.FLEXION, since=since, until=until)
    assert limitation.applies_on(DAY) is applies


@pytest.mark.parametrize(
    ("fields", "said"),
    [
        ({"load_kg": -100.5}, "load lifted, kg -100.5 is outside -100 to 600"),
        ({"load_kg": 600.5}, "load lifted, kg 600.5 is outside -100 to 600"),
        ({"reps": 0}, "repetitions 0 is outside 1 to 30"),
        ({"reps": 31}, "repetitions 31 is outside 1 to 30"),
        ({"rir": 11.0}, "in reserve 11.0 is outside 0 to 10"),
        ({"load_kg": float("inf")}, "load lifted, kg inf is outside"),
    ],
)
def test_a_strength_test_refuses_what_was_never_lifted(fields: dict, said: str) -> None:
    whole = {"load_kg": 80.0, "reps": 5, "rir": 0.0, **fields}
    with pytest.raises(QuantityError, match=said):
        StrengthTest(ExerciseKey("back_squat"), DAY, **whole)


NOT_A_NUMBER = float("nan")


@pytest.mark.parametrize(
    ("fields", "said"),
    [
        ({"bar_kg": -20.0}, "bar, kg -20.0 is outside 0 to 100"),
        ({"bar_kg": NOT_A_NUMBER}, "bar, kg nan is outside"),
        ({"plates_kg": (20.0, 0.0)}, "plate, kg 0.0 is outside 0.01 to 100"),
        ({"plates_kg": (-5.0,)}, "plate, kg -5.0 is outside"),
        ({"dumbbells_kg": (10.0, 2.0, 5.0)}, "heaviest dumbbell, kg 5.0 is outside 10.0 to 200"),
        ({"dumbbells_kg": (2.0, 0.0, 40.0)}, "step of the dumbbells, kg 0.0 is outside"),
        ({"dumbbells_kg": (0.0, 2.0, 40.0)}, "lightest dumbbell, kg 0.0 is outside"),
        ({"dumbbells_kg": (2.0, 40.0)}, "The dumbbells have 2 figures. Give three"),
        ({"machine_step_kg": 0.0}, "machine step, kg 0.0 is outside"),
        ({"cable_step_kg": NOT_A_NUMBER}, "cable step, kg nan is outside"),
        ({"bands": ("light", " ")}, "The band has no name"),
    ],
)
def test_steps_that_there_cannot_be_are_refused_by_name(fields: dict, said: str) -> None:
    with pytest.raises(CoachError, match=said):
        Increments(**fields)


def test_a_client_may_have_one_dumbbell_and_neither_plates_nor_bands() -> None:
    rack = Increments(plates_kg=(), dumbbells_kg=(10.0, 1.0, 10.0), bands=())
    assert builders.client(increments=rack).increments is rack


@pytest.mark.parametrize(
    ("fields", "said"),
    [
        ({"name": "  "}, "The client has no name"),
        ({"mass_kg": -5.0}, "body mass, kg -5.0 is outside 25 to 350"),
        ({"mass_kg": NOT_A_NUMBER}, "body mass, kg nan is outside"),
        ({"fat_free_kg": 0.0}, "fat-free mass, kg 0.0 is outside 1 to 350"),
        ({"fat_free_kg": 351.0}, "fat-free mass, kg 351.0 is outside 1 to 350"),
        ({"height_cm": 300.0}, "height, cm 300.0 is outside 100 to 250"),
        ({"activity_level": 99.0}, "activity level 99.0 is outside 1.0 to 2.5"),
        ({"trained_years": -1.0}, "years of training -1.0 is outside 0 to 100"),
        ({"kcal_now": 10.0}, "energy eaten now, kcal a day 10.0 is outside 300 to 15000"),
        ({"units": "stone"}, "'stone' is no unit for loads.*Choose kg or lb"),
        ({"free": ()}, "0 days have free time"),
        ({"paper": "A3"}, "'A3' is no size of paper"),
        ({"places": (Place("Hut"), Place("Hut"))}, "Two places are called Hut"),
        ({"free": (FreeTime(30, place="Hut"),) * 7}, "There is no place called Hut"),
    ],
)
def test_a_client_that_there_cannot_be_is_refused_by_name(fields: dict, said: str) -> None:
    with pytest.raises(CoachError, match=said):
        replace(builders.client(), **fields)


def test_what_is_not_known_of_a_client_may_be_missing() -> None:
    client = builders.client(mass_kg=None, height_cm=None, kcal_now=None)
    assert (client.mass_kg, client.height_cm, client.kcal_now) == (None, None, None)


def test_a_client_with_pounds_gets_the_usual_steps_in_pounds() -> None:
    # an international pound is 0.45359237 kg by definition
    steps = Client(ClientId("jorunn"), "Jorunn Aske", units="lb").increments
    assert steps == Increments.pounds()
    assert steps.bar_kg == pytest.approx(20.41165665)
    assert steps.plates_kg[-1] == pytest.approx(1.133980925)
    assert [kg / 0.45359237 for kg in steps.dumbbells_kg] == pytest.approx([5, 5, 100])


def test_steps_that_a_client_with_pounds_has_named_stay() -> None:
    own = Increments(bar_kg=15.0)
    assert Client(ClientId("jorunn"), "Jorunn Aske", units="lb", increments=own).increments == own
    assert builders.client(units="kg").increments == Increments()


def test_tags_are_sorted_and_stand_once() -> None:
    tags = ("rope party", " abroad ", "", "rope party", " ")
    assert builders.client(tags=tags).tags == ("abroad", "rope party")


def test_a_weekday_at_a_named_place_has_what_stands_there() -> None:
    light = Increments(plates_kg=(5.0,))
    hut = Place("Hut", frozenset({Equipment.BAND}), light)
    free = (FreeTime(60), FreeTime(30, place="Hut"), *(FreeTime(),) * 5)
    client = builders.client(places=(hut,), free=free)
    assert client.equipment_on(0) == client.equipment
    assert client.equipment_on(1) == {Equipment.BAND}
    assert client.increments_on(0) == client.increments
    assert client.increments_on(1) == light


def test_a_place_without_a_name_is_refused() -> None:
    with pytest.raises(CoachError, match="The place has no name"):
        Place(" ")
