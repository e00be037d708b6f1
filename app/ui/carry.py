"""What is carried in a drag, by mouse, by keys or by two clicks, and its form as mime data."""

from __future__ import annotations

import json
from dataclasses import dataclass
from enum import Enum

from PySide6.QtCore import QByteArray, QMimeData

from app.domain.exercise import ExerciseKey
from app.domain.program import SlotId

MIME = "application/x-weekloom-carry"


class Via(Enum):
    """How something is carried."""

    MOUSE = "mouse"
    KEYS = "keys"
    CLICKS = "clicks"


@dataclass(frozen=True, slots=True)
class Carried:
    """An exercise from the library, or slots of the open week; one of the two is empty.

    source: an id of the window it comes from, so that slots of another window are refused;
    whole: the slots are a session, taken by its head, and go as one.
    """

    exercise: ExerciseKey | None = None
    slots: tuple[SlotId, ...] = ()
    source: str = ""
    whole: bool = False


def to_mime(carried: Carried) -> QMimeData:
    """The mime data of a drag."""
    mime = QMimeData()
    record = {
        "exercise": carried.exercise,
        "slots": carried.slots,
        "source": carried.source,
        "whole": carried.whole,
    }
    mime.setData(MIME, QByteArray(json.dumps(record).encode()))
    return mime


def from_mime(mime: QMimeData) -> Carried | None:
    """What the mime data carries; None if it is not ours or damaged."""
    if not mime.hasFormat(MIME):
        return None
    try:
        record = json.loads(bytes(mime.data(MIME).data()))
        exercise = record["exercise"]
        return Carried(
            exercise=None if exercise is None else ExerciseKey(str(exercise)),
            slots=tuple(SlotId(int(i)) for i in record["slots"]),
            source=str(record["source"]),
            whole=bool(record.get("whole")),
        )
    except (ValueError, KeyError, TypeError, OverflowError):
        return None
