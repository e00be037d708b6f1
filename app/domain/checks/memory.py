"""What was found before, remembered by the identity of weeks."""

from __future__ import annotations

from collections.abc import Iterable

from app.domain.checks.context import Context
from app.domain.checks.rules import RULES, Reach
from app.domain.client import Client
from app.domain.exercise import Catalogue
from app.domain.facts import MOST_REMEMBERED, WeekFacts
from app.domain.findings import Finding, Weight
from app.domain.program import Program
from app.domain.ranges import RangeBook
from app.domain.wording import language

_WEEK_RULES = tuple(rule.function for rule in RULES if rule.reach is Reach.WEEK)
_PAIR_RULES = tuple(rule.function for rule in RULES if rule.reach is Reach.PAIR)
_PROGRAM_RULES = tuple(rule.function for rule in RULES if rule.reach is Reach.PROGRAM)

ByWeight = tuple[tuple[Finding, ...], ...]
"""Findings in three parts, one for each weight."""
_NOTHING: ByWeight = ((),) * len(Weight)
_WHOLES_REMEMBERED = 64


class Memo:
    """What was found before, by the identity of weeks; starts afresh for another client.

    Holds for one language, client, catalogue, range book, start, curve and emphasis at a time, and
    for at most MOST_REMEMBERED weeks.
    """

    def __init__(self) -> None:
        self.context: Context | None = None
        self._spoken = language().code
        self._weeks: dict[tuple[int, int], tuple[WeekFacts, ByWeight]] = {}
        self._pairs: dict[tuple[int, int, int], tuple[WeekFacts, WeekFacts, ByWeight]] = {}
        self._wholes: dict[int, tuple[Program, tuple[Finding, ...]]] = {}

    def for_(
        self, program: Program, client: Client, *, catalogue: Catalogue, ranges: RangeBook
    ) -> Context:
        """The context to check in, kept from the last time where it still holds."""
        spoken = language().code
        suits = self.context is not None and self.context.suits(program, client, catalogue, ranges)
        if self.context is None or not suits or spoken != self._spoken:
            self._spoken = spoken
            self.context = Context(program, client, catalogue, ranges)
            self._weeks.clear()
            self._pairs.clear()
            self._wholes.clear()
        return self.context

    def whole(self, program: Program, context: Context) -> tuple[Finding, ...]:
        """Findings of the rules that look at all weeks."""
        found = self._wholes.get(id(program))
        if found is None:
            if len(self._wholes) >= _WHOLES_REMEMBERED:
                self._wholes.clear()
            weeks = [context.facts.week(week) for week in program.weeks]
            answer = tuple(one for rule in _PROGRAM_RULES for one in rule(weeks, context))
            found = self._wholes[id(program)] = (program, answer)
        return found[1]

    def week(self, week: WeekFacts, context: Context, *, index: int) -> ByWeight:
        """Findings of one week."""
        key = (id(week), index)
        found = self._weeks.get(key)
        if found is None:
            if len(self._weeks) >= MOST_REMEMBERED:
                self._weeks.clear()
            answer = by_weight(
                [one for rule in _WEEK_RULES for one in rule(week, context, index=index)]
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
            answer = by_weight(
                one
                for rule in _PAIR_RULES
                for one in rule(before, week, context=context, index=index)
            )
            found = self._pairs[key] = (before, week, answer)
        return found[2]


def by_weight(findings: Iterable[Finding]) -> ByWeight:
    """The findings in three parts, their order kept."""
    parts: tuple[list[Finding], ...] = tuple([] for _ in Weight)
    for finding in findings:
        parts[finding.weight].append(finding)
    return tuple(tuple(part) for part in parts) if any(parts) else _NOTHING
