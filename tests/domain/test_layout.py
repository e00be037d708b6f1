"""Layouts: read from data, fitted to a client, laid into every week."""

from __future__ import annotations

from dataclasses import replace
from datetime import date

import pytest
from hypothesis import given
from hypothesis import strategies as st

from app.domain.client import FreeTime, Status
from app.domain.edits.weeks import make_light
from app.domain.effort import Rir
from app.domain.errors import EditError, ResourceError
from app.domain.exercise import Exercise, ExerciseKey, Muscle
from app.domain.layout import (
    Layout,
    LayoutSession,
    choose,
    days_for,
    lay_out,
    layout_from_mapping,
    swaps,
)
from app.domain.program import ProgramId, Reps, Role, broken_laws, empty_program
from tests import builders
from tests.domain.edits.reading import keys, session_at, slot_at

ENTRY = {
    "name": "Two days",
    "about": "Squat, then hinge.",
    "emphasis": ["quadriceps"],
    "sessions": [
        {
            "title": "Squat day",
            "day": "Mon",
            "warmup": ["band_walk", "no_such_drill"],
            "slots": [
                ["back_squat | goblet_squat", 4, "6-8", 2, "core"],
                ["plank", 2, 30, 2, "assistance"],
            ],
        },
        {"title": "Hinge day", "day": "Thu", "slots": [["sled | deadlift", 3, 10, 1, "core"]]},
    ],
}
LAYOUT = layout_from_mapping("two", ENTRY, source="layouts.toml")


def anything(_: Exercise, day: int) -> bool:
    return True


def nothing(_: Exercise, day: int) -> bool:
    return False


def empty(weeks: int = 2):
    return empty_program(ProgramId("p"), "Season", start=date(2026, 11, 23), weeks=weeks)


def laid(program=None, *, fits=anything, **client_fields):
    return lay_out(
        program or empty(),
        LAYOUT,
        client=builders.client(**client_fields),
        catalogue=builders.CATALOGUE,
        fits=fits,
    )


# ---------------------------------------------------------------------------- reading


def test_a_layout_is_read_with_its_places() -> None:
    assert (LAYOUT.key, LAYOUT.name, LAYOUT.emphasis) == ("two", "Two days", (Muscle.QUADRICEPS,))
    assert [(s.title, s.day) for s in LAYOUT.sessions] == [("Squat day", 0), ("Hinge day", 3)]
    first = LAYOUT.sessions[0].slots[0]
    assert first.choices == ("back_squat", "goblet_squat")
    assert (first.sets, first.reps, first.rir, first.role) == (4, Reps(6, 8), 2.0, Role.CORE)
    assert LAYOUT.sessions[0].slots[1].reps == Reps(30, 30)


@pytest.mark.parametrize(
    "entry",
    [
        {},
        {**ENTRY, "emphasis": ["wings"]},
        {**ENTRY, "sessions": [{"title": "x", "day": "Someday", "slots": []}]},
        {**ENTRY, "sessions": [{"title": "x", "day": "Mon", "slots": [["curl", 3]]}]},
        {
            **ENTRY,
            "sessions": [{"title": "x", "day": "Mon", "slots": [["curl", 3, "8", 2, "main"]]}],
        },
        {
            **ENTRY,
            "sessions": [{"title": "x", "day": "Mon", "slots": [["curl", 3, 8, 2, "core", "ab"]]}],
        },
    ],
)
def test_an_entry_that_breaks_the_rules_is_named(entry: dict) -> None:
    with pytest.raises(ResourceError, match=r"layouts\.toml, two: The layout cannot be read"):
        layout_from_mapping("two", entry, source="layouts.toml")


# ---------------------------------------------------------------------------- choosing


def chosen(session: LayoutSession, fits) -> list[str]:
    return [e.key if e else "" for e in choose(session, builders.CATALOGUE, fits, day=0)]


def test_the_first_choice_that_is_there_and_fits_is_taken() -> None:
    squat, hinge = LAYOUT.sessions
    assert chosen(squat, anything) == ["back_squat", "plank"]
    assert chosen(squat, lambda e, _: e.key != "back_squat") == ["goblet_squat", "plank"]
    assert chosen(hinge, anything) == ["deadlift"]
    assert chosen(hinge, nothing) == [""]


def test_no_exercise_is_taken_twice_in_a_session() -> None:
    place = LAYOUT.sessions[0].slots[0]
    twice = LayoutSession("Squats", 0, (place, place, place))
    assert chosen(twice, anything) == ["back_squat", "goblet_squat", ""]


def test_each_session_goes_by_the_day_it_will_stand_on() -> None:
    def only_a_floor_on_mondays(exercise: Exercise, day: int) -> bool:
        return day != 0 or exercise.key == "plank"

    after = laid(fits=only_a_floor_on_mondays)
    assert [slot.exercise for slot in after.weeks[0].days[0].sessions[0].slots] == ["plank"]
    assert [slot.exercise for slot in after.weeks[0].days[3].sessions[0].slots] == ["deadlift"]
    told = swaps(LAYOUT, builders.CATALOGUE, client=builders.client(), fits=only_a_floor_on_mondays)
    assert [(swap.wanted, swap.taken) for swap in told] == [
        ("back_squat", None),
        ("sled", "deadlift"),
    ]


def test_swaps_tell_beforehand_what_would_be_taken_instead() -> None:
    found = swaps(
        LAYOUT,
        builders.CATALOGUE,
        client=builders.client(),
        fits=lambda e, _: e.key in ("goblet_squat", "deadlift"),
    )
    assert [(s.session, s.wanted, s.taken) for s in found] == [
        ("Squat day", "back_squat", "goblet_squat"),
        ("Squat day", "plank", None),
        ("Hinge day", "sled", "deadlift"),
    ]


# ---------------------------------------------------------------------------- days


def free_on(*days: int) -> tuple[FreeTime, ...]:
    return tuple(FreeTime(60 if day in days else 0) for day in range(7))


@pytest.mark.parametrize(
    ("free", "days"),
    [
        ((0, 1, 2, 3, 4, 5, 6), (0, 3)),
        ((1, 4), (1, 4)),
        ((0, 1, 2), (0, 2)),
        ((5,), (0, 3)),
        ((), (0, 3)),
        ((2, 6), (2, 6)),
    ],
)
def test_sessions_stand_on_free_days_and_apart_where_they_can(free, days) -> None:
    assert days_for(LAYOUT, builders.client(free=free_on(*free))) == days


@given(st.sets(st.integers(0, 6)), st.lists(st.integers(0, 6), min_size=1, max_size=6, unique=True))
def test_every_session_gets_a_day_of_its_own(free: set[int], wanted: list[int]) -> None:
    sessions = tuple(LayoutSession(f"Day {n}", day, ()) for n, day in enumerate(wanted))
    layout = Layout("x", "X", "", sessions)
    days = days_for(layout, builders.client(free=free_on(*free)))
    assert len(days) == len(set(days)) == len(wanted)
    if len(free) >= len(wanted):
        assert set(days) <= free
    else:
        assert days == tuple(wanted)


# ---------------------------------------------------------------------------- laying out


def test_every_week_gets_the_sessions_with_ids_of_their_own_and_shared_strands() -> None:
    after = laid(empty(3))
    for week in range(3):
        assert keys(after, week, 0) == ["back_squat", "plank"]
        assert keys(after, week, 3) == ["deadlift"]
        assert session_at(after, week, 0).warmup == builders.drills_of("band_walk")
    assert len({session_at(after, w, 0).strand for w in range(3)}) == 1
    assert len({slot_at(after, w, 0).strand for w in range(3)}) == 1
    assert broken_laws(after) == ()


def test_a_place_is_prescribed_as_the_layout_asks_inside_the_exercises_zone() -> None:
    after = laid()
    squat = slot_at(after, 0, 0)
    assert (squat.sets, squat.reps, squat.effort, squat.role) == (4, Reps(6, 8), Rir(2), Role.CORE)
    assert squat.rest_s == builders.CATALOGUE[ExerciseKey("back_squat")].rest_s
    assert slot_at(after, 0, 0, 1).reps == Reps(30, 30), "seconds"


def paired(*lines: list) -> Layout:
    sessions = [{"title": "Turns", "day": "Mon", "slots": list(lines)}]
    return layout_from_mapping("pairs", {**ENTRY, "sessions": sessions}, source="layouts.toml")


PAIRS = paired(
    ["goblet_squat", 3, 10, 2, "core", "A"],
    ["push_up", 3, 10, 2, "assistance", "A"],
    ["curl", 3, 10, 2, "assistance"],
)


@pytest.mark.parametrize(("fits", "letters"), [("all", ["A", "A", ""]), ("push_up", ["", ""])])
def test_places_with_a_letter_are_done_in_turn_as_long_as_both_are_there(fits, letters) -> None:
    after = lay_out(
        empty(1),
        PAIRS,
        client=builders.client(),
        catalogue=builders.CATALOGUE,
        fits=lambda e, _: fits == "all" or e.key != fits,
    )
    assert [slot.pair for slot in after.weeks[0].slots()] == letters


@pytest.mark.parametrize(
    ("status", "rir"), [(Status.NOVICE, 2), (Status.INTERMEDIATE, 1), (Status.ADVANCED, 1)]
)
def test_a_novice_is_asked_to_keep_two_in_reserve(status: Status, rir: float) -> None:
    assert slot_at(laid(status=status), 0, 3).effort == Rir(rir)


def test_whatever_stands_in_for_a_core_lift_gets_a_core_lifts_rest() -> None:
    layout = paired(["curl", 3, 10, 2, "core"], ["lateral_raise", 3, 10, 2, "assistance"])
    after = lay_out(
        empty(1), layout, client=builders.client(), catalogue=builders.CATALOGUE, fits=anything
    )
    assert [slot.rest_s for slot in after.weeks[0].slots()] == [90, 75]


def test_light_weeks_get_half_the_sets() -> None:
    after = laid(make_light(empty(), 1))
    assert [slot_at(after, w, 0).sets for w in (0, 1)] == [4, 2]


def test_what_stood_there_is_replaced_and_day_notes_stay() -> None:
    old = builders.program("Tue: curl", "Tue: curl")
    noted = replace(
        old.weeks[0], days=(*old.weeks[0].days[:6], replace(old.weeks[0].days[6], note="hut"))
    )
    after = laid(replace(old, weeks=(noted, old.weeks[1])))
    assert keys(after, 0, 1) == []
    assert after.weeks[0].days[6].note == "hut"
    assert [w.id for w in after.weeks] == [w.id for w in old.weeks]
    assert broken_laws(after) == ()


def test_places_where_nothing_fits_stay_out() -> None:
    after = laid(fits=lambda e, _: e.key == "plank")
    assert keys(after, 0, 0) == ["plank"]
    assert keys(after, 0, 3) == []


def test_a_layout_of_which_nothing_fits_is_refused() -> None:
    with pytest.raises(
        EditError, match=r"No exercise of 'Two days' fits Runa Estvik\. Enter the eq"
    ):
        laid(fits=nothing)


@pytest.mark.parametrize(
    ("program", "client", "result"),
    [
        ((Muscle.CHEST,), (Muscle.CALVES,), (Muscle.CHEST,)),
        ((), (Muscle.CALVES,), (Muscle.CALVES,)),
        ((), (), (Muscle.QUADRICEPS,)),
    ],
)
def test_the_emphasis_is_the_programs_else_the_clients_else_the_layouts(
    program, client, result
) -> None:
    after = laid(replace(empty(), emphasis=program), emphasis=client)
    assert after.emphasis == result
