"""Checks: what the literature, the client and the calendar have to say about a program.

A check is one small function beside one entry of data (`resources/ranges`): the function knows
what to measure, the data how much, for whom and who says so. Checks never raise for bad training,
only for a program that names exercises nobody has.

What was found in a week is remembered by the identity of the week, so that a what-if during a
drag only looks at the weeks it touches.
"""

from __future__ import annotations

from collections.abc import Callable, Iterable, Iterator
from dataclasses import dataclass
from enum import Enum
from typing import Any

from app.domain.checks import possible, prescription, recurrence, volume
from app.domain.checks.context import Context
from app.domain.client import Client
from app.domain.exercise import Catalogue
from app.domain.facts import MOST_REMEMBERED, WeekFacts
from app.domain.findings import Finding, Weight
from app.domain.program import Program
from app.domain.ranges import RangeBook


class Reach(Enum):
    """What a rule looks at: one week, a week and the one before it, or all weeks."""

    WEEK = "week"
    PAIR = "pair"
    PROGRAM = "program"


@dataclass(frozen=True, slots=True)
class Rule:
    """A check by name.

    function: (week, context, index=) for a week, (before, week, context=, index=) for a pair,
    (weeks, context) for the program; each yields findings.
    """

    name: str
    function: Callable[..., Iterable[Finding]]
    reach: Reach = Reach.WEEK


RULES: tuple[Rule, ...] = (
    Rule("limitation", possible.limitation),
    Rule("equipment", possible.equipment),
    Rule("weekly_sets", volume.weekly_sets),
    Rule("weekly_frequency", recurrence.weekly_frequency),
    Rule("session_sets", volume.session_sets),
    Rule("rep_zone", prescription.rep_zone),
    Rule("load_zone", prescription.load_zone),
    Rule("effort", prescription.effort),
    Rule("rest", prescription.rest),
    Rule("session_minutes", possible.session_minutes),
    Rule("spacing", recurrence.spacing),
    Rule("spacing", recurrence.spacing_over_sunday, Reach.PAIR),
)
"""Every rule, in the order in which its findings stand within a week."""

_WEEK_RULES = tuple(rule.function for rule in RULES if rule.reach is Reach.WEEK)
_PAIR_RULES = tuple(rule.function for rule in RULES if rule.reach is Reach.PAIR)
_PROGRAM_RULES = tuple(rule.function for rule in RULES if rule.reach is Reach.PROGRAM)

ByWeight = tuple[tuple[Finding, ...], ...]
_NOTHING: ByWeight = ((),) * len(Weight)


class Memo:
    """What was found before, by the identity of weeks; starts afresh for another client.

    Holds for one client, catalogue, range book, start, curve and emphasis at a time, and for at
    most MOST_REMEMBERED weeks.
    """

    def __init__(self) -> None:
        self.context: Context | None = None
        self._weeks: dict[tuple[int, int], tuple[WeekFacts, ByWeight]] = {}
        self._pairs: dict[tuple[int, int, int], tuple[WeekFacts, WeekFacts, ByWeight]] = {}

    def for_(
        self, program: Program, client: Client, *, catalogue: Catalogue, ranges: RangeBook
    ) -> Context:
        """The context to check in, kept from the last time where it still holds."""
        if self.context is None or not self.context.suits(program, client, catalogue, ranges):
            self.context = Context(program, client, catalogue, ranges)
            self._weeks.clear()
            self._pairs.clear()
        return self.context

    def week(self, week: WeekFacts, context: Context, *, index: int) -> ByWeight:
        """Findings of one week."""
        key = (id(week), index)
        found = self._weeks.get(key)
        if found is None:
            if len(self._weeks) >= MOST_REMEMBERED:
                self._weeks.clear()
            answer = _by_weight(
                one for rule in _WEEK_RULES for one in rule(week, context, index=index)
            )
            found = self._weeks[key] = (week, answer)
        return found[1]

    def pair(self, before: WeekFacts, week: WeekFacts, *, context: Context, index: int) -> ByWeight:
        """Findings on a week in the light of the one before it."""
        key = (id(before), id(week), index)
        found = self._pairs.get(key)
        if found is None:
            if len(self._pairs) >= MOST_REMEMBERED:
                self._pairs.clear()
            answer = _by_weight(
                one
                for rule in _PAIR_RULES
                for one in rule(before, week, context=context, index=index)
            )
            found = self._pairs[key] = (before, week, answer)
        return found[2]


def _by_weight(findings: Iterable[Finding]) -> ByWeight:
    parts: tuple[list[Finding], ...] = tuple([] for _ in Weight)
    for finding in findings:
        parts[finding.weight].append(finding)
    return tuple(tuple(part) for part in parts) if any(parts) else _NOTHING


def check(
    program: Program,
    client: Client,
    catalogue: Catalogue,
    ranges: RangeBook,
    *,
    memo: Memo | None = None,
) -> tuple[Finding, ...]:
    """All findings: by weight, then the program's own before each week's, then by rule.

    memo: what was found before; the answer is the same with and without. Raises UnknownExercise
    for a program that names an exercise the catalogue does not hold.
    """
    memo = memo or Memo()
    context = memo.for_(program, client, catalogue=catalogue, ranges=ranges)
    weeks = [context.facts.week(week) for week in program.weeks]
    parts = [_by_weight(one for rule in _PROGRAM_RULES for one in rule(weeks, context))]
    for index, week in enumerate(weeks):
        parts.append(memo.week(week, context, index=index))
        if index:
            parts.append(memo.pair(weeks[index - 1], week, context=context, index=index))
    return tuple(one for weight in Weight for part in parts for one in part[weight])


def check_week(
    program: Program,
    index: int,
    *,
    client: Client,
    catalogue: Catalogue,
    ranges: RangeBook,
    memo: Memo | None = None,
) -> tuple[Finding, ...]:
    """Findings that stand in one week, those in the light of the week before included."""
    memo = memo or Memo()
    context = memo.for_(program, client, catalogue=catalogue, ranges=ranges)
    week = context.facts.week(program.weeks[index])
    parts = [memo.week(week, context, index=index)]
    if index:
        before = context.facts.week(program.weeks[index - 1])
        parts.append(memo.pair(before, week, context=context, index=index))
    return tuple(one for weight in Weight for part in parts for one in part[weight])


@dataclass(frozen=True, slots=True)
class Difference:
    """Findings that appear, and findings that vanish."""

    gained: tuple[Finding, ...]
    lost: tuple[Finding, ...]

    def __iter__(self) -> Iterator[Any]:
        return iter((self.gained, self.lost))


def difference(before: tuple[Finding, ...], after: tuple[Finding, ...]) -> Difference:
    """Which findings appear in `after` and which of `before` are gone, told by their ids.

    A finding that only measures something else now is neither.
    """
    # most findings are the same objects: only the others need their ids compared
    was, becomes = {id(one) for one in before}, {id(one) for one in after}
    new = [one for one in after if id(one) not in was]
    gone = [one for one in before if id(one) not in becomes]
    new_ids, gone_ids = {one.id for one in new}, {one.id for one in gone}
    return Difference(
        tuple(one for one in new if one.id not in gone_ids),
        tuple(one for one in gone if one.id not in new_ids),
    )
