"""What to lift next time, from what was lifted against what was meant."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from enum import StrEnum

from app.domain import effort as efforts
from app.domain.client import Increments
from app.domain.curve import Curve
from app.domain.errors import CoachError
from app.domain.exercise import LoadKind
from app.domain.program import MAX_REPS, Reps, Slot
from app.domain.reach import nearest_in_reach
from app.domain.results import SetDone, SlotResult
from app.domain.strength import set_text
from app.domain.units import mass_text
from app.domain.working import COMMON_PRACTICE, FROM_MEMORY, Line, Working

RAISE_BY = (0.02, 0.10)
"""A rise of the load, as a part of it, once the target is passed. Source: acsm2009."""

PER_REP = 0.025
"""What one repetition is worth of the load, about. Common practice."""

LOWER_BY = 0.05
"""How much lighter after the target was missed twice. Common practice."""


class Move(StrEnum):
    """What to do with the load next time."""

    RAISE = "raise"
    ADD_REPS = "add_reps"
    HOLD = "hold"
    LOWER = "lower"
    NOTHING_DONE = "nothing_done"


@dataclass(frozen=True, slots=True)
class Adjustment:
    """A suggestion for the next session of a slot.

    load_kg: to use next (None where nothing was done); reps: to aim for; text: the suggestion as
    a sentence; lines and sources: its account.
    """

    move: Move
    load_kg: float | None
    reps: Reps
    text: str
    lines: tuple[Line, ...] = ()
    sources: tuple[str, ...] = (COMMON_PRACTICE,)

    def working(self) -> Working:
        """The account of the suggestion."""
        title = "Nothing done yet" if self.load_kg is None else mass_text(self.load_kg)
        return Working(title, "next session", self.lines, self.sources)


def rises_in_reach(
    load_kg: float, increments: Increments, *, kind: LoadKind = LoadKind.BARBELL
) -> tuple[float, ...]:
    """The loads in reach that lie 2 to 10 % above, lightest first; empty if there are none.

    Source of the rule: acsm2009.
    """
    low_kg, high_kg = (load_kg * (1 + part) for part in RAISE_BY)
    steps = max(1, round((high_kg - low_kg) / 0.25))
    wanted = (low_kg + (high_kg - low_kg) * step / steps for step in range(steps + 1))
    found = {nearest_in_reach(kg, increments, kind=kind).load_kg for kg in wanted}
    return tuple(sorted(kg for kg in found if low_kg - 1e-9 <= kg <= high_kg + 1e-9))


def next_load(
    slot: Slot,
    results: Sequence[SlotResult],
    increments: Increments,
    *,
    kind: LoadKind = LoadKind.BARBELL,
    curve: str | Curve = "textbook",
) -> Adjustment:
    """What to do next time, from the slot's results: what was lifted against what was meant.

    results: of this slot's strand, in any order; the newest decides, the one before it is asked
    where one day is not enough. A load rises 2 to 10 % once every set was at least a repetition
    over the target (for a range: every set reached its upper end), or the last set was two over
    on two days running; a reserve left over counts as repetitions. Where no load in reach lies
    there, repetitions rise first. Bands and own weight without load get repetitions only.
    Sources: acsm2009, haff2016 (two-for-two; value from memory).
    """
    done = sorted((r for r in results if r.sets), key=lambda r: r.on)
    if not done:
        return Adjustment(Move.NOTHING_DONE, None, slot.reps, "Nothing done yet: begin as planned.")
    days = [DayDone(slot, result, reserve_meant(slot, curve)) for result in done[-2:]]
    newest = days[-1]
    load_kg = max(one.load_kg for one in newest.result.sets)
    at = _Now(slot, load_kg, increments, kind, newest.lines)
    enough = 0.0 if slot.reps.high > slot.reps.low else 1.0
    if min(newest.over) >= enough:
        return _raised(at, max(1.0, min(newest.over)))
    if len(days) == 2 and all(day.over[-1] >= 2 for day in days):
        return _raised(at, min(day.over[-1] for day in days))
    if newest.short >= 3 or (newest.short and len(days) == 2 and days[0].short):
        return _lowered(at)
    return _held(at, newest.short)


def reserve_meant(slot: Slot, curve: str | Curve) -> float | None:
    """The reserve that was meant at the upper end; None past the end of the curve."""
    try:
        return efforts.as_rir(slot.effort, slot.reps.high, curve).reps
    except CoachError:
        return None


@dataclass(frozen=True, slots=True)
class DayDone:
    """One day's result held against what was meant."""

    slot: Slot
    result: SlotResult
    meant: float | None

    def left_over(self, done: SetDone) -> float:
        """Reserve beyond what was meant; below 0 for less; 0 where it is not known."""
        return 0.0 if self.meant is None or done.rir is None else done.rir - self.meant

    @property
    def over(self) -> tuple[float, ...]:
        """For each set, the repetitions over the upper end, with reserve left over added."""
        high = self.slot.reps.high
        return tuple(done.reps - high + self.left_over(done) for done in self.result.sets)

    @property
    def short(self) -> float:
        """How far the worst set fell short, in repetitions; 0 if none did.

        A set that reached the range but ended two or more nearer to failure than meant is short.
        """
        return max(self._short(done) for done in self.result.sets)

    def _short(self, done: SetDone) -> float:
        below = self.slot.reps.low - done.reps
        if below > 0:
            return float(below)
        nearer = -self.left_over(done)
        return nearer if nearer >= 2 else 0.0

    @property
    def lines(self) -> tuple[Line, ...]:
        """What was meant and what was done."""
        low, high = self.slot.reps.low, self.slot.reps.high
        reps = f"{low}" if low == high else f"{low}–{high}"
        aim = f"{self.slot.sets} × {reps}"
        sets = (
            Line(
                f"Set {number}",
                set_text(done.load_kg, done.reps, done.rir or 0.0),
                f"{over:+.3g} against the target",
            )
            for number, (done, over) in enumerate(
                zip(self.result.sets, self.over, strict=True), start=1
            )
        )
        return (Line("Meant", aim, efforts.text(self.slot.effort, high)), *sets)


@dataclass(frozen=True, slots=True)
class _Now:
    """Where the next suggestion starts from."""

    slot: Slot
    load_kg: float
    increments: Increments
    kind: LoadKind
    lines: tuple[Line, ...]

    def say(self, move: Move, load_kg: float, text: str, *, reps: Reps | None = None) -> Adjustment:
        """The suggestion with its account."""
        return Adjustment(
            move,
            load_kg,
            reps or self.slot.reps,
            text,
            (*self.lines, Line("Next", mass_text(load_kg), text)),
            ("acsm2009", "haff2016", FROM_MEMORY, COMMON_PRACTICE),
        )


_FIXED = (LoadKind.BAND, LoadKind.NONE)


def _raised(now: _Now, over: float) -> Adjustment:
    """A heavier load, by about what the repetitions over the target are worth."""
    rises: tuple[float, ...] = ()
    if now.kind not in _FIXED and now.load_kg > 0:
        rises = rises_in_reach(now.load_kg, now.increments, kind=now.kind)
    if not rises:
        return _more_reps(now)
    wanted = now.load_kg * (1 + min(RAISE_BY[1], PER_REP * over))
    load_kg = min(rises, key=lambda kg: (abs(kg - wanted), kg))
    part = load_kg / now.load_kg - 1
    return now.say(
        Move.RAISE,
        load_kg,
        f"The target was passed: {mass_text(load_kg)} next time, {part:.0%} more.",
    )


def _more_reps(now: _Now) -> Adjustment:
    """No load in reach lies 2 to 10 % above: repetitions rise first."""
    reps = now.slot.reps
    more = Reps(min(reps.low + 1, MAX_REPS), min(reps.high + 2, MAX_REPS))
    return now.say(
        Move.ADD_REPS,
        now.load_kg,
        f"The next load in reach is more than 10 % up: do up to {more.high} repetitions first.",
        reps=more,
    )


def _lowered(now: _Now) -> Adjustment:
    """A load about 5 % lighter, at least one step where there is one."""
    if now.kind in _FIXED or now.load_kg <= 0:
        return now.say(
            Move.LOWER, now.load_kg, "The target was missed: consider an easier variation."
        )
    wanted = now.load_kg * (1 - LOWER_BY)
    load_kg = nearest_in_reach(wanted, now.increments, kind=now.kind).load_kg
    lower = wanted
    while load_kg >= now.load_kg and lower > 0:
        lower = max(0.0, lower - 0.5)
        load_kg = nearest_in_reach(lower, now.increments, kind=now.kind).load_kg
    if load_kg >= now.load_kg:
        text = "The target was missed at the lightest load there is: consider an easier variation."
        return now.say(Move.LOWER, now.load_kg, text)
    less = 1 - load_kg / now.load_kg
    return now.say(
        Move.LOWER,
        load_kg,
        f"The target was missed: consider {mass_text(load_kg)} next time, {less:.0%} less.",
    )


def _held(now: _Now, short: float) -> Adjustment:
    """The same load once more."""
    if short:
        text = "Short of the target once: the same load again, and see."
    elif now.slot.reps.high > now.slot.reps.low:
        text = "In the range: the same load, and a repetition more where there is one."
    else:
        text = "As meant: the same load again."
    return now.say(Move.HOLD, now.load_kg, text)
