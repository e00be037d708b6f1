"""Signs in the logs are gathered for the exercises of the program, strain first."""

from __future__ import annotations

from datetime import timedelta

from scipy.stats import theilslopes

from app.domain.progress import Sign
from app.domain.results import CheckIn, Diary, SetDone, SlotResult
from app.domain.watch import trends, watch
from tests import builders

PLAN = builders.program("Mon: back_squat 3x5 RIR 2, leg_press 3x5 RIR 2", times=8)
RUNA = builders.client(tests=())
LAST = PLAN.week_start(7)


def log(loads: list[float], *, at: int = 0, rir: float = 2.0, reps: int = 5) -> list[SlotResult]:
    """One result a week with these loads."""
    found = []
    for week, load_kg in enumerate(loads):
        slot = list(PLAN.weeks[week].slots())[at]
        sets = (SetDone(load_kg, reps, rir),) * 3
        found.append(SlotResult(PLAN.id, slot.id, slot.exercise, PLAN.week_start(week), sets))
    return found


def signs(results: list[SlotResult], check_ins: tuple[CheckIn, ...] = ()):
    return watch(
        PLAN,
        Diary(check_ins, tuple(results)),
        RUNA,
        catalogue=builders.CATALOGUE,
        on=LAST,
        regression=theilslopes,
    )


def test_a_rising_lift_is_no_sign_and_a_flat_one_is() -> None:
    rising = log([60, 62.5, 65, 67.5, 70, 72.5, 75, 77.5])
    flat = log([100.0] * 8, at=1)
    found = signs([*rising, *flat])
    assert [(one.suggestion.sign, one.exercise.name) for one in found] == [
        (Sign.STALL, "Leg press")
    ]


def test_too_few_days_make_no_trend() -> None:
    assert signs(log([60.0, 60.0])) == ()
    known = builders.CATALOGUE
    exercises = [known[result.exercise] for result in log([60.0])]
    assert trends(exercises, Diary(), RUNA, on=LAST, regression=theilslopes) == {}


def test_strain_is_told_first_and_of_the_client() -> None:
    falling = log([80, 77.5, 75, 72.5, 70, 67.5, 65, 62.5], rir=0.0)
    poor = tuple(
        CheckIn(LAST - timedelta(days=7 * n), sleep=1, soreness=2, mood=1) for n in range(2)
    )
    found = signs(falling, poor)
    assert found[0].suggestion.sign is Sign.OVER_REACH
    assert found[0].exercise is None
    assert found[1].suggestion.sign is Sign.STALL


def test_what_lies_after_the_day_or_long_before_it_is_left_out() -> None:
    results = log([60.0] * 8)
    assert (
        watch(
            PLAN,
            Diary(results=tuple(results)),
            RUNA,
            catalogue=builders.CATALOGUE,
            on=PLAN.week_start(1),
            regression=theilslopes,
        )
        == ()
    )
