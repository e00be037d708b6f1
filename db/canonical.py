"""Values as canonical JSON and back, for what is stored whole and never edited in parts.

An issue is frozen the day it is handed out, an exercise of the coach's own is kept as one. The
text is canonical (sorted names, no spaces), so equal values give equal text. Reading follows the
types of the fields: a field the text lacks takes its default, one it has too much is refused. A
drill without a dose of its own is its key alone, as it was before drills had doses.
"""

from __future__ import annotations

import json
from dataclasses import fields, is_dataclass
from datetime import date
from enum import Enum
from functools import lru_cache
from types import NoneType, UnionType
from typing import Any, NewType, TypeVar, Union, get_args, get_origin, get_type_hints

from app.domain.effort import PercentOneRm, PercentRepMax, Rir
from app.domain.exercise import ExerciseKey
from app.domain.program import Drill

T = TypeVar("T")

NAMED: dict[str, type] = {"rir": Rir, "one_rm": PercentOneRm, "rep_max": PercentRepMax}
"""Values of a field that can be of several classes say which, under `is`."""

_NAMES = {kind: name for name, kind in NAMED.items()}


def encode(value: object) -> str:
    """The canonical JSON of a value."""
    return json.dumps(
        _plain(value), sort_keys=True, separators=(",", ":"), ensure_ascii=False, allow_nan=False
    )


def decode(kind: type[T], text: str) -> T:
    """The value of class `kind` behind its canonical JSON. Raises ValueError."""
    return value_of(kind, json.loads(text))


def value_of(kind: type[T], plain: Any) -> T:
    """The value of class `kind` behind what JSON gave for it. Raises ValueError."""
    value: T = _value(kind, plain)
    return value


def _plain(value: Any) -> Any:
    if isinstance(value, Drill) and value.dose is None:
        return value.exercise
    if is_dataclass(value):
        plain = {f.name: _plain(getattr(value, f.name)) for f in fields(value)}
        if name := _NAMES.get(type(value)):
            plain["is"] = name
        return plain
    if isinstance(value, Enum):
        return value.value
    if isinstance(value, date):
        return value.isoformat()
    if isinstance(value, frozenset):
        return sorted(map(_plain, value))
    if isinstance(value, tuple):
        return [_plain(part) for part in value]
    return value


@lru_cache(maxsize=128)
def _field_types(kind: type) -> dict[str, Any]:
    return get_type_hints(kind)


def _value(kind: Any, plain: Any) -> Any:
    while isinstance(kind, NewType):
        kind = kind.__supertype__
    origin = get_origin(kind)
    if origin in (UnionType, Union):
        return _one_of(get_args(kind), plain)
    if origin is tuple:
        return _tuple(get_args(kind), plain)
    if origin is frozenset:
        (of,) = get_args(kind)
        return frozenset(_value(of, part) for part in plain)
    if kind is Drill and isinstance(plain, str):
        return Drill(ExerciseKey(plain))
    if is_dataclass(kind):
        return _record(kind, plain)
    if issubclass(kind, Enum):
        return kind(plain)
    if kind is date:
        return date.fromisoformat(plain)
    return _simple(kind, plain)


def _simple(kind: type, plain: Any) -> Any:
    wanted: tuple[type, ...] = (int, float) if kind is float else (kind,)
    if not isinstance(plain, wanted) or (isinstance(plain, bool) and kind is not bool):
        raise ValueError(f"{plain!r} is not of {kind.__name__}")
    return plain


def _one_of(kinds: tuple[Any, ...], plain: Any) -> Any:
    if plain is None and NoneType in kinds:
        return None
    kinds = tuple(kind for kind in kinds if kind is not NoneType)
    if len(kinds) == 1:
        return _value(kinds[0], plain)
    named = dict(plain)
    kind = NAMED.get(named.pop("is", ""))
    if kind not in kinds:
        raise ValueError(f"{plain!r} does not say which of {kinds} it is")
    return _record(kind, named)


def _tuple(kinds: tuple[Any, ...], plain: Any) -> Any:
    if len(kinds) == 2 and kinds[1] is Ellipsis:
        return tuple(_value(kinds[0], part) for part in plain)
    return tuple(_value(kind, part) for kind, part in zip(kinds, plain, strict=True))


def _record(kind: Any, plain: Any) -> Any:
    types = _field_types(kind)
    if not isinstance(plain, dict):
        raise ValueError(f"{plain!r} is not a {kind.__name__}")
    if strange := sorted(plain.keys() - types.keys()):
        raise ValueError(f"{kind.__name__} has no {strange[0]!r}")
    return kind(**{name: _value(types[name], part) for name, part in plain.items()})
