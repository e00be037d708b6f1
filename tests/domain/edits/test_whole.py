"""Name, emphasis, start and archive of a program."""

from __future__ import annotations

from datetime import date

import pytest
from hypothesis import given
from hypothesis import strategies as st

from app.domain.edits import whole
from app.domain.errors import CoachError
from app.domain.exercise import Muscle
from app.domain.program import broken_laws
from tests import builders

PLAN = builders.program("Mon: back_squat")


def test_a_name_is_kept_without_white_space_around_it() -> None:
    after = whole.rename(PLAN, name="  Winter \n season ")
    assert after.name == "Winter season"
    assert after.weeks is PLAN.weeks


@pytest.mark.parametrize(
    ("name", "said"),
    [
        ("", "has no name. Give it one"),
        (" \t", "has no name"),
        ("x" * 201, "has 201 letters. Keep"),
    ],
)
def test_a_name_has_1_to_200_letters(name: str, said: str) -> None:
    with pytest.raises(CoachError, match=said):
        whole.rename(PLAN, name=name)


def test_the_emphasis_names_each_muscle_once_in_order() -> None:
    wanted = (Muscle.GLUTEALS, Muscle.QUADRICEPS, Muscle.GLUTEALS)
    after = whole.set_emphasis(PLAN, emphasis=wanted)
    assert after.emphasis == (Muscle.GLUTEALS, Muscle.QUADRICEPS)
    assert whole.set_emphasis(PLAN, emphasis=()).emphasis == ()


@given(st.dates(date(2000, 1, 1), date(2100, 1, 1)))
def test_a_program_begins_on_the_monday_of_the_day_chosen(day: date) -> None:
    start = whole.set_start(PLAN, start=day).start
    assert start.weekday() == 0
    assert 0 <= (day - start).days < 7
    assert broken_laws(whole.set_start(PLAN, start=day)) == ()


def test_an_archived_program_keeps_everything_and_can_be_brought_back() -> None:
    after = whole.archive(PLAN)
    assert after.archived
    assert after.weeks is PLAN.weeks
    assert whole.archive(after) is after
    assert whole.archive(after, archived=False) == PLAN
