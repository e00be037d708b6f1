"""Who may start, how hard, and who sees a practitioner first."""

from __future__ import annotations

from datetime import date

import pytest

from app.domain.client import Screening
from app.domain.screening import Begin, Clearance, Wish, outcome
from tests.literature.table import Answer, Row, check, rows, says

TODAY = date(2026, 10, 2)
WORDS = {
    (Begin.START_EASY, Clearance.NOT_NEEDED): "no clearance; start light-moderate",
    (Begin.WAIT, Clearance.BEFORE_ANY): "clearance before any exercise",
    (Begin.STOP, Clearance.BEFORE_ANY): "stop and seek clearance",
    (Begin.CARRY_ON, Clearance.BEFORE_VIGOROUS): "clearance within last 12 months first",
    (Begin.CARRY_ON, Clearance.NOT_NEEDED): "continue moderate, no clearance",
}


def screening(row: Row) -> Answer:
    known = row.given("disease")
    wish = Wish(row.given("wish")) if "wish" in row.inputs else Wish.MODERATE
    said = set()
    for disease in (True, False) if known == "any" else (known == "yes",):
        answers = Screening(
            TODAY,
            active=row.given("active") == "yes",
            known_disease=disease,
            symptoms=row.given("symptoms") == "yes",
        )
        found = outcome(answers, wish)
        said.add(WORDS[found.begin, found.clearance])
    return says(" / ".join(sorted(said)), row.expected)


ANSWERS = {"screening": screening}


@pytest.mark.parametrize("row", rows(*ANSWERS), ids=str)
def test_screening_agrees_with_the_literature(row):
    check(row, ANSWERS)
