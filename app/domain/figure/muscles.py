"""Where the working muscles are drawn: patches fixed to the body's segments.

A picture for orientation, not an atlas. A patch is a spindle along a line of points or a blob
around a ring of points; it is drawn when its side looks at the eye or lies on the outline.
"""

from dataclasses import dataclass

from app.domain.exercise import Muscle
from app.domain.figure.body import Body
from app.domain.figure.outline import faces, shrunk, smooth, spindle
from app.domain.figure.pose import Side
from app.domain.figure.primitive import Path, Role
from app.domain.figure.space import Point, View

INNER = 0.62  # size of the darker middle
HIDDEN = -0.30  # a patch whose side looks away more than this is left out


@dataclass(frozen=True, slots=True)
class Mark:
    """A point on a segment: front, along (up the trunk, down the limbs), outward."""

    segment: str
    front: float
    along: float
    out: float = 0.0


@dataclass(frozen=True, slots=True)
class Patch:
    """One muscle's shape. `group`: the limb that it is painted with; `normal`: front, outward."""

    group: str
    normal: tuple[float, float]
    marks: tuple[Mark, ...]
    wide: float = 0.0  # half width of a spindle; 0 for a blob
    hidden: float = HIDDEN


def _limb(segment: str, *rows: tuple[float, float, float]) -> tuple[Mark, ...]:
    return tuple(Mark(segment, front, -down, out) for front, down, out in rows)


def _trunk(segment: str, *rows: tuple[float, float, float]) -> tuple[Mark, ...]:
    return tuple(Mark(segment, front, up, out) for front, up, out in rows)


_THIGH_FRONT = _limb(
    "thigh",
    (0.012, 0.030, 0.012),
    (0.026, 0.085, 0.018),
    (0.026, 0.140, 0.016),
    (0.020, 0.190, 0.012),
    (0.012, 0.225, 0.006),
)
_THIGH_BACK = _limb(
    "thigh",
    (-0.026, 0.050, 0.004),
    (-0.025, 0.095, 0.008),
    (-0.020, 0.145, 0.010),
    (-0.015, 0.190, 0.008),
    (-0.012, 0.228, 0.004),
)
_THIGH_INSIDE = _limb(
    "thigh",
    (0.010, 0.020, -0.026),
    (0.006, 0.070, -0.028),
    (0.002, 0.125, -0.022),
    (-0.002, 0.180, -0.014),
)
_CALF = _limb(
    "shank",
    (-0.012, 0.006, 0.004),
    (-0.023, 0.045, 0.006),
    (-0.024, 0.080, 0.005),
    (-0.016, 0.120, 0.002),
    (-0.009, 0.155, 0.0),
)
_SHIN = _limb(
    "shank",
    (0.010, 0.020, 0.012),
    (0.013, 0.070, 0.012),
    (0.011, 0.120, 0.009),
    (0.008, 0.170, 0.005),
)
_GLUTE = (
    Mark("seat", -0.026, 0.064, -0.016),
    Mark("seat", 0.006, 0.050, 0.028),
    Mark("thigh", 0.004, -0.030, 0.036),
    Mark("thigh", -0.016, -0.086, 0.014),
    Mark("seat", -0.045, -0.036, -0.012),
    Mark("seat", -0.052, 0.014, -0.018),
)
_HIP_SIDE = (
    Mark("pelvis", -0.016, 0.074, 0.074),
    Mark("pelvis", 0.020, 0.070, 0.046),
    Mark("pelvis", 0.024, 0.024, 0.058),
    Mark("thigh", 0.006, -0.022, 0.030),
    Mark("thigh", -0.006, -0.020, 0.040),
    Mark("pelvis", -0.016, 0.025, 0.089),
)
_HIP_FRONT = (
    Mark("pelvis", 0.030, 0.062, 0.040),
    Mark("pelvis", 0.040, 0.030, 0.050),
    Mark("thigh", 0.034, -0.020, 0.006),
    Mark("thigh", 0.028, -0.060, 0.0),
)
_ERECTOR = (
    Mark("pelvis", -0.036, 0.020, 0.018),
    Mark("pelvis", -0.034, 0.070, 0.020),
    Mark("chest", -0.034, 0.020, 0.021),
    Mark("chest", -0.040, 0.070, 0.022),
    Mark("chest", -0.046, 0.120, 0.020),
    Mark("chest", -0.044, 0.160, 0.016),
)
_ABDOMEN = (
    Mark("chest", 0.034, 0.072, 0.018),
    Mark("chest", 0.033, 0.030, 0.020),
    Mark("pelvis", 0.034, 0.080, 0.020),
    Mark("pelvis", 0.036, 0.040, 0.017),
    Mark("pelvis", 0.032, 0.008, 0.010),
)
_FLANK = (
    Mark("chest", 0.016, 0.070, 0.058),
    Mark("chest", 0.014, 0.030, 0.060),
    Mark("pelvis", 0.016, 0.080, 0.062),
    Mark("pelvis", 0.020, 0.045, 0.068),
)
_LAT = _trunk(
    "chest",
    (-0.020, 0.158, 0.090),
    (-0.040, 0.132, 0.050),
    (-0.044, 0.070, 0.020),
    (-0.030, 0.004, 0.014),
    (-0.012, 0.036, 0.056),
    (-0.002, 0.100, 0.084),
)
_UPPER_BACK = _trunk(
    "chest",
    (-0.034, 0.200, 0.022),
    (-0.030, 0.180, 0.072),
    (-0.042, 0.140, 0.058),
    (-0.054, 0.090, 0.014),
    (-0.054, 0.150, 0.012),
)
_PEC = _trunk(
    "chest",
    (0.050, 0.166, 0.010),
    (0.034, 0.180, 0.056),
    (0.002, 0.164, 0.102),
    (0.030, 0.122, 0.076),
    (0.057, 0.100, 0.032),
    (0.058, 0.116, 0.010),
)
_DELT = {
    "front": _limb(
        "upper_arm",
        (0.010, -0.022, 0.006),
        (0.020, 0.012, 0.010),
        (0.018, 0.050, 0.012),
        (0.008, 0.082, 0.012),
    ),
    "side": _limb(
        "upper_arm",
        (0.0, -0.022, 0.012),
        (0.0, 0.016, 0.018),
        (0.0, 0.052, 0.016),
        (0.0, 0.086, 0.012),
    ),
    "rear": _limb(
        "upper_arm",
        (-0.010, -0.022, 0.006),
        (-0.019, 0.012, 0.008),
        (-0.017, 0.050, 0.010),
        (-0.008, 0.082, 0.010),
    ),
}
_BICEPS = _limb(
    "upper_arm",
    (0.008, 0.050, 0.0),
    (0.015, 0.085, 0.002),
    (0.014, 0.125, 0.002),
    (0.008, 0.162, 0.0),
)
_TRICEPS = _limb(
    "upper_arm",
    (-0.010, 0.034, 0.004),
    (-0.017, 0.072, 0.006),
    (-0.014, 0.115, 0.004),
    (-0.008, 0.158, 0.0),
)
_FOREARM = _limb(
    "forearm",
    (0.006, 0.010, 0.004),
    (0.010, 0.040, 0.005),
    (0.006, 0.075, 0.002),
    (0.002, 0.110, 0.0),
)

PATCHES: dict[Muscle, Patch] = {
    Muscle.QUADRICEPS: Patch("leg", (0.7, 0.7), _THIGH_FRONT, 0.021),
    Muscle.GLUTEALS: Patch("trunk", (-0.7, 0.7), _GLUTE),
    Muscle.HIP_ABDUCTORS: Patch("trunk", (0.0, 1.0), _HIP_SIDE),
    Muscle.HAMSTRINGS: Patch("leg", (-0.8, 0.6), _THIGH_BACK, 0.019),
    Muscle.ADDUCTORS: Patch("leg", (0.9, -0.4), _THIGH_INSIDE, 0.015),
    Muscle.HIP_FLEXORS: Patch("trunk", (0.9, 0.4), _HIP_FRONT, 0.013),
    Muscle.CALVES: Patch("leg", (-0.8, 0.6), _CALF, 0.016),
    Muscle.SHIN: Patch("leg", (0.8, 0.6), _SHIN, 0.011),
    Muscle.SPINAL_ERECTORS: Patch("trunk", (-0.9, 0.4), _ERECTOR, 0.013),
    Muscle.ABDOMINALS: Patch("trunk", (0.8, 0.6), _ABDOMEN, 0.016),
    Muscle.OBLIQUES: Patch("trunk", (0.5, 0.9), _FLANK, 0.018),
    Muscle.LATISSIMUS: Patch("trunk", (-0.7, 0.7), _LAT),
    Muscle.UPPER_BACK: Patch("trunk", (-0.9, 0.4), _UPPER_BACK),
    Muscle.CHEST: Patch("trunk", (0.8, 0.6), _PEC),
    Muscle.FRONT_DELTOID: Patch("arm", (0.8, 0.6), _DELT["front"], 0.014, -0.75),
    Muscle.SIDE_DELTOID: Patch("arm", (0.0, 1.0), _DELT["side"], 0.015, -0.75),
    Muscle.REAR_DELTOID: Patch("arm", (-0.8, 0.6), _DELT["rear"], 0.014, -0.75),
    Muscle.BICEPS: Patch("arm", (0.9, 0.3), _BICEPS, 0.013),
    Muscle.TRICEPS: Patch("arm", (-0.8, 0.6), _TRICEPS, 0.013),
    Muscle.FOREARMS: Patch("arm", (0.8, 0.6), _FOREARM, 0.012),
}

_PAIRED = {"seat", "thigh", "shank", "upper_arm", "forearm"}


def _places(patch: Patch, body: Body, side: Side, view: View) -> list[Point]:
    found = []
    for mark in patch.marks:
        name = mark.segment + side if mark.segment in _PAIRED else mark.segment
        segment = body.segments[name]
        found.append(view.on_paper(segment.point(mark.front, mark.along, mark.out * side.sign)))
    return found


def is_seen(muscle: Muscle, body: Body, side: Side, view: View) -> bool:
    """Whether the muscle's patch on `side` looks at the eye or lies on the outline."""
    patch = PATCHES[muscle]
    name = patch.marks[0].segment
    frame = body.segments[name + side if name in _PAIRED else name].frame
    front, out = patch.normal
    return faces(frame, front, out * side.sign, view) > patch.hidden


def patches(muscle: Muscle, body: Body, side: Side, view: View, *, main: bool) -> tuple[Path, ...]:
    """The muscle's patch on one side of the body: outer tone, and inner tone when `main`."""
    if not is_seen(muscle, body, side, view):
        return ()
    patch = PATCHES[muscle]
    places = _places(patch, body, side, view)
    outer = spindle(_dense(places), patch.wide) if patch.wide else smooth(places)
    shapes = [Path(outer, fill=Role.MUSCLE_OUTER, curved=True)]
    if main:
        if patch.wide:
            inner = spindle(_dense(shrunk(places, 0.8)), patch.wide * 0.55)
        else:
            inner = smooth(shrunk(places, INNER))
        shapes.append(Path(inner, fill=Role.MUSCLE_INNER, curved=True))
    return tuple(shapes)


def _dense(line: list[Point] | tuple[Point, ...]) -> list[Point]:
    """The line with a point between every two, on the smooth curve through them."""
    spans = smooth(line, closed=False)
    found = [spans[0]]
    for index in range(1, len(spans), 3):
        a, b, c, d = spans[index - 1], *spans[index : index + 3]
        found.append(
            ((a[0] + 3 * b[0] + 3 * c[0] + d[0]) / 8, (a[1] + 3 * b[1] + 3 * c[1] + d[1]) / 8)
        )
        found.append(d)
    return found
