"""Two records of one person become one, and nothing is lost."""

from __future__ import annotations

from dataclasses import fields, replace
from datetime import date

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from app.domain.client import (
    Client,
    ClientId,
    FreeTime,
    Place,
    Screening,
    Status,
    StrengthTest,
)
from app.domain.errors import CoachError
from app.domain.exercise import Equipment, ExerciseKey
from app.domain.merge import FIELDS, KEPT_OF_BOTH, differences, merged, merged_diary
from app.domain.program import ProgramId, SlotId
from app.domain.results import CheckIn, Diary, Girth, SetDone, Site, SlotResult
from tests import builders, strategies

DAY = date(2026, 10, 2)
SQUAT = ExerciseKey("back_squat")
MINE = builders.client(team="Ridge", tests=(StrengthTest(SQUAT, DAY, 90, 5),), tags=("north",))
OTHER = replace(
    MINE,
    id=ClientId("runa2"),
    name="Runa E.",
    mass_kg=67.0,
    contact="0470",
    team="",
    tests=(StrengthTest(SQUAT, DAY, 80, 5), MINE.tests[0]),
    tags=("south",),
    dislikes=frozenset({ExerciseKey("leg_press")}),
    likes=frozenset({SQUAT}),
)


def test_every_field_of_a_client_is_chosen_or_kept_of_both() -> None:
    names = {field.name for field in fields(Client)} - {"id", "archived"}
    assert set(FIELDS) | KEPT_OF_BOTH == names
    assert not set(FIELDS) & KEPT_OF_BOTH


def test_what_differs_is_listed_and_what_only_one_has_is_offered() -> None:
    found = {d.field: d for d in differences(MINE, OTHER)}
    assert set(found) == {"name", "mass_kg", "contact", "team"}
    assert found["contact"].prefer_other
    assert not found["team"].prefer_other
    assert not found["mass_kg"].prefer_other
    assert found["mass_kg"].label == "Body mass, kg"
    assert (found["mass_kg"].mine, found["mass_kg"].other) == (66.4, 67.0)


def test_chosen_values_come_from_the_other_and_lists_from_both() -> None:
    made = merged(MINE, OTHER, ["mass_kg", "contact"])
    assert made.id == MINE.id
    assert (made.name, made.mass_kg, made.contact, made.team) == (MINE.name, 67.0, "0470", "Ridge")
    assert made.tests == (MINE.tests[0], OTHER.tests[0]), "the first still counts"
    assert made.tags == ("north", "south")
    assert made.likes == {SQUAT}
    assert made.dislikes == {"leg_press"}


def test_screenings_of_both_stand_in_the_order_of_days() -> None:
    late = Screening(date(2026, 11, 1), active=True, known_disease=False, symptoms=True)
    made = merged(replace(MINE, screenings=(late,)), OTHER, [])
    assert made.screenings == (*OTHER.screenings, late)
    assert made.latest_screening is late, "what speaks against training is never merged away"


def test_places_of_one_name_are_kept_apart_and_days_follow() -> None:
    bare = Place("home", frozenset({Equipment.BODY}))
    full = Place("home", frozenset(Equipment))
    mine = replace(MINE, places=(bare,), free=(FreeTime(60, place="home"), *MINE.free[1:]))
    other = replace(OTHER, places=(full,), free=(FreeTime(45, place="home"), *MINE.free[1:]))
    made = merged(mine, other, ["free"])
    assert [place.name for place in made.places] == ["home", "home 2"]
    assert made.equipment_on(0) == full.equipment
    assert merged(mine, other, []).equipment_on(0) == bare.equipment


def test_only_single_values_can_be_chosen() -> None:
    with pytest.raises(CoachError, match="tests is kept of both"):
        merged(MINE, OTHER, ["tests"])


def test_check_ins_of_one_day_lose_nothing() -> None:
    mine = Diary((CheckIn(DAY, mass_kg=66.0, sleep=4, girths=(Girth(Site.WAIST, 70),)),))
    other = Diary(
        (
            CheckIn(
                DAY,
                mass_kg=67.5,
                mood=3,
                note="tired",
                girths=(Girth(Site.WAIST, 72), Girth(Site.HIPS, 98)),
                pictures=("a.png",),
            ),
            CheckIn(date(2026, 10, 9), mass_kg=67.0),
        )
    )
    both = merged_diary(mine, other)
    first, second = both.check_ins
    assert (first.mass_kg, first.sleep, first.mood) == (66.0, 4, 3)
    assert first.note == "tired; Also noted that day: mass 67.5, waist 72 cm"
    assert first.girths == (Girth(Site.WAIST, 70), Girth(Site.HIPS, 98))
    assert first.pictures == ("a.png",)
    assert second.mass_kg == 67.0


def test_results_of_both_are_kept() -> None:
    def result(program: str, *sets: SetDone) -> SlotResult:
        return SlotResult(ProgramId(program), SlotId(1), SQUAT, DAY, sets)

    mine = Diary(results=(result("a", SetDone(90, 5)),))
    other = Diary(results=(result("a", SetDone(80, 6)), result("b", SetDone(70, 8))))
    both = merged_diary(mine, other)
    assert [r.program for r in both.results] == ["a", "b"]
    assert both.results[0].sets == (SetDone(90, 5),)
    assert both.results[0].note == "Also noted that day: 80 kg × 6"
    assert merged_diary(mine, mine) == mine


def test_two_results_of_one_card_lose_neither_effort_nor_substitute() -> None:
    def result(exercise: ExerciseKey, *sets: SetDone) -> Diary:
        return Diary(results=(SlotResult(ProgramId("a"), SlotId(1), exercise, DAY, sets),))

    def note(mine: Diary, other: Diary) -> str:
        return merged_diary(mine, other).results[0].note

    done = SetDone(80.25, 6, 1.5)
    other = ExerciseKey("front_squat")
    assert note(result(SQUAT, SetDone(90, 5)), result(SQUAT, done)) == (
        "Also noted that day: 80.25 kg × 6 RIR 1.5"
    )
    assert note(result(SQUAT, done), result(other, done)) == "Also noted that day: front squat"
    assert note(result(SQUAT, done), result(SQUAT)) == "Also noted that day: left out"


@settings(max_examples=40)
@given(strategies.clients, strategies.clients, st.sets(st.sampled_from(sorted(FIELDS))))
def test_whatever_is_chosen_every_list_entry_is_still_there(
    mine: Client, other: Client, taken: set[str]
) -> None:
    made = merged(mine, other, taken)
    for name in ("tests", "screenings", "limitations", "refer", "tags"):
        for record in (mine, other):
            assert set(getattr(record, name)) <= set(getattr(made, name))
    assert mine.dislikes | other.dislikes <= made.dislikes
    assert len(made.places) >= max(len(mine.places), len(other.places))
    usual = {"increments"} if made.units == "lb" else set()  # kg steps become steps in pounds
    for field in set(FIELDS) - {"free"} - usual:
        assert getattr(made, field) == getattr(other if field in taken else mine, field)


def test_a_status_is_chosen_like_any_other_value() -> None:
    novice = replace(OTHER, status=Status.NOVICE)
    assert merged(MINE, novice, ["status"]).status is Status.NOVICE
    (difference,) = (d for d in differences(novice, MINE) if d.field == "status")
    assert not difference.prefer_other, "novice is said, not unknown"
