"""What a coach types of a session: one line a set, read against what was meant.

Nothing typed is changed here. A line is read as a set, as left out, or not at all yet; what cannot
be read is named. Loads are typed in the client's unit and read in kg.
"""

from __future__ import annotations

import re
from collections.abc import Iterable, Sequence
from dataclasses import dataclass
from datetime import date

from app.domain.curve import Curve
from app.domain.doubt import unit_slip
from app.domain.errors import CoachError
from app.domain.exercise import Exercise, LoadKind
from app.domain.program import Slot
from app.domain.progress.next_load import reserve_meant
from app.domain.results import SetDone, SlotResult
from app.domain.units import KG_PER_LB, kg_from_lb, lb_from_kg, mass_text, number_text
from app.domain.wording import date_text, number_as_spoken, tr

SKIPPED = "\N{EN DASH}"
"""What stands in a line for a set that was left out."""

_SKIP_SIGNS = frozenset({SKIPPED, "-", "\N{EM DASH}", "\N{MINUS SIGN}", "/"})
_WITHOUT_KG = (LoadKind.BAND, LoadKind.NONE)
_NUMBER = r"[-\N{MINUS SIGN}]?\d+(?:[.,]\d+)?"
_MASS = re.compile(rf"({_NUMBER})\s*(kg|lbs?)?", re.IGNORECASE)
_WHOLE_SET = re.compile(
    rf"({_NUMBER}\s*(?:kg|lbs?)?)\s*[x×*]\s*(\d+)\s*(?:[/@]\s*({_NUMBER}))?", re.IGNORECASE
)


@dataclass(frozen=True, slots=True)
class Typed:
    """One line as it is typed: load, repetitions (or seconds) and reserve."""

    load: str = ""
    reps: str = ""
    rir: str = ""

    @property
    def is_empty(self) -> bool:
        """True if nothing stands in it."""
        return not (self.load or self.reps or self.rir)

    @property
    def is_skipped(self) -> bool:
        """True if it says that the set was left out."""
        return self.reps in _SKIP_SIGNS or (not self.reps and self.load in _SKIP_SIGNS)


LEFT_OUT = Typed(SKIPPED, SKIPPED, SKIPPED)


@dataclass(frozen=True, slots=True)
class Asked:
    """What was meant of one slot: its prescription, its exercise, the load that was printed.

    load_kg: None where none was printed; unit: the client's, 'kg' or 'lb'.
    """

    slot: Slot
    exercise: Exercise
    load_kg: float | None = None
    unit: str = "kg"

    @property
    def weighed(self) -> bool:
        """True if sets of it have a load in kg."""
        return self.exercise.load_kind not in _WITHOUT_KG


# ---------------------------------------------------------------------------- reading


def read_number(text: str) -> float:
    """The number typed, with a decimal comma or point. Raises CoachError that quotes the text."""
    plain = text.strip()
    if not re.fullmatch(_NUMBER, plain):
        raise CoachError(
            tr("'{text}' is not a number.", text=plain), mend=tr("Type figures, such as 62.5.")
        )
    return float(plain.replace(",", ".").replace("\N{MINUS SIGN}", "-"))


def read_load(text: str, unit: str) -> float:
    """The load typed, kg; a unit behind it counts before `unit`. Raises CoachError."""
    found = _MASS.fullmatch(text.strip())
    if found is None:
        return read_number(text)
    named = (found[2] or unit).lower()
    amount = read_number(found[1])
    return kg_from_lb(amount) if named.startswith("lb") else amount


def read_whole(text: str) -> int:
    """The whole number typed. Raises CoachError."""
    amount = read_number(text)
    if amount != int(amount):
        raise CoachError(
            tr("{text} is not a whole number.", text=text.strip()),
            mend=tr("Type whole repetitions, or whole seconds."),
        )
    return int(amount)


def split_line(text: str) -> Typed | None:
    """A whole set typed at once, '62.5 x 10 / 2', as a line; None if it is not one."""
    found = _WHOLE_SET.fullmatch(text.strip())
    return None if found is None else Typed(found[1].strip(), found[2], found[3] or "")


def read_line(typed: Typed, asked: Asked, above: SetDone | None = None) -> SetDone | None:
    """The set that a line tells; None for an empty line and for a set that was left out.

    above: the set before it, whose load counts where none is typed; before that the printed one.
    Raises CoachError for what is no number, lies outside what can be, or is not finished.
    """
    if typed.is_empty or typed.is_skipped:
        return None
    if not typed.reps:
        raise CoachError(
            tr("The seconds are missing.")
            if asked.exercise.timed
            else tr("The repetitions are missing."),
            mend=tr("Type them, or clear the line."),
        )
    reps = read_whole(typed.reps)
    rir = None if not typed.rir else read_number(typed.rir)
    return SetDone(_load_of(typed, asked, above), reps, rir)


def _load_of(typed: Typed, asked: Asked, above: SetDone | None) -> float:
    if typed.load:
        return read_load(typed.load, asked.unit)
    if not asked.weighed:
        return 0.0
    if above is not None:
        return above.load_kg
    if asked.load_kg is not None:
        return asked.load_kg
    if asked.exercise.load_kind is LoadKind.BODY:
        return 0.0
    raise CoachError(tr("The load is missing."), mend=tr("Type it, or clear the line."))


def wrong_field(typed: Typed) -> str:
    """Which field of a line that cannot be read is to be mended: 'load', 'reps' or 'rir'."""
    try:
        SetDone(0.0, read_whole(typed.reps))
    except CoachError:
        return "reps"
    try:
        SetDone(0.0, 1, read_number(typed.rir) if typed.rir else None)
    except CoachError:
        return "rir"
    return "load"


@dataclass(frozen=True, slots=True)
class Fault:
    """A line that cannot be read: its number from 0, and why."""

    line: int
    error: CoachError


def read_lines(lines: Sequence[Typed], asked: Asked) -> tuple[tuple[SetDone, ...], list[Fault]]:
    """The sets that the lines tell, and the lines that cannot be read."""
    sets: list[SetDone] = []
    faults: list[Fault] = []
    for number, typed in enumerate(lines):
        try:
            done = read_line(typed, asked, sets[-1] if sets else None)
        except CoachError as error:
            faults.append(Fault(number, error))
            continue
        if done is not None:
            sets.append(done)
    return tuple(sets), faults


# ---------------------------------------------------------------------------- writing


def load_text(load_kg: float, unit: str) -> str:
    """A load as it is typed: in the client's unit, without the unit."""
    if unit == "lb":
        return number_text(lb_from_kg(load_kg), 1)
    return number_text(load_kg, 2)


def typed_set(done: SetDone, asked: Asked) -> Typed:
    """A set as its line would be typed."""
    load = load_text(done.load_kg, asked.unit) if asked.weighed or done.load_kg else ""
    rir = "" if done.rir is None else number_text(done.rir, 1)
    return Typed(load, str(done.reps), rir)


def typed_result(result: SlotResult | None, asked: Asked) -> tuple[Typed, ...]:
    """A result as lines, at least one for each set that was meant.

    Where there is a result, sets that are not in it were left out.
    """
    if result is None:
        return (Typed(),) * asked.slot.sets
    done = tuple(typed_set(one, asked) for one in result.sets)
    return done + (LEFT_OUT,) * (asked.slot.sets - len(done))


def as_planned(
    asked: Asked, curve: str | Curve = "textbook", *, usual_kg: float | None = None
) -> tuple[Typed, ...]:
    """Lines that say all was done as meant: of a range its upper end, and the reserve meant.

    usual_kg: the load where none was printed.
    """
    load_kg = asked.load_kg if asked.load_kg is not None else usual_kg
    load = load_text(load_kg, asked.unit) if asked.weighed and load_kg is not None else ""
    meant = None if asked.exercise.timed else reserve_meant(asked.slot, curve)
    rir = "" if meant is None else number_as_spoken(f"{round(meant * 2) / 2:g}")
    return (Typed(load, str(asked.slot.reps.high), rir),) * asked.slot.sets


# ---------------------------------------------------------------------------- doubts


@dataclass(frozen=True, slots=True)
class LoadDoubt:
    """A question on the loads of one slot. factor: what they are to be multiplied by if it is so.

    verb: what the coach would say then.
    """

    question: str
    factor: float
    verb: str


def doubt_loads(sets: Iterable[SetDone], asked: Asked, known_kg: float | None) -> LoadDoubt | None:
    """A question if the heaviest load lies about a factor of 2.2 from the one that is known.

    known_kg: what was last done, else what was printed.
    """
    heaviest = max((done.load_kg for done in sets), default=0.0)
    if known_kg is None:
        return None
    meant = unit_slip(heaviest, known_kg)
    if meant is None:
        return None
    factor = KG_PER_LB if meant < heaviest else 1 / KG_PER_LB
    words = {
        "load": mass_text(heaviest, asked.unit),
        "known": mass_text(known_kg, asked.unit),
        "exercise": asked.exercise.name,
        "meant": mass_text(meant, asked.unit),
    }
    question = tr("{exercise}: {load}, where {known} is known. Is it in another unit?", **words)
    if asked.unit == "kg" and meant < heaviest:
        return LoadDoubt(question, factor, tr("It was in lb: {meant}", **words))
    if asked.unit == "lb" and meant > heaviest:
        return LoadDoubt(question, factor, tr("It was in kg: {meant}", **words))
    return LoadDoubt(question, factor, tr("Make it {meant}", **words))


def refuse_future(day: date, today: date) -> date:
    """`day` itself. Raises CoachError for one that is not yet over."""
    if day > today:
        raise CoachError(
            tr("{day} is in the future.", day=date_text(day)),
            mend=tr("Enter the day the session was done."),
        )
    return day


def doubt_day(day: date, *, start: date, planned: date) -> str:
    """A question on the day of a session; empty if there is none.

    start: the first day of the program; planned: the day the session stands on.
    """
    if day < start:
        return tr(
            "{day} lies before the program begins, on {start}. Is it right?",
            day=date_text(day),
            start=date_text(start),
        )
    if abs((day - planned).days) > 28:
        return tr(
            "{day} lies more than four weeks from the day it was planned for, {planned}.",
            day=date_text(day),
            planned=date_text(planned),
        )
    return ""
