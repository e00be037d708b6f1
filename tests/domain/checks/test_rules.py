"""Rules and their data are the same set, and every entry says where it comes from."""

from __future__ import annotations

import inspect
import json
from pathlib import Path

import pytest

from app.domain.checks import RULES, Reach, Rule
from app.domain.working import UNSOURCED
from app.resources import range_book

ROOT = Path(__file__).parents[3]
PARAMETERS = {
    Reach.WEEK: ["week", "context", "index"],
    Reach.PAIR: ["before", "week", "context", "index"],
    Reach.PROGRAM: ["weeks", "context"],
}


def test_rules_and_data_are_the_same_set() -> None:
    assert set(range_book().ranges) == {rule.name for rule in RULES}


def test_every_range_has_a_source_that_can_be_looked_up_and_a_reason() -> None:
    references = json.loads((ROOT / "resources" / "references.json").read_text("utf-8"))
    known = {entry["id"] for entry in references} | set(UNSOURCED)
    for ranges in range_book().ranges.values():
        for one in ranges:
            assert one.source in known
            assert one.reason.endswith(".")


@pytest.mark.parametrize("rule", RULES, ids=lambda rule: f"{rule.name}-{rule.reach.value}")
def test_a_rule_states_its_reach_by_its_signature(rule: Rule) -> None:
    assert list(inspect.signature(rule.function).parameters) == PARAMETERS[rule.reach]
    assert inspect.getdoc(rule.function)


def test_there_are_at_least_twenty_rules() -> None:
    assert len({rule.name for rule in RULES}) >= 20
