"""Exercises as TOML text in the form of the shipped files, so that others can read and mend them.

What has its usual value is left out. The same exercises always give the same text, and reading
the text gives equal exercises (but whose they are, which the reader says).
"""

from __future__ import annotations

import json
from collections.abc import Iterable, Iterator
from dataclasses import MISSING, fields
from enum import StrEnum

from app.domain.exercise import (
    Activation,
    Catalogue,
    Exercise,
    ExerciseKey,
    ExerciseText,
    Reach,
    Work,
)

SUFFIX = ".exercises.toml"
HEAD = """\
# Exercises for Weekloom: one table each, its name is the exercise's key. The fields are those of
# the shipped exercise files. Open it with "Take in exercises" in the menu Exercises.
"""

WIDTH = 100
_ALWAYS = ("name", "pattern", "work", "equipment", "load_kind", "multi_joint")
_FIELDS = tuple(f for f in fields(Exercise) if f.name not in ("key", "own"))
_USUAL = {f.name: f.default for f in _FIELDS if f.default is not MISSING}


def write_exercises(exercises: Iterable[Exercise]) -> str:
    """The exercises as text that ends in a line break."""
    return "\n".join([HEAD, *(_table(exercise) for exercise in exercises)])


def with_relatives(exercises: Iterable[Exercise], catalogue: Catalogue) -> tuple[Exercise, ...]:
    """The exercises and every own one that they name as easier or harder, and so on."""
    wanted = list(exercises)
    found: dict[ExerciseKey, Exercise] = {}
    while wanted:
        one = wanted.pop(0)
        if one.key not in found:
            found[one.key] = one
            kin = [catalogue[key] for key in one.easier + one.harder if key in catalogue]
            wanted += [other for other in kin if other.own]
    return tuple(found.values())


def values_of(exercise: Exercise) -> dict[str, object]:
    """The exercise's fields as plain values, in the form of the files."""
    return dict(_values(exercise))


def _table(exercise: Exercise) -> str:
    lines = [f"[{exercise.key}]"]
    for name, value in _values(exercise):
        lines.append(_line(name, value))
    return "\n".join(lines) + "\n"


def _values(exercise: Exercise) -> Iterator[tuple[str, object]]:
    for field in _FIELDS:
        value = getattr(exercise, field.name)
        if field.name in _ALWAYS or value != _USUAL[field.name]:
            yield field.name, _plain(field.name, value)


def _plain(name: str, value: object) -> object:
    """A field as numbers, text, lists and tables."""
    match name, value:
        case "work", tuple():
            return {w.muscle.value: w.fraction for w in value if isinstance(w, Work)}
        case "reaches", tuple():
            return [_reach(one) for one in value if isinstance(one, Reach)]
        case "stress", tuple():
            return {joint.value: level for joint, level in value}
        case "faults", tuple():
            return [[fault.notice, fault.remedy] for fault in value]
        case "texts", tuple():
            return {one.language: _words(one) for one in value if isinstance(one, ExerciseText)}
        case "activation", tuple():
            return [_activation(row) for row in value if isinstance(row, Activation)]
        case _, tuple():
            return [str(one) for one in value]
        case _, StrEnum():
            return value.value
        case _:
            return value


def _words(text: ExerciseText) -> dict[str, object]:
    values: dict[str, object] = {"name": text.name}
    if text.set_up:
        values["set_up"] = list(text.set_up)
    if text.cues:
        values["cues"] = list(text.cues)
    if text.faults:
        values["faults"] = [[fault.notice, fault.remedy] for fault in text.faults]
    return values


def _reach(reach: Reach) -> str:
    return f"{reach.joint} {reach.motion} {reach.degrees or ''}".strip()


def _activation(row: Activation) -> dict[str, object]:
    values: dict[str, object] = {"muscle": row.muscle.value, "low": row.low, "high": row.high}
    values |= {"study": row.study}
    return values | ({"detail": row.detail} if row.detail else {})


def _line(name: str, value: object) -> str:
    line = f"{name} = {_text(value)}"
    if len(line) <= WIDTH or not isinstance(value, list):
        return line
    return "\n".join([f"{name} = [", *(f"    {_text(one)}," for one in value), "]"])


def _text(value: object) -> str:
    match value:
        case dict():
            inner = ", ".join(f"{name} = {_text(one)}" for name, one in value.items())
            return f"{{ {inner} }}" if inner else "{}"
        case list():
            return f"[{', '.join(_text(one) for one in value)}]"
        case bool():
            return "true" if value else "false"
        case float():
            return repr(value)
        case str():
            return json.dumps(value, ensure_ascii=False).replace("\x7f", "\\u007f")
        case _:
            return str(value)
