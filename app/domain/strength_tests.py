"""What loads rest on, how old that is, and which tests a plan asks for next."""

from __future__ import annotations

from dataclasses import dataclass
from datetime import date, timedelta
from enum import StrEnum

from app.domain import screening as screenings
from app.domain.client import Client, Outcome, Status, StrengthTest
from app.domain.exercise import Catalogue, Exercise, ExerciseKey, LoadKind, Pattern
from app.domain.fit import fits
from app.domain.loads import newest_test, one_rep_max_of
from app.domain.program import Program, Slot
from app.domain.wording import mark, tr, trn
from app.domain.working import COMMON_PRACTICE

OLD_DAYS = 84
"""Days after which a test is marked as old: twelve weeks. Common practice."""

MODERATE_RESERVE = 3
"""Repetitions left in reserve where only moderate effort is allowed. Common practice."""

_IN_KG = frozenset(LoadKind) - {LoadKind.BAND, LoadKind.NONE}


class Basis(StrEnum):
    """What the load of a slot rests on."""

    BY_HAND = "by_hand"  # the coach wrote it
    TEST = "test"
    OLD_TEST = "old_test"
    GUESS = "guess"  # confirmed, from a related exercise
    NOTHING = "nothing"
    NO_LOAD = "no_load"  # own weight alone, bands, drills, seconds: nothing in kg


BASIS_WORDS = {
    Basis.BY_HAND: mark("set by hand"),
    Basis.TEST: mark("a test"),
    Basis.OLD_TEST: mark("an old test"),
    Basis.GUESS: mark("a guess"),
    Basis.NOTHING: mark("nothing yet"),
    Basis.NO_LOAD: mark("no load in kg"),
}


def is_old(test: StrengthTest, on: date) -> bool:
    """True if by the day `on` the test is past the age at which it is marked. Common practice."""
    return on - test.on > timedelta(days=OLD_DAYS)


def can_be_tested(exercise: Exercise) -> bool:
    """True if a load in kg and repetitions say something of its strength."""
    return (
        exercise.load_kind in _IN_KG
        and not exercise.timed
        and exercise.pattern is not Pattern.DRILL
    )


def basis(slot: Slot, exercise: Exercise, client: Client, on: date) -> Basis:
    """What the slot's load rests on, as of the day `on`."""
    if slot.load_kg is not None:
        return Basis.BY_HAND
    if not can_be_tested(exercise):
        return Basis.NO_LOAD
    test = newest_test(exercise, client)
    if test is None or one_rep_max_of(exercise, client) is None:
        # own weight without load is done without any test
        return Basis.NO_LOAD if exercise.load_kind is LoadKind.BODY else Basis.NOTHING
    if test.guessed_from is not None:
        return Basis.GUESS
    return Basis.OLD_TEST if is_old(test, on) else Basis.TEST


@dataclass(frozen=True, slots=True)
class HowToTest:
    """A submaximal test: repetitions to aim for and how many to leave, never a single.

    Source: common practice; novices stop well before failure.
    """

    reps_low: int
    reps_high: int
    reserve: int
    source: str = COMMON_PRACTICE

    @property
    def text(self) -> str:
        """'A set of 8 to 10, 2 left in reserve'."""
        return tr(
            "A set of {low} to {high}, {left} left in reserve",
            low=self.reps_low,
            high=self.reps_high,
            left=self.reserve,
        )


@dataclass(frozen=True, slots=True)
class Proposal:
    """A test that the plan asks for: which, why, for how many cards, and how to do it."""

    exercise: ExerciseKey
    name: str
    basis: Basis
    slots: int
    how: HowToTest
    last: StrengthTest | None = None

    @property
    def text(self) -> str:
        """'6 cards rest on nothing yet'."""
        return trn(
            "{n} card rests on {what}",
            "{n} cards rest on {what}",
            self.slots,
            what=tr(BASIS_WORDS[self.basis]),
        )


def how_to_test(exercise: Exercise, client: Client, on: date) -> HowToTest:
    """The submaximal test that suits the client and the exercise. Common practice."""
    small = not exercise.multi_joint
    if client.status is Status.NOVICE or _is_minor(client, on):
        low, high, reserve = 8, 10, 2
    elif small or client.status is Status.INTERMEDIATE:
        low, high, reserve = (8, 10, 1) if small else (5, 8, 1)
    else:
        low, high, reserve = 3, 6, 1
    if _outcome(client, on) is Outcome.MODERATE_ONLY:
        reserve = MODERATE_RESERVE
        low, high = max(low, 6), max(high, 8)
    return HowToTest(low, high, reserve)


def why_no_tests(client: Client, on: date) -> str:
    """Why nobody should be tested today; empty where nothing speaks against it."""
    if client.latest_screening is None:
        return tr("Screen the client before the first test.")
    if _outcome(client, on) is Outcome.SEE_PRACTITIONER:
        return tr("No tests before a practitioner has agreed.")
    return ""


def proposals(
    program: Program, client: Client, *, catalogue: Catalogue, on: date
) -> tuple[Proposal, ...]:
    """Tests for the exercises of the plan, those that most cards wait for first.

    Counted are the cards of the weeks from `on`, or of all where the plan is over. Exercises that
    do not fit the client that day are left out; all are where nobody should be tested.
    """
    if why_no_tests(client, on):
        return ()
    asked = {Basis.NOTHING, Basis.GUESS, Basis.OLD_TEST}
    count: dict[ExerciseKey, int] = {}
    why: dict[ExerciseKey, Basis] = {}
    for slot in _slots_from(program, on):
        if slot.exercise not in catalogue:
            continue
        found = basis(slot, catalogue[slot.exercise], client, on)
        if found in asked:
            count[slot.exercise] = count.get(slot.exercise, 0) + 1
            why[slot.exercise] = found
    made = [
        Proposal(
            key,
            catalogue[key].name,
            why[key],
            slots=slots,
            how=how_to_test(catalogue[key], client, on),
            last=newest_test(catalogue[key], client),
        )
        for key, slots in count.items()
        if fits(catalogue[key], client, on)
    ]
    return tuple(sorted(made, key=lambda p: (-p.slots, p.basis is Basis.OLD_TEST, p.name)))


def _slots_from(program: Program, on: date) -> list[Slot]:
    first = (on - program.start).days // 7
    weeks = program.weeks[max(0, first) :] or program.weeks
    return [slot for week in weeks for slot in week.slots()]


def _is_minor(client: Client, on: date) -> bool:
    age = client.age_on(on)
    return age is not None and age < 18


def _outcome(client: Client, on: date) -> Outcome | None:
    latest = client.latest_screening
    if latest is None:
        return None
    return screenings.outcome(latest, screenings.Wish.VIGOROUS, on=on).outcome
