"""What giving a program to a client would mean, before anything is given."""

from __future__ import annotations

from datetime import date
from typing import Any

import pytest

from app import resources
from app.domain.checks import check
from app.domain.client import Client, ClientId, StrengthTest
from app.domain.errors import EditError
from app.domain.exercise import Equipment, ExerciseKey
from app.domain.findings import Weight
from app.domain.offer import LoadsKnown, Offer, loads_known, offer
from app.domain.program import ProgramId
from tests import builders

PLAN = builders.program(
    "Mon: back_squat 4x8 core, push_up 3x10, plank 2x30 | Thu: curl 3x12", times=2
)
TEST = StrengthTest(ExerciseKey("back_squat"), date(2026, 10, 2), 90, 5)


def jorunn(**fields: Any) -> Client:
    return builders.client(id=ClientId("jorunn"), name="Jorunn Aske", **fields)


def offered(**fields: Any) -> Offer:
    return offer(
        PLAN,
        jorunn(**fields),
        builders.CATALOGUE,
        resources.range_book(),
        program_id=ProgramId("hers"),
        start=PLAN.start,
    )


@pytest.mark.parametrize(
    ("tests", "known", "text"),
    [
        ((), LoadsKnown((), ("Back squat", "Curl")), "none of 2 known"),
        ((TEST,), LoadsKnown(("Back squat",), ("Curl",)), "1 of 2 known"),
    ],
)
def test_loads_are_known_where_something_was_tested(
    tests: tuple[StrengthTest, ...], known: LoadsKnown, text: str
) -> None:
    found = loads_known(PLAN, jorunn(tests=tests), builders.CATALOGUE)
    assert found == known
    assert found.text == text


def test_own_weight_bands_and_holds_need_no_load() -> None:
    plan = builders.program("Mon: push_up 3x10, plank 2x30, band_walk 2x10")
    assert loads_known(plan, jorunn(), builders.CATALOGUE).text == "none needed"
    assert LoadsKnown(("Curl",), ()).text == "all known"


def test_an_offer_has_what_the_checks_say_of_the_refitted_program() -> None:
    made = offered(equipment=frozenset(Equipment) - {Equipment.RACK})
    client, program = made.client, made.refit.program
    findings = check(program, client, builders.CATALOGUE, resources.range_book())
    assert made.findings == findings
    assert sum(made.count(weight) for weight in Weight) == len(findings)
    assert made.count(Weight.CONFLICT) == 0, "what needs a rack was replaced"
    assert made.refit.changes


def test_nothing_is_offered_where_nothing_fits() -> None:
    plan = builders.program("Mon: calf_raise 3x12")
    with pytest.raises(EditError, match="fits Jorunn Aske"):
        offer(
            plan,
            jorunn(equipment=frozenset()),
            builders.CATALOGUE,
            resources.range_book(),
            program_id=ProgramId("hers"),
            start=plan.start,
        )
