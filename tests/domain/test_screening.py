from __future__ import annotations

from dataclasses import replace
from datetime import date, timedelta
from itertools import product
from typing import Any

import pytest
from hypothesis import given
from hypothesis import strategies as st

from app.domain.client import Outcome, Screening
from app.domain.screening import Begin, Clearance, Wish, outcome

TODAY = date(2026, 10, 2)
HEALTHY = Screening(TODAY, active=True, known_disease=False, symptoms=False)
ANSWERS = st.builds(
    Screening,
    on=st.just(TODAY),
    active=st.booleans(),
    known_disease=st.booleans(),
    symptoms=st.booleans(),
    pregnant=st.booleans(),
    cleared_on=st.none() | st.integers(-800, 30).map(lambda days: TODAY + timedelta(days=days)),
)


@pytest.mark.parametrize(
    ("active", "disease", "wish", "begin", "clearance"),
    [
        # riebe2015 in our words; value from memory
        (False, False, "vigorous", Begin.START_EASY, Clearance.NOT_NEEDED),
        (False, True, "moderate", Begin.WAIT, Clearance.BEFORE_ANY),
        (True, False, "vigorous", Begin.CARRY_ON, Clearance.NOT_NEEDED),
        (True, True, "moderate", Begin.CARRY_ON, Clearance.NOT_NEEDED),
        (True, True, "vigorous", Begin.CARRY_ON, Clearance.BEFORE_VIGOROUS),
    ],
)
def test_without_symptoms_activity_and_disease_decide(active, disease, wish, begin, clearance):
    found = outcome(replace(HEALTHY, active=active, known_disease=disease), wish)
    assert (found.begin, found.clearance) == (begin, clearance)


@pytest.mark.parametrize(("active", "disease"), list(product([True, False], repeat=2)))
def test_symptoms_send_everybody_on(active, disease):
    found = outcome(replace(HEALTHY, active=active, known_disease=disease, symptoms=True))
    assert found.outcome is Outcome.SEE_PRACTITIONER
    assert found.begin is (Begin.STOP if active else Begin.WAIT)
    assert found.clearance is Clearance.BEFORE_ANY


@given(ANSWERS)
def test_wishing_for_more_never_allows_more(screening):
    order = [Outcome.MAY_START, Outcome.MODERATE_ONLY, Outcome.SEE_PRACTITIONER]
    moderate = outcome(screening, Wish.MODERATE)
    vigorous = outcome(screening, Wish.VIGOROUS)
    assert order.index(vigorous.outcome) >= order.index(moderate.outcome)


@given(ANSWERS)
def test_a_fresh_clearance_never_makes_it_stricter(screening):
    order = [Outcome.MAY_START, Outcome.MODERATE_ONLY, Outcome.SEE_PRACTITIONER]
    cleared = replace(screening, cleared_on=TODAY)
    assert order.index(outcome(cleared).outcome) <= order.index(outcome(screening).outcome)


@pytest.mark.parametrize(("days", "allowed"), [(365, True), (366, False)])
def test_a_clearance_for_vigorous_effort_holds_twelve_months(days, allowed):
    screening = replace(HEALTHY, known_disease=True, cleared_on=TODAY - timedelta(days=days))
    found = outcome(screening, Wish.VIGOROUS)
    assert (found.outcome is Outcome.MAY_START) is allowed


def test_a_clearance_runs_out_while_the_plan_goes_on():
    screening = replace(HEALTHY, known_disease=True, cleared_on=TODAY)
    later = outcome(screening, Wish.VIGOROUS, on=TODAY + timedelta(days=400))
    assert later.clearance is Clearance.BEFORE_VIGOROUS


def test_a_clearance_from_before_the_symptoms_does_not_count():
    old = replace(HEALTHY, symptoms=True, cleared_on=TODAY - timedelta(days=1))
    new = replace(HEALTHY, symptoms=True, cleared_on=TODAY)
    assert outcome(old).outcome is Outcome.SEE_PRACTITIONER
    assert outcome(new).outcome is not Outcome.SEE_PRACTITIONER


@pytest.mark.parametrize("active", [True, False])
@pytest.mark.parametrize("answer", ["known_disease", "symptoms", "pregnant"])
def test_a_clearance_of_tomorrow_does_not_count_today(answer, active):
    answers: dict[str, Any] = {"active": active, answer: True}
    screening = replace(HEALTHY, **answers)
    dated_ahead = replace(screening, cleared_on=TODAY + timedelta(days=1))
    assert outcome(dated_ahead, "vigorous") == outcome(screening, "vigorous")
    assert outcome(dated_ahead, "vigorous", on=TODAY + timedelta(days=1)) != outcome(screening)


@pytest.mark.parametrize(("days", "begin"), [(365, Begin.START_EASY), (366, Begin.WAIT)])
def test_a_clearance_to_begin_with_a_disease_holds_twelve_months(days, begin):
    screening = replace(
        HEALTHY, active=False, known_disease=True, cleared_on=TODAY - timedelta(days=days)
    )
    assert outcome(screening).begin is begin


def test_a_clearance_from_before_the_pregnancy_was_told_does_not_count():
    old = replace(HEALTHY, pregnant=True, cleared_on=TODAY - timedelta(days=1))
    assert outcome(old).outcome is Outcome.SEE_PRACTITIONER


@pytest.mark.parametrize("active", [True, False])
def test_cleared_symptoms_are_not_called_a_known_disease(active):
    screening = replace(HEALTHY, active=active, symptoms=True, cleared_on=TODAY)
    for later in (0, 400):
        text = outcome(screening, on=TODAY + timedelta(days=later)).text
        assert text.startswith("Signs or symptoms")
        assert "disease" not in text


def test_pregnancy_asks_the_obstetric_practitioner_first_and_stays_moderate():
    pregnant = replace(HEALTHY, pregnant=True)
    assert outcome(pregnant).outcome is Outcome.SEE_PRACTITIONER
    agreed = outcome(replace(pregnant, cleared_on=TODAY), Wish.VIGOROUS)
    assert agreed.outcome is Outcome.MODERATE_ONLY
    assert any("bleeding" in caution for caution in agreed.cautions)
    assert "acog2020" in agreed.sources


def test_the_account_repeats_the_answers():
    screening = replace(HEALTHY, known_disease=True)
    account = outcome(screening).working(screening)
    assert [line.value for line in account.lines] == ["yes", "yes", "no", "no", "no"]
    assert "riebe2015" in account.sources
