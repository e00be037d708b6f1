"""A session's warm-up: drills that suit its patterns, and ramp sets before the first core lifts.

For strength and size a warm-up specific to the exercises is enough (iversen2021); one easy drill
to get warm and a few that open the joints to be used are common practice.
"""

from __future__ import annotations

from collections.abc import Callable, Sequence
from dataclasses import dataclass
from datetime import date

from app.domain.client import Client, Increments
from app.domain.curve import Curve
from app.domain.exercise import (
    Catalogue,
    Exercise,
    ExerciseKey,
    LoadKind,
    Muscle,
    Pattern,
)
from app.domain.fit import fits
from app.domain.lead_up import leading_up, zone_dose
from app.domain.loads import load_for
from app.domain.program import Drill, DrillDose, Reps, Role, Session, Slot, SlotId
from app.domain.ramp import RampStep
from app.domain.reach import nearest_in_reach
from app.domain.strength import RampSet, ramp_sets
from app.domain.wording import trn
from app.domain.working import COMMON_PRACTICE

GENERAL_FROM_S = 120
"""A timed drill of at least so many seconds gets the whole body warm. Common practice."""

CORE_WEIGHT = 2.0
EMPHASIS_WEIGHT = 0.5
FALLING = 0.5
"""What counts when drills are chosen: a core lift against any other, an emphasised muscle that a
drill wakes, and how much less a pattern counts once a drill covers it. Common practice."""


@dataclass(frozen=True, slots=True)
class WarmUpDrill:
    """One drill: as much as its zone says, and what it is for, in words."""

    exercise: ExerciseKey
    dose: DrillDose
    timed: bool
    reason: str


@dataclass(frozen=True, slots=True)
class WarmUpRamp:
    """The ramp sets that lead up to one slot's working load. by_coach: set, not worked out."""

    slot: SlotId
    exercise: ExerciseKey
    sets: tuple[RampSet, ...]
    by_coach: bool = False


@dataclass(frozen=True, slots=True)
class WarmUp:
    """Everything before the first working set; drills in the order they are done."""

    drills: tuple[WarmUpDrill, ...]
    ramps: tuple[WarmUpRamp, ...]
    sources: tuple[str, ...] = ("iversen2021", COMMON_PRACTICE)

    @property
    def keys(self) -> tuple[ExerciseKey, ...]:
        """The drills' keys, in order."""
        return tuple(drill.exercise for drill in self.drills)

    def proposed(self, now: Sequence[Drill] = ()) -> tuple[Drill, ...]:
        """The drills as `Session.warmup` holds them; doses that the coach set in `now` stay."""
        doses = {drill.exercise: drill.dose for drill in now}
        return tuple(Drill(key, doses.get(key)) for key in self.keys)


def compose(
    session: Session,
    catalogue: Catalogue,
    client: Client,
    emphasis: tuple[Muscle, ...] = (),
    *,
    on: date,
    most_drills: int = 4,
    curve: str | Curve = "textbook",
) -> WarmUp:
    """A warm-up for the session: at most `most_drills` drills and the ramps of its core lifts.

    One general drill first, then those that cover the session's patterns best, core lifts
    counting double and drills that wake emphasised muscles a little more; nothing the client
    lacks equipment for at that day's place, dislikes or must not do on that day. Light working
    exercises fill up where there are too few drills. Empty for an empty session.
    """
    wanted = _patterns(session, catalogue)
    day = on.weekday()
    steps = client.increments_on(day)
    fitting = [e for e in catalogue if e.warmup_for and fits(e, client, on, day=day)]
    general = [e for e in fitting if is_general(e)]
    specific = [e for e in fitting if not is_general(e) and e.pattern is Pattern.DRILL]
    others = [e for e in fitting if e.pattern is not Pattern.DRILL]
    chosen = _pick(general, wanted, emphasis=emphasis, most=min(1, most_drills))
    for drills in (specific, others):
        chosen += _pick(drills, wanted, emphasis=emphasis, most=most_drills - len(chosen))

    def load_of(slot: Slot) -> float | None:
        load = load_for(slot, catalogue[slot.exercise], client, curve, increments=steps)
        return None if load is None else load.load_kg

    return WarmUp(
        tuple(_drill(exercise, wanted) for exercise in chosen),
        ramps_of(session, catalogue.__getitem__, load_of=load_of, increments=steps),
    )


def _patterns(session: Session, catalogue: Catalogue) -> dict[Pattern, float]:
    """How much each movement pattern weighs in the session."""
    weights: dict[Pattern, float] = {}
    for slot in session.slots:
        weight = CORE_WEIGHT if slot.role is Role.CORE else 1.0
        pattern = catalogue[slot.exercise].pattern
        weights[pattern] = weights.get(pattern, 0.0) + weight
    return weights


def _pick(
    drills: list[Exercise], wanted: dict[Pattern, float], *, emphasis: tuple[Muscle, ...], most: int
) -> list[Exercise]:
    """The drills that together cover the patterns best, one after another; ties by name."""
    left, open_ = dict(wanted), sorted(drills, key=lambda drill: drill.name)
    asleep = set(emphasis)
    chosen: list[Exercise] = []
    while open_ and len(chosen) < most:
        best = max(open_, key=lambda drill: _worth(drill, left, asleep))
        if not any(pattern in wanted for pattern in best.warmup_for):
            break
        chosen.append(best)
        open_.remove(best)
        asleep -= {work.muscle for work in best.work}
        for pattern in best.warmup_for:
            if pattern in left:
                left[pattern] *= FALLING
    return chosen


def _worth(drill: Exercise, left: dict[Pattern, float], asleep: set[Muscle]) -> float:
    """What a drill adds: the patterns still open, and a little for emphasised muscles."""
    covered = sum(left.get(pattern, 0.0) for pattern in drill.warmup_for)
    woken = sum(EMPHASIS_WEIGHT for work in drill.work if work.muscle in asleep)
    return covered + woken if covered else 0.0


def _drill(exercise: Exercise, wanted: dict[Pattern, float]) -> WarmUpDrill:
    """The drill with its dose and its reason."""
    served = [p for p in exercise.warmup_for if p in wanted]
    return WarmUpDrill(exercise.key, zone_dose(exercise), exercise.timed, _reason(served))


_FOR = "For "


def _reason(patterns: Sequence[Pattern]) -> str:
    """Why a drill is done, as it is kept: always in English."""
    return f"{_FOR}{', '.join(pattern.value.replace('_', ' ') for pattern in patterns)}"


def seconds_text(reps: Reps) -> str:
    """How long one round of a timed drill takes: '3 minutes', '90 s', '20–30 s'."""
    if reps.low == reps.high:
        return time_text(reps.low)
    return f"{reps.low}–{reps.high} s"


def time_text(seconds: int) -> str:
    """How long a timed drill takes: '3 minutes', '1 minute', '90 s'."""
    minutes, rest = divmod(seconds, 60)
    if rest or not minutes:
        return f"{seconds} s"
    return trn("{n} minute", "{n} minutes", minutes)


def is_general(exercise: Exercise) -> bool:
    """True for a drill that gets the whole body warm: timed, and long enough."""
    return exercise.timed and exercise.rep_low >= GENERAL_FROM_S


def ramp_to(
    slot: Slot, exercise: Exercise, load_kg: float | None, *, increments: Increments
) -> tuple[RampSet, ...]:
    """The ramp sets that lead up to the slot's load, kg: those the coach set, or worked out.

    None worked out without a load, or where the body is helped. Of the coach's those in per cent
    need a load; one that would not be lighter than it is left out.
    """
    if slot.ramp is not None:
        made = (_step_made(step, exercise, load_kg, increments) for step in slot.ramp.steps)
        return tuple(one for one in made if one is not None)
    if load_kg is None or load_kg <= 0:
        return ()
    return ramp_sets(load_kg, increments.bar_kg, increments, kind=exercise.load_kind)


def _step_made(
    step: RampStep, exercise: Exercise, load_kg: float | None, increments: Increments
) -> RampSet | None:
    """The coach's step with what there is to load; a load in kilograms as it was written."""
    kind = exercise.load_kind
    if kind in (LoadKind.BAND, LoadKind.NONE):
        return None
    if step.load_kg is not None:
        exact_kg = step.load_kg
    elif load_kg is not None and load_kg > 0:
        exact_kg = (step.percent or 0.0) / 100 * load_kg
    else:
        return None
    reached = nearest_in_reach(exact_kg, increments, kind=kind)
    done_kg = reached.load_kg if step.load_kg is None else step.load_kg
    if done_kg <= 0 or (load_kg is not None and done_kg >= load_kg):
        return None
    there = abs(reached.load_kg - done_kg) < AS_GOOD_AS_KG
    return RampSet(done_kg, step.reps, reached.plates if there else None)


AS_GOOD_AS_KG = 0.005
"""Loads nearer than this are the same: pounds come back from a file with a crumb over."""


def ramps_of(
    session: Session,
    exercise_of: Callable[[ExerciseKey], Exercise],
    *,
    load_of: Callable[[Slot], float | None],
    increments: Increments,
) -> tuple[WarmUpRamp, ...]:
    """The lifts of a session that have ramp sets, by the rule of `leading_up`, with those sets.

    load_of: a slot's load in kg, None where there is none.
    """

    def sets_of(slot: Slot, exercise: Exercise) -> tuple[RampSet, ...]:
        return ramp_to(slot, exercise, load_of(slot), increments=increments)

    exercises = [exercise_of(slot.exercise) for slot in session.slots]
    found = leading_up(session.slots, exercises, sets_of=sets_of)
    return tuple(
        WarmUpRamp(slot.id, slot.exercise, sets, by_coach=slot.ramp is not None)
        for slot, sets in zip(session.slots, found, strict=True)
        if sets
    )
