from __future__ import annotations

import pytest
from hypothesis import given
from hypothesis import strategies as st

from app.domain.errors import CoachError, QuantityError
from app.domain.one_rm import EQUATIONS, estimate_one_rep_max, one_rep_max
from app.domain.wording import English, Language, speaking

LOAD = st.floats(1, 500)


@given(LOAD, st.sampled_from(sorted(EQUATIONS)))
def test_one_repetition_is_the_load_itself(load_kg, equation):
    assert one_rep_max(load_kg, 1, equation) == load_kg


@given(LOAD, st.integers(1, 29), st.sampled_from(sorted(EQUATIONS)))
def test_more_repetitions_with_a_load_mean_a_greater_maximum(load_kg, reps, equation):
    more = one_rep_max(load_kg, reps + 1, equation)
    assert more > one_rep_max(load_kg, reps, equation)


@given(LOAD, st.integers(1, 20), st.integers(0, 10))
def test_the_median_lies_in_the_interval_of_all_seven(load_kg, reps, rir):
    found = estimate_one_rep_max(load_kg, reps, rir)
    assert set(found.by_equation) == set(EQUATIONS)
    assert found.low <= min(found.by_equation.values()) <= found.median
    assert found.median <= max(found.by_equation.values()) <= found.high


@given(LOAD, st.integers(1, 20), st.integers(1, 10))
def test_a_reserve_counts_as_repetitions_and_widens_the_interval(load_kg, reps, rir):
    kept_back = estimate_one_rep_max(load_kg, reps, rir)
    all_out = estimate_one_rep_max(load_kg, reps + rir)
    assert kept_back.median == all_out.median
    assert kept_back.high - kept_back.low > all_out.high - all_out.low


def test_past_ten_repetitions_the_estimate_is_stretched_and_wider():
    ten, fifteen = estimate_one_rep_max(60, 10), estimate_one_rep_max(60, 15)
    assert not ten.stretched
    assert fifteen.stretched
    assert "up to 10" in fifteen.remarks[0]
    assert (fifteen.high - fifteen.low) / fifteen.median > (ten.high - ten.low) / ten.median


def test_a_large_reserve_is_marked_as_a_guess():
    # hackett2017: over 2 repetitions off when 7 to 10 remain
    assert any("hard to judge" in remark for remark in estimate_one_rep_max(60, 10, 8).remarks)


@pytest.mark.parametrize(
    ("load_kg", "reps", "name"),
    [
        (0, 5, "load lifted"),
        (-20, 5, "load lifted"),
        (10_000, 5, "load lifted"),
        (float("nan"), 5, "load lifted"),
        (float("inf"), 5, "load lifted"),
        (100, 0, "repetitions"),
        (100, -1, "repetitions"),
        (100, 200, "repetitions"),
        (100, float("nan"), "repetitions"),
    ],
)
def test_impossible_sets_are_refused_with_quantity_value_and_range(load_kg, reps, name):
    for call in (
        lambda: one_rep_max(load_kg, reps, "epley"),
        lambda: estimate_one_rep_max(load_kg, reps),
    ):
        with pytest.raises(QuantityError, match=rf"{name}.* is outside .* to "):
            call()


def test_an_unknown_equation_is_named_with_a_near_match():
    with pytest.raises(CoachError, match="Did you mean 'brzycki'"):
        one_rep_max(100, 5, "bryzcki")


def test_the_account_of_a_maximum_lists_every_equation():
    account = estimate_one_rep_max(90, 5).working()
    assert account.lines[0].value == "90 kg × 5"
    # 90 kg for 5: the worked cells of 100 kg for 5, times 0.9
    assert account.title == "104.9 kg"
    assert account.lines[-1].remark == "101.2–107.1"
    assert [line.value for line in account.lines if line.label == "Mayhew 1992"] == ["107.1 kg"]
    assert len(account.sources) == 7


class _Loud(English):
    def gettext(self, message: str, /) -> str:
        return f"LOUD {message}"


def test_the_remarks_of_an_estimate_speak_the_language_of_the_moment() -> None:
    assert not estimate_one_rep_max(60, 14).remarks[0].startswith("LOUD")
    with speaking(Language("x-loud", _Loud())):
        assert estimate_one_rep_max(60, 14).remarks[0].startswith("LOUD")
