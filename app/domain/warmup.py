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
from app.domain.exercise import Catalogue, Exercise, ExerciseKey, Muscle, Pattern, pattern_name
from app.domain.fit import fits
from app.domain.loads import load_for
from app.domain.program import Reps, Role, Session, Slot, SlotId
from app.domain.strength import RampSet, ramp_sets
from app.domain.wording import tr, trn
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
    """One drill: how many repetitions (seconds if timed), and what it is for, in words."""

    exercise: ExerciseKey
    reps: Reps
    timed: bool
    reason: str


@dataclass(frozen=True, slots=True)
class WarmUpRamp:
    """The ramp sets that lead up to one slot's working load."""

    slot: SlotId
    exercise: ExerciseKey
    sets: tuple[RampSet, ...]


@dataclass(frozen=True, slots=True)
class WarmUp:
    """Everything before the first working set; drills in the order they are done."""

    drills: tuple[WarmUpDrill, ...]
    ramps: tuple[WarmUpRamp, ...]
    sources: tuple[str, ...] = ("iversen2021", COMMON_PRACTICE)

    @property
    def keys(self) -> tuple[ExerciseKey, ...]:
        """The drills' keys, as `Session.warmup` holds them."""
        return tuple(drill.exercise for drill in self.drills)


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
    return WarmUpDrill(exercise.key, dose(exercise), exercise.timed, _reason(served))


_FOR = "For "


def _reason(patterns: Sequence[Pattern]) -> str:
    """Why a drill is done, as it is kept: always in English."""
    return f"{_FOR}{', '.join(pattern.value.replace('_', ' ') for pattern in patterns)}"


def reason_text(reason: str) -> str:
    """The reason as it is read: what was made here in the language that is spoken."""
    names = [name.replace(" ", "_") for name in reason.removeprefix(_FOR).split(", ")]
    if not reason.startswith(_FOR) or not set(names) <= {pattern.value for pattern in Pattern}:
        return reason
    return tr("For {names}", names=", ".join(pattern_name(Pattern(name)) for name in names))


def dose(exercise: Exercise) -> Reps:
    """How much of a drill: repetitions, up to 10 where its zone goes on; seconds if timed.

    A timed drill takes the least of its zone. Common practice.
    """
    low = exercise.rep_low
    return Reps(low, low if exercise.timed else min(exercise.rep_high, max(low, 10)))


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
    load_kg: float | None, exercise: Exercise, increments: Increments
) -> tuple[RampSet, ...]:
    """The ramp sets that lead up to a load, kg; none without one, or where the body is helped."""
    if load_kg is None or load_kg <= 0:
        return ()
    return ramp_sets(load_kg, increments.bar_kg, increments, kind=exercise.load_kind)


def ramps_of(
    session: Session,
    exercise_of: Callable[[ExerciseKey], Exercise],
    *,
    load_of: Callable[[Slot], float | None],
    increments: Increments,
) -> tuple[WarmUpRamp, ...]:
    """Ramp sets for the first loaded core lift, and for later ones whose prime movers are cold.

    load_of: a slot's load in kg, None where there is none.
    """
    ramps: list[WarmUpRamp] = []
    warm: set[Muscle] = set()
    for slot in session.slots:
        exercise = exercise_of(slot.exercise)
        if slot.role is not Role.CORE or warm & set(exercise.primes):
            continue
        if sets := ramp_to(load_of(slot), exercise, increments):
            warm |= set(exercise.primes)
            ramps.append(WarmUpRamp(slot.id, exercise.key, sets))
    return tuple(ramps)
