"""Slots on the clipboard: as data for any window of ours, as lines of text for the rest."""

from __future__ import annotations

import atexit
import json

from PySide6.QtCore import QByteArray, QMimeData
from PySide6.QtWidgets import QApplication
from shiboken6 import isValid

from app.domain.effort import Effort, PercentOneRm, PercentRepMax, Rir
from app.domain.errors import CoachError
from app.domain.exercise import Catalogue, ExerciseKey
from app.domain.prescription_text import format_slot
from app.domain.program import Field, Reps, Role, Slot, SlotId, StrandId
from app.domain.ramp import Ramp, RampStep

MIME = "application/x-weekloom-slots"
MOST = 100_000  # bytes; anything longer is not ours

_EFFORTS: dict[str, type[Rir] | type[PercentOneRm] | type[PercentRepMax]] = {
    "rir": Rir,
    "percent_one_rm": PercentOneRm,
    "percent_rep_max": PercentRepMax,
}


def to_clipboard(slots: tuple[Slot, ...], catalogue: Catalogue) -> QMimeData:
    """The slots as mime data, with a readable line for each."""
    mime = QMimeData()
    mime.setData(MIME, QByteArray(json.dumps([_record(slot) for slot in slots]).encode()))
    lines = []
    for slot in slots:
        exercise = catalogue[slot.exercise]
        lines.append(f"{exercise.name}: {format_slot(slot, timed=exercise.timed)}")
    mime.setText("\n".join(lines))
    return mime


_held: list[QMimeData] = []
"""What this process put on the clipboard last; Qt frees it when something else is put there."""


def put(slots: tuple[Slot, ...], catalogue: Catalogue) -> None:
    """Put the slots on the clipboard."""
    if not _held:
        atexit.register(_leave_text)
    _held[:] = [to_clipboard(slots, catalogue)]
    QApplication.clipboard().setMimeData(_held[0])


def _leave_text() -> None:
    """Leave only the lines of text behind, if the clipboard still holds what was put there.

    Mime data made in Python must go while there is a Python: freed with the platform, after the
    interpreter's end, it takes the process down.
    """
    if QApplication.instance() is not None and isValid(_held[0]):
        text = _held[0].text()
        QApplication.clipboard().setText(text)


def from_clipboard(mime: QMimeData | None) -> tuple[Slot, ...]:
    """The slots that the mime data holds; empty if it is not ours or damaged."""
    if mime is None or not mime.hasFormat(MIME):
        return ()
    content = bytes(mime.data(MIME).data())
    if len(content) > MOST:
        return ()
    try:
        return tuple(_slot(record, number) for number, record in enumerate(json.loads(content), 1))
    except (ValueError, KeyError, TypeError, CoachError):
        return ()


def _record(slot: Slot) -> dict[str, object]:
    name, amount = _effort_record(slot.effort)
    return {
        "exercise": slot.exercise,
        "sets": slot.sets,
        "reps": [slot.reps.low, slot.reps.high],
        "effort": [name, amount],
        "rest_s": slot.rest_s,
        "tempo": slot.tempo,
        "pair": slot.pair,
        "note": slot.note,
        "role": slot.role.value,
        "load_kg": slot.load_kg,
        "pinned": sorted(field.value for field in slot.pinned),
        "prepared": slot.prepared,
        "ramp": _ramp_record(slot.ramp),
    }


def _ramp_record(ramp: Ramp | None) -> list[list[float | None]] | None:
    if ramp is None:
        return None
    return [[step.reps, step.percent, step.load_kg] for step in ramp.steps]


def _effort_record(effort: Effort) -> tuple[str, float]:
    match effort:
        case Rir(reps):
            return "rir", reps
        case PercentOneRm(percent):
            return "percent_one_rm", percent
        case PercentRepMax(percent):
            return "percent_rep_max", percent


def _slot(record: dict[str, object], number: int) -> Slot:
    """The slot of one record. Raises ValueError, KeyError, TypeError or CoachError."""
    low, high = _pair(record["reps"])
    name, amount = _pair(record["effort"])
    load = record["load_kg"]
    return Slot(
        id=SlotId(number),
        strand=StrandId(number),
        exercise=ExerciseKey(str(record["exercise"])),
        sets=_whole(record["sets"]),
        reps=Reps(_whole(low), _whole(high)),
        effort=_EFFORTS[str(name)](float(str(amount))),
        rest_s=_whole(record["rest_s"]),
        tempo=str(record["tempo"]),
        pair=str(record["pair"]),
        note=str(record["note"]),
        role=Role(str(record["role"])),
        load_kg=None if load is None else float(str(load)),
        pinned=frozenset(Field(text) for text in _texts(record["pinned"])),
        prepared=tuple(ExerciseKey(text) for text in _texts(record["prepared"])),
        ramp=_ramp(record["ramp"]),
    )


def _ramp(record: object) -> Ramp | None:
    if record is None:
        return None
    if not isinstance(record, list):
        raise TypeError(record)
    return Ramp(tuple(RampStep(_whole(reps), *map(_amount, rest)) for reps, *rest in record))


def _amount(value: object) -> float | None:
    return None if value is None else float(str(value))


def _pair(value: object) -> tuple[object, object]:
    if not isinstance(value, list) or len(value) != 2:
        raise TypeError(value)
    return value[0], value[1]


def _texts(value: object) -> list[str]:
    if not isinstance(value, list):
        raise TypeError(value)
    return [str(text) for text in value]


def _whole(value: object) -> int:
    if isinstance(value, bool) or not isinstance(value, int):
        raise TypeError(value)
    return value
