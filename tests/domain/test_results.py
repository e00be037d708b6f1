from __future__ import annotations

from datetime import date

import pytest

from app.domain.errors import QuantityError
from app.domain.results import CheckIn, SetDone


@pytest.mark.parametrize(
    ("make", "name"),
    [
        (lambda: SetDone(10_000, 5), "load lifted"),
        (lambda: SetDone(50, -1), "repetitions done"),
        (lambda: SetDone(50, 5, rir=12), "repetitions in reserve"),
        (lambda: SetDone(float("nan"), 5), "load lifted"),
        (lambda: CheckIn(date(2026, 10, 2), mass_kg=800), "body mass"),
        (lambda: CheckIn(date(2026, 10, 2), kcal=-1), "energy eaten"),
        (lambda: CheckIn(date(2026, 10, 2), sleep=6), "sleep"),
    ],
)
def test_impossible_results_are_refused_by_name(make, name):
    with pytest.raises(QuantityError, match=rf"{name}.* is outside"):
        make()


def test_own_weight_and_help_are_loads_too():
    assert SetDone(0, 8).load_kg == 0
    assert SetDone(-15, 8).load_kg == -15
