"""What would become of a day: the rows of an open foot, and the verdict of every other day.

Pure: previews in, words out. The words are those of the checks; nothing is judged here that a
check does not say.
"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from enum import Enum

from app.desk import Preview
from app.domain.checks.context import Context
from app.domain.checks.say import amount
from app.domain.errors import CoachError
from app.domain.exercise import Exercise, Muscle
from app.domain.facts import WeekFacts
from app.domain.findings import Finding, Weight
from app.domain.muscle_groups import GROUP_OF, GROUPS, muscle_name
from app.domain.program import day_name
from app.domain.ranges import Range
from app.domain.session_time import whole_minutes
from app.domain.wording import tr

MOST_ROWS = 2
"""Muscles that a foot has room for."""


class Word(Enum):
    """What a day's foot says first."""

    FITS_BETTER = "Fits better"
    FITS = "Fits"
    HERE = "Here now"
    TOO_SOON = "Too soon"
    TOO_LONG = "Too long"
    NOT_FREE = "Not free"
    CONFLICT = "Conflict"
    OUTSIDE = "Outside"
    NOT_POSSIBLE = "Not possible"


@dataclass(frozen=True, slots=True)
class Row:
    """A number of a day or week before and after, with its range in words ('12–20', '60').

    cap: the range is what there is at most, and is not a range to be in.
    """

    name: str
    before: float
    after: float
    range_text: str
    cap: bool = False

    @property
    def text(self) -> str:
        """'Quadriceps 10 → 13 of 12–20'."""
        change = amount(self.after)
        if amount(self.before) != change:
            change = f"{amount(self.before)} → {change}"
        if not self.range_text:
            return f"{self.name} {change}"
        if self.cap or "–" in self.range_text:
            return tr(
                "{name} {change} of {cap}", name=self.name, change=change, cap=self.range_text
            )
        return f"{self.name} {change}, {self.range_text}"


@dataclass(frozen=True, slots=True)
class Verdict:
    """What one day's foot says while something is carried elsewhere."""

    day: int
    word: Word
    lines: tuple[str, ...]


# -- rows --------------------------------------------------------------------------------------


def muscle_rows(
    before: WeekFacts,
    after: WeekFacts,
    context: Context,
    *,
    muscles: tuple[Muscle, ...],
    index: int,
) -> tuple[Row, ...]:
    """Sets of the week before and after for the muscles involved.

    First what changes, of that the emphasised, of those what is led away from its range.
    """
    rows: dict[str, tuple[tuple[bool, bool, bool], Row]] = {}
    for muscle in muscles:
        emphasised = muscle in context.emphasis
        if emphasised:
            name, was, becomes = (
                muscle_name(muscle),
                before.sets.get(muscle, 0.0),
                after.sets.get(muscle, 0.0),
            )
        else:
            number = GROUP_OF[muscle]
            name = tr(GROUPS[number].name)
            was, becomes = before.by_group[number], after.by_group[number]
        kind = "emphasised" if emphasised else "other"
        band = context.band("weekly_sets", kind, index=index)
        worse = _gap(band, becomes) > _gap(band, was)
        row = Row(name, was, becomes, _words(band))
        rows.setdefault(name, ((was == becomes, not emphasised, not worse), row))
    ranked = sorted(rows.values(), key=lambda pair: pair[0])
    return tuple(row for _, row in ranked[:MOST_ROWS])


def _gap(band: Range | None, sets: float) -> float:
    return 0.0 if band is None else band.short_by(sets) + band.over_by(sets)


def _words(band: Range | None) -> str:
    return "" if band is None else band.text


def minutes_row(before: WeekFacts, after: WeekFacts, *, day: int, cap_min: int) -> Row:
    """Minutes of the day before and after, beside the client's own."""
    was, becomes = (whole_minutes(facts.minutes_by_day[day]) for facts in (before, after))
    return Row(tr("Minutes"), was, becomes, str(cap_min) if cap_min else "", cap=bool(cap_min))


def muscles_of(exercises: tuple[Exercise, ...]) -> tuple[Muscle, ...]:
    """Muscles that the exercises train, prime movers first, each once."""
    primes = [muscle for exercise in exercises for muscle in exercise.primes]
    helpers = [muscle for exercise in exercises for muscle in exercise.helpers]
    return tuple(dict.fromkeys((*primes, *helpers)))


# -- findings in few words ---------------------------------------------------------------------


def short_text(finding: Finding) -> str:
    """The finding in the few words that a foot has room for."""
    if finding.rule == "session_minutes" and finding.measured and finding.range:
        over = finding.range.over_by(finding.measured)
        if finding.range.high:
            return tr("{over} min over the cap", over=amount(over))
    if finding.rule == "weekly_sets" and finding.below is not None:
        name = finding.text.split(" ", 1)[0] if not finding.about else _about(finding.about)
        return (
            tr("{muscle} short", muscle=name) if finding.below else tr("{muscle} over", muscle=name)
        )
    return finding.text


def _about(key: str) -> str:
    group = next((g for g in GROUPS if g.key == key), None)
    return tr(group.name) if group else muscle_name(Muscle(key))


def of_week(findings: tuple[Finding, ...], preview: Preview, index: int) -> tuple[Finding, ...]:
    """Those of the findings that stand in week `index`, heaviest first."""
    ids = {preview.before.weeks[index].id, preview.after.weeks[index].id}
    return tuple(sorted((f for f in findings if f.place.week in ids), key=lambda f: f.weight))


def spacing_text(finding: Finding, day: int) -> str:
    """'24 h after Monday' for the later of two days, '24 h before Thursday' for the earlier."""
    hours = finding.measured or 0.0
    later = finding.place.day if finding.place.day is not None else day
    if not hours:
        return tr("twice on the same day")
    if later == day:
        return tr(
            "{hours} h after {day_name}",
            hours=amount(hours),
            day_name=day_name((later - round(hours / 24)) % 7),
        )
    return tr("{hours} h before {day_name}", hours=amount(hours), day_name=day_name(later))


# -- verdicts ----------------------------------------------------------------------------------


@dataclass(frozen=True, slots=True)
class Question:
    """What verdicts are asked about: where, for whom, which muscles, and days it stands on now."""

    context: Context
    index: int
    muscles: tuple[Muscle, ...]
    home: frozenset[int] = frozenset()


def verdicts(
    outcomes: Mapping[int, Preview | CoachError], question: Question
) -> tuple[Verdict, ...]:
    """The verdict of every day, from what putting it there would do.

    At most one day fits better: the one where most findings would go, on balance.
    """
    plain = {day: _verdict(day, outcome, question) for day, outcome in outcomes.items()}
    balance = {
        day: _balance(outcome, question.index)
        for day, outcome in outcomes.items()
        if isinstance(outcome, Preview) and plain[day].word is Word.FITS
    }
    best = max(balance, key=lambda day: (balance[day], -day), default=None)
    if best is not None and balance[best] > 0:
        old = plain[best]
        plain[best] = Verdict(best, Word.FITS_BETTER, old.lines)
    return tuple(plain[day] for day in sorted(plain))


_WORTH = {Weight.CONFLICT: 10.0, Weight.OUTSIDE: 3.0, Weight.REMARK: 1.0}


def _balance(preview: Preview, index: int) -> float:
    """What would go less what would appear in the open week, the heavier counting more."""
    gone = sum(_WORTH[f.weight] for f in of_week(preview.lost, preview, index))
    come = sum(_WORTH[f.weight] for f in of_week(preview.gained, preview, index))
    return gone - come


def _verdict(day: int, outcome: Preview | CoachError, question: Question) -> Verdict:
    free = question.context.client.free[day]
    if isinstance(outcome, CoachError):
        return Verdict(day, Word.NOT_POSSIBLE, (outcome.what,))
    if free.minutes == 0 and any(f.minutes for f in question.context.client.free):
        return Verdict(day, Word.NOT_FREE, (free.note,) if free.note else ())
    gained = of_week(outcome.gained, outcome, question.index)
    soon = [f for f in gained if f.rule == "spacing"]
    lines = _lines(day, outcome, question)
    if day in question.home:
        return Verdict(day, Word.HERE, lines[-1:])
    forbidden = [f for f in gained if f.weight is Weight.CONFLICT]
    if forbidden:
        return Verdict(day, Word.CONFLICT, (short_text(forbidden[0]),))
    if soon:
        return Verdict(day, Word.TOO_SOON, (spacing_text(soon[0], day),))
    if _runs_over(day, outcome, question):
        return Verdict(day, Word.TOO_LONG, lines[-1:])
    outside = [f for f in gained if f.weight is Weight.OUTSIDE]
    if outside:
        return Verdict(day, Word.OUTSIDE, (short_text(outside[0]), lines[-1]))
    return Verdict(day, Word.FITS, lines)


def _runs_over(day: int, preview: Preview, question: Question) -> bool:
    """True if the day would end past the client's time, later than it does now."""
    facts, cap_min = question.context.facts, question.context.client.free[day].minutes
    before, after = (
        whole_minutes(facts.week(p.weeks[question.index]).minutes_by_day[day])
        for p in (preview.before, preview.after)
    )
    return bool(cap_min) and after > max(cap_min, before)


def _lines(day: int, preview: Preview, question: Question) -> tuple[str, ...]:
    """The first muscle that changes, and the day's minutes."""
    context, index = question.context, question.index
    before = context.facts.week(preview.before.weeks[index])
    after = context.facts.week(preview.after.weeks[index])
    rows = muscle_rows(before, after, context, muscles=question.muscles, index=index)
    changed = tuple(row.text for row in rows if row.before != row.after)[:1]
    minutes = minutes_row(before, after, day=day, cap_min=context.client.free[day].minutes)
    return (*changed, minutes.text)
