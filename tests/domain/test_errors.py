"""What a coach is told: what, where, how to mend."""

from __future__ import annotations

import pytest

from app.domain.errors import (
    CoachError,
    EditError,
    PlanFileError,
    QuantityError,
    ResourceError,
    StoreError,
)


def test_a_sentence_says_where_what_and_how_to_mend_it() -> None:
    error = CoachError("There is no week 9.", where="Ridge season", mend="It has weeks 1 to 4.")
    assert error.sentence == "Ridge season: There is no week 9. It has weeks 1 to 4."
    assert str(error) == error.sentence
    assert (error.what, error.where, error.mend) == (
        "There is no week 9.",
        "Ridge season",
        "It has weeks 1 to 4.",
    )


def test_parts_that_are_missing_leave_no_gap() -> None:
    assert CoachError("No.").sentence == "No."
    assert CoachError("No.", mend="Yes.").sentence == "No. Yes."
    assert CoachError("No.", where="Here").sentence == "Here: No."


def test_a_quantity_is_refused_with_its_value_and_range() -> None:
    error = QuantityError.outside("body mass, kg", 7, low=25, high=350)
    assert error.sentence == "body mass, kg 7 is outside 25 to 350. Enter a value from 25 to 350."


@pytest.mark.parametrize(
    "kind", [EditError, QuantityError, PlanFileError, ResourceError, StoreError]
)
def test_every_kind_reaches_the_coach_and_is_a_wrong_value(kind: type[CoachError]) -> None:
    with pytest.raises(CoachError, match="what"):
        raise kind("what", where="where", mend="mend")
    assert issubclass(kind, ValueError)
