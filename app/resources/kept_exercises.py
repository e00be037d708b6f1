"""The shipped exercises as they were read the last time, as rows of plain values.

Reading their tables checks every field, which costs a start more than all else it reads. Rows are
kept only of exercises that passed, for the very files they came from (see `parsed`), so making
exercises of them checks nothing again.
"""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import fields
from enum import StrEnum
from pathlib import Path
from typing import Any

from app.domain.exercise import (
    Activation,
    Equipment,
    Exercise,
    Fault,
    Joint,
    LoadKind,
    Motion,
    Muscle,
    Pattern,
    Plane,
    Reach,
    Work,
)
from app.resources import parsed

ROWS = "rows"

LEFT_OUT = frozenset({"own", "texts"})
"""Fields that no row holds: a shipped exercise is nobody's own, and its words come later."""

FIELDS = tuple(field.name for field in fields(Exercise) if field.name not in LEFT_OUT)


def stamp_for(sources: Iterable[Path]) -> parsed.Stamp:
    """What tells these files, and the form of the rows, from any other."""
    parts: list[str | int] = [" ".join(FIELDS)]
    for source in sources:
        parts.extend(parsed.stamp_of(source))
    return tuple(parts)


def keep(place: Path, stamp: parsed.Stamp, exercises: Iterable[Exercise]) -> None:
    """Keep the exercises at `place`, unless one holds what a row has no room for."""
    made = tuple(exercises)
    if not any(exercise.own or exercise.texts for exercise in made):
        parsed.keep(place, stamp, tables={ROWS: [row_of(exercise) for exercise in made]})


def kept(place: Path, stamp: parsed.Stamp) -> tuple[Exercise, ...] | None:
    """The exercises kept at `place`, if they are those of that stamp; else None."""
    tables = parsed.kept(place, stamp)
    rows = None if tables is None else tables.get(ROWS)
    return tuple([exercise_of(row) for row in rows]) if isinstance(rows, list) else None


def row_of(exercise: Exercise) -> list[object]:
    """The exercise as plain values, in the order of FIELDS."""
    plain: dict[str, object] = {
        "work": [(one.muscle, one.fraction) for one in exercise.work],
        "reaches": [(one.joint, one.motion, one.degrees) for one in exercise.reaches],
        "faults": [(one.notice, one.remedy) for one in exercise.faults],
        "activation": [
            (one.muscle, one.low, one.high, one.study, one.detail) for one in exercise.activation
        ],
    }
    return [plain.get(name, getattr(exercise, name)) for name in FIELDS]


def _members(kind: type[StrEnum]) -> dict[str, Any]:
    return {member.value: member for member in kind}


_MUSCLES, _PATTERNS, _PLANES = _members(Muscle), _members(Pattern), _members(Plane)
_EQUIPMENT, _LOADS = _members(Equipment), _members(LoadKind)
_JOINTS, _MOTIONS = _members(Joint), _members(Motion)


def exercise_of(row: list[Any]) -> Exercise:
    """The exercise of a row."""
    found = dict(zip(FIELDS, row, strict=True))
    for name in ("aliases", "set_up", "cues", "easier", "harder"):
        found[name] = tuple(found[name])
    found["pattern"] = _PATTERNS[found["pattern"]]
    found["plane"] = _PLANES[found["plane"]]
    found["load_kind"] = _LOADS[found["load_kind"]]
    found["equipment"] = tuple([_EQUIPMENT[thing] for thing in found["equipment"]])
    found["warmup_for"] = tuple([_PATTERNS[pattern] for pattern in found["warmup_for"]])
    found["work"] = tuple([Work(_MUSCLES[muscle], part) for muscle, part in found["work"]])
    found["reaches"] = tuple(
        [
            Reach(_JOINTS[joint], _MOTIONS[motion], degrees)
            for joint, motion, degrees in found["reaches"]
        ]
    )
    found["stress"] = tuple([(_JOINTS[joint], level) for joint, level in found["stress"]])
    found["faults"] = tuple([Fault(*pair) for pair in found["faults"]])
    found["activation"] = tuple(
        [Activation(_MUSCLES[muscle], *rest) for muscle, *rest in found["activation"]]
    )
    return Exercise(**found)
