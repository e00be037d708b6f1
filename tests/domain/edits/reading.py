"""Short ways to read a program in tests of edits."""

from __future__ import annotations

from app.domain.exercise import ExerciseKey
from app.domain.program import Program, Session, SessionId, Slot, SlotId
from tests import builders

SQUAT = builders.CATALOGUE[ExerciseKey("back_squat")]
CURL = builders.CATALOGUE[ExerciseKey("curl")]
GONE_SLOT, GONE_SESSION = SlotId(9999), SessionId(9999)
"""Ids that no program here has."""
PLANK = builders.CATALOGUE[ExerciseKey("plank")]


def session_at(program: Program, week: int, day: int, at: int = 0) -> Session:
    """The n-th session of a day."""
    return program.weeks[week].days[day].sessions[at]


def slot_at(program: Program, week: int, day: int, at: int = 0) -> Slot:
    """The n-th slot of a day's first session."""
    return session_at(program, week, day).slots[at]


def slot_id(program: Program, week: int, day: int, at: int = 0) -> SlotId:
    """The id of the n-th slot of a day's first session."""
    return slot_at(program, week, day, at).id


def session_id(program: Program, week: int, day: int, at: int = 0) -> SessionId:
    """The id of the n-th session of a day."""
    return session_at(program, week, day, at).id


def keys(program: Program, week: int, day: int) -> list[str]:
    """Exercise keys of a day, in order, whatever the session."""
    return [str(s.exercise) for one in program.weeks[week].days[day].sessions for s in one.slots]


def pairs(program: Program, week: int, day: int) -> list[str]:
    """Pairing letters of a day, in order."""
    return [s.pair for one in program.weeks[week].days[day].sessions for s in one.slots]


def weeks_with(program: Program, key: str) -> list[int]:
    """The week indices in which the exercise stands."""
    return [
        index
        for index, week in enumerate(program.weeks)
        if any(slot.exercise == key for slot in week.slots())
    ]
