"""The load for a slot of a plan and a client: from the newest test, or how to find one.

Loads are not stored in a plan. They follow from the plan, the client's tests and what there is
to load with, so a new test changes every load that rests on it.
"""

from __future__ import annotations

from dataclasses import dataclass, replace
from datetime import date

from app.domain import effort as efforts
from app.domain.client import Client, Increments, StrengthTest, band_name
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
from app.domain.wording import date_text, mark, tr, trn
from app.domain.work import PrintedLoad
from app.domain.working import COMMON_PRACTICE, Line

_WITHOUT_KG = (LoadKind.BAND, LoadKind.NONE)

GUESS_REMARK = mark("Rests on a guess from a related exercise, not on a test of this one.")
"""What is said of every load that rests on a confirmed guess."""

LIGHTEST_TEST_KG = 0.5
"""The least that a test lifts, the body's part included. Common practice."""


def day_text(day: date) -> str:
    """A day as it stands in an account: '2 Oct 2026', the same in every locale."""
    return date_text(day)


def newest_test(exercise: Exercise, client: Client) -> StrengthTest | None:
    """The newest test of the exercise from which a 1RM can be estimated; None if there is none.

    Tests whose repetitions and reserve pass 30 are left out: no equation reaches that far. Of
    several on one day the first counts, which is the order the coach gave them; a guess counts
    only where nothing was tested.
    """
    usable = (
        test
        for test in client.tests
        if test.exercise == exercise.key and test.reps + test.rir <= MAX_REPS
    )
    return max(usable, key=lambda test: (test.guessed_from is None, test.on), default=None)


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
            tr(
                "A test of {exercise} cannot have {load_kg} kg.",
                exercise=exercise.name,
                load_kg=number_text(test.load_kg),
            ),
            mend=tr(
                "Enter what was lifted, {lightest_test_kg} kg at least; own "
                "weight and help are for body-weight exercises.",
                lightest_test_kg=LIGHTEST_TEST_KG,
            ),
        )
    part_kg = body_kg(exercise, client)
    if part_kg and test.load_kg + part_kg < LIGHTEST_TEST_KG:
        raise CoachError(
            tr(
                "{load_kg} of help leave nothing of the {part_kg} of own weight in {exercise}.",
                load_kg=mass_text(-test.load_kg),
                part_kg=mass_text(part_kg, digits=1),
                exercise=exercise.name,
            ),
            mend=tr("Enter less help, or correct the body mass."),
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
    slot: Slot,
    exercise: Exercise,
    client: Client,
    curve: str | Curve = "textbook",
    *,
    increments: Increments | None = None,
) -> Load | None:
    """The load for the slot, or None where there is none: timed, band, nothing tested.

    A load set by hand wins. Otherwise the newest test of the exercise decides: the median of the
    seven equations, and of a range such as 8-10 the upper end, so that the whole range can be
    done at the effort meant. Also None where the curve does not reach (more than 50 repetitions
    with the reserve). increments: what there is to load with where the slot is done; the client's
    usual steps if not given.
    """
    if exercise.timed or exercise.load_kind in _WITHOUT_KG:
        return None
    one_rm = one_rep_max_of(exercise, client)
    about = f"{exercise.name}, {_prescription_text(slot)}"
    if slot.load_kg is not None:
        at_hand = client if increments is None else replace(client, increments=increments)
        return _pinned(slot.load_kg, one_rm, exercise=exercise, client=at_hand, about=about)
    test = newest_test(exercise, client)
    if one_rm is None or test is None or _past_curve(slot, curve):
        return None
    load = prescribe_load(
        one_rm.median,
        slot.reps.high,
        slot.effort,
        increments or client.increments,
        kind=exercise.load_kind,
        curve=curve,
        body_kg=body_kg(exercise, client),
        unit=client.units,
    )
    guessed = test.guessed_from is not None
    remarks = (tr(GUESS_REMARK) if guessed else "", load.remark, *one_rm.remarks)
    return replace(
        load,
        lines=(*_test_lines(test, one_rm, client.units), *load.lines),
        sources=(*one_rm.sources, *load.sources),
        about=about,
        remark=" ".join(remark for remark in remarks if remark),
        rests_on=test,
    )


def printed_loads(
    program: Program, client: Client, catalogue: Catalogue
) -> tuple[PrintedLoad, ...]:
    """The load of every slot, as a booklet handed out now would print it."""
    found = []
    for week in program.weeks:
        for day, session in week.sessions():
            steps = client.increments_on(day)
            for slot in session.slots:
                exercise = catalogue[slot.exercise]
                load = load_for(slot, exercise, client, program.curve, increments=steps)
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
    own = tr("and {added} of own weight", added=mass_text(added, unit, digits=1)) if added else ""
    label = tr("Test, {on}") if test.guessed_from is None else tr("Guess, {on}")
    return (Line(label.format(on=day_text(test.on)), done, own), estimate)


def _prescription_text(slot: Slot) -> str:
    """'4 × 10 at RIR 2'."""
    low, high = slot.reps.low, slot.reps.high
    reps = f"{low}" if low == high else f"{low}–{high}"
    return tr(
        "{sets} × {reps} at {text}", sets=slot.sets, reps=reps, text=efforts.text(slot.effort, high)
    )


def _pinned(
    load_kg: float, one_rm: OneRepMax | None, *, exercise: Exercise, client: Client, about: str
) -> Load:
    """A load that the coach set by hand: its share of the 1RM, and whether it can be put on."""
    unit = client.units
    reached = nearest_in_reach(load_kg, client.increments, kind=exercise.load_kind, unit=unit)
    off = abs(reached.load_kg - load_kg) > 0.005
    lines = [Line(tr("Set by hand"), mass_text(load_kg, unit))]
    share = None
    if one_rm is not None:
        share = (load_kg + body_kg(exercise, client)) / one_rm.median
        whole = mass_text(one_rm.median, unit, digits=1)
        lines.append(
            Line(
                tr("Share of the 1RM"),
                f"{number_text(100 * share)} %",
                tr("of {whole}", whole=whole),
            )
        )
    return Load(
        load_kg=load_kg,
        exact_kg=load_kg,
        fraction=share,
        one_rm_kg=None if one_rm is None else one_rm.median,
        rounding=tr("Set by hand"),
        sources=() if one_rm is None else one_rm.sources,
        lines=tuple(lines),
        about=about,
        plates=None if off else reached.plates,
        remark=tr(
            "The nearest load in reach is {load_kg}.", load_kg=mass_text(reached.load_kg, unit)
        )
        if off
        else "",
        pinned=True,
    )


@dataclass(frozen=True, slots=True)
class Calibration:
    """How a client finds the load in the first session, where nothing has been tested.

    first_kg: where to begin (None for bands and own weight); steps: sentences for the client, in
    order; go_up: the middle one's end, how to go on where five more were in reach; source: common
    practice.
    """

    first_kg: float | None
    steps: tuple[str, ...]
    go_up: str
    source: str = COMMON_PRACTICE


def calibration(slot: Slot, exercise: Exercise, client: Client) -> Calibration:
    """The instructions that find the load for the slot without a test, set by set."""
    reps = slot.reps.high
    first_kg = _first_kg(exercise, client.increments)
    reserve = _reserve_text(slot, reps)
    go_up = _go_up_text(exercise, client)
    return Calibration(
        first_kg,
        (
            _begin_text(exercise, client, first_kg=first_kg),
            trn(
                "Do {n} second, in good form, and rest two minutes.",
                "Do {n} seconds, in good form, and rest two minutes.",
                reps,
            )
            if exercise.timed
            else trn(
                "Do {n} repetition, in good form, and rest two minutes.",
                "Do {n} repetitions, in good form, and rest two minutes.",
                reps,
            ),
            tr("If you could have done five seconds more or better, {go_up}", go_up=go_up)
            if exercise.timed
            else tr("If you could have done five repetitions more or better, {go_up}", go_up=go_up),
            tr(
                "Stop raising at the first set that leaves {reserve}. If pain or "
                "bad form comes earlier, stop there.",
                reserve=reserve,
            ),
            tr(
                "That set counts as the first working set. Write down what you used, how many "
                "seconds you did and how many more you could have done."
            )
            if exercise.timed
            else tr(
                "That set counts as the first working set. Write down what you used, how many "
                "repetitions you did and how many more you could have done."
            ),
        ),
        go_up,
    )


def _reserve_text(slot: Slot, reps: int) -> str:
    """How much should be left, in the client's words."""
    try:
        left = efforts.as_rir(slot.effort, reps).reps
    except CoachError:
        left = 2.0
    whole = max(1, round(left))
    return trn("about {n} repetition in you", "about {n} repetitions in you", whole)


def _first_kg(exercise: Exercise, increments: Increments) -> float | None:
    """The lightest load there is for the exercise, kg."""
    if exercise.load_kind in (*_WITHOUT_KG, LoadKind.BODY):
        return None
    return nearest_in_reach(0.0, increments, kind=exercise.load_kind).load_kg


def _begin_text(exercise: Exercise, client: Client, *, first_kg: float | None) -> str:
    """Where to begin."""
    match exercise.load_kind:
        case LoadKind.BARBELL:
            return tr(
                "Begin with the empty bar, {first_kg}.",
                first_kg=mass_text(first_kg or 0.0, client.units),
            )
        case LoadKind.BAND if not client.increments.bands:
            return tr(
                "No band is in reach: {exercise} needs one. Ask your coach.", exercise=exercise.name
            )
        case LoadKind.BAND:
            return tr(
                "Begin with the band that is {band}.", band=band_name(client.increments.bands[0])
            )
        case LoadKind.BODY | LoadKind.NONE:
            return tr("Begin with your own weight alone, or with the easier variation.")
        case _:
            return tr(
                "Begin with the lightest load, {first_kg}.",
                first_kg=mass_text(first_kg or 0.0, client.units),
            )


def _go_up_text(exercise: Exercise, client: Client) -> str:
    """How to go on where five more were in reach."""
    match exercise.load_kind:
        case LoadKind.BAND if not client.increments.bands:
            return tr("do a few more next time.")
        case LoadKind.BAND:
            bands = ", ".join(map(band_name, client.increments.bands))
            return tr("take the next stronger band: {bands}.", bands=bands)
        case LoadKind.BODY | LoadKind.NONE:
            return tr("add a little load or take a harder variation.")
        case LoadKind.BARBELL:
            step_kg = 2 * min(client.increments.plates_kg, default=1.25)
            return tr(
                "add {some}; if three or four, add {less}. Repeat.",
                some=mass_text(4 * step_kg, client.units),
                less=mass_text(step_kg, client.units),
            )
        case _:
            return tr("go up two steps; if three or four, one step. Repeat.")


def next_band(bands: tuple[str, ...], grade: str, *, harder: bool = True) -> str | None:
    """The band grade after (or before) `grade`; None where there is no such grade.

    bands: from light to heavy. Raises CoachError for a grade that is not among them.
    """
    if not bands:
        raise CoachError(
            tr("There is no band {grade!r}: no band is in reach.", grade=grade),
            mend=tr("Add the bands to the client's equipment."),
        )
    if grade not in bands:
        raise CoachError(
            tr("There is no band {grade!r} among {bands}.", grade=grade, bands=", ".join(bands)),
            mend=tr("Choose one of these, or add it to the client's equipment."),
        )
    at = bands.index(grade) + (1 if harder else -1)
    return bands[at] if 0 <= at < len(bands) else None
