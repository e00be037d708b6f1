"""Ramp sets that a coach sets: their laws, and the line they are written in."""

from __future__ import annotations

import pytest
from hypothesis import given

from app.domain.errors import CoachError
from app.domain.ramp import MAX_RAMP_SETS, Ramp, RampStep, ramp_text, read_ramp
from tests.strategies import ramps


def test_a_line_says_per_cent_kilograms_and_pounds() -> None:
    light, third, pounds = read_ramp("50% x 5, 62,5 kg x 3; 150 lb*2 reps").steps
    assert light == RampStep(5, percent=50)
    assert third == RampStep(3, load_kg=62.5)
    assert pounds.reps == 2
    assert pounds.load_kg == pytest.approx(68.04, abs=0.01)


@given(ramps)
def test_what_is_written_reads_back_equal(ramp: Ramp) -> None:
    if ramp.steps:
        assert read_ramp(ramp_text(ramp)) == ramp
    else:
        assert ramp_text(ramp) == ""


def test_a_ramp_is_written_short() -> None:
    assert ramp_text(read_ramp("50 % x 5, 62.5 kg x 3")) == "50 % × 5, 62.5 kg × 3"
    assert ramp_text(read_ramp("100 lb x 3"), "lb") == "100 lb × 3"


@pytest.mark.parametrize(
    ("line", "said"),
    [
        ("", "No ramp set is written. Write ramp sets like '50 % x 5, 70 % x 3, 60 kg x 2'"),
        ("60 x 3", "'60 x 3' is no ramp set. Write ramp sets like"),
        ("50 % x 5, warm up well", "'warm up well' is no ramp set."),
        ("96 % x 1", "per cent of the working load in a ramp set 96.0 is outside 0 to 95"),
        ("0.2 kg x 5", "load of a ramp set, kg 0.2 is outside 0.5 to 1000"),
        ("50 % x 0", "repetitions of a ramp set 0 is outside 1 to 30"),
        ("50 % x 31", "repetitions of a ramp set 31 is outside 1 to 30"),
        ("70 % x 5, 50 % x 3", "fall from 70 to 50. Write them from light to heavy."),
        ("70 kg x 5, 30 % x 3, 60 kg x 2", "fall from 70 to 60."),
        (", ".join(["50 % x 1"] * (MAX_RAMP_SETS + 1)), "There are 9 ramp sets. Keep at most 8."),
    ],
)
def test_what_cannot_be_read_is_refused_with_what_is_accepted(line: str, said: str) -> None:
    with pytest.raises(CoachError) as refused:
        read_ramp(line)
    assert said in refused.value.sentence


@pytest.mark.parametrize("amounts", [{}, {"percent": 50, "load_kg": 60}])
def test_a_step_is_of_one_kind(amounts: dict[str, float]) -> None:
    with pytest.raises(CoachError, match="either per cent of the working load or kilograms"):
        RampStep(5, **amounts)


def test_equal_steps_are_two_sets() -> None:
    assert len(read_ramp("50 % x 5, 50 % x 5").steps) == 2


def test_only_kilograms_are_meant_for_one_lift() -> None:
    assert read_ramp("50 % x 5, 60 kg x 3").has_kg
    assert not read_ramp("50 % x 5").has_kg
