"""Domain values as plain records for a plan file, and back.

A record carries the names of the fields of its value; a field that has its default is left out,
so that a file says what a coach decided and little else; a drill without a dose of its own is its
key alone. The public description of the records is
`resources/schema/plan.schema.json`: reading expects what that schema lets through, and refuses
what only the laws of the values can tell.
"""

from __future__ import annotations

from dataclasses import MISSING, Field, fields, is_dataclass
from datetime import date
from enum import Enum
from functools import cache
from types import NoneType, UnionType
from typing import Any, NewType, TypeVar, Union, get_args, get_origin, get_type_hints

from app.domain.client import FreeTime
from app.domain.effort import PercentOneRm, PercentRepMax, Rir
from app.domain.errors import CoachError, PlanFileError
from app.domain.exercise import ExerciseKey, Joint
from app.domain.program import DAYS, Day, Drill, Reps
from app.domain.wording import tr

T = TypeVar("T")

Json = Any
"""What the json library gives: None, bool, int, float, str, or lists and dicts of these."""

EFFORTS: dict[str, type[Rir | PercentOneRm | PercentRepMax]] = {
    "rir": Rir,
    "percent_one_rm": PercentOneRm,
    "percent_rep_max": PercentRepMax,
}
"""An effort is a record with one field, named by how it is meant."""

WEEKDAYS = tuple(day.lower() for day in DAYS)

ALWAYS = frozenset({"free", "equipment", "effort", "rest_s", "minutes", "light"})
"""Fields that are written even where they have their default, because a reader looks for them."""


def to_record(value: Any) -> Json:
    """The record of a value, in the order of its fields."""
    if is_dataclass(value) and not isinstance(value, type):
        return _from_fields(value)
    if isinstance(value, Enum):
        return value.value
    if isinstance(value, date):
        return value.isoformat()
    if isinstance(value, frozenset):
        return sorted(to_record(part) for part in value)
    if isinstance(value, tuple):
        return [to_record(part) for part in value]
    if isinstance(value, float) and value.is_integer():
        return int(value)
    return value


def _from_fields(value: Any) -> Json:
    if isinstance(value, Reps):
        return [value.low, value.high]
    if isinstance(value, Drill) and value.dose is None:
        return value.exercise
    for name, kind in EFFORTS.items():
        if isinstance(value, kind):
            (amount,) = (getattr(value, field.name) for field in fields(kind))
            return {name: to_record(amount)}
    record = {}
    for field in fields(value):
        part = getattr(value, field.name)
        if field.name in ALWAYS or part != _default(field):
            record[field.name] = _field_record(field.name, part)
    return record


def _field_record(name: str, part: Any) -> Json:
    if name in ("days", "free"):
        empty = type(part[0])()
        named = zip(WEEKDAYS, part, strict=True)
        return {day: to_record(one) for day, one in named if one != empty}
    if name == "stress" and isinstance(part, tuple):  # of an exercise; a check-in has a number
        return [{"joint": joint.value, "level": level} for joint, level in part]
    return to_record(part)


def _default(field: Field[Any]) -> object:
    if field.default is not MISSING:
        return field.default
    return field.default_factory() if field.default_factory is not MISSING else MISSING


def from_record(kind: type[T], record: Json, *, where: str) -> T:
    """The value of class `kind` that the record describes.

    where: its place in the file, as `program.weeks[3]`. Raises PlanFileError naming the place of
    what breaks a law.
    """
    value: T = _value(kind, record, where)
    return value


@cache
def _field_kinds(kind: type) -> dict[str, Any]:
    """The fields that a record may have, with their kinds."""
    hints = get_type_hints(kind)
    return {field.name: hints[field.name] for field in fields(kind) if field.init}


def _value(kind: Any, record: Json, where: str) -> Any:
    while isinstance(kind, NewType):
        kind = kind.__supertype__
    origin = get_origin(kind)
    if origin in (UnionType, Union):
        return _one_of(get_args(kind), record, where)
    if origin is tuple:
        return _tuple(get_args(kind), record, where)
    if origin is frozenset:
        (of,) = get_args(kind)
        return frozenset(_value(of, part, f"{where}[{n}]") for n, part in enumerate(record))
    if kind is Reps:
        low, high = record
        return _built(Reps, {"low": int(low), "high": int(high)}, where)
    if kind is Drill and isinstance(record, str):
        return Drill(ExerciseKey(record))
    if is_dataclass(kind):
        return _of_fields(kind, record, where)
    if issubclass(kind, Enum):
        return kind(record)
    if kind is date:
        return _day(record, where)
    return kind(record) if kind in (int, float) else record


def _one_of(kinds: tuple[Any, ...], record: Json, where: str) -> Any:
    if NoneType in kinds:
        (kind,) = (kind for kind in kinds if kind is not NoneType)
        return _value(kind, record, where)
    ((name, amount),) = record.items()
    (field,) = fields(EFFORTS[name])
    return _built(EFFORTS[name], {field.name: float(amount)}, f"{where}.{name}")


def _tuple(kinds: tuple[Any, ...], record: Json, where: str) -> tuple[Any, ...]:
    if kinds[0] in (Day, FreeTime):
        there = ((day, record.get(day)) for day in WEEKDAYS)
        empty = kinds[0]()
        return tuple(
            empty if one is None else _value(kinds[0], one, f"{where}.{day}") for day, one in there
        )
    if kinds[-1] is Ellipsis and get_args(kinds[0]) == (Joint, int):
        return tuple((Joint(one["joint"]), int(one["level"])) for one in record)
    if kinds[-1] is Ellipsis:
        kinds = (kinds[0],) * len(record)
    parts = enumerate(zip(kinds, record, strict=True))
    return tuple(_value(kind, part, f"{where}[{n}]") for n, (kind, part) in parts)


def _of_fields(kind: Any, record: Json, where: str) -> Any:
    kinds = _field_kinds(kind)
    values = {name: _value(kinds[name], part, f"{where}.{name}") for name, part in record.items()}
    return _built(kind, values, where)


def _built(kind: Any, values: dict[str, Any], where: str) -> Any:
    try:
        return kind(**values)
    except CoachError as error:
        raise PlanFileError(error.what, where=where, mend=error.mend) from error


def _day(record: str, where: str) -> date:
    try:
        return date.fromisoformat(record)
    except ValueError:
        raise PlanFileError(
            tr("{record!r} is no day of the calendar.", record=record),
            where=where,
            mend=tr("Write it as 2026-10-12."),
        ) from None
