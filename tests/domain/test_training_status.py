"""Training status after the definitions of the American College of Sports Medicine, 2009."""

from __future__ import annotations

import pytest
from hypothesis import given
from hypothesis import strategies as st

from app.domain.client import Status
from app.domain.errors import QuantityError
from app.domain.training_status import Answers, decide

ORDER = (Status.NOVICE, Status.INTERMEDIATE, Status.ADVANCED)


@pytest.mark.parametrize(
    ("answers", "status"),
    [
        (Answers(0, regular=False), Status.NOVICE),
        (Answers(0, regular=True), Status.NOVICE),
        (Answers(0.4, regular=True), Status.NOVICE),
        (Answers(0.5, regular=True), Status.INTERMEDIATE),
        (Answers(1.9, regular=True), Status.INTERMEDIATE),
        (Answers(2, regular=True), Status.ADVANCED),
        (Answers(8, regular=False), Status.NOVICE),
        (Answers(8, regular=True, off_years=1.9), Status.ADVANCED),
        (Answers(8, regular=True, off_years=2), Status.NOVICE),
    ],
)
def test_the_definitions(answers: Answers, status: Status) -> None:
    assert decide(answers).status is status
    assert decide(answers).why


def test_a_return_after_months_is_heeded() -> None:
    assert decide(Answers(1, regular=True)).heed == ""
    assert "one step lower" in decide(Answers(1, regular=True, off_years=0.5)).heed


def test_the_account_names_answers_and_sources() -> None:
    answers = Answers(3, regular=True)
    account = decide(answers).working(answers)
    assert account.title == "Training status: advanced"
    assert [line.value for line in account.lines] == ["3", "yes", "0"]
    assert "acsm2009" in account.sources


def test_years_that_cannot_be_are_refused() -> None:
    with pytest.raises(QuantityError):
        Answers(-1, regular=True)
    with pytest.raises(QuantityError):
        Answers(1, regular=True, off_years=float("nan"))


YEARS = st.floats(0, 60)


@given(YEARS, YEARS, st.booleans(), YEARS)
def test_more_training_never_lowers_the_status(
    fewer: float, more: float, regular: bool, off: float
) -> None:
    low, high = sorted((fewer, more))
    before = decide(Answers(low, regular=regular, off_years=off)).status
    after = decide(Answers(high, regular=regular, off_years=off)).status
    assert ORDER.index(after) >= ORDER.index(before)
