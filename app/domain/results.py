"""What was really done and noted: sets with their loads, and check-ins between sessions."""

from __future__ import annotations

from dataclasses import dataclass
from datetime import date

from app.domain.exercise import ExerciseKey
from app.domain.program import MAX_SECONDS, SlotId
from app.domain.units import require


@dataclass(frozen=True, slots=True)
class SetDone:
    """One set as it was done.

    load_kg in the exercise's own terms (0 for own weight alone, below 0 for help); reps: seconds
    for timed exercises; rir: repetitions left in reserve as the client judged it, None unknown.
    """

    load_kg: float
    reps: int
    rir: float | None = None

    def __post_init__(self) -> None:
        require("load lifted, kg", self.load_kg, low=-300, high=1000)
        require("repetitions done", self.reps, low=0, high=MAX_SECONDS)
        if self.rir is not None:
            require("repetitions in reserve", self.rir, low=0, high=10)


@dataclass(frozen=True, slots=True)
class SlotResult:
    """What was done of one slot on one day, set by set; no sets: it was left out."""

    slot: SlotId
    exercise: ExerciseKey
    on: date
    sets: tuple[SetDone, ...]
    note: str = ""


@dataclass(frozen=True, slots=True)
class CheckIn:
    """What a client reports between sessions; what was not asked is None.

    mass_kg in the morning; kcal eaten that day; sleep, soreness and mood from 1 (poor) to 5
    (good; soreness 5 is none).
    """

    on: date
    mass_kg: float | None = None
    kcal: float | None = None
    sleep: int | None = None
    soreness: int | None = None
    mood: int | None = None
    note: str = ""

    def __post_init__(self) -> None:
        if self.mass_kg is not None:
            require("body mass, kg", self.mass_kg, low=25, high=400)
        if self.kcal is not None:
            require("energy eaten, kcal", self.kcal, low=0, high=15_000)
        for name in ("sleep", "soreness", "mood"):
            value = getattr(self, name)
            if value is not None:
                require(name, value, low=1, high=5)
