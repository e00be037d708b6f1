"""How findings are put into words."""

from __future__ import annotations

from datetime import date

import pytest

from app.domain.checks.say import amount, day_text, finding, how_far, lead, plural
from app.domain.findings import Place, Weight
from app.domain.ranges import Range
from app.domain.wording import listing

BOTH = Range("weekly_sets", 12, 20, "sets", "bazvalle2022", reason="It grows.")
FROM = Range("weekly_sets", 4, None, "sets", "iversen2021")
UP_TO = Range("session_minutes", None, 60, "min", "common practice", weight="remark")


@pytest.mark.parametrize(
    ("value", "text"), [(10.0, "10"), (6.5, "6.5"), (0.1 + 0.2, "0.3"), (1 / 3, "0.33")]
)
def test_numbers_carry_no_noughts(value: float, text: str) -> None:
    assert amount(value) == text


@pytest.mark.parametrize(
    ("value", "band", "text"),
    [
        (10, BOTH, "2 short of 12–20"),
        (23, BOTH, "3 over 12–20"),
        (3, FROM, "1 short of 4"),
        (64, UP_TO, "4 over 60"),
    ],
)
def test_a_distance_names_the_range(value: float, band: Range, text: str) -> None:
    assert how_far(value, band) == text


def test_a_distance_can_carry_its_unit() -> None:
    assert how_far(64, UP_TO, "min") == "4 min over 60"


def test_words_are_listed_and_counted() -> None:
    assert [listing(["a"]), listing(["a", "b"]), listing(["a", "b", "c"])] == [
        "a",
        "a and b",
        "a, b and c",
    ]
    assert [plural(1, "{n} set", "{n} sets"), plural(0.5, "{n} set", "{n} sets")] == [
        "1 set",
        "0.5 sets",
    ]
    assert lead("quadriceps and calves") == "Quadriceps and calves"


def test_a_date_is_written_the_same_everywhere() -> None:
    assert day_text(date(2026, 10, 2)) == "2 Oct 2026"


@pytest.mark.parametrize(
    ("band", "measured", "below", "weight"),
    [
        (BOTH, 10.0, True, Weight.OUTSIDE),
        (BOTH, 21.0, False, Weight.OUTSIDE),
        (UP_TO, 61.0, False, Weight.REMARK),
        (UP_TO, None, None, Weight.REMARK),
    ],
)
def test_a_finding_takes_its_weight_and_source_from_the_range(
    band: Range, measured: float | None, below: bool | None, weight: Weight
) -> None:
    made = finding(band.rule, band, place=Place(day=3), about="x", text="X", measured=measured)
    assert (made.below, made.weight, made.source) == (below, weight, band.source)
    assert (made.place_text, made.reason) == ("Thursday", band.reason)
