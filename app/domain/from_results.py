"""Tests that results could stand for, so that what follows starts from what was really done.

Loads follow from tests. A hard set of the last weeks says as much as a test, where it ended near
enough to failure; the coach confirms each before it becomes one.
"""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass, replace
from datetime import timedelta

from app.domain.client import Client, StrengthTest
from app.domain.exercise import Catalogue, Exercise, LoadKind
from app.domain.loads import LIGHTEST_TEST_KG, body_kg, newest_test, one_rep_max_of
from app.domain.results import Diary
from app.domain.strength import OneRepMax, estimate_one_rep_max
from app.domain.wording import tr

WINDOW = timedelta(weeks=6)
"""Sets older than this before the last one say too little of today. Common practice."""

MOST_REPS = 10
MOST_RESERVE = 5
"""Repetitions to failure and reserve within which a set counts (hackett2017: larger reserves are
misjudged; the equations hold to about 10)."""


@dataclass(frozen=True, slots=True)
class Candidate:
    """A set that could count as a test.

    test: as it would be kept; estimate: the 1RM it comes to, own weight included; before: what the
    newest test comes to, None without one.
    """

    exercise: Exercise
    test: StrengthTest
    estimate: OneRepMax
    before: OneRepMax | None

    @property
    def change(self) -> float | None:
        """The change against the newest test, as a part of it."""
        return None if self.before is None else self.estimate.median / self.before.median - 1


def candidates(diary: Diary, client: Client, catalogue: Catalogue) -> tuple[Candidate, ...]:
    """The best set of each exercise since its newest test and within six weeks, by name."""
    if not diary.results:
        return ()
    since = diary.results[-1].on - WINDOW
    best: dict[str, Candidate] = {}
    for result in diary.results:
        if result.on < since or result.exercise not in catalogue:
            continue
        exercise = catalogue[result.exercise]
        newest = newest_test(exercise, client)
        if not _weighed(exercise) or (newest is not None and newest.on >= result.on):
            continue
        for done in result.sets:
            lifted_kg = done.load_kg + body_kg(exercise, client)
            if done.rir is None or done.rir > MOST_RESERVE or lifted_kg < LIGHTEST_TEST_KG:
                continue
            if not 1 <= done.reps <= MOST_REPS - done.rir:
                continue
            estimate = estimate_one_rep_max(lifted_kg, done.reps, done.rir)
            known = best.get(str(exercise.key))
            if known is None or estimate.median > known.estimate.median:
                test = StrengthTest(
                    exercise.key,
                    result.on,
                    done.load_kg,
                    done.reps,
                    done.rir,
                    note=tr("From the results."),
                )
                before = one_rep_max_of(exercise, client)
                best[str(exercise.key)] = Candidate(exercise, test, estimate, before)
    return tuple(sorted(best.values(), key=lambda one: one.exercise.name))


def _weighed(exercise: Exercise) -> bool:
    return not exercise.timed and exercise.load_kind not in (LoadKind.BAND, LoadKind.NONE)


def with_tests(client: Client, tests: Iterable[StrengthTest]) -> Client:
    """The client with `tests`, each in the place of one of the same exercise and day."""
    new = tuple(tests)
    taken = {(test.exercise, test.on) for test in new}
    others = tuple(test for test in client.tests if (test.exercise, test.on) not in taken)
    return replace(client, tests=(*others, *new))
