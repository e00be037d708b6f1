from __future__ import annotations

import pytest
from hypothesis import given
from hypothesis import strategies as st

from app.domain.effort import PercentOneRm, PercentRepMax, Rir
from app.domain.errors import EditError, QuantityError
from app.domain.progression import EffortPath, Light, Scheme, SetsPath, Wave, by_block
from tests.domain.progression.plans import plan


def amount(effort):
    return effort.reps if isinstance(effort, Rir) else effort.percent


@given(st.integers(0, 5), st.integers(0, 5), st.integers(1, 30))
def test_effort_moves_evenly_and_stays_between_its_ends(first, last, weeks):
    path = EffortPath(Rir(first), Rir(last))
    reserves = [amount(path.at(week, weeks)) for week in range(weeks)]
    assert reserves[0] == first
    assert weeks == 1 or reserves[-1] == last
    assert reserves == sorted(reserves, reverse=last < first)
    assert all(float(reps).is_integer() for reps in reserves)


def test_per_cent_moves_in_steps_of_two_and_a_half():
    path = EffortPath(PercentOneRm(70), PercentOneRm(80))
    assert [amount(path.at(week, 4)) for week in range(4)] == [70, 72.5, 77.5, 80]


def test_an_effort_path_keeps_one_form():
    with pytest.raises(EditError, match="begins in one form"):
        EffortPath(Rir(3), PercentRepMax(100))


def test_light_weeks_come_every_so_often_and_where_named():
    scheme = Scheme(first=2, light=Light(every=4, weeks=frozenset({3})))
    assert [index for index in range(2, 14) if scheme.makes_light(index)] == [3, 5, 9, 13]


def test_a_wave_brings_its_own_light_weeks():
    scheme = Scheme(Wave((12, 10, 8)), first=1)
    assert [index for index in range(1, 9) if scheme.makes_light(index)] == [4, 8]


def test_a_span_outside_the_program_is_refused_with_what_there_is():
    with pytest.raises(EditError, match=r"Test: Weeks 1 to 9 are not all.*weeks 1 to 6"):
        Scheme(last=8).span(plan(6))
    with pytest.raises(EditError):
        Scheme(first=4, last=2).span(plan(6))


def test_schemes_by_block_need_one_for_each():
    program = plan(6)
    assert by_block(program, (Scheme(),)).schemes[0].span(program) == range(6)
    with pytest.raises(EditError, match="2 schemes for 1 blocks"):
        by_block(program, (Scheme(), Scheme()))


@pytest.mark.parametrize(
    "make", [lambda: Light(every=1), lambda: SetsPath(11), lambda: SetsPath(1, most_rise=-0.1)]
)
def test_impossible_schemes_are_refused(make):
    with pytest.raises(QuantityError):
        make()
