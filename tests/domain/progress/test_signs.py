from __future__ import annotations

from datetime import date, timedelta

import pytest

from app.domain.effort import Rir
from app.domain.exercise import ExerciseKey
from app.domain.program import ProgramId, Reps, Slot, SlotId, StrandId
from app.domain.progress import Sign, over_reach, stall
from app.domain.results import CheckIn, SetDone, SlotResult
from app.domain.trend import Trend

START = date(2026, 9, 7)
SLOT = Slot(SlotId(1), StrandId(1), ExerciseKey("squat"), 3, Reps(8, 8), effort=Rir(2))


def line(per_week, *, spread=0.1, weeks=6):
    return Trend(
        START,
        START + timedelta(weeks=weeks),
        100,
        100 + weeks * per_week,
        per_week,
        per_week - spread,
        per_week + spread,
        weeks + 1,
    )


@pytest.mark.parametrize(
    ("trend", "said"),
    [
        (line(0.5), None),
        (line(0.05), "has not clearly risen"),
        (line(-0.5), "is falling"),
        (line(0.0, weeks=3), None),  # too early to say
    ],
)
def test_a_stall_is_four_weeks_without_a_clear_rise(trend, said):
    found = stall(trend)
    if said is None:
        assert found is None
    else:
        assert found is not None
        assert found.sign is Sign.STALL
        assert said in found.text
        assert "Worth a look" in found.text


def tired(rir):
    return [
        (
            SLOT,
            SlotResult(ProgramId("p"), SLOT.id, SLOT.exercise, START, (SetDone(60, 8, rir),) * 3),
        )
    ]


POOR = [CheckIn(START, sleep=2, soreness=1, mood=2)]


def test_two_signs_together_suggest_a_light_week():
    found = over_reach(tired(0), POOR)
    assert found is not None
    assert found.sign is Sign.OVER_REACH
    assert "Consider a light week" in found.text
    assert [one.label for one in found.lines] == [
        "Reserve against what was meant",
        "Sleep, soreness and mood",
    ]
    assert over_reach(tired(0), strength=line(-0.5)) is not None


@pytest.mark.parametrize(
    ("slots", "check_ins", "trend"),
    [
        (tired(0), (), None),
        (tired(2), POOR, None),
        (tired(None), POOR, None),
        (tired(0), [CheckIn(START, sleep=5, soreness=4, mood=4)], line(0.5)),
        ([], (), None),
    ],
)
def test_one_sign_alone_says_nothing(slots, check_ins, trend):
    assert over_reach(slots, check_ins, strength=trend) is None
