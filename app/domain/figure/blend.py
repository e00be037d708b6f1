"""The pose between two poses: every angle and number part of the way."""

from dataclasses import fields, replace

from app.domain.figure.pose import Both, Pair, Place, Pose

_TURNED = (
    *("lean", "roll", "turn", "spine", "bend", "twist", "neck", "face", "tilt", "foot_turn"),
    *("shoulders_up", "shoulders_front"),
)
_PAIRED = (
    *("hip", "hip_out", "hip_turn", "knee", "ankle"),
    *("shoulder", "shoulder_out", "shoulder_turn", "elbow", "wrist"),
)


def _mix(a: float, b: float, share: float) -> float:
    return a + (b - a) * share


def _mix_place(a: Place, b: Place, share: float) -> Place:
    if a.hold is not b.hold or len(a.numbers) != len(b.numbers):
        return b
    numbers = tuple(_mix(x, y, share) for x, y in zip(a.numbers, b.numbers, strict=True))
    return b._replace(numbers=numbers)


def _mix_pair(a: Pair, b: Pair, share: float) -> Pair:
    return Pair(_mix_place(a.right, b.right, share), _mix_place(a.left, b.left, share))


def can_blend(start: Pose, end: Pose) -> bool:
    """Whether both poses hold the same things alike, so that one can turn into the other."""
    pairs = (
        *(
            (start.pin, end.pin),
            (start.feet.right, end.feet.right),
            (start.feet.left, end.feet.left),
        ),
        *((start.hands.right, end.hands.right), (start.hands.left, end.hands.left)),
        (start.bar or start.pin, end.bar or end.pin),
    )
    same = all(a.hold is b.hold and len(a.numbers) == len(b.numbers) for a, b in pairs)
    return same and (start.bar is None) == (end.bar is None)


def between(start: Pose, end: Pose, share: float) -> Pose:
    """The pose `share` of the way from `start` to `end`; what differs in kind follows `end`."""
    changed: dict[str, object] = {}
    for name in _TURNED:
        changed[name] = _mix(getattr(start, name), getattr(end, name), share)
    for name in _PAIRED:
        a, b = getattr(start, name), getattr(end, name)
        changed[name] = Both(_mix(a.right, b.right, share), _mix(a.left, b.left, share))
    changed["pin"] = _mix_place(start.pin, end.pin, share)
    changed["feet"] = _mix_pair(start.feet, end.feet, share)
    changed["hands"] = _mix_pair(start.hands, end.hands, share)
    if start.bar is not None and end.bar is not None:
        changed["bar"] = _mix_place(start.bar, end.bar, share)
    known = {field.name for field in fields(Pose)}
    return replace(end, **{key: value for key, value in changed.items() if key in known})  # type: ignore[arg-type]
