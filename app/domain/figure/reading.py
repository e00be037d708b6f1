"""From plain data (a parsed pose file) to poses, with errors that name the pose and the field."""

from collections.abc import Callable, Mapping

from app.domain.errors import ResourceError
from app.domain.exercise import Muscle
from app.domain.figure.body import PARTS
from app.domain.figure.pose import (
    NUMBERS_OF,
    Both,
    Hold,
    Pair,
    Place,
    Pose,
    Side,
    Thing,
    Trace,
)
from app.domain.figure.scene import is_point
from app.domain.figure.space import View
from app.domain.figure.things import mistake_in

VIEWS = {
    "side": View(0, 0),
    "front": View(90, 0),
    "back": View(-90, 0),
    "turned": View(68, 11),
    "half": View(40, 0),
}
NUMBERS = (
    *("lean", "roll", "turn", "spine", "bend", "twist", "neck", "face", "tilt"),
    *("foot_turn", "shoulders_in", "shoulders_up", "shoulders_front"),
)
PAIRED = (
    *("hip", "hip_out", "hip_turn", "knee", "ankle"),
    *("shoulder", "shoulder_out", "shoulder_turn", "elbow", "wrist"),
)
GROUPS = ("trunk", "legR", "legL", "armR", "armL")
FLAGS = ("floor", "held")
POLES = {
    "front": (1.0, 0.0, 0.0),
    "back": (-1.0, 0.0, 0.0),
    "up": (0.0, 1.0, 0.0),
    "down": (0.0, -1.0, 0.0),
    "out": (0.0, 0.0, 1.0),
    "in": (0.0, 0.0, -1.0),
}
PINS = {
    *(Hold.FLAT, Hold.BALL, Hold.TOES, Hold.ANKLE, Hold.KNEE, Hold.UPPER_BACK, Hold.BACK),
    *(Hold.FRONT, Hold.OUTSIDE, Hold.HANG, Hold.ELBOW, Hold.PELVIS, Hold.SEAT),
}
FOOT_HOLDS = {Hold.FREE, Hold.FLAT, Hold.BALL, Hold.TOES, Hold.SOLE, Hold.ANKLE}
HAND_HOLDS = {Hold.FREE, Hold.BAR, Hold.AT, Hold.FROM, Hold.HANGING, Hold.PALM}
HAND_HOLDS |= {Hold.WALL, Hold.BODY}
BAR_HOLDS = {Hold.FREE, Hold.AT, Hold.BODY}


def _sorted_words(text: str) -> tuple[tuple[float, ...], tuple[str, ...]]:
    """A line's numbers and its other words."""
    numbers, words = [], []
    for word in text.split():
        try:
            numbers.append(float(word))
        except ValueError:
            words.append(word)
    return tuple(numbers), tuple(words)


def _place(text: str, allowed: set[Hold]) -> Place:
    head, _, rest = text.partition(" ")
    hold = Hold(head)
    if hold not in allowed:
        raise ValueError(f'"{head}" cannot stand here')
    numbers, words = _sorted_words(rest)
    part = "_".join(words)
    low, high = NUMBERS_OF[hold]
    if not low <= len(numbers) <= high:
        raise ValueError(f'"{head}" takes {low} to {high} numbers, not {len(numbers)}')
    if hold is Hold.BODY and part not in PARTS:
        raise ValueError(f'there is no body part "{part}"')
    return Place(hold, numbers, part)


def _pin(text: str) -> tuple[Place, Side]:
    place = _place(text, PINS)
    return place._replace(part=""), Side(place.part or "R")


def _bar(text: str) -> Place:
    if text == "hands":
        return Place(Hold.FREE)
    return _place(text if text.startswith("at ") else "on " + text, BAR_HOLDS)


def _pole(text: str) -> tuple[float, float, float]:
    x = y = z = 0.0
    for word in text.split():
        px, py, pz = POLES[word]
        x, y, z = x + px, y + py, z + pz
    return (x, y, z)


def _work(text: str) -> tuple[tuple[Muscle, int], ...]:
    found = []
    for entry in text.split(","):
        name, share = entry.split()
        if share not in ("1", "2"):
            raise ValueError("a muscle does 1, most of the work, or 2, helps")
        found.append((Muscle(name), int(share)))
    return tuple(found)


def _thing(text: str) -> Thing:
    kind, _, rest = text.partition(" ")
    numbers, words = _sorted_words(rest)
    thing = Thing(kind, numbers, words)
    if mistake := mistake_in(thing):
        raise ValueError(mistake)
    return thing


def _view(value: object) -> View:
    if isinstance(value, str):
        return VIEWS[value]
    if not isinstance(value, list) or len(value) != 2:
        raise ValueError("a view is a word or [yaw, pitch]")
    return View(_number(value[0]), _number(value[1]))


def read_trace(value: object, *, where: str) -> Trace | None:
    """The way that is drawn beside a figure; none where there is no value.

    Raises ResourceError naming `where`.
    """
    if value is None:
        return None
    numbers, words = _sorted_words(str(value))
    if len(words) != 1 or not is_point(words[0]) or len(numbers) > 2:
        raise ResourceError(f'"path" cannot be read from {value!r}.', where=where, mend=ASK)
    return Trace(words[0], *numbers)


def _groups(text: str) -> tuple[str, ...]:
    groups = tuple(text.split())
    for part in (name for group in groups for name in group.split("+")):
        if part not in GROUPS:
            raise ValueError(f'"{part}" is not one of {", ".join(GROUPS)}')
    return groups


def _sides(text: str) -> tuple[Side, ...]:
    return tuple(Side(word) for word in text)


def _two(data: Mapping[str, object], name: str, allowed: set[Hold]) -> Pair:
    """feet or hands: one entry for both, or footR, footL, handR, handL."""
    single = {"feet": "foot", "hands": "hand"}[name]
    both = str(data.get(name, "free"))
    found = {}
    for side in Side:
        place = _place(str(data.get(single + side, both)), allowed)
        shared = name in data and single + side not in data
        found[side] = place.turned_over(side.sign) if shared else place  # z counts outward
    return Pair(found[Side.R], found[Side.L])


READERS: dict[str, Callable[[object], object]] = {
    "knee_pole": lambda value: _pole(str(value)),
    "bar": lambda value: _bar(str(value)),
    "view": _view,
    "order": lambda value: _groups(str(value)),
    "far": lambda value: _groups(str(value)),
    "work": lambda value: _work(str(value)),
    "work_sides": lambda value: _sides(str(value)),
    "things": lambda value: tuple(_thing(str(line)) for line in value),  # type: ignore[attr-defined]
}
SPECIAL = {
    "elbow_pole",
    "elbow_poleR",
    "elbow_poleL",
    "pin",
    "feet",
    "footR",
    "footL",
    "hands",
    "handR",
    "handL",
}
ASK = "The README beside the pose files lists every field."


def _number(value: object) -> float:
    if isinstance(value, bool) or not isinstance(value, (int, float)):
        raise ValueError(f"{value!r} is not a number")
    return float(value)


def _fields(data: Mapping[str, object]) -> set[str]:
    sided = {name + side for name in PAIRED for side in Side}
    return {*NUMBERS, *PAIRED, *sided, *FLAGS, *READERS, *SPECIAL}


def _read_field(data: Mapping[str, object], name: str) -> dict[str, object]:
    value = data[name]
    base = name[:-1] if name[-1] in "RL" else name
    if name in NUMBERS:
        return {name: _number(value)}
    if base in PAIRED:
        both = data.get(base, 0.0)
        sides = [_number(data.get(base + side, both)) for side in Side]
        return {base: Both(*sides)}
    if name in FLAGS:
        return {name: bool(value)}
    if name == "pin":
        pin, side = _pin(str(value))
        return {"pin": pin, "pin_side": side}
    if base == "elbow_pole":
        default = data.get(base, "back")
        return {base: tuple(_pole(str(data.get(base + side, default))) for side in Side)}
    if base in ("feet", "foot"):
        return {"feet": _two(data, "feet", FOOT_HOLDS)}
    if base in ("hands", "hand"):
        return {"hands": _two(data, "hands", HAND_HOLDS)}
    return {name: READERS[name](value)}


def read_pose(data: Mapping[str, object], *, where: str) -> Pose:
    """One pose from its table.

    Raises ResourceError naming `where` and the field.
    """
    known = _fields(data)
    values: dict[str, object] = {}
    for name in data:
        if name not in known:
            raise ResourceError(f'there is no field "{name}".', where=where, mend=ASK)
        try:
            values.update(_read_field(data, name))
        except (ValueError, KeyError, TypeError, IndexError) as error:
            raise ResourceError(
                f'"{name}" cannot be read from {data[name]!r}: {error}.', where=where, mend=ASK
            ) from error
    if "pin" not in values:
        raise ResourceError("nothing fixes the person in space.", where=where, mend='Add a "pin".')
    return Pose(**values)  # type: ignore[arg-type]
