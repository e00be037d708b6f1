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
from app.domain.loads import next_band
from app.domain.program import MAX_REPS, MAX_SECONDS, Reps, Slot
from app.domain.reach import MOST_ADDED_KG, MOST_HELP_KG, nearest_in_reach
from app.domain.results import SetDone, SlotResult
from app.domain.strength import set_text
from app.domain.units import HEAVIEST_KG, mass_text, require
from app.domain.wording import mark, tr
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
    unit: str = "kg"

    def working(self) -> Working:
        """The account of the suggestion."""
        title = tr("Nothing done yet")
        if self.load_kg is not None:
            title = mass_text(self.load_kg, self.unit)
        return Working(title, tr("next session"), self.lines, self.sources)


def rises_in_reach(
    load_kg: float, increments: Increments, *, kind: LoadKind = LoadKind.BARBELL
) -> tuple[float, ...]:
    """The loads in reach that lie 2 to 10 % above, lightest first; empty if there are none.

    Raises QuantityError outside 0 to 1000 kg.  Source of the rule: acsm2009.
    """
    require("load, kg", load_kg, low=0, high=HEAVIEST_KG)
    most_kg = MOST_ADDED_KG if kind is LoadKind.BODY else HEAVIEST_KG
    low_kg, high_kg = (load_kg * (1 + part) for part in RAISE_BY)
    if low_kg > most_kg:
        return ()
    high_kg = min(high_kg, most_kg)
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
    band: str | None = None,
    unit: str = "kg",
) -> Adjustment:
    """What to do next time, from the slot's results: what was lifted against what was meant.

    results: of this slot's strand, in any order; the newest decides, the one before it is asked
    where one day is not enough. A load rises 2 to 10 % once every set was at least a repetition
    over the target (for a range: every set reached its upper end), or the last set was two over
    on two days running; a reserve left over counts as repetitions. Where no load in reach lies
    there, repetitions rise first; so they do with bands and with own weight. Help falls and
    rises by the step there is. Nothing rises after a day with fewer sets than planned.
    band: the grade that was used, if it is known; unit: the client's, 'kg' or 'lb', in which the
    sentences and the account speak. Raises CoachError for a band out of reach.
    Sources: acsm2009, haff2016 (two-for-two; value from memory).
    """
    done = sorted((r for r in results if r.sets), key=lambda r: r.on)
    if not done:
        return Adjustment(
            Move.NOTHING_DONE, None, slot.reps, tr("Nothing done yet: begin as planned.")
        )
    days = [DayDone(slot, result, reserve_meant(slot, curve), unit) for result in done[-2:]]
    newest = days[-1]
    load_kg = max(one.load_kg for one in newest.result.sets)
    at = _Now(slot, load_kg, increments, kind, newest.lines, band, unit)
    if newest.short >= 3 or (newest.short and len(days) == 2 and days[0].short):
        return _lowered(at)
    if newest.lacking:
        return _held_back(at, len(newest.result.sets))
    enough = 0.0 if slot.reps.high > slot.reps.low else 1.0
    if min(newest.over) >= enough:
        return _raised(at, max(1.0, min(newest.over)))
    if len(days) == 2 and all(day.over[-1] >= 2 and not day.lacking for day in days):
        return _raised(at, min(day.over[-1] for day in days))
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
    unit: str = "kg"

    def left_over(self, done: SetDone) -> float:
        """Reserve beyond what was meant; below 0 for less; 0 where it is not known."""
        return 0.0 if self.meant is None or done.rir is None else done.rir - self.meant

    @property
    def over(self) -> tuple[float, ...]:
        """For each set, the repetitions over the upper end, with reserve left over added."""
        high = self.slot.reps.high
        return tuple(done.reps - high + self.left_over(done) for done in self.result.sets)

    @property
    def lacking(self) -> int:
        """How many of the sets planned were not done."""
        return max(0, self.slot.sets - len(self.result.sets))

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
                tr("Set {number}", number=number),
                set_text(done.load_kg, done.reps, done.rir or 0.0, self.unit),
                tr("{over:+.3g} against the target", over=over),
            )
            for number, (done, over) in enumerate(
                zip(self.result.sets, self.over, strict=True), start=1
            )
        )
        return (Line(tr("Meant"), aim, efforts.text(self.slot.effort, high)), *sets)


@dataclass(frozen=True, slots=True)
class _Now:
    """Where the next suggestion starts from."""

    slot: Slot
    load_kg: float
    increments: Increments
    kind: LoadKind
    lines: tuple[Line, ...]
    band: str | None = None
    unit: str = "kg"

    def say(self, move: Move, load_kg: float, text: str, *, reps: Reps | None = None) -> Adjustment:
        """The suggestion with its account."""
        return Adjustment(
            move,
            load_kg,
            reps or self.slot.reps,
            text,
            (*self.lines, Line(tr("Next"), mass_text(load_kg, self.unit), text)),
            ("acsm2009", "haff2016", FROM_MEMORY, COMMON_PRACTICE),
            self.unit,
        )


_FIXED = (LoadKind.BAND, LoadKind.NONE)


def _raised(now: _Now, over: float) -> Adjustment:
    """A heavier load, by about what the repetitions over the target are worth."""
    if now.kind is LoadKind.BODY and now.load_kg < 0:
        return _less_help(now)
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
        tr(
            "The target was passed: {load_kg} next time, {part:.0%} more.",
            load_kg=mass_text(load_kg, now.unit),
            part=part,
        ),
    )


def _less_help(now: _Now) -> Adjustment:
    """Help one step less, down to own weight alone."""
    step_kg = now.increments.machine_step_kg
    load_kg = min(0.0, now.load_kg + step_kg)
    if not load_kg:
        return now.say(Move.RAISE, 0.0, tr("The target was passed: own weight alone next time."))
    return now.say(
        Move.RAISE,
        load_kg,
        tr(
            "The target was passed: {load_kg} of help next time, {step_kg} less.",
            load_kg=mass_text(-load_kg, now.unit),
            step_kg=mass_text(step_kg, now.unit),
        ),
    )


def _more_reps(now: _Now) -> Adjustment:
    """No load in reach lies 2 to 10 % above: repetitions rise first."""
    reps = now.slot.reps
    most = MAX_REPS if reps.high <= MAX_REPS else MAX_SECONDS
    more = Reps(min(reps.low + 1, most), min(reps.high + 2, most))
    why, then = _why_reps(now)
    if more.high == reps.high:
        return now.say(Move.HOLD, now.load_kg, tr("{why} Consider a harder variation.", why=why))
    text = tr(
        "{why} Do up to {high} repetitions first, then {then}.", why=why, high=more.high, then=then
    )
    return now.say(Move.ADD_REPS, now.load_kg, text, reps=more)


HARDER = mark("a harder variation")


def _why_reps(now: _Now) -> tuple[str, str]:
    """Why repetitions rise and no load, as a sentence, and what comes after them."""
    if now.kind is LoadKind.NONE:
        return tr("There is no load to raise."), tr(HARDER)
    if now.kind is LoadKind.BAND:
        return _why_band(now)
    next_kg = _next_up(now)
    if next_kg is None:
        most = mass_text(now.load_kg, now.unit) if now.load_kg else tr("The body alone")
        return tr("{most} is the heaviest in reach.", most=most), tr(HARDER)
    if not now.load_kg:
        return tr("Own weight was enough."), tr(
            "add {next_kg}", next_kg=mass_text(next_kg, now.unit)
        )
    part = next_kg / now.load_kg - 1
    far = tr("more than 10 % up") if part > RAISE_BY[1] else tr("only {part:.0%} up", part=part)
    return tr(
        "The next load in reach, {next_kg}, is {far}.",
        next_kg=mass_text(next_kg, now.unit),
        far=far,
    ), tr("take {next_kg}", next_kg=mass_text(next_kg, now.unit))


def _why_band(now: _Now) -> tuple[str, str]:
    """The same for bands, from light to heavy."""
    bands = now.increments.bands
    if not bands:
        return tr("No stronger band is in reach."), tr(HARDER)
    if now.band is None:
        return tr("Bands have no load to raise."), tr(
            "the next stronger of {bands}", bands=", ".join(bands)
        )
    stronger = next_band(bands, now.band)
    if stronger is None:
        return tr("The band that is {band} is the strongest in reach.", band=now.band), tr(HARDER)
    return tr("Bands rise by whole grades."), tr(
        "take the band that is {stronger}", stronger=stronger
    )


def _next_up(now: _Now) -> float | None:
    """The lightest load in reach above the present one; None if there is none."""
    most_kg = MOST_ADDED_KG if now.kind is LoadKind.BODY else HEAVIEST_KG
    # no pair of plates weighs more than 200 kg
    for quarters in range(1, 801):
        wanted = now.load_kg + quarters / 4
        if wanted > most_kg:
            return None
        found = nearest_in_reach(wanted, now.increments, kind=now.kind).load_kg
        if found > now.load_kg + 1e-6:
            return found
    return None


def _lowered(now: _Now) -> Adjustment:
    """A load about 5 % lighter, at least one step where there is one."""
    if now.kind is LoadKind.BODY and now.load_kg < 0:
        return _more_help(now)
    if now.kind is LoadKind.BAND and now.band is not None:
        weaker = next_band(now.increments.bands, now.band, harder=False)
        if weaker is not None:
            text = tr(
                "The target was missed: consider the band that is {weaker} next time.",
                weaker=weaker,
            )
            return now.say(Move.LOWER, now.load_kg, text)
    if now.kind in _FIXED or now.load_kg <= 0:
        return now.say(
            Move.LOWER, now.load_kg, tr("The target was missed: consider an easier variation.")
        )
    wanted = now.load_kg * (1 - LOWER_BY)
    load_kg = nearest_in_reach(wanted, now.increments, kind=now.kind).load_kg
    lower = wanted
    while load_kg >= now.load_kg and lower > 0:
        lower = max(0.0, lower - 0.5)
        load_kg = nearest_in_reach(lower, now.increments, kind=now.kind).load_kg
    if load_kg >= now.load_kg:
        text = tr(
            "The target was missed at the lightest load there is: consider an easier variation."
        )
        return now.say(Move.LOWER, now.load_kg, text)
    less = 1 - load_kg / now.load_kg
    return now.say(
        Move.LOWER,
        load_kg,
        tr(
            "The target was missed: consider {load_kg} next time, {less:.0%} less.",
            load_kg=mass_text(load_kg, now.unit),
            less=less,
        ),
    )


def _more_help(now: _Now) -> Adjustment:
    """Help one step more, as far as there is any."""
    step_kg = now.increments.machine_step_kg
    load_kg = now.load_kg - step_kg
    if load_kg < -MOST_HELP_KG:
        text = tr("The target was missed with all the help there is: consider an easier variation.")
        return now.say(Move.LOWER, now.load_kg, text)
    return now.say(
        Move.LOWER,
        load_kg,
        tr(
            "The target was missed: consider {load_kg} of help next time, {step_kg} more.",
            load_kg=mass_text(-load_kg, now.unit),
            step_kg=mass_text(step_kg, now.unit),
        ),
    )


def _held_back(now: _Now, done: int) -> Adjustment:
    """The same load until every set that is planned is done."""
    return now.say(
        Move.HOLD,
        now.load_kg,
        tr(
            "{done} of {sets} sets done: the same load again until all of them are.",
            done=done,
            sets=now.slot.sets,
        ),
    )


def _held(now: _Now, short: float) -> Adjustment:
    """The same load once more."""
    if short:
        text = tr("Short of the target once: the same load again, and see.")
    elif now.slot.reps.high > now.slot.reps.low:
        text = tr("In the range: the same load, and a repetition more where there is one.")
    else:
        text = tr("As meant: the same load again.")
    return now.say(Move.HOLD, now.load_kg, text)
