"""Ranges: rules of thumb from the literature, for whom they hold and who says so.

The shipped ranges are data (`resources/ranges`); a coach's own stand on top of them, with who
changed what and why. A range advises: it never treats.
"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, replace
from datetime import date

from app.domain.client import Goal, Status


@dataclass(frozen=True, slots=True)
class Who:
    """Whom a range is for. Empty tuples mean everybody; ages are inclusive, years."""

    status: tuple[Status, ...] = ()
    goal: tuple[Goal, ...] = ()
    kind: tuple[str, ...] = ()  # what it applies to: 'emphasised', 'other', 'multi_joint', ...
    age_low: int | None = None
    age_high: int | None = None

    def covers(self, status: Status, goal: Goal, *, kind: str, age: int | None) -> bool:
        """True if a client of that status, goal and age is meant, for that kind of thing."""
        return (
            (not self.status or status in self.status)
            and (not self.goal or goal in self.goal)
            and (not self.kind or kind in self.kind)
            and (self.age_low is None or (age is not None and age >= self.age_low))
            and (self.age_high is None or (age is not None and age <= self.age_high))
        )

    @property
    def precision(self) -> int:
        """How many conditions it sets; the most precise range that covers a client is used."""
        return sum(
            bool(part) for part in (self.status, self.goal, self.kind)
        ) + sum(edge is not None for edge in (self.age_low, self.age_high))


@dataclass(frozen=True, slots=True)
class Range:
    """One range: low and high (None: open), unit, for whom, source and plain reason.

    weight: which finding leaving it makes, 'conflict', 'outside' or 'remark';
    source: a key of the references, or 'common practice', or 'value from memory'.
    """

    rule: str
    low: float | None
    high: float | None
    unit: str
    source: str
    reason: str = ""
    who: Who = Who()
    weight: str = "outside"
    own: bool = False

    def __contains__(self, value: float) -> bool:
        return (self.low is None or value >= self.low) and (
            self.high is None or value <= self.high
        )

    def short_by(self, value: float) -> float:
        """How far `value` lies below the low end; 0 if it does not."""
        return max(0.0, self.low - value) if self.low is not None else 0.0

    def over_by(self, value: float) -> float:
        """How far `value` lies above the high end; 0 if it does not."""
        return max(0.0, value - self.high) if self.high is not None else 0.0


@dataclass(frozen=True, slots=True)
class Override:
    """A coach's own range in the place of a shipped one: who, when and why."""

    range: Range
    by: str
    on: date
    why: str


@dataclass(frozen=True, slots=True, eq=False)
class RangeBook:
    """All ranges by rule, with the coach's own on top. Compared by identity."""

    ranges: Mapping[str, tuple[Range, ...]]
    overrides: tuple[Override, ...] = ()

    def find(
        self, rule: str, status: Status, *, goal: Goal, kind: str = "", age: int | None = None
    ) -> Range | None:
        """The most precise range of `rule` that covers such a client; own ones win ties."""
        own = tuple(o.range for o in self.overrides if o.range.rule == rule)
        fitting = [
            r
            for r in (*own, *self.ranges.get(rule, ()))
            if r.who.covers(status, goal, kind=kind, age=age)
        ]
        return max(fitting, key=lambda r: (r.who.precision, r.own), default=None)

    def with_own(self, override: Override) -> RangeBook:
        """A book in which the coach's own range stands on top."""
        mine = replace(override, range=replace(override.range, own=True))
        return RangeBook(self.ranges, (*self.overrides, mine))
