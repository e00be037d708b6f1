from __future__ import annotations

from dataclasses import replace
from datetime import date

import pytest

from app.domain.client import Client, ClientId, FreeTime, Increments, Place, StrengthTest
from app.domain.effort import PercentOneRm, Rir
from app.domain.errors import CoachError
from app.domain.exercise import Equipment, Exercise, ExerciseKey, LoadKind, Muscle, Pattern, Work
from app.domain.loads import (
    calibration,
    load_for,
    newest_test,
    next_band,
    one_rep_max_of,
    printed_loads,
    require_load_of_test,
)
from app.domain.program import Reps, Slot, SlotId, StrandId
from tests import builders

SQUAT = Exercise(
    key=ExerciseKey("back_squat"),
    name="Back squat",
    pattern=Pattern.SQUAT,
    work=(Work(Muscle.QUADRICEPS, 1.0),),
    equipment=(),
    load_kind=LoadKind.BARBELL,
    multi_joint=True,
)
PULL_UP = replace(
    SQUAT,
    key=ExerciseKey("pull_up"),
    name="Pull-up",
    pattern=Pattern.VERTICAL_PULL,
    load_kind=LoadKind.BODY,
    body_share=1.0,
)
RUNA = Client(
    ClientId("runa"),
    "Runa Estvik",
    mass_kg=80.0,
    tests=(
        StrengthTest(SQUAT.key, date(2026, 10, 2), 90.0, 5),
        StrengthTest(SQUAT.key, date(2026, 6, 1), 60.0, 5),
        StrengthTest(PULL_UP.key, date(2026, 10, 2), 5.0, 5),
    ),
)


TEN = Reps(10, 10)


def slot(exercise=SQUAT, *, sets=4, reps=TEN, **fields):
    return Slot(SlotId(1), StrandId(1), exercise.key, sets, reps, **fields)


def test_the_load_of_a_slot_shows_its_whole_way():
    load = load_for(slot(), SQUAT, RUNA)
    assert load is not None
    account = load.working()
    assert account.title == "70 kg"
    assert account.about == "Back squat, 4 × 10 at RIR 2"
    assert [(line.label, line.value, line.remark) for line in account.lines] == [
        ("Test, 2 Oct 2026", "90 kg × 5", ""),
        ("1RM, median of seven", "104.9 kg", "101.2–107.1"),
        ("10 reps + 2 in reserve", "12 RM = 67 %", "textbook table"),
        ("67 % of 104.9", "70.3 kg", ""),
        ("Nearest in reach, 2.5 kg steps", "70 kg", ""),
    ]
    assert account.sources[-1] == "haff2016"
    assert "brzycki1993" in account.sources


def test_the_newest_test_decides():
    test = newest_test(SQUAT, RUNA)
    assert test is not None
    assert test.load_kg == 90.0


def test_a_test_past_every_equation_is_left_out():
    later = StrengthTest(SQUAT.key, date(2026, 11, 1), 40.0, 28, rir=5)
    client = replace(RUNA, tests=(*RUNA.tests, later))
    test = newest_test(SQUAT, client)
    assert test is not None
    assert test.on == date(2026, 10, 2)


def test_a_range_is_loaded_for_its_upper_end():
    wide = load_for(slot(reps=Reps(8, 10)), SQUAT, RUNA)
    upper = load_for(slot(reps=Reps(10, 10)), SQUAT, RUNA)
    assert wide is not None
    assert upper is not None
    assert wide.load_kg == upper.load_kg
    assert wide.about == "Back squat, 4 × 8–10 at RIR 2"


def test_a_load_set_by_hand_wins_and_says_its_share():
    load = load_for(slot(load_kg=62.5), SQUAT, RUNA)
    assert load is not None
    assert (load.load_kg, load.pinned) == (62.5, True)
    assert load.working().lines[0].label == "Set by hand"
    assert load.fraction == pytest.approx(62.5 / 104.9, abs=0.001)


def test_a_load_set_by_hand_says_what_to_put_on_or_that_it_cannot_be_met():
    load = load_for(slot(load_kg=62.5), SQUAT, RUNA)
    assert load is not None
    assert load.plates is not None
    assert (load.plates.plates, load.remark) == ((20.0, 1.25), "")
    odd = load_for(slot(load_kg=63.0), SQUAT, RUNA)
    assert odd is not None
    assert (odd.load_kg, odd.plates) == (63.0, None)
    assert odd.remark == "The nearest load in reach is 62.5 kg."


def test_a_load_set_by_hand_needs_no_test():
    load = load_for(slot(load_kg=62.5), SQUAT, replace(RUNA, tests=()))
    assert load is not None
    assert (load.load_kg, load.fraction, load.one_rm_kg) == (62.5, None, None)


@pytest.mark.parametrize(
    "exercise",
    [
        replace(SQUAT, timed=True),
        replace(SQUAT, load_kind=LoadKind.BAND),
        replace(SQUAT, load_kind=LoadKind.NONE),
        replace(SQUAT, key=ExerciseKey("untested")),
    ],
)
def test_what_has_no_kilograms_or_no_test_has_no_load(exercise):
    assert load_for(slot(exercise), exercise, RUNA) is None


def test_repetitions_past_the_curve_have_no_load():
    assert load_for(slot(reps=Reps(60, 60)), SQUAT, RUNA) is None
    assert load_for(slot(reps=Reps(60, 60), effort=PercentOneRm(30)), SQUAT, RUNA) is not None


def test_a_body_weight_lift_counts_the_body_in_and_out():
    one_rm = one_rep_max_of(PULL_UP, RUNA)
    assert one_rm is not None
    # 85 kg for 5: between O'Conner's 95.6 and Mayhew's 101.2
    assert one_rm.low == pytest.approx(85 * 1.125, abs=0.1)
    load = load_for(slot(PULL_UP, reps=Reps(3, 3), effort=Rir(0)), PULL_UP, RUNA)
    assert load is not None
    assert load.exact_kg == pytest.approx(0.93 * one_rm.median - 80.0)
    assert load.lines[0].remark == "and 80 kg of own weight"


def test_too_many_body_weight_repetitions_ask_for_help():
    load = load_for(slot(PULL_UP, reps=Reps(12, 12)), PULL_UP, RUNA)
    assert load is not None
    assert load.load_kg < 0
    assert "off with an assisting machine" in load.remark


def at_own_weight(load_kg=0.0, reps=8):
    return replace(RUNA, tests=(StrengthTest(PULL_UP.key, date(2026, 10, 2), load_kg, reps),))


def test_own_weight_for_eight_gives_the_load_to_add_or_own_weight_alone():
    client = at_own_weight()
    one_rm = one_rep_max_of(PULL_UP, client)
    assert one_rm is not None
    # 80 kg for 8: Brzycki 80 x 36 / (37 - 8), Epley 80 x (1 + 8 / 30)
    assert one_rm.low <= 80 * 36 / 29 <= one_rm.median <= 80 * (1 + 8 / 30) <= one_rm.high
    heavy = load_for(slot(PULL_UP, reps=Reps(3, 3), effort=Rir(0)), PULL_UP, client)
    assert heavy is not None
    # the textbook table has a 3RM at 93 %
    assert heavy.exact_kg == pytest.approx(0.93 * one_rm.median - 80.0)
    assert heavy.load_kg > 0
    assert (heavy.lines[0].value, heavy.lines[0].remark) == (
        "own weight × 8",
        "and 80 kg of own weight",
    )
    same = load_for(slot(PULL_UP, reps=Reps(8, 8), effort=Rir(0)), PULL_UP, client)
    assert same is not None
    assert same.load_kg == 0


def test_a_test_with_help_counts_what_was_left_of_the_body():
    one_rm = one_rep_max_of(PULL_UP, at_own_weight(-20.0, 1))
    assert one_rm is not None
    assert one_rm.median == pytest.approx(60.0)


def test_more_help_than_body_is_no_test_of_strength():
    assert one_rep_max_of(PULL_UP, at_own_weight(-80.0)) is None
    assert load_for(slot(PULL_UP), PULL_UP, at_own_weight(-90.0)) is None


@pytest.mark.parametrize(
    ("exercise", "load_kg", "said"),
    [
        (SQUAT, 0.0, "A test of Back squat cannot have 0 kg. Enter what was lifted, 0.5 kg"),
        (SQUAT, -10.0, "A test of Back squat cannot have -10 kg"),
        (PULL_UP, -80.0, "80 kg of help leave nothing of the 80 kg of own weight in Pull-up"),
    ],
)
def test_a_load_that_the_exercise_cannot_have_is_refused(exercise, load_kg, said):
    test = StrengthTest(exercise.key, date(2026, 10, 2), load_kg, 5)
    with pytest.raises(CoachError, match=said):
        require_load_of_test(test, exercise, RUNA)


@pytest.mark.parametrize(
    ("exercise", "load_kg", "mass_kg"),
    [(SQUAT, 0.5, 80.0), (PULL_UP, 0.0, 80.0), (PULL_UP, -40.0, 80.0), (PULL_UP, -90.0, None)],
)
def test_a_load_that_the_exercise_can_have_is_kept(exercise, load_kg, mass_kg):
    test = StrengthTest(exercise.key, date(2026, 10, 2), load_kg, 5)
    assert require_load_of_test(test, exercise, replace(RUNA, mass_kg=mass_kg)) is test


def test_a_body_weight_lift_of_somebody_never_weighed_has_no_load():
    assert load_for(slot(PULL_UP), PULL_UP, replace(RUNA, mass_kg=None)) is None


def test_pounds_are_shown_to_who_thinks_in_pounds():
    load = load_for(slot(), SQUAT, replace(RUNA, units="lb"))
    assert load is not None
    assert load.working("lb").lines[0].value == "198.4 lb × 5"


@pytest.mark.parametrize(
    ("kind", "first_kg", "words"),
    [
        (LoadKind.BARBELL, 20.0, "empty bar, 20 kg"),
        (LoadKind.DUMBBELL_EACH, 2.0, "lightest load, 2 kg"),
        (LoadKind.MACHINE, 5.0, "lightest load, 5 kg"),
        (LoadKind.BAND, None, "band that is light"),
        (LoadKind.BODY, None, "own weight"),
    ],
)
def test_a_first_session_finds_the_load(kind, first_kg, words):
    exercise = replace(SQUAT, load_kind=kind)
    found = calibration(slot(exercise), exercise, RUNA)
    assert found.first_kg == first_kg
    assert words in found.steps[0]
    assert "10 repetitions" in found.steps[1]
    assert "about 2 repetitions" in found.steps[3]


def test_a_first_session_without_a_band_in_reach_says_so():
    exercise = replace(SQUAT, load_kind=LoadKind.BAND)
    bare = replace(RUNA, increments=replace(RUNA.increments, bands=()))
    found = calibration(slot(exercise), exercise, bare)
    assert found.steps[0] == "No band is in reach: Back squat needs one. Ask your coach."
    assert "stronger band" not in found.steps[2]
    with pytest.raises(CoachError, match="no band is in reach.*equipment"):
        next_band((), "light")


def test_bands_are_grades_from_light_to_heavy():
    bands = ("light", "medium", "heavy")
    assert next_band(bands, "light") == "medium"
    assert next_band(bands, "heavy") is None
    assert next_band(bands, "medium", harder=False) == "light"
    with pytest.raises(CoachError, match="no band 'steel'"):
        next_band(bands, "steel")


def test_the_printed_load_is_in_reach_at_the_place_of_the_day() -> None:
    coarse = Increments(plates_kg=(20.0, 10.0))
    who = builders.client(
        tests=(StrengthTest(SQUAT.key, date(2026, 10, 2), 90, 5),),
        places=(Place("hut", frozenset(Equipment), coarse),),
        free=(FreeTime(60), FreeTime(60, place="hut"), *(FreeTime(),) * 5),
    )
    plan = builders.program("Mon: back_squat 3x8 RIR 2 | Tue: back_squat 3x8 RIR 2")
    monday, tuesday = printed_loads(plan, who, builders.CATALOGUE)
    assert monday.load_kg != tuesday.load_kg
    assert (tuesday.load_kg - 20) % 20 == 0
