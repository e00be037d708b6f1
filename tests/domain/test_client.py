"""A client as a value: free time, limitations, tests, screenings, age."""

from __future__ import annotations

from datetime import date, timedelta

import pytest
from hypothesis import given
from hypothesis import strategies as st

from app.domain.client import Client, ClientId, Limitation, Screening, StrengthTest
from app.domain.errors import QuantityError
from app.domain.exercise import ExerciseKey, Joint, Motion
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
