from __future__ import annotations

from datetime import date, timedelta

import pytest
from hypothesis import given
from hypothesis import strategies as st

from app.domain.errors import CoachError
from app.domain.progress.check_in_doubts import doubt_weighing, is_empty, require_one_a_day
from app.domain.results import CheckIn
from app.domain.units import KG_PER_LB
from tests.builders import client

TODAY = date(2026, 11, 29)
RUNA = client()


def weighed(kg, days_ago=0):
    return CheckIn(TODAY - timedelta(days=days_ago), mass_kg=kg)


@given(st.floats(40, 150), st.floats(0.95, 1.05))
def test_pounds_for_kilograms_are_noticed_either_way(kg, drift):
    others = [weighed(kg, n) for n in range(7, 30, 7)]
    for wrong in (kg * drift / KG_PER_LB, kg * drift * KG_PER_LB):
        assert doubt_weighing(wrong, TODAY, others, RUNA).meant == pytest.approx(kg * drift)


@given(st.floats(40, 150), st.floats(0.91, 1.09))
def test_an_ordinary_change_is_not_questioned(kg, drift):
    assert doubt_weighing(kg * drift, TODAY, [weighed(kg, 7)], RUNA) is None


def test_a_large_jump_that_is_no_unit_is_questioned_without_an_answer():
    doubt = doubt_weighing(80, TODAY, [weighed(66, 7)], RUNA)
    assert doubt.meant is None
    assert "Is it right?" in doubt.question


def test_the_question_is_put_in_the_clients_unit():
    doubt = doubt_weighing(146.4, TODAY, [weighed(66.4, 7)], RUNA)
    assert doubt.question == (
        "146.4 kg beside 66.4 kg looks like the other unit: it would be 66.4 kg."
    )
    doubt = doubt_weighing(146.4, TODAY, [weighed(66.4, 7)], client(units="lb"))
    assert doubt.question.startswith("322.8 lb beside 146.4 lb")
    assert doubt.meant == pytest.approx(146.4)


def test_without_weighings_the_clients_mass_is_asked():
    assert doubt_weighing(146, TODAY, [], RUNA).meant == pytest.approx(66.2, abs=0.1)
    assert doubt_weighing(146, TODAY, [], client(mass_kg=None)) is None
    assert doubt_weighing(None, TODAY, [], RUNA) is None


def test_one_odd_weighing_does_not_question_the_next():
    others = [weighed(146, 1), weighed(66, 7), weighed(66.5, 14)]
    assert doubt_weighing(66.2, TODAY, others, RUNA) is None


def test_the_day_that_is_corrected_is_not_held_against_itself():
    assert doubt_weighing(66, TODAY, [weighed(146), weighed(66, 7)], RUNA) is None


def test_two_on_one_day_are_named():
    require_one_a_day([TODAY, TODAY - timedelta(days=1)])
    with pytest.raises(CoachError, match="29 Nov 2026"):
        require_one_a_day([TODAY, TODAY])


def test_a_day_without_anything_said_is_empty():
    assert is_empty(CheckIn(TODAY))
    assert not is_empty(CheckIn(TODAY, note="slept badly"))
