"""One way for all tests of mends to ask: what is offered for a finding, and does it settle it?"""

from __future__ import annotations

from app.domain import checks
from app.domain.client import Client, Limitation, Side, Status
from app.domain.exercise import Joint, Motion
from app.domain.findings import Edit, Finding
from app.domain.mends import Mender
from app.domain.program import Program
from app.resources import range_book
from tests.builders import CATALOGUE, client

KNEE = Limitation(Joint.KNEE, Motion.FLEXION, Side.LEFT, past_degrees=90)
NOVICE = client(status=Status.NOVICE)


def found(plan: Program, who: Client, memo: checks.Memo | None = None) -> tuple[Finding, ...]:
    """All findings with the shipped ranges."""
    return checks.check(plan, who, CATALOGUE, range_book(), memo=memo)


def context(plan: Program, who: Client) -> checks.Context:
    """A context of its own."""
    return checks.Context(plan, who, CATALOGUE, range_book())


def first(rule: str, plan: Program, who: Client) -> Finding:
    """The first finding of a rule."""
    return next(one for one in found(plan, who) if one.rule == rule)


def offered(rule: str, plan: Program, who: Client) -> Edit | None:
    """The mend of the first finding of a rule."""
    return Mender(plan, context(plan, who)).mend(first(rule, plan, who))


def assert_settles(rule: str, plan: Program, who: Client, *, label: str) -> Program:
    """The mended program, once its label is right and the finding is gone."""
    finding = first(rule, plan, who)
    mend = Mender(plan, context(plan, who)).mend(finding)
    assert mend is not None
    assert mend.label == label
    after = mend(plan)
    assert finding.id not in {one.id for one in found(after, who)}
    return after
