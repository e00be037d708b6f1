"""Names are compared as a reader would compare them."""

from __future__ import annotations

import pytest
from hypothesis import given
from hypothesis import strategies as st

from app.domain.folding import fold, solid


@pytest.mark.parametrize(
    ("text", "folded"),
    [
        ("Farmer's carry", "farmers carry"),
        ("Push-up,  hands raised", "push up hands raised"),
        ("Élévation LATÉRALE", "elevation laterale"),
        ("45° press", "45 press"),
        ("", ""),
    ],
)
def test_folding_takes_away_what_fingers_leave_out(text: str, folded: str) -> None:
    assert fold(text) == folded


@given(st.text(max_size=40))
def test_folding_twice_is_folding_once(text: str) -> None:
    assert fold(fold(text)) == fold(text)


@pytest.mark.parametrize(
    "twin",
    [
        "back squat",
        "BACK  SQUAT ",
        "Back\N{NO-BREAK SPACE}squat",
        "Back-squat",
        "Back\N{NON-BREAKING HYPHEN}squat",
        "Back squ\N{ZERO WIDTH SPACE}at",
        "Ba\N{SOFT HYPHEN}ck squat",
        "\N{ZERO WIDTH NO-BREAK SPACE}Back squat",
        "Backsquat",
    ],
)
def test_a_name_that_reads_the_same_is_the_same(twin: str) -> None:
    assert solid(twin) == solid("Back squat")


def test_other_words_and_names_of_signs_alone_stay_apart() -> None:
    assert solid("Back squat") != solid("Back squats")
    assert solid("!!") != solid("??")
