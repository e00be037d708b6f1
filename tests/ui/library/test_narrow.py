"""Narrowing: each choice leaves what it says, and counts what it would leave."""

from __future__ import annotations

from datetime import date

import pytest
from hypothesis import given
from hypothesis import strategies as st

from app import resources
from app.domain.client import FreeTime, Limitation, Place
from app.domain.exercise import Equipment, Exercise, Joint, Motion, Muscle, Pattern
from app.domain.fit import fits
from app.ui.library.narrow import Facet, Shelves, Wish
from app.ui.library.search import entries
from tests import builders

NAMES = {muscle: name.trade for muscle, name in resources.muscle_names().items()}
ENTRIES = entries(resources.catalogue(), NAMES)
EVERY = range(len(ENTRIES))
TODAY = date(2026, 11, 25)


@pytest.fixture
def shelves() -> Shelves:
    made = Shelves(ENTRIES)
    made.show_client(None, TODAY)
    made.show_at_hand(())
    return made


def left(shelves: Shelves, wish: Wish) -> list[Exercise]:
    return [e.exercise for e in shelves.entries_in(shelves.left(wish), EVERY)]


def fitting(exercise: Exercise, wish: Wish) -> bool:
    """The same question asked of one exercise, without sets of bits."""
    return (
        (wish.muscle is None or exercise.fraction(wish.muscle) > 0)
        and (wish.pattern is None or exercise.pattern is wish.pattern)
        and (wish.equipment is None or wish.equipment in exercise.equipment)
        and (wish.demand is None or exercise.skill == wish.demand)
        and (not wish.own or exercise.own)
    )


WISHES = st.builds(
    Wish,
    muscle=st.none() | st.sampled_from(Muscle),
    pattern=st.none() | st.sampled_from(Pattern),
    equipment=st.none() | st.sampled_from(Equipment),
    demand=st.none() | st.sampled_from((1, 2, 3)),
    own=st.booleans(),
)


@given(WISHES)
def test_what_is_left_is_what_each_exercise_says_of_itself(wish: Wish) -> None:
    shelves = Shelves(ENTRIES)
    expected = [e.exercise for e in ENTRIES if fitting(e.exercise, wish)]
    assert left(shelves, wish) == expected


@given(WISHES)
def test_a_count_is_the_number_that_the_choice_would_leave(wish: Wish) -> None:
    shelves = Shelves(ENTRIES)
    counts = shelves.counts(wish, Facet.MUSCLE)
    for muscle in Muscle:
        asked = Wish(
            muscle=muscle,
            pattern=wish.pattern,
            equipment=wish.equipment,
            demand=wish.demand,
            own=wish.own,
        )
        assert counts.get(muscle, 0) == shelves.left(asked).bit_count()


def test_fitting_the_client_asks_equipment_and_limitations(shelves: Shelves) -> None:
    knee = Limitation(Joint.KNEE, Motion.FLEXION, past_degrees=90)
    client = builders.client(
        equipment=frozenset({Equipment.BODY, Equipment.DUMBBELLS}), limitations=(knee,)
    )
    shelves.show_client(client, TODAY)
    shown = left(shelves, Wish(fits=True))
    assert shown == [e.exercise for e in ENTRIES if fits(e.exercise, client, TODAY)]
    assert 0 < len(shown) < len(ENTRIES)


def test_a_weekday_goes_by_the_place_it_is_spent_at(shelves: Shelves) -> None:
    hut = Place("hut", frozenset({Equipment.BODY}))
    free = (FreeTime(60, place="hut"), *(FreeTime(60) for _ in range(6)))
    client = builders.client(equipment=frozenset(Equipment), places=(hut,), free=free)
    shown = []
    for weekday in (None, 0, 1):
        shelves.show_client(client, TODAY, weekday)
        shown.append(len(left(shelves, Wish(fits=True))))
    assert shown[0] == shown[2] == len(ENTRIES)
    assert 0 < shown[1] < len(ENTRIES)


def test_a_limitation_that_is_over_rules_nothing_out(shelves: Shelves) -> None:
    over = Limitation(Joint.KNEE, Motion.FLEXION, past_degrees=0, until=date(2026, 11, 1))
    client = builders.client(equipment=frozenset(Equipment), limitations=(over,))
    shelves.show_client(client, TODAY)
    assert len(left(shelves, Wish(fits=True))) == len(ENTRIES)


def test_at_hand_leaves_what_is_kept(shelves: Shelves) -> None:
    shelves.show_at_hand({"back_squat", "gone_long_ago"})
    assert [e.key for e in left(shelves, Wish(at_hand=True))] == ["back_squat"]
    assert shelves.counts(Wish(), Facet.AT_HAND) == {True: 1}


def test_entries_come_in_the_order_that_is_asked_for(shelves: Shelves) -> None:
    backwards = list(reversed(EVERY))
    some = shelves.entries_in(shelves.all, backwards)
    assert [entry.number for entry in some] == backwards


def test_a_catalogue_of_nothing_can_be_narrowed() -> None:
    nothing = Shelves(())
    assert nothing.entries_in(nothing.left(Wish(muscle=Muscle.CHEST)), ()) == []
