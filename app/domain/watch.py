"""Signs in the logs of one program: exercises that stall, and strain that builds up.

Worded as suggestions; the robust regression is passed in, as in `app.domain.progress`.
"""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass
from datetime import date, timedelta

from app.domain.client import Client
from app.domain.errors import CoachError
from app.domain.exercise import Catalogue, Exercise
from app.domain.loads import body_kg
from app.domain.program import Program
from app.domain.progress import Suggestion, maxima, over_reach, stall, strength_trend
from app.domain.results import Diary
from app.domain.trend import Regression, Trend

LOOK_BACK = timedelta(weeks=12)
"""How far back a trend looks. Common practice."""

RECENT = timedelta(days=14)
"""How far back strain is looked for. Common practice."""


@dataclass(frozen=True, slots=True)
class Watched:
    """A sign, and the exercise that it is about; None for one about the client as a whole."""

    suggestion: Suggestion
    exercise: Exercise | None = None


def trends(
    exercises: Iterable[Exercise],
    diary: Diary,
    client: Client,
    *,
    on: date,
    regression: Regression,
) -> dict[str, Trend]:
    """The trend of estimated 1RM of each exercise, where there are enough days for one."""
    found = {}
    for exercise in exercises:
        points = [
            point
            for point in maxima(
                exercise.key, client.tests, diary.results, body_kg=body_kg(exercise, client)
            )
            if on - LOOK_BACK <= point.on <= on
        ]
        try:
            found[str(exercise.key)] = strength_trend(points, regression)
        except CoachError:  # too few days
            continue
    return found


def watch(
    program: Program,
    diary: Diary,
    client: Client,
    *,
    catalogue: Catalogue,
    on: date,
    regression: Regression,
) -> tuple[Watched, ...]:
    """Everything worth a look on that day: strain first, then exercises that stall, by name."""
    slots = {slot.id: slot for week in program.weeks for slot in week.slots()}
    results = [r for r in diary.results_of(program.id) if r.slot in slots and r.on <= on]
    keys = {r.exercise for r in results if r.on >= on - LOOK_BACK and r.exercise in catalogue}
    exercises = sorted((catalogue[key] for key in keys), key=lambda e: e.name)
    by_key = trends(exercises, diary, client, on=on, regression=regression)
    found = []
    recent = [(slots[r.slot], r) for r in results if r.on >= on - RECENT]
    check_ins = [one for one in diary.check_ins if on - RECENT <= one.on <= on]
    falling = min(by_key.values(), key=lambda t: t.high_per_week, default=None)
    strain = over_reach(recent, check_ins, strength=falling, curve=program.curve)
    if strain is not None:
        found.append(Watched(strain))
    for exercise in exercises:
        line = by_key.get(str(exercise.key))
        sign = None if line is None else stall(line)
        if sign is not None:
            found.append(Watched(sign, exercise))
    return tuple(found)
