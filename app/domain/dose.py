"""How much a week asks for: sets per muscle, sessions per muscle, minutes, tonnage, zones.

A set counts 1 for a prime mover; for a muscle that helps it counts a part (the data of the
exercise, usually a half), all or nothing, by the way of counting. Counting parts fitted the
trials best (pelland2024). Warm-up drills are no working sets and count for nothing.
"""

from __future__ import annotations

from collections.abc import Callable, Iterable, Mapping
from enum import StrEnum
from itertools import pairwise

from app.domain.curve import Curve, find_curve
from app.domain.effort import Effort, Rir, fraction, require_reps
from app.domain.errors import CoachError
from app.domain.exercise import Catalogue, Exercise, LoadKind, Muscle, Pattern
from app.domain.lead_up import usual_sets
from app.domain.muscle_groups import Group, muscle_name
from app.domain.program import Program, Session, Slot, Week, day_name
from app.domain.session_time import (
    Minutes,
    Pace,
    ramp_minutes,
    session_minutes,
    start_minutes,
    whole_minutes,
)
from app.domain.units import require, require_whole
from app.domain.wording import mark, mid_sentence, tr, trn
from app.domain.working import COMMON_PRACTICE, Line, Working

__all__ = [
    "Counting",
    "Minutes",
    "Pace",
    "RepZone",
    "extra_gain_percent",
    "frequency",
    "frequency_working",
    "group_working",
    "hours_between",
    "intensity_distribution",
    "load_serves",
    "minutes_working",
    "program_intensity",
    "program_minutes",
    "program_rep_zones",
    "program_sets",
    "rep_zone",
    "rep_zones",
    "session_minutes",
    "session_sets",
    "sets_working",
    "start_minutes",
    "strength_effect",
    "tonnage_kg",
    "volume_band",
    "weekly_sets",
]

TRAINED_FROM = 1.0
"""Fractional sets from which a session counts as training a muscle. Common practice."""


class Counting(StrEnum):
    """What a set counts for a muscle that only helps: its part, nothing, or as much as any."""

    FRACTIONAL = "fractional"
    DIRECT = "direct"
    TOTAL = "total"


def find_counting(counting: Counting | str) -> Counting:
    """The way of counting of that name. Raises CoachError for others."""
    try:
        return Counting(counting)
    except ValueError:
        raise CoachError(
            tr("There is no way of counting sets {counting!r}.", counting=counting),
            mend=tr("Choose one of {counting}.", counting=", ".join(Counting)),
        ) from None


def session_sets(
    session: Session, catalogue: Catalogue, counting: Counting | str = Counting.FRACTIONAL
) -> Mapping[Muscle, float]:
    """Sets of one session for each muscle that gets any, in the order of `Muscle`."""
    return _sets(session.slots, catalogue, counting)


def weekly_sets(
    week: Week, catalogue: Catalogue, counting: Counting | str = Counting.FRACTIONAL
) -> Mapping[Muscle, float]:
    """Sets of one week for each muscle that gets any, in the order of `Muscle`."""
    return _sets(week.slots(), catalogue, counting)


def program_sets(
    program: Program, catalogue: Catalogue, counting: Counting | str = Counting.FRACTIONAL
) -> tuple[Mapping[Muscle, float], ...]:
    """Sets per muscle of every week of the program."""
    return tuple(weekly_sets(week, catalogue, counting) for week in program.weeks)


def _sets(
    slots: Iterable[Slot], catalogue: Catalogue, counting: Counting | str
) -> Mapping[Muscle, float]:
    counting = find_counting(counting)
    total = dict.fromkeys(Muscle, 0.0)
    for slot in slots:
        exercise = catalogue[slot.exercise]
        if exercise.pattern is Pattern.DRILL:
            continue
        for work in exercise.work:
            total[work.muscle] += slot.sets * _part(work.fraction, counting)
    return {muscle: sets for muscle, sets in total.items() if sets}


def _part(part: float, counting: Counting) -> float:
    match counting:
        case Counting.FRACTIONAL:
            return part
        case Counting.DIRECT:
            return 1.0 if part >= 1.0 else 0.0
        case Counting.TOTAL:
            return 1.0 if part > 0 else 0.0


def frequency(week: Week, catalogue: Catalogue) -> Mapping[Muscle, int]:
    """Sessions of the week that train each muscle: those with at least one fractional set for it.

    Muscles that no session trains are left out.
    """
    count: dict[Muscle, int] = {}
    for _, session in week.sessions():
        for muscle, sets in session_sets(session, catalogue).items():
            if sets >= TRAINED_FROM:
                count[muscle] = count.get(muscle, 0) + 1
    return {muscle: count[muscle] for muscle in Muscle if muscle in count}


def hours_between(week: Week, catalogue: Catalogue) -> Mapping[Muscle, tuple[int, ...]]:
    """Hours from each session of the week that trains a muscle to the next one that does.

    The last number leads to the first session of the same week a week later, as if the week came
    again; two sessions of one day are 0 hours apart.
    """
    days: dict[Muscle, list[int]] = {}
    for day, session in week.sessions():
        for muscle, sets in session_sets(session, catalogue).items():
            if sets >= TRAINED_FROM:
                days.setdefault(muscle, []).append(day)
    return {
        muscle: tuple(
            24 * (later - day) for day, later in pairwise((*days[muscle], days[muscle][0] + 7))
        )
        for muscle in Muscle
        if muscle in days
    }


VOLUME_BANDS = (
    (5.0, mark("low (<5)")),
    (10.0, mark("medium (5-9)")),
    (float("inf"), mark("high (10+)")),
)
"""Weekly sets as a meta-analysis banded them, each with the first number past it; more grew more,
as a trend only. Source: schoenfeld2017-volume."""

GAIN_PER_SET = 0.37
"""% of growth that each weekly set more went with. Source: schoenfeld2017-volume."""

STRENGTH_BY_SESSIONS = (0.74, 0.82, 0.93, 1.08)
"""Effect on strength of 1, 2, 3, and 4 or more sessions a week; no difference at equal volume.

Source: grgic2018-frequency.
"""

STRENGTH_FROM, POWER_FROM, POWER_TO = 80.0, 30.0, 70.0
"""% of 1RM that serve strength, and power where the bar is meant to move fast (acsm2026)."""


def volume_band(sets: float) -> str:
    """The band of a meta-analysis that so many weekly sets lie in: 'medium (5-9)'.

    Raises QuantityError outside 0 to 10,000 sets.
    """
    require("weekly sets", sets, low=0, high=10_000)
    return tr(next(name for end, name in VOLUME_BANDS if sets < end))


def extra_gain_percent(extra_sets: float) -> float:
    """Growth that went with so many weekly sets more, % on average; to teach, not to promise.

    extra_sets: below 0 for fewer. Raises QuantityError past 100 sets either way.
    """
    require("weekly sets more", extra_sets, low=-100, high=100)
    return extra_sets * GAIN_PER_SET


def strength_effect(sessions: int) -> float:
    """The effect size on strength that so many weekly sessions had in trials.

    Raises QuantityError below one session.
    """
    require_whole("sessions", sessions, low=1, high=28)
    return STRENGTH_BY_SESSIONS[min(sessions, len(STRENGTH_BY_SESSIONS)) - 1]


def load_serves(percent: float) -> tuple[str, ...]:
    """What a load of so many % of 1RM is advised for: 'strength', 'power' or neither.

    Raises QuantityError outside 0 to 150 %: a load set by hand may lie past a low estimate.
    """
    require("per cent of 1RM", percent, low=0, high=150)
    serves = []
    if percent >= STRENGTH_FROM:
        serves.append("strength")
    if POWER_FROM <= percent <= POWER_TO:
        serves.append("power")
    return tuple(serves)


class RepZone(StrEnum):
    """Zones of repetitions, as the continuum has them (schoenfeld2021-continuum: 1-5, 8-12, 15
    and more). Where its zones leave a gap the edge is drawn by common practice.
    """

    HEAVY = "heavy"  # up to 5
    MODERATE = "moderate"  # 6 to 12
    LIGHT = "light"  # 13 and more


def rep_zone(reps: float) -> RepZone:
    """The zone of a set of so many repetitions. Raises QuantityError outside 1 to 600."""
    require_reps(reps)
    if reps < 5.5:
        return RepZone.HEAVY
    return RepZone.MODERATE if reps < 12.5 else RepZone.LIGHT


def rep_zones(week: Week, catalogue: Catalogue) -> Mapping[RepZone, int]:
    """Sets of the week in each zone of repetitions; timed sets and drills are left out."""
    count = dict.fromkeys(RepZone, 0)
    for slot in week.slots():
        exercise = catalogue[slot.exercise]
        if not exercise.timed and exercise.pattern is not Pattern.DRILL:
            count[rep_zone(slot.reps.middle)] += slot.sets
    return count


def program_rep_zones(program: Program, catalogue: Catalogue) -> Mapping[RepZone, int]:
    """Sets of the whole program in each zone of repetitions."""
    weeks = [rep_zones(week, catalogue) for week in program.weeks]
    return {zone: sum(week[zone] for week in weeks) for zone in RepZone}


def program_intensity(program: Program, catalogue: Catalogue) -> Mapping[int, int]:
    """Sets of the whole program in each tenth of 1RM, on the program's own curve."""
    total: dict[int, int] = {}
    for week in program.weeks:
        for tenth, sets in intensity_distribution(week, catalogue, program.curve).items():
            total[tenth] = total.get(tenth, 0) + sets
    return dict(sorted(total.items()))


def program_minutes(program: Program, catalogue: Catalogue) -> tuple[Minutes, ...]:
    """Minutes of all sessions together, for each week of the program."""
    weeks = []
    for week in program.weeks:
        each = [session_minutes(session, catalogue) for _, session in week.sessions()]
        weeks.append(
            Minutes(
                sum(one.low for one in each),
                sum(one.expected for one in each),
                sum(one.high for one in each),
            )
        )
    return tuple(weeks)


def set_fraction(effort: Effort, reps: float, curve: str | Curve = "textbook") -> float:
    """The fraction of 1RM of a set; past the end of the curve, the curve's lowest."""
    require_reps(reps)
    found = find_curve(curve)
    to_failure = reps + effort.reps if isinstance(effort, Rir) else reps
    return found.lowest if to_failure > found.max_reps else fraction(effort, reps, found)


def intensity_distribution(
    week: Week, catalogue: Catalogue, curve: str | Curve = "textbook"
) -> Mapping[int, int]:
    """Sets of the week in each tenth of 1RM: 70 stands for 70 % to under 80 %.

    Exercises that take no load in kg, timed ones and drills are left out. Tenths without sets
    are left out; the others come lightest first.
    """
    count: dict[int, int] = {}
    for slot in week.slots():
        exercise = catalogue[slot.exercise]
        if exercise.timed or exercise.load_kind in (LoadKind.BAND, LoadKind.NONE):
            continue
        tenth = 10 * int(set_fraction(slot.effort, slot.reps.middle, curve) * 10 + 1e-9)
        count[tenth] = count.get(tenth, 0) + slot.sets
    return dict(sorted(count.items()))


def tonnage_kg(
    slots: Iterable[Slot], catalogue: Catalogue, load_kg: Callable[[Slot], float | None]
) -> float:
    """Sets x repetitions x load over the slots, kg; both hands and both sides are counted.

    load_kg: the load of a slot in the exercise's own terms, None where it has none. Timed sets
    have no tonnage.
    """
    total = 0.0
    for slot in slots:
        exercise, load = catalogue[slot.exercise], load_kg(slot)
        if load is None or exercise.timed:
            continue
        total += slot.sets * slot.reps.middle * load * load_sides(exercise)
    return total


def load_sides(exercise: Exercise) -> int:
    """How often the written load is moved in one repetition: both hands, both sides."""
    hands = 2 if exercise.load_kind is LoadKind.DUMBBELL_EACH else 1
    return 2 * hands if exercise.unilateral else hands


def sets_working(week: Week, muscle: Muscle, catalogue: Catalogue) -> Working:
    """How the week's fractional sets for a muscle come about, slot by slot."""
    total = weekly_sets(week, catalogue).get(muscle, 0.0)
    return _account(week, (muscle,), catalogue, name=muscle_name(muscle), total=total)


def group_working(week: Week, group: Group, catalogue: Catalogue) -> Working:
    """How the week's sets for a group of muscles come about; a set counts once, its larger part."""
    parts = [_group_part(catalogue[slot.exercise], group.muscles) for slot in week.slots()]
    total = sum(slot.sets * part for slot, part in zip(week.slots(), parts, strict=True))
    return _account(week, group.muscles, catalogue, name=tr(group.name), total=total)


def _group_part(exercise: Exercise, muscles: tuple[Muscle, ...]) -> float:
    """The largest part that a set counts for any of the muscles; nothing for a drill."""
    if exercise.pattern is Pattern.DRILL:
        return 0.0
    return max(exercise.fraction(muscle) for muscle in muscles)


def _account(
    week: Week, muscles: tuple[Muscle, ...], catalogue: Catalogue, *, name: str, total: float
) -> Working:
    lines = []
    for slot in week.slots():
        exercise = catalogue[slot.exercise]
        part = _group_part(exercise, muscles)
        if not part:
            continue
        role = tr("prime mover") if part >= 1 else tr("helps")
        lines.append(Line(exercise.name, f"{slot.sets} × {part:g} = {slot.sets * part:g}", role))
    lines.append(Line(tr("Band of weekly sets"), volume_band(total), tr("a trend over 15 studies")))
    gain = tr(
        "about {extra_gain_percent:g} % more growth", extra_gain_percent=extra_gain_percent(1)
    )
    lines.append(Line(tr("One set a week more"), gain, tr("on average, no promise")))
    return Working(
        title=tr("{total:g} sets", total=total),
        about=tr("{muscles}, fractional sets of the week", muscles=name),
        lines=tuple(lines),
        sources=("pelland2024", "schoenfeld2017-volume"),
    )


def frequency_working(week: Week, muscle: Muscle, catalogue: Catalogue) -> Working:
    """How the week's sessions for a muscle come about, day by day."""
    lines = []
    for day, session in week.sessions():
        sets = session_sets(session, catalogue).get(muscle, 0.0)
        if sets:
            counts = tr("counts") if sets >= TRAINED_FROM else tr("too few to count")
            lines.append(Line(day_name(day), tr("{sets:g} sets", sets=sets), counts))
    sessions = frequency(week, catalogue).get(muscle, 0)
    if sessions:
        effect = tr("effect size {strength_effect:.2f}", strength_effect=strength_effect(sessions))
        lines.append(Line(tr("Strength in trials"), effect, tr("no difference at equal volume")))
    return Working(
        title=trn("{n} session", "{n} sessions", sessions),
        about=tr(
            "{muscle_name}, sessions of the week with a set or more",
            muscle_name=muscle_name(muscle),
        ),
        lines=tuple(lines),
        sources=("grgic2018-frequency", COMMON_PRACTICE),
    )


def _before_runs(session: Session, ramps: tuple[float, ...]) -> tuple[tuple[float, ...], ...]:
    """The minutes of ramp sets where they are done: those of a pair before its first exercise."""
    slots, found = session.slots, list[tuple[float, ...]]((minutes,) for minutes in ramps)
    for at in range(len(slots) - 1, 0, -1):
        if slots[at].pair and slots[at].pair == slots[at - 1].pair:
            found[at - 1] += found[at]
            found[at] = ()
    return tuple(found)


def _ramp_lines(
    slots: tuple[Slot, ...], ramps: tuple[float, ...], catalogue: Catalogue
) -> list[Line]:
    """The ramp sets before the first of the slots, a line for each lift that has any."""
    lines = []
    for slot, minutes in zip(slots, ramps, strict=False):
        exercise = catalogue[slot.exercise]
        count = len(usual_sets(slot, exercise))
        remark = (
            trn("{n} set, as a rule", "{n} sets, as a rule", count)
            if slot.ramp is None
            else trn("{n} set, set by the coach", "{n} sets, set by the coach", count)
        )
        label = tr("Ramp sets before {exercise}", exercise=mid_sentence(exercise.name))
        if minutes:
            lines.append(Line(label, f"{minutes:.1f} min", remark))
    return lines


def minutes_working(session: Session, catalogue: Catalogue) -> Working:
    """How the session's expected minutes come about."""
    minutes = session_minutes(session, catalogue)
    starts = start_minutes(session, catalogue)
    ends = (*starts[1:], minutes.expected) if starts else ()
    ramps = _before_runs(session, ramp_minutes(session, catalogue))
    lines = []
    if starts:
        by_coach = any(drill.dose for drill in session.warmup)
        usual = tr("with the doses that the coach set") if by_coach else tr("as a rule")
        lines.append(Line(tr("Warm-up"), f"{starts[0] - sum(ramps[0]):.1f} min", usual))
    for at, (slot, start, end) in enumerate(zip(session.slots, starts, ends, strict=True)):
        pair = tr(", in turn ({pair})", pair=slot.pair) if slot.pair else ""
        name = catalogue[slot.exercise].name
        lines += _ramp_lines(session.slots[at:], ramps[at], catalogue)
        next_ramps = sum(ramps[at + 1]) if at + 1 < len(ramps) else 0.0
        remark = tr(
            "{sets} sets, rest {rest_s} s{pair}", sets=slot.sets, rest_s=slot.rest_s, pair=pair
        )
        lines.append(Line(name, f"{end - next_ramps - start:.1f} min", remark))
    low, high = whole_minutes(minutes.low), whole_minutes(minutes.high)
    return Working(
        title=f"{whole_minutes(minutes.expected)} min",
        about=tr(
            "{session}, {low} to {high} min",
            session=session.title or tr("Session"),
            low=low,
            high=high,
        ),
        lines=tuple(lines),
        sources=("acsm2009", COMMON_PRACTICE),
    )
