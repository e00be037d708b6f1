"""Ranges: rules of thumb from the literature, for whom they hold and who says so.

The shipped ranges are data (`resources/ranges`); a coach's own stand on top of them, with who
changed what and why. A range advises: it never treats.
"""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from dataclasses import dataclass, fields, replace
from datetime import date
from math import isfinite
from types import MappingProxyType

from app.domain.client import Goal, Status
from app.domain.errors import ResourceError
from app.domain.wording import number_as_spoken, tr


@dataclass(frozen=True, slots=True)
class Who:
    """Whom a range is for. Empty tuples mean everybody.

    Ages, years, and weeks of the plan, counted from 1, are inclusive.
    """

    status: tuple[Status, ...] = ()
    goal: tuple[Goal, ...] = ()
    kind: tuple[str, ...] = ()  # what it applies to: 'emphasised', 'other', 'multi_joint', ...
    age_low: int | None = None
    age_high: int | None = None
    week_low: int | None = None
    week_high: int | None = None

    def covers(
        self, status: Status, goal: Goal, *, kind: str, age: int | None, week: int | None = None
    ) -> bool:
        """True if a client of that status, goal and age is meant, for that kind of thing.

        week: the plan's age, 1 in its first week; None where it does not matter.
        """
        return (
            (not self.status or status in self.status)
            and (not self.goal or goal in self.goal)
            and (not self.kind or kind in self.kind)
            and (self.age_low is None or (age is not None and age >= self.age_low))
            and (self.age_high is None or (age is not None and age <= self.age_high))
            and (self.week_low is None or (week is not None and week >= self.week_low))
            and (self.week_high is None or (week is not None and week <= self.week_high))
        )

    @property
    def precision(self) -> int:
        """How many conditions it sets; the most precise range that covers a client is used."""
        return sum(bool(part) for part in (self.status, self.goal, self.kind)) + sum(
            edge is not None
            for edge in (self.age_low, self.age_high, self.week_low, self.week_high)
        )


@dataclass(frozen=True, slots=True)
class Range:
    """One range: low and high (None: open), unit, for whom, source and plain reason.

    weight: which finding leaving it makes, 'conflict', 'outside' or 'remark';
    source: a key of the references, or 'common practice', or 'value from memory'; note: whom the
    source looked at, or what it says ('trained young men').
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
    note: str = ""

    def __contains__(self, value: float) -> bool:
        return (self.low is None or value >= self.low) and (self.high is None or value <= self.high)

    @property
    def text(self) -> str:
        """The range in words: '12–20', 'from 4', 'up to 60'; without its unit."""
        if self.low is None:
            return "" if self.high is None else tr("up to {high:g}", high=self.high)
        if self.high is None:
            return tr("from {low:g}", low=self.low)
        text = f"{self.low:g}" if self.low == self.high else f"{self.low:g}–{self.high:g}"
        return number_as_spoken(text)

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
        self,
        rule: str,
        status: Status,
        *,
        goal: Goal,
        kind: str = "",
        age: int | None = None,
        week: int | None = None,
    ) -> Range | None:
        """The range of `rule` that holds for such a client: the coach's own before any shipped one.

        Among the coach's own, and among the shipped ones, the most precise wins; of equally
        precise ones of the coach's own the newest.
        """
        own = tuple(o.range for o in reversed(self.overrides) if o.range.rule == rule)
        fitting = [
            r
            for r in (*own, *self.ranges.get(rule, ()))
            if r.who.covers(status, goal, kind=kind, age=age, week=week)
        ]
        return max(fitting, key=lambda r: (r.own, r.who.precision), default=None)

    def with_own(self, override: Override) -> RangeBook:
        """A book in which the coach's own range stands on top.

        Raises ResourceError for a rule that no shipped range has, ends that are no numbers or
        stand the wrong way round, and an empty unit, source, name or reason.
        """
        self._refuse_unsound(override)
        mine = replace(override, range=replace(override.range, own=True))
        return RangeBook(self.ranges, (*self.overrides, mine))

    def _refuse_unsound(self, override: Override) -> None:
        one = override.range
        where = tr("own range for {rule}", rule=one.rule)
        if one.rule not in self.ranges:
            from difflib import get_close_matches

            near = get_close_matches(one.rule, self.ranges, n=1)
            raise ResourceError(
                tr("There is no rule {rule!r}.", rule=one.rule),
                where=where,
                mend=tr("Did you mean {first!r}?", first=near[0])
                if near
                else tr("Choose one that is shipped."),
            )
        for name, edge in (("low", one.low), ("high", one.high)):
            if edge is not None and not isfinite(edge):
                raise ResourceError(
                    tr("{name} {edge} is no number.", name=name, edge=edge),
                    where=where,
                    mend=tr("Write a finite number."),
                )
        if one.low is None and one.high is None:
            raise ResourceError(
                tr("Both ends are open."), where=where, mend=tr("Write one of them.")
            )
        if one.low is not None and one.high is not None and one.low > one.high:
            raise ResourceError(
                tr("low {low:g} lies above high {high:g}.", low=one.low, high=one.high),
                where=where,
                mend=tr("Swap them."),
            )
        for name, text in (
            ("unit", one.unit),
            ("source", one.source),
            (tr("name of who sets it"), override.by),
            ("reason", override.why),
        ):
            if not text.strip():
                raise ResourceError(
                    tr("The {name} is missing.", name=name), where=where, mend=tr("Write it.")
                )

    def without_own(self, rule: str, who: Who) -> RangeBook:
        """A book in which the shipped range of that rule for those people holds again."""
        kept = tuple(o for o in self.overrides if (o.range.rule, o.range.who) != (rule, who))
        return RangeBook(self.ranges, kept)


def range_book_from_mappings(tables: Iterable[Mapping[str, object]]) -> RangeBook:
    """The book that the tables of `resources/ranges` make together, read as plain mappings.

    A table maps the name of a rule to its entries: low and high (either may be left out), unit,
    source, and optionally who, weight, reason and note. Raises ResourceError naming the entry.
    """
    book: dict[str, list[Range]] = {}
    for table in tables:
        for rule, entries in table.items():
            if not isinstance(entries, list):
                raise ResourceError(
                    tr("{rule} is not a list of ranges.", rule=rule),
                    where=tr("ranges"),
                    mend=tr("Write [[{rule}]].", rule=rule),
                )
            for number, entry in enumerate(entries, start=1):
                book.setdefault(rule, []).append(_range_from(rule, number, entry))
    return RangeBook(MappingProxyType({rule: tuple(ranges) for rule, ranges in book.items()}))


_WEIGHTS = ("conflict", "outside", "remark")
_TEXTS = ("unit", "source", "weight", "reason", "note")


def _range_from(rule: str, number: int, entry: object) -> Range:
    """One entry as a range. Raises ResourceError for anything it does not know."""
    where = tr("ranges, {rule}, entry {number}", rule=rule, number=number)
    if not isinstance(entry, Mapping):
        raise ResourceError(
            tr("An entry is not a table."), where=where, mend=tr("Write [[{rule}]].", rule=rule)
        )
    known = {"low", "high", "who", *_TEXTS}
    for name in entry:
        if name not in known:
            allowed = ", ".join(sorted(known))
            raise ResourceError(
                tr("{name!r} is unknown.", name=name),
                where=where,
                mend=tr("Use {allowed}.", allowed=allowed),
            )
    texts = {name: _text(entry, name, where) for name in _TEXTS if name in entry}
    if not texts.get("unit") or not texts.get("source"):
        raise ResourceError(
            tr("A unit or a source is missing."), where=where, mend=tr("Write both.")
        )
    if texts.get("weight", "outside") not in _WEIGHTS:
        raise ResourceError(
            tr("{weight!r} is no weight.", weight=texts["weight"]),
            where=where,
            mend=tr("Use {weights}.", weights=", ".join(_WEIGHTS)),
        )
    low, high = _number(entry, "low", where), _number(entry, "high", where)
    if low is not None and high is not None and low > high:
        raise ResourceError(
            tr("low {low:g} lies above high {high:g}.", low=low, high=high),
            where=where,
            mend=tr("Swap them."),
        )
    return Range(
        rule,
        low,
        high,
        unit=texts["unit"],
        source=texts["source"],
        reason=texts.get("reason", ""),
        who=_who_from(entry.get("who", {}), where),
        weight=texts.get("weight", "outside"),
        note=texts.get("note", ""),
    )


def _text(entry: Mapping[str, object], name: str, where: str) -> str:
    value = entry[name]
    if not isinstance(value, str):
        raise ResourceError(
            tr("{name} {value!r} is no text.", name=name, value=value),
            where=where,
            mend=tr("Put it in quotes."),
        )
    return value


def _number(entry: Mapping[str, object], name: str, where: str) -> float | None:
    value = entry.get(name)
    if value is None or (isinstance(value, int | float) and not isinstance(value, bool)):
        return value
    raise ResourceError(
        tr("{name} {value!r} is no number.", name=name, value=value),
        where=where,
        mend=tr("Write a number."),
    )


def _who_from(entry: object, where: str) -> Who:
    """The conditions of an entry."""
    if not isinstance(entry, Mapping):
        raise ResourceError(tr("who is not a table."), where=where, mend=tr("Write who = { ... }."))
    names = tuple(field.name for field in fields(Who))
    for name in entry:
        if name not in names:
            raise ResourceError(
                tr("who has no {name!r}.", name=name),
                where=where,
                mend=tr("Use {names}.", names=", ".join(names)),
            )
    edges = {
        name: None if (edge := _number(entry, name, where)) is None else int(edge)
        for name in names
        if name.endswith(("_low", "_high"))
    }
    try:
        status = tuple(Status(value) for value in entry.get("status", ()))
        goal = tuple(Goal(value) for value in entry.get("goal", ()))
    except ValueError as error:
        allowed = ", ".join([*Status, *Goal])
        raise ResourceError(
            f"{error}.", where=where, mend=tr("Use one of {allowed}.", allowed=allowed)
        ) from None
    kind = tuple(str(value) for value in entry.get("kind", ()))
    return Who(status=status, goal=goal, kind=kind, **edges)
