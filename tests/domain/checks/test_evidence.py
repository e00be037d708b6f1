"""Share of the emphasis done with high reported activation."""

from __future__ import annotations

import pytest

from app.domain.exercise import Muscle
from app.domain.findings import Weight
from tests.domain.checks.ask import findings, texts

GLUTEALS = (Muscle.GLUTEALS,)


def test_without_measured_exercises_nothing_is_said() -> None:
    assert texts("activation_share", "Mon: leg_press 3x8", emphasis=GLUTEALS) == []


def test_high_activation_is_enough() -> None:
    assert texts("activation_share", "Mon: hip_thrust 3x8", emphasis=GLUTEALS) == []


def test_a_share_that_is_too_small_is_a_remark_with_its_caution() -> None:
    (finding,) = findings(
        "activation_share", "Mon: low_bridge 8x8, hip_thrust 3x8", emphasis=GLUTEALS
    )
    assert finding.text == (
        "Gluteals: 27 % of the measured sets with high reported activation, 6 short of 33"
    )
    assert finding.weight is Weight.REMARK
    assert "amplitude is not growth" in finding.reason


@pytest.mark.parametrize(("low", "count"), [(6, 0), (7, 1)])
def test_a_third_is_enough(low: int, count: int) -> None:
    week = f"Mon: low_bridge {low}x8, hip_thrust 3x8"
    assert len(texts("activation_share", week, emphasis=GLUTEALS)) == count
