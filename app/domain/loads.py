"""The load for a slot of a plan and a client: from the newest test, or how to find one.

Loads are not stored in a plan. They follow from the plan, the client's tests and what there is
to load with, so a new test changes every load that rests on it.
"""

from __future__ import annotations

from dataclasses import dataclass, replace
from datetime import date

from app.domain import effort as efforts
from app.domain.client import Client, Increments, StrengthTest
from app.domain.curve import Curve, find_curve
from app.domain.effort import PercentOneRm, Rir
from app.domain.errors import CoachError
from app.domain.exercise import Catalogue, Exercise, LoadKind
from app.domain.program import Program, Slot
from app.domain.reach import nearest_in_reach
from app.domain.strength import (
    MAX_REPS,
    Load,
    OneRepMax,
    estimate_one_rep_max,
    prescribe_load,
    set_text,
)
from app.domain.units import mass_text, number_text
from app.domain.work import PrintedLoad
from app.domain.working import COMMON_PRACTICE, Line

_MONTHS = ("Jan", "Feb", "Mar", "Apr", "May", "Jun", "Jul", "Aug", "Sep", "Oct", "Nov", "Dec")
_WITHOUT_KG = (LoadKind.BAND, LoadKind.NONE)

LIGHTEST_TEST_KG = 0.5
"""The least that a test lifts, the body's part included. Common practice."""


def day_text(day: date) -> str:
    """A day as it stands in an account: '2 Oct 2026', the same in every locale."""
    return f"{day.day} {_MONTHS[day.month - 1]} {day.year}"


def newest_test(exercise: Exercise, client: Client) -> StrengthTest | None:
    """The newest test of the exercise from which a 1RM can be estimated; None if there is none.

    Tests whose repetitions and reserve pass 30 are left out: no equation reaches that far.
    """
    usable = (
        test
        for test in client.tests
        if test.exercise == exercise.key and test.reps + test.rir <= MAX_REPS
    )
    return max(usable, key=lambda test: test.on, default=None)


def body_kg(exercise: Exercise, client: Client) -> float:
    """The part of the client's mass that is lifted along with the load, kg; 0 if unknown."""
    if exercise.load_kind is not LoadKind.BODY or client.mass_kg is None:
        return 0.0
    return exercise.body_share * client.mass_kg


def require_load_of_test(test: StrengthTest, exercise: Exercise, client: Client) -> StrengthTest:
    """`test` itself, once its load is known to be one that the exercise can have.

    Own weight alone (0) and help (below 0) are for body-weight exercises, and help has to leave
    something to lift. Raises CoachError.
    """
    if exercise.load_kind is not LoadKind.BODY and test.load_kg < LIGHTEST_TEST_KG:
        raise CoachError(
            f"A test of {exercise.name} cannot have {number_text(test.load_kg)} kg.",
            mend=f"Enter what was lifted, {LIGHTEST_TEST_KG} kg at least; own weight and help are "
            "for body-weight exercises.",
        )
    part_kg = body_kg(exercise, client)
    if part_kg and test.load_kg + part_kg < LIGHTEST_TEST_KG:
        raise CoachError(
            f"{mass_text(-test.load_kg)} of help leave nothing of the "
            f"{mass_text(part_kg, digits=1)} of own weight in {exercise.name}.",
            mend="Enter less help, or correct the body mass.",
        )
    return test


def one_rep_max_of(exercise: Exercise, client: Client) -> OneRepMax | None:
    """The 1RM that the newest test stands for, with the body's part included.

    None where nothing was tested, or where what was lifted is not known: own weight without the
    client's mass or without a published share of it.
    """
    test = newest_test(exercise, client)
    if test is None or exercise.timed or exercise.load_kind in _WITHOUT_KG:
        return None
    if exercise.load_kind is LoadKind.BODY and client.mass_kg is None:
        return None
    lifted_kg = test.load_kg + body_kg(exercise, client)
    if lifted_kg < LIGHTEST_TEST_KG:
        return None
    return estimate_one_rep_max(lifted_kg, test.reps, test.rir)


def load_for(
    slot: Slot, exercise: Exercise, client: Client, curve: str | Curve = "textbook"
) -> Load | None:
    """The load for the slot, or None where there is none: timed, band, nothing tested.

    A load set by hand wins. Otherwise the newest test of the exercise decides: the median of the
    seven equations, and of a range such as 8-10 the upper end, so that the whole range can be
    done at the effort meant. Also None where the curve does not reach (more than 50 repetitions
    with the reserve).
    """
    if exercise.timed or exercise.load_kind in _WITHOUT_KG:
        return None
    one_rm = one_rep_max_of(exercise, client)
    about = f"{exercise.name}, {_prescription_text(slot)}"
    if slot.load_kg is not None:
        return _pinned(slot.load_kg, one_rm, exercise=exercise, client=client, about=about)
    test = newest_test(exercise, client)
    if one_rm is None or test is None or _past_curve(slot, curve):
        return None
    load = prescribe_load(
        one_rm.median,
        slot.reps.high,
        slot.effort,
        client.increments,
        kind=exercise.load_kind,
        curve=curve,
        body_kg=body_kg(exercise, client),
        unit=client.units,
    )
    remarks = (load.remark, *one_rm.remarks)
    return replace(
        load,
        lines=(*_test_lines(test, one_rm, client.units), *load.lines),
        sources=(*one_rm.sources, *load.sources),
        about=about,
        remark=" ".join(remark for remark in remarks if remark),
    )


def printed_loads(
    program: Program, client: Client, catalogue: Catalogue
) -> tuple[PrintedLoad, ...]:
    """The load of every slot, as a booklet handed out now would print it."""
    found = []
    for week in program.weeks:
        for slot in week.slots():
            load = load_for(slot, catalogue[slot.exercise], client, program.curve)
            found.append(PrintedLoad(slot.id, None if load is None else load.load_kg))
    return tuple(found)


def _past_curve(slot: Slot, curve: str | Curve) -> bool:
    """True if the repetitions to failure lie past the end of the curve."""
    if isinstance(slot.effort, PercentOneRm):
        return False
    reserve = slot.effort.reps if isinstance(slot.effort, Rir) else 0.0
    return slot.reps.high + reserve > find_curve(curve).max_reps


def _test_lines(test: StrengthTest, one_rm: OneRepMax, unit: str) -> tuple[Line, ...]:
    """The account of the test, with the load as it was written down."""
    _, estimate = one_rm.lines(unit)
    done = set_text(test.load_kg, test.reps, test.rir, unit)
    added = one_rm.load_kg - test.load_kg
    own = f"and {mass_text(added, unit, digits=1)} of own weight" if added else ""
    return (Line(f"Test, {day_text(test.on)}", done, own), estimate)


def _prescription_text(slot: Slot) -> str:
    """'4 × 10 at RIR 2'."""
    low, high = slot.reps.low, slot.reps.high
    reps = f"{low}" if low == high else f"{low}–{high}"
    return f"{slot.sets} × {reps} at {efforts.text(slot.effort, high)}"


def _pinned(
    load_kg: float, one_rm: OneRepMax | None, *, exercise: Exercise, client: Client, about: str
) -> Load:
    """A load that the coach set by hand: its share of the 1RM, and whether it can be put on."""
    unit = client.units
    reached = nearest_in_reach(load_kg, client.increments, kind=exercise.load_kind, unit=unit)
    off = abs(reached.load_kg - load_kg) > 0.005
    lines = [Line("Set by hand", mass_text(load_kg, unit))]
    share = None
    if one_rm is not None:
        share = (load_kg + body_kg(exercise, client)) / one_rm.median
        whole = mass_text(one_rm.median, unit, digits=1)
        lines.append(Line("Share of the 1RM", f"{number_text(100 * share)} %", f"of {whole}"))
    return Load(
        load_kg=load_kg,
        exact_kg=load_kg,
        fraction=share,
        one_rm_kg=None if one_rm is None else one_rm.median,
        rounding="Set by hand",
        sources=() if one_rm is None else one_rm.sources,
        lines=tuple(lines),
        about=about,
        plates=None if off else reached.plates,
        remark=f"The nearest load in reach is {mass_text(reached.load_kg, unit)}." if off else "",
        pinned=True,
    )


@dataclass(frozen=True, slots=True)
class Calibration:
    """How a client finds the load in the first session, where nothing has been tested.

    first_kg: where to begin (None for bands and own weight); steps: sentences for the client, in
    order; source: common practice.
    """

    first_kg: float | None
    steps: tuple[str, ...]
    source: str = COMMON_PRACTICE


def calibration(slot: Slot, exercise: Exercise, client: Client) -> Calibration:
    """The instructions that find the load for the slot without a test, set by set."""
    reps = slot.reps.high
    unit = "seconds" if exercise.timed else "repetitions"
    first_kg = _first_kg(exercise, client.increments)
    reserve = _reserve_text(slot, reps)
    return Calibration(
        first_kg,
        (
            _begin_text(exercise, client, first_kg=first_kg),
            f"Do {reps} {unit}, in good form, and rest two minutes.",
            _raise_text(exercise, client, unit=unit),
            (
                f"Stop raising at the first set that leaves {reserve}. "
                "If pain or bad form comes earlier, stop there."
            ),
            (
                "That set counts as the first working set. Write down what you used, how many "
                f"{unit} you did and how many more you could have done."
            ),
        ),
    )


def _reserve_text(slot: Slot, reps: int) -> str:
    """How much should be left, in the client's words."""
    try:
        left = efforts.as_rir(slot.effort, reps).reps
    except CoachError:
        left = 2.0
    whole = max(1, round(left))
    return f"about {whole} {'repetition' if whole == 1 else 'repetitions'} in you"


def _first_kg(exercise: Exercise, increments: Increments) -> float | None:
    """The lightest load there is for the exercise, kg."""
    if exercise.load_kind in (*_WITHOUT_KG, LoadKind.BODY):
        return None
    return nearest_in_reach(0.0, increments, kind=exercise.load_kind).load_kg


def _begin_text(exercise: Exercise, client: Client, *, first_kg: float | None) -> str:
    """Where to begin."""
    match exercise.load_kind:
        case LoadKind.BARBELL:
            return f"Begin with the empty bar, {mass_text(first_kg or 0.0, client.units)}."
        case LoadKind.BAND if not client.increments.bands:
            return f"No band is in reach: {exercise.name} needs one. Ask your coach."
        case LoadKind.BAND:
            return f"Begin with the band that is {client.increments.bands[0]}."
        case LoadKind.BODY | LoadKind.NONE:
            return "Begin with your own weight alone, or with the easier variation."
        case _:
            return f"Begin with the lightest load, {mass_text(first_kg or 0.0, client.units)}."


def _raise_text(exercise: Exercise, client: Client, *, unit: str) -> str:
    """How to go on from set to set."""
    rule = f"If you could have done five {unit} more or better, "
    match exercise.load_kind:
        case LoadKind.BAND if not client.increments.bands:
            return rule + "do a few more next time."
        case LoadKind.BAND:
            return rule + "take the next stronger band: " + ", ".join(client.increments.bands) + "."
        case LoadKind.BODY | LoadKind.NONE:
            return rule + "add a little load or take a harder variation."
        case LoadKind.BARBELL:
            step_kg = 2 * min(client.increments.plates_kg, default=1.25)
            some = mass_text(4 * step_kg, client.units)
            one = mass_text(step_kg, client.units)
            return rule + f"add {some}; if three or four, add {one}. Repeat."
        case _:
            return rule + "go up two steps; if three or four, one step. Repeat."


def next_band(bands: tuple[str, ...], grade: str, *, harder: bool = True) -> str | None:
    """The band grade after (or before) `grade`; None where there is no such grade.

    bands: from light to heavy. Raises CoachError for a grade that is not among them.
    """
    if not bands:
        raise CoachError(
            f"There is no band {grade!r}: no band is in reach.",
            mend="Add the bands to the client's equipment.",
        )
    if grade not in bands:
        raise CoachError(
            f"There is no band {grade!r} among {', '.join(bands)}.",
            mend="Choose one of these, or add it to the client's equipment.",
        )
    at = bands.index(grade) + (1 if harder else -1)
    return bands[at] if 0 <= at < len(bands) else None
