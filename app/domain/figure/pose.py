"""A pose as data: angles, what is fixed in space, what the hands hold, what stands about.

Angles are degrees from the anatomical position; places are fractions of stature, x forward from
the pin, y above the floor, z to the person's right.
"""

from collections.abc import Mapping
from dataclasses import dataclass, field, replace
from enum import StrEnum
from typing import NamedTuple

from app.domain.exercise import Muscle
from app.domain.figure.space import View


class Side(StrEnum):
    """A side of the body."""

    R = "R"
    L = "L"

    @property
    def sign(self) -> int:
        """+1 to the person's right, -1 to the left."""
        return 1 if self is Side.R else -1

    @property
    def other(self) -> "Side":
        """The opposite side."""
        return Side.L if self is Side.R else Side.R


class Both(NamedTuple):
    """One angle for each side, degrees."""

    right: float = 0.0
    left: float = 0.0

    def of(self, side: Side) -> float:
        """The angle on `side`."""
        return self.right if side is Side.R else self.left


class Hold(StrEnum):
    """How a place in space is given for the person, a foot or a hand."""

    FREE = "free"  # by the joint angles alone
    FLAT = "flat"  # whole sole: x y, or x y z
    BALL = "ball"  # ball of the foot: x y heel-angle, or with z at the end
    TOES = "toes"  # like ball, but the toes bend back flat on the ground
    SOLE = "sole"  # the ankle's place and how far the toes point up: x y tilt, or with z
    ANKLE = "ankle"  # the ankle joint: x y, or x y z
    KNEE = "knee"
    UPPER_BACK = "upperback"
    BACK = "back"  # lower back and buttocks
    FRONT = "front"  # front of the pelvis
    OUTSIDE = "side"  # side of the hip
    HANG = "hang"  # by the hands
    ELBOW = "elbow"
    PELVIS = "pelvis"  # the middle between the hip joints
    SEAT = "seat"  # underside of the thighs
    BAR = "bar"  # half the grip width
    AT = "at"  # x y, or x y z
    FROM = "from"  # from the shoulder joint: forward, up, outward
    HANGING = "down"  # straight down from the shoulder; forward shift
    PALM = "floor"  # flat hand at x, height
    WALL = "wall"  # flat hand against a wall in front: its x, height
    BODY = "on"  # a part of the body


# How many numbers each kind of place takes, at least and at most.
NUMBERS_OF = {
    Hold.FREE: (0, 0),
    Hold.FLAT: (2, 3),
    Hold.BALL: (3, 3),
    Hold.TOES: (3, 4),
    Hold.SOLE: (3, 4),
    Hold.ANKLE: (2, 3),
    Hold.KNEE: (2, 2),
    Hold.UPPER_BACK: (2, 3),
    Hold.BACK: (2, 2),
    Hold.FRONT: (2, 2),
    Hold.OUTSIDE: (2, 2),
    Hold.HANG: (2, 2),
    Hold.ELBOW: (2, 2),
    Hold.PELVIS: (2, 2),
    Hold.SEAT: (2, 2),
    Hold.BAR: (1, 1),
    Hold.AT: (2, 3),
    Hold.FROM: (3, 3),
    Hold.HANGING: (0, 2),
    Hold.PALM: (2, 3),
    Hold.WALL: (2, 3),
    Hold.BODY: (0, 0),
}
# Where among a place's numbers its z stands.
Z_AT = {
    Hold.FLAT: 2,
    Hold.BALL: 3,
    Hold.TOES: 3,
    Hold.SOLE: 3,
    Hold.ANKLE: 2,
    Hold.AT: 2,
    Hold.PALM: 2,
    Hold.WALL: 2,
}


class Place(NamedTuple):
    """A way of holding and the numbers (and perhaps the body part) that go with it."""

    hold: Hold
    numbers: tuple[float, ...] = ()
    part: str = ""

    def turned_over(self, sign: int) -> "Place":
        """This place with its z, if one is given, times `sign`."""
        index = Z_AT.get(self.hold)
        if index is None or len(self.numbers) <= index:
            return self
        numbers = list(self.numbers)
        numbers[index] *= sign
        return self._replace(numbers=tuple(numbers))

    def number(self, index: int, missing: float) -> float:
        """The number at `index`, or `missing`."""
        return self.numbers[index] if index < len(self.numbers) else missing


class Pair(NamedTuple):
    """What each hand or foot does."""

    right: Place = Place(Hold.FREE)
    left: Place = Place(Hold.FREE)

    def of(self, side: Side) -> Place:
        """The place for `side`."""
        return self.right if side is Side.R else self.left


@dataclass(frozen=True, slots=True)
class Thing:
    """Something to draw: an implement, a bench, a cable. `words` name parts or axes."""

    kind: str
    numbers: tuple[float, ...] = ()
    words: tuple[str, ...] = ()


@dataclass(frozen=True, slots=True)
class Trace:
    """A point whose way from start to end is drawn, and how far beside the body."""

    point: str
    right: float = 0.0
    up: float = 0.0


Way = tuple[float, float, float]  # front, up, outward
BEHIND: Way = (-1.0, -0.4, 0.25)


@dataclass(frozen=True, slots=True)
class Pose:
    """One position of one person, with everything that is needed to draw it."""

    pin: Place
    pin_side: Side = Side.R
    lean: float = 0.0
    roll: float = 0.0
    turn: float = 0.0
    spine: float = 0.0
    bend: float = 0.0
    twist: float = 0.0
    neck: float = 0.0
    face: float = 0.0
    tilt: float = 0.0
    hip: Both = Both()
    hip_out: Both = Both()
    hip_turn: Both = Both()
    knee: Both = Both()
    ankle: Both = Both()
    shoulder: Both = Both()
    shoulder_out: Both = Both()
    shoulder_turn: Both = Both()
    elbow: Both = Both()
    wrist: Both = Both()
    foot_turn: float = 0.0
    shoulders_in: float = 0.0
    shoulders_up: float = 0.0
    shoulders_front: float = 0.0
    feet: Pair = Pair()
    hands: Pair = Pair()
    knee_pole: Way = (1.0, 0.0, 0.0)
    elbow_pole: tuple[Way, Way] = (BEHIND, BEHIND)
    bar: Place | None = None
    things: tuple[Thing, ...] = ()
    view: View = View()
    order: tuple[str, ...] = ()
    far: tuple[str, ...] = ()
    floor: bool = True
    held: bool = False
    mirrored: bool = False
    work: tuple[tuple[Muscle, int], ...] = ()
    work_sides: tuple[Side, ...] = (Side.R, Side.L)


@dataclass(frozen=True, slots=True)
class PosePair:
    """Start and end of one exercise, and the way between them."""

    key: str
    start: Pose
    end: Pose
    trace: Trace | None = field(default=None)


Poses = Mapping[str, PosePair]


def _swap_both(angle: Both) -> Both:
    return Both(angle.left, angle.right)


def _swap_pair(pair: Pair) -> Pair:
    return Pair(pair.left.turned_over(-1), pair.right.turned_over(-1))


def _swap_name(name: str) -> str:
    if name.endswith("R"):
        return name[:-1] + "L"
    if name.endswith("L"):
        return name[:-1] + "R"
    return name


def swap_sides(group: str) -> str:
    """The names joined by + with right and left exchanged: legR+armL gives legL+armR."""
    return "+".join(_swap_name(name) for name in group.split("+"))


def _mirror_thing(thing: Thing) -> Thing:
    words = tuple(_swap_name(word) for word in thing.words)
    return replace(thing, words=words)


def _swap_angles(pose: Pose) -> Pose:
    """The pose with every paired angle on the other side."""
    return replace(
        pose,
        hip=_swap_both(pose.hip),
        hip_out=_swap_both(pose.hip_out),
        hip_turn=_swap_both(pose.hip_turn),
        knee=_swap_both(pose.knee),
        ankle=_swap_both(pose.ankle),
        shoulder=_swap_both(pose.shoulder),
        shoulder_out=_swap_both(pose.shoulder_out),
        shoulder_turn=_swap_both(pose.shoulder_turn),
        elbow=_swap_both(pose.elbow),
        wrist=_swap_both(pose.wrist),
    )


def mirror(pose: Pose) -> Pose:
    """The pose with right and left exchanged, seen from the other side: a mirrored picture."""
    return replace(
        _swap_angles(pose),
        pin_side=pose.pin_side.other,
        roll=-pose.roll,
        turn=-pose.turn,
        bend=-pose.bend,
        twist=-pose.twist,
        face=-pose.face,
        tilt=-pose.tilt,
        feet=_swap_pair(pose.feet),
        hands=_swap_pair(pose.hands),
        elbow_pole=(pose.elbow_pole[1], pose.elbow_pole[0]),
        view=View(180 - pose.view.yaw_deg, pose.view.pitch_deg),
        things=tuple(_mirror_thing(thing) for thing in pose.things),
        order=tuple(swap_sides(group) for group in pose.order),
        far=tuple(_swap_name(name) for name in pose.far),
        mirrored=not pose.mirrored,
        work_sides=tuple(side.other for side in pose.work_sides),
    )
