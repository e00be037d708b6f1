"""Where ramp sets come from, in a line."""

from __future__ import annotations

import pytest

from app.domain.client import Increments
from app.domain.ramp_account import ramp_line
from app.domain.warmup import ramp_to
from tests import builders


@pytest.mark.parametrize(
    ("ramp", "value", "remark"),
    [
        ("", "20 kg × 8, 50 kg × 5, 70 kg × 3, 85 kg × 2", "worked out from the load, common prac"),
        ("ramp off", "none", "set by the coach"),
        ("ramp 51%x5/61.1kgx3", "50 kg × 5, 61.1 kg × 3", "set by the coach: 51 % × 5, 61.1 kg"),
        ("ramp 50%x5/120kgx3", "50 kg × 5", "× 3; those without a load below the working load"),
        ("ramp 120kgx3", "none", "are left out"),
    ],
)
def test_ramp_sets_say_where_they_come_from(ramp: str, value: str, remark: str):
    slot = builders.slot(f"back_squat 3x5 core {ramp}")
    squat = builders.CATALOGUE[slot.exercise]
    sets = ramp_to(slot, squat, 100.0, increments=Increments())
    line = ramp_line(slot, sets)
    assert line is not None
    assert line.value == value
    assert remark in line.remark


def test_without_a_load_nothing_is_worked_out_and_nothing_said():
    slot = builders.slot("back_squat 3x5 core")
    assert ramp_line(slot, ()) is None
