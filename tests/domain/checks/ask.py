"""One way for all tests of checks to ask: which findings of a rule does this plan raise?"""

from __future__ import annotations

from dataclasses import replace
from typing import Any

from app.domain import checks
from app.domain.client import Client
from app.domain.findings import Finding
from app.domain.program import Block
from app.domain.ranges import RangeBook
from app.resources import range_book
from tests.builders import CATALOGUE, client, program


def findings(
    rule: str,
    *weeks: str,
    who: Client | None = None,
    plan_week: int = 7,
    book: RangeBook | None = None,
    **fields: Any,
) -> list[Finding]:
    """Findings of `rule` on a program whose first written week is week `plan_week` of the plan.

    The weeks before are left empty.
    """
    built = program(*[""] * (plan_week - 1), *weeks, **fields)
    built = replace(built, blocks=(Block("Base", len(built.weeks)),))
    found = checks.check(built, who or client(), CATALOGUE, book or range_book())
    return [one for one in found if one.rule == rule]


def texts(rule: str, *weeks: str, **options: Any) -> list[str]:
    """The sentences of `findings`."""
    return [one.text for one in findings(rule, *weeks, **options)]
