"""What to do instead of an exercise: ranked substitutes with their reasons.

A substitute has to train at least one of the same prime movers. It is then ranked by what the
slot is for: the muscles it trains (emphasised ones count more), the movement class, how demanding
it is, whether the slot's repetitions suit it, activation reported in one and the same study, and
what the client already does. Nothing is hidden that the client lacks equipment for or must not
do: it comes last, and says why.
"""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from datetime import date, timedelta
from enum import StrEnum

from app.domain.activation import FROM_MEMORY, GLUTEAL_TO_TFL, amplitude_ratio
from app.domain.checks import Difference, Memo, what_if
from app.domain.checks.context import breaches, missing_equipment
from app.domain.checks.possible import breach_text, equipment_text
from app.domain.client import Client
from app.domain.edits.parts import locate, slot_at
from app.domain.edits.place import replace_exercise
from app.domain.exercise import Catalogue, Exercise, ExerciseKey, Muscle, Pattern
from app.domain.findings import Weight
from app.domain.muscle_groups import muscle_name
from app.domain.program import Program, Slot, SlotId, Span, day_name
from app.domain.ranges import RangeBook
from app.domain.wording import mid_sentence, tr, trn

MUSCLES_WEIGHT = 0.34
PATTERN_WEIGHT = 0.36
KIND_WEIGHT = 0.10
KIN_WEIGHT = 0.10
DEMAND_WEIGHT = 0.04
REPS_WEIGHT = 0.03
ACTIVATION_WEIGHT = 0.03
EMPHASIS_FACTOR = 1.5
"""How the parts of a score are weighed. Common practice."""

DISLIKED = 0.30
HELD = 0.30
IN_SESSION = 0.15
IN_WEEK = 0.05
"""What a score loses: for a client's dislike, for a timed hold in place of repetitions (or the
other way round: another kind of work, that cannot be counted on), for what is done already.
Common practice."""

ALIKE = 0.02
"""Scores that differ by no more are ties where the effect of a swap is known. Common practice."""

LIGHTER_SKILL = 0.5
"""What a step of skill counts beside a step of spinal load when demands are compared.

Common practice.
"""

_RELATED: tuple[tuple[Pattern, Pattern, float], ...] = (
    (Pattern.SQUAT, Pattern.SPLIT_STANCE, 0.6),
    (Pattern.HINGE, Pattern.HIP_EXTENSION, 0.5),
    (Pattern.HINGE, Pattern.THRUST, 0.4),
    (Pattern.THRUST, Pattern.HIP_EXTENSION, 0.6),
    (Pattern.HORIZONTAL_PUSH, Pattern.VERTICAL_PUSH, 0.4),
    (Pattern.HORIZONTAL_PULL, Pattern.VERTICAL_PULL, 0.5),
    (Pattern.TRUNK_FLEXION, Pattern.TRUNK_BRACE, 0.4),
    (Pattern.TRUNK_BRACE, Pattern.TRUNK_ROTATION, 0.4),
    (Pattern.TRUNK_FLEXION, Pattern.TRUNK_ROTATION, 0.4),
    (Pattern.HIP_ABDUCTION, Pattern.HIP_EXTENSION, 0.2),
)
"""Movement classes that stand in for each other, and how near they are, 0 to 1. Common practice."""

_NEARNESS = {frozenset(pair[:2]): pair[2] for pair in _RELATED}


class Demand(StrEnum):
    """How demanding a substitute is beside the exercise it stands in for."""

    SAME = "same demand"
    EASIER = "easier"
    HARDER = "harder"


@dataclass(frozen=True, slots=True)
class Substitute:
    """One exercise that could stand in, with its score from 0 to 1 and the reasons in words.

    blocked: why the client cannot do it on that day ('needs cable'), or empty.
    """

    exercise: Exercise
    score: float
    demand: Demand
    reasons: tuple[str, ...]
    blocked: str = ""


@dataclass(frozen=True, slots=True)
class _Asked:
    """What is asked for: the slot, its exercise, and the plan around it."""

    slot: Slot
    old: Exercise
    primes: tuple[Muscle, ...]
    client: Client
    on: date
    weights: dict[Muscle, float]
    in_session: frozenset[ExerciseKey]
    in_week: dict[ExerciseKey, int]


@dataclass(frozen=True, slots=True)
class _Candidate:
    """An exercise that may stand in, with what score and reasons both ask of it.

    ratios: its amplitude over the old one's for each of the old prime movers, where one study
    reported both.
    """

    new: Exercise
    primes: tuple[Muscle, ...]
    demand: Demand
    ratios: tuple[float | None, ...]


def rank(
    slot: Slot, program: Program, client: Client, catalogue: Catalogue
) -> tuple[Substitute, ...]:
    """Everything that could stand in for the slot's exercise, best first, blocked ones last.

    Ties are broken by what the client likes, then by key, so that the order is total. Raises
    EditError for a slot that is not in the program and UnknownExercise for an exercise that is
    not in the catalogue.
    """
    asked = _asked(slot, program, client, catalogue=catalogue)
    found = [_substitute(asked, one) for one in _candidates(asked, catalogue)]
    likes = client.likes
    found.sort(
        key=lambda one: (
            bool(one.blocked),
            -one.score,
            one.exercise.key not in likes,
            one.exercise.key,
        )
    )
    return tuple(found)


def best(slot: Slot, program: Program, client: Client, catalogue: Catalogue) -> Substitute | None:
    """The first of `rank` that the client can do; None if there is none."""
    return next((one for one in rank(slot, program, client, catalogue) if not one.blocked), None)


def effect(
    program: Program,
    slot_id: SlotId,
    exercise: Exercise,
    *,
    client: Client,
    catalogue: Catalogue,
    ranges: RangeBook,
    span: Span = Span.THIS_WEEK,
    memo: Memo | None = None,
) -> Difference:
    """The findings that a swap would bring and take away, for one week or a longer span."""
    slot = slot_at(program, locate(program, slot_id))
    old = catalogue[slot.exercise]
    after = replace_exercise(program, slot_id, exercise=exercise, old=old, span=span)
    return what_if(
        program, after, client=client, catalogue=catalogue, ranges=ranges, memo=memo or Memo()
    )


def ranked_with_effect(
    slot: Slot,
    program: Program,
    client: Client,
    catalogue: Catalogue,
    ranges: RangeBook,
    *,
    first: int = 8,
    memo: Memo | None = None,
) -> tuple[tuple[Substitute, Difference], ...]:
    """The first of `rank`, each with what taking it does to the findings of this week.

    Scores that lie within ALIKE of the best of their run count as ties: what brings fewer
    conflicts, then fewer findings outside a range, stands before the others of the run. The order
    is total. Raises as `rank` does.
    """
    memo = memo or Memo()
    left = [
        (
            one,
            effect(
                program,
                slot.id,
                one.exercise,
                client=client,
                catalogue=catalogue,
                ranges=ranges,
                memo=memo,
            ),
        )
        for one in rank(slot, program, client, catalogue)[:first]
    ]
    ordered: list[tuple[Substitute, Difference]] = []
    while left:
        head = left[0][0]
        run = [pair for pair in left if _ties(pair[0], head)]
        ordered += sorted(run, key=lambda pair: _brought(pair[1]))
        left = left[len(run) :]
    return tuple(ordered)


def _ties(one: Substitute, head: Substitute) -> bool:
    """True if the two are held back alike and their scores tell them hardly apart."""
    return bool(one.blocked) == bool(head.blocked) and head.score - one.score <= ALIKE + 1e-9


def _brought(change: Difference) -> tuple[int, int]:
    """How many conflicts, and how many findings outside a range, a swap brings."""
    weights = [finding.weight for finding in change.gained]
    return weights.count(Weight.CONFLICT), weights.count(Weight.OUTSIDE)


def _asked(slot: Slot, program: Program, client: Client, *, catalogue: Catalogue) -> _Asked:
    at = locate(program, slot.id)
    week = program.weeks[at.week]
    session = week.days[at.day].sessions[at.session]
    emphasis = program.emphasis or client.emphasis
    old = catalogue[slot.exercise]
    in_week: dict[ExerciseKey, int] = {}
    for day, other in week.sessions():
        for one in other.slots:
            in_week.setdefault(one.exercise, day)
    return _Asked(
        slot,
        old,
        old.primes,
        client,
        program.start + timedelta(weeks=at.week, days=at.day),
        {muscle: EMPHASIS_FACTOR if muscle in emphasis else 1.0 for muscle in Muscle},
        frozenset(one.exercise for one in session.slots if one.id != slot.id),
        in_week,
    )


def _candidates(asked: _Asked, catalogue: Catalogue) -> Iterator[_Candidate]:
    """Everything else that trains a prime mover of the slot's exercise."""
    old = asked.old
    for new in catalogue:
        primes = new.primes
        if new.key != old.key and _can_stand_in(asked, new, primes):
            ratios = tuple(amplitude_ratio(old, new, muscle) for muscle in asked.primes)
            yield _Candidate(new, primes, demand_of(old, new), ratios)


def _can_stand_in(asked: _Asked, new: Exercise, primes: tuple[Muscle, ...]) -> bool:
    """True if both train a prime mover of the other, and drills only stand in for drills."""
    old = asked.old
    if (old.pattern is Pattern.DRILL) != (new.pattern is Pattern.DRILL):
        return False
    if not asked.primes:
        return bool({w.muscle for w in old.work} & {w.muscle for w in new.work})
    return any(muscle in primes for muscle in asked.primes)


def _substitute(asked: _Asked, one: _Candidate) -> Substitute:
    old, new = asked.old, one.new
    suits = _suits(asked.slot, new)
    score = (
        MUSCLES_WEIGHT * overlap(old, new, asked.weights)
        + PATTERN_WEIGHT * nearness(old.pattern, new.pattern)
        + KIND_WEIGHT * _same_kind(old, new)
        + KIN_WEIGHT * _kin(old, new)
        + DEMAND_WEIGHT * (1.0 if one.demand is Demand.SAME else 0.5)
        + REPS_WEIGHT * suits
        + ACTIVATION_WEIGHT * _activation(one)
    )
    if new.key in asked.client.dislikes:
        score -= DISLIKED
    if new.timed is not old.timed:
        score -= HELD
    if new.key in asked.in_session:
        score -= IN_SESSION
    elif new.key in asked.in_week:
        score -= IN_WEEK
    reasons = tuple(_reasons(asked, one, suits=suits))
    return Substitute(new, round(max(0.0, score), 6), one.demand, reasons, _blocked(asked, new))


def overlap(old: Exercise, new: Exercise, weights: dict[Muscle, float]) -> float:
    """How alike the work of two exercises is, 0 to 1: shared parts over all parts, weighted."""
    before = {work.muscle: work.fraction for work in old.work}
    after = {work.muscle: work.fraction for work in new.work}
    shared = whole = 0.0
    for muscle in before.keys() | after.keys():
        was, becomes = before.get(muscle, 0.0), after.get(muscle, 0.0)
        shared += weights[muscle] * min(was, becomes)
        whole += weights[muscle] * max(was, becomes)
    return shared / whole if whole else 0.0


def nearness(one: Pattern, other: Pattern) -> float:
    """How near two movement classes are: 1 for the same, 0 for unrelated ones."""
    return 1.0 if one is other else _NEARNESS.get(frozenset((one, other)), 0.0)


def _same_kind(old: Exercise, new: Exercise) -> float:
    """How alike they are in build, 0 to 1: joints, sides, equipment at hand."""
    things = set(old.equipment) | set(new.equipment)
    shared = len(set(old.equipment) & set(new.equipment)) / len(things) if things else 1.0
    alike = 2 * (old.multi_joint is new.multi_joint) + (old.unilateral is new.unilateral) + shared
    return alike / 4


def _kin(old: Exercise, new: Exercise) -> float:
    """1 if the data name one as the easier or harder form of the other, 0.3 for siblings."""
    before, after = (set(one.easier) | set(one.harder) for one in (old, new))
    if new.key in before or old.key in after:
        return 1.0
    return 0.3 if before & after else 0.0


def demand_of(old: Exercise, new: Exercise) -> Demand:
    """Whether the new exercise is easier or harder: by the data's own word, else by its parts."""
    if new.key in old.easier or old.key in new.harder:
        return Demand.EASIER
    if new.key in old.harder or old.key in new.easier:
        return Demand.HARDER
    step = new.spinal_load - old.spinal_load + (new.skill - old.skill) * LIGHTER_SKILL
    if abs(step) <= LIGHTER_SKILL:
        return Demand.SAME
    return Demand.EASIER if step < 0 else Demand.HARDER


def _suits(slot: Slot, new: Exercise) -> float:
    """1 if the slot's repetitions lie in the new exercise's zone, part of it for a part."""
    low, high = max(slot.reps.low, new.rep_low), min(slot.reps.high, new.rep_high)
    return max(0, high - low + 1) / (slot.reps.high - slot.reps.low + 1)


def _activation(one: _Candidate) -> float:
    """0 to 1 by amplitudes that one study reported of both for a prime mover; else the middle."""
    return next((min(1.0, ratio / 2) for ratio in one.ratios if ratio is not None), 0.5)


def _activation_reasons(asked: _Asked, one: _Candidate) -> Iterator[str]:
    for muscle, ratio in zip(asked.primes, one.ratios, strict=True):
        if ratio is not None and ratio > 1:
            yield tr(
                "higher activation of the {names} reported in the same study",
                names=_names([muscle]),
            )
    was, becomes = GLUTEAL_TO_TFL.get(asked.old.key), GLUTEAL_TO_TFL.get(one.new.key)
    if was is not None and becomes is not None:
        recalled = {asked.old.key, one.new.key} & FROM_MEMORY
        label = (
            trn(" (value from memory)", " (values from memory)", len(recalled)) if recalled else ""
        )
        yield tr(
            "gluteal-to-TFL index {becomes} against {was}{label}",
            becomes=becomes,
            was=was,
            label=label,
        )


def _blocked(asked: _Asked, new: Exercise) -> str:
    """Why the client cannot do it on that day, or nothing."""
    for breach in breaches(new, asked.client):
        if breach.limitation.applies_on(asked.on):
            return breach_text(breach)
    missing = missing_equipment(new, asked.client, asked.on.weekday())
    return tr("needs {equipment_text}", equipment_text=equipment_text(missing)) if missing else ""


def _reasons(asked: _Asked, one: _Candidate, *, suits: float) -> Iterator[str]:
    """Why it stands where it stands, most telling first."""
    old, new = asked.old, one.new
    same = [muscle for muscle in asked.primes if muscle in one.primes]
    more = [muscle for muscle in one.primes if muscle not in asked.primes]
    less = [muscle for muscle in asked.primes if muscle not in one.primes]
    if same and not more and not less:
        yield tr("same prime movers: {names}", names=_names(same))
    else:
        yield (
            tr("trains {names} as well", names=_names(same))
            if same
            else tr("trains the same muscles")
        )
    if more:
        yield tr("more for {names}", names=_names(more))
    if less:
        yield tr("less for {names}", names=_names(less))
    if new.pattern is old.pattern:
        yield tr("same movement")
    yield tr(one.demand.value)
    if new.timed is not old.timed:
        yield tr("held for seconds") if new.timed else tr("counted in repetitions")
    if new.spinal_load < old.spinal_load:
        yield tr("easier on the spine")
    if new.unilateral and not old.unilateral:
        yield tr("each side by itself")
    yield from _activation_reasons(asked, one)
    if new.key in asked.client.likes:
        yield tr("the client likes it")
    if suits < 1:
        yield tr(
            "better at {rep_low} to {rep_high} {tr}",
            rep_low=new.rep_low,
            rep_high=new.rep_high,
            tr="s" if new.timed else tr("repetitions"),
        )
    if new.key in asked.client.dislikes:
        yield tr("not liked")
    if new.key in asked.in_week:
        yield tr("already on {in_week}", in_week=day_name(asked.in_week[new.key]))


def _names(muscles: list[Muscle]) -> str:
    return ", ".join(mid_sentence(muscle_name(muscle)) for muscle in muscles)
