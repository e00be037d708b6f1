"""The shipped poses, and single poses written as short as a test needs them."""

from __future__ import annotations

import tomllib
from functools import cache
from pathlib import Path
from typing import Any

from app.domain.figure import Body, Phase, Pose, Poses, poses_from_mapping, read_pose, solve

RESOURCES = Path(__file__).resolve().parents[3] / "resources"
FOLDER, EXERCISES = RESOURCES / "poses", RESOURCES / "exercises"


@cache
def poses() -> Poses:
    """Every pose of every pose file."""
    found: dict[str, object] = {}
    for path in sorted(FOLDER.glob("*.toml")):
        found.update(tomllib.loads(path.read_text(encoding="utf-8")))
    return poses_from_mapping(found)


CASES = [(key, phase) for key in poses() for phase in Phase]
NAMES = [f"{key} {phase.value}" for key, phase in CASES]


def shipped(key: str, phase: Phase) -> Pose:
    """One shipped position."""
    pair = poses()[key]
    return pair.start if phase is Phase.START else pair.end


@cache
def exercises() -> dict[str, dict[str, Any]]:
    """Every exercise of every exercise file as it is written, by its key."""
    found: dict[str, dict[str, Any]] = {}
    for path in sorted(EXERCISES.glob("*.toml")):
        found.update(tomllib.loads(path.read_text(encoding="utf-8")))
    return found


@cache
def body(key: str, phase: Phase) -> Body:
    """One shipped position, solved."""
    return solve(shipped(key, phase))


def pose(**fields: object) -> Pose:
    """A pose with both feet flat unless told otherwise."""
    return read_pose({"pin": "flat R 0 0", **fields}, where="test")
