"""Checks: what the literature, the client and the calendar have to say about a program.

A check is one small function beside one entry of data (`resources/ranges`): the function knows
what to measure, the data how much, for whom and who says so. Checks never raise for bad training,
only for a program that names exercises nobody has.

What was found in a week is remembered by the identity of the week, so that a what-if during a
drag only looks at the weeks it touches.
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from dataclasses import dataclass
from typing import Any

from app.domain.checks.context import Context
from app.domain.checks.memory import ByWeight, Memo, by_weight
from app.domain.checks.rules import RULES, Reach, Rule
from app.domain.client import Client
from app.domain.exercise import Catalogue
from app.domain.findings import Finding, Weight
from app.domain.program import Program, WeekId
from app.domain.ranges import RangeBook

__all__ = [
    "RULES",
    "Context",
    "Difference",
    "Memo",
    "Reach",
    "Rule",
    "check",
    "check_week",
    "difference",
    "what_if",
]


def check(
    program: Program,
    client: Client,
    catalogue: Catalogue,
    ranges: RangeBook,
    *,
    memo: Memo | None = None,
) -> tuple[Finding, ...]:
    """All findings: by weight, then week (the whole program's first), then by rule.

    memo: what was found before; the answer is the same with and without. Raises UnknownExercise
    for a program that names an exercise the catalogue does not hold.
    """
    memo = memo or Memo()
    context = memo.for_(program, client, catalogue=catalogue, ranges=ranges)
    weeks = [context.facts.week(week) for week in program.weeks]
    whole = memo.whole(program, context)
    parts = [by_weight(one for one in whole if one.place.week is None)]
    placed: dict[WeekId, list[Finding]] = {}
    for one in whole:
        if one.place.week is not None:
            placed.setdefault(one.place.week, []).append(one)
    for index, week in enumerate(weeks):
        parts.append(memo.week(week, context, index=index))
        if index:
            parts.append(memo.pair(weeks[index - 1], week, context=context, index=index))
        if week.week.id in placed:
            parts.append(by_weight(placed[week.week.id]))
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
    """Findings on one week and in the light of the week before, without the whole program's."""
    memo = memo or Memo()
    context = memo.for_(program, client, catalogue=catalogue, ranges=ranges)
    parts = _week_parts(program, index, memo=memo, context=context)
    return tuple(one for weight in Weight for part in parts for one in part[weight])


def _week_parts(
    program: Program, index: int, *, memo: Memo, context: Context
) -> tuple[ByWeight, ...]:
    week = context.facts.week(program.weeks[index])
    alone = memo.week(week, context, index=index)
    if not index:
        return (alone,)
    before = context.facts.week(program.weeks[index - 1])
    return alone, memo.pair(before, week, context=context, index=index)


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
    was, becomes = set(map(id, before)), set(map(id, after))
    new = [one for one in after if id(one) not in was]
    gone = [one for one in before if id(one) not in becomes]
    new_ids, gone_ids = {one.id for one in new}, {one.id for one in gone}
    return Difference(
        tuple(one for one in new if one.id not in gone_ids),
        tuple(one for one in gone if one.id not in new_ids),
    )


def what_if(
    before: Program,
    after: Program,
    *,
    client: Client,
    catalogue: Catalogue,
    ranges: RangeBook,
    memo: Memo,
) -> Difference:
    """The difference that an edit makes to the findings; only the weeks it touched are looked at.

    The same as `difference(check(before), check(after))`, for a drag that asks many times.
    """
    context = memo.for_(after, client, catalogue=catalogue, ranges=ranges)
    if len(before.weeks) != len(after.weeks) or not context.suits(
        before, client, catalogue, ranges
    ):
        was = check(before, client, catalogue, ranges)
        return difference(was, check(after, client, catalogue, ranges, memo=memo))
    touched = [
        index
        for index, (old, new) in enumerate(zip(before.weeks, after.weeks, strict=True))
        if old is not new
    ]
    touched = sorted({*touched, *(i + 1 for i in touched if i + 1 < len(after.weeks))})
    was, becomes = (
        tuple(_findings_on(program, touched, memo=memo, context=context))
        for program in (before, after)
    )
    return difference(was, becomes)


def _findings_on(
    program: Program, indices: Iterable[int], *, memo: Memo, context: Context
) -> Iterator[Finding]:
    whole = memo.whole(program, context)
    parts = [by_weight(whole)]
    for index in indices:
        parts += _week_parts(program, index, memo=memo, context=context)
    for weight in Weight:
        for part in parts:
            yield from part[weight]
