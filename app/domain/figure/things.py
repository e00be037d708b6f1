"""Implements, benches, boxes, cables: what a pose holds and what stands about it.

Furniture is given in paper coordinates (x, height); what is held follows the hands. Each thing
comes in up to three layers: behind the body, between body and arms, in front of all.
"""

import math
from collections.abc import Callable, Iterable
from dataclasses import dataclass, field, replace

from app.domain.errors import ResourceError
from app.domain.figure.body import PARTS, Body, grip, part_point
from app.domain.figure.outline import around
from app.domain.figure.pose import Pose, Side, Thing
from app.domain.figure.primitive import Circle, Path, Primitive, Role
from app.domain.figure.space import Point, Vec, add, middle, scale, sub, unit

PLATE = 0.093  # radius of the drawn plate; ours
BAR_HALF = 0.40  # half length of the drawn bar from the front
AXES: dict[str, Vec] = {"x": (1.0, 0.0, 0.0), "y": (0.0, 1.0, 0.0), "z": (0.0, 0.0, 1.0)}


@dataclass(slots=True)
class Layers:
    """What is drawn behind the body, before the near arms, with each arm, and last."""

    back: list[Primitive] = field(default_factory=list)
    mid: list[Primitive] = field(default_factory=list)
    hand: dict[Side, list[Primitive]] = field(default_factory=lambda: {Side.R: [], Side.L: []})
    front: list[Primitive] = field(default_factory=list)


@dataclass(frozen=True, slots=True)
class Scene:
    """A pose, its solved body, and whether small trimmings are drawn."""

    pose: Pose
    body: Body
    trimmings: bool

    @property
    def near(self) -> Side:
        """The side that looks at the eye in a picture from the side."""
        return Side.L if self.pose.mirrored else Side.R

    def paper(self, x: float, y: float) -> Point:
        """A furniture coordinate on paper."""
        return (-x if self.pose.mirrored else x, y)

    def project(self, place: Vec) -> Point:
        """A place in space on paper."""
        return self.pose.view.on_paper(place)

    def anchor(self, name: str) -> Point:
        """The paper place of a named point, or of `x,y`."""
        if "," in name:
            x, y = (float(number) for number in name.split(","))
            return self.paper(x, y)
        return self.project(named_point(self.body, name))


def named_point(body: Body, name: str) -> Vec:
    """The place in space of a point such as handR, kneeL, hip, hands, bar or ankleR."""
    parts = body.segments
    if name == "bar" and body.bar is not None:
        return body.bar
    if name == "hands":
        return middle(grip(body, Side.R), grip(body, Side.L))
    middles = {"hip": parts["pelvis"].start, "neck": parts["neck"].start, "head": parts["head"].end}
    if name in middles:
        return middles[name]
    if name in PARTS:
        return part_point(parts, name, Side.R)
    side = Side(name[-1])
    match name[:-1]:
        case "hand":
            return grip(body, side)
        case "knee":
            return parts["thigh" + side].end
        case "ankle":
            return parts["shank" + side].end
        case "thigh":
            return middle(parts["thigh" + side].start, parts["thigh" + side].end)
        case "foot":
            return parts["foot" + side].end
        case "elbow":
            return parts["upper_arm" + side].end
        case "shoulder":
            return parts["upper_arm" + side].start
        case _:
            return part_point(parts, name[:-1], side)


def _solid(points: Iterable[Point], fill: Role) -> Path:
    return Path(tuple(points), fill=fill, stroke=Role.INK)


def _strip(a: Point, b: Point, wide: float, fill: Role) -> Path:
    """A straight strip from a to b, `wide` across."""
    size = math.dist(a, b) or 1.0
    nx, ny = -(b[1] - a[1]) / size * wide / 2, (b[0] - a[0]) / size * wide / 2
    return _solid(
        (
            (a[0] + nx, a[1] + ny),
            (b[0] + nx, b[1] + ny),
            (b[0] - nx, b[1] - ny),
            (a[0] - nx, a[1] - ny),
        ),
        fill,
    )


def _pad(a: Point, b: Point, wide: float, fill: Role) -> Path:
    """A strip with round ends."""
    return _solid(around(((a, wide / 2), (b, wide / 2))), fill)


def _rectangle(scene: Scene, corners: tuple[float, float, float, float], fill: Role) -> Path:
    x0, y0, x1, y1 = corners
    return _solid((scene.paper(x, y) for x, y in ((x0, y0), (x1, y0), (x1, y1), (x0, y1))), fill)


def _bench(scene: Scene, thing: Thing, layers: Layers) -> None:
    x0, x1, top = thing.numbers
    legs = (x0 + 0.05, x1 - 0.05)
    layers.back += [_rectangle(scene, (x - 0.009, 0.0, x + 0.009, top), Role.STEEL) for x in legs]
    layers.back.append(_rectangle(scene, (x0, top - 0.032, x1, top), Role.WOOD))


def _box(scene: Scene, thing: Thing, layers: Layers) -> None:
    x0, x1, top = thing.numbers
    layers.back.append(_rectangle(scene, (x0, 0.0, x1, top), Role.WOOD))


def _front_box(scene: Scene, thing: Thing, layers: Layers) -> None:
    x0, x1, top = thing.numbers
    layers.front.append(_rectangle(scene, (x0, 0.0, x1, top), Role.WOOD))


def _cushion(scene: Scene, thing: Thing, layers: Layers) -> None:
    x0, y0, x1, y1, wide = thing.numbers
    pad = _pad(scene.paper(x0, y0), scene.paper(x1, y1), wide, Role.WOOD)
    (layers.front if "front" in thing.words else layers.back).append(pad)


def _beam(scene: Scene, thing: Thing, layers: Layers) -> None:
    x0, y0, x1, y1, wide = thing.numbers
    strip = _strip(scene.paper(x0, y0), scene.paper(x1, y1), wide, Role.STEEL)
    (layers.front if "front" in thing.words else layers.back).append(strip)


def _roller(scene: Scene, thing: Thing, layers: Layers) -> None:
    x, y, radius = thing.numbers
    place = scene.paper(x, y)
    if thing.words and thing.words[0] not in LAYER_WORDS:  # beside a part of the body
        near = scene.anchor(thing.words[0])
        place = (near[0] + place[0], near[1] + place[1])
    disc = Circle(place, radius, fill=Role.IMPLEMENT, stroke=Role.INK)
    (layers.back if "behind" in thing.words else layers.front).append(disc)


def _column(scene: Scene, thing: Thing, layers: Layers) -> None:
    x, top = thing.numbers
    layers.back.append(_rectangle(scene, (x - 0.075, 0.0, x + 0.075, 0.018), Role.STEEL))
    layers.back.append(_rectangle(scene, (x - 0.018, 0.018, x + 0.018, top), Role.WOOD))


def _rack(scene: Scene, thing: Thing, layers: Layers) -> None:
    half, height = thing.numbers
    for x in (-half, half):
        layers.back.append(
            _rectangle(scene, (x - 0.012, 0.0, x + 0.012, height + 0.02), Role.STEEL)
        )
    bar = (-half - 0.012, height - 0.010, half + 0.012, height + 0.010)
    layers.back.append(_rectangle(scene, bar, Role.IMPLEMENT))


def _rod(scene: Scene, thing: Thing, layers: Layers) -> None:
    """A bar seen from its end, standing in space."""
    x, y, radius = thing.numbers
    layers.front.append(Circle(scene.paper(x, y), radius, fill=Role.IMPLEMENT, stroke=Role.INK))


def _plate_face(center: Point, radius: float, *, trimmings: bool) -> list[Primitive]:
    drawn: list[Primitive] = [Circle(center, radius, fill=Role.IMPLEMENT, stroke=Role.INK)]
    if trimmings:
        drawn.append(Circle(center, radius * 0.72, stroke=Role.RING, weight=0.6))
    return drawn


def _barbell(scene: Scene, thing: Thing, layers: Layers) -> None:
    if scene.body.bar is None:
        raise ResourceError("a barbell needs a place.", mend='Add bar = "hands" or another place.')
    radius = thing.numbers[0] if thing.numbers else PLATE
    center = scene.project(scene.body.bar)
    if abs(scene.pose.view.on_paper(AXES["z"])[0]) < 0.5:
        layers.back += _plate_face(center, radius, trimmings=scene.trimmings)
        layers.front.append(Circle(center, 0.015, fill=Role.RING, stroke=Role.INK))
        layers.front.append(Circle(center, 0.005, fill=Role.INK))
        return
    layer = layers.back if "behind" in thing.words else layers.mid
    layer += _bar_from_the_front(scene, radius)


def _bar_from_the_front(scene: Scene, radius: float) -> list[Primitive]:
    bar = scene.body.bar or (0.0, 0.0, 0.0)

    def across(z: float, up: float) -> Point:
        return scene.project(add(bar, (0.0, up, z)))

    def block(z0: float, z1: float, up: float) -> Path:
        corners = ((z0, -up), (z1, -up), (z1, up), (z0, up))
        return _solid((across(*corner) for corner in corners), Role.IMPLEMENT)

    drawn: list[Primitive] = [block(-BAR_HALF, BAR_HALF, 0.0075)]
    for sign in (scene.near.sign, -scene.near.sign):
        drawn.append(block(sign * 0.325, sign * 0.355, radius))
        drawn.append(block(sign * 0.355, sign * 0.376, radius * 0.66))
    return drawn


def _handle(scene: Scene, thing: Thing, layers: Layers) -> None:
    """A plain bar without plates between and beyond the hands."""
    half = thing.numbers[0]
    bar = scene.body.bar or named_point(scene.body, "hands")
    ends = [scene.project(add(bar, (0.0, 0.0, sign * half))) for sign in (-1, 1)]
    if math.dist(*ends) < 0.05:
        layers.front.append(Circle(ends[0], 0.012, fill=Role.IMPLEMENT, stroke=Role.INK))
    else:
        layers.mid.append(_strip(ends[0], ends[1], 0.016, Role.IMPLEMENT))


def _axis(scene: Scene, side: Side, word: str) -> Vec:
    frame = scene.body.segments["hand" + side].frame
    axis = {"front": frame.front, "right": frame.right}.get(word) or AXES[word]
    return scale(axis, scene.near.sign) if word in ("z", "right") else axis  # as in a mirror


def _dumbbell(scene: Scene, thing: Thing, layers: Layers) -> None:
    axis_word = thing.words[0]
    sides = [Side(word) for word in thing.words[1:]] or [Side.R, Side.L]
    for side in sides:
        axis = _axis(scene, side, axis_word)
        layers.hand[side] += _dumbbell_at(scene, grip(scene.body, side), axis)


def _dumbbell_at(scene: Scene, place: Vec, axis: Vec) -> list[Primitive]:
    ax, ay = scene.project(axis)
    center = scene.project(place)
    size = math.hypot(ax, ay)
    if size < 0.5:
        return [
            *_plate_face(center, 0.034, trimmings=scene.trimmings),
            Circle(center, 0.006, fill=Role.INK),
        ]

    def at(along: float) -> Point:
        return (center[0] + ax * along, center[1] + ay * along)

    return [_strip(at(sign * 0.021), at(sign * 0.054), 0.066, Role.IMPLEMENT) for sign in (1, -1)]


def _upright_dumbbell(scene: Scene, thing: Thing, layers: Layers) -> None:
    """One dumbbell held upright by its upper head, in both hands, `numbers[0]` below the grip."""
    place = add(named_point(scene.body, "hands"), (0.0, thing.numbers[0], 0.0))
    x, y = scene.project(place)
    for low, high, wide in ((-0.085, -0.050, 0.078), (-0.050, 0.000, 0.024), (0.0, 0.035, 0.078)):
        layers.mid.append(_strip((x, y + low), (x, y + high), wide, Role.IMPLEMENT))


def _kettlebell(scene: Scene, thing: Thing, layers: Layers) -> None:
    """A kettlebell hanging from the hands; `along` swings out in line with the forearms."""
    place = named_point(scene.body, thing.words[0])
    hang: Vec = (0.0, -1.0, 0.0)
    if "along" in thing.words:
        arm = scene.body.segments["forearm" + scene.near]
        hang = unit(sub(arm.end, arm.start))
    if "up" in thing.words:
        hang = (0.0, 1.0, 0.0)
    top, ball = scene.project(place), scene.project(add(place, scale(hang, 0.074)))
    ring = around(((top, 0.016), (ball, 0.034)))
    layers.mid.append(Path(ring, stroke=Role.INK, fill=Role.IMPLEMENT))
    layers.mid.append(Circle(ball, 0.050, fill=Role.IMPLEMENT, stroke=Role.INK))


def _disc(scene: Scene, thing: Thing, layers: Layers) -> None:
    """A weight plate held against the body, seen from its edge or its face."""
    place = scene.anchor(thing.words[0])
    radius = thing.numbers[0] if thing.numbers else PLATE * 0.8
    if "edge" in thing.words:
        layers.mid.append(
            _strip(
                (place[0], place[1] - radius), (place[0], place[1] + radius), 0.030, Role.IMPLEMENT
            )
        )
    else:
        layers.mid += _plate_face(place, radius, trimmings=scene.trimmings)


def _line(weight: float) -> Callable[[Scene, Thing, Layers], None]:
    def draw(scene: Scene, thing: Thing, layers: Layers) -> None:
        points = tuple(scene.anchor(word) for word in thing.words if word not in LAYER_WORDS)
        layer = layers.back if "behind" in thing.words else layers.front
        if "mid" in thing.words:
            layer = layers.mid
        layer.append(Path(points, stroke=Role.INK, weight=weight + 1.4, closed=False))
        layer.append(Path(points, stroke=Role.BAND, weight=weight, closed=False))

    return draw


def _loop(scene: Scene, thing: Thing, layers: Layers) -> None:
    """A band around both legs: a flat ring across them, `numbers[0]` beyond each."""
    first, second = (scene.anchor(word) for word in thing.words[:2])
    beyond = thing.numbers[0]
    size = math.dist(first, second) or 1.0
    ux, uy = (second[0] - first[0]) / size * beyond, (second[1] - first[1]) / size * beyond
    ends = ((first[0] - ux, first[1] - uy), (second[0] + ux, second[1] + uy))
    layers.front.append(replace(_strip(*ends, 0.020, Role.BAND)))


def _cuff(scene: Scene, thing: Thing, layers: Layers) -> None:
    """A strap around an ankle or a wrist."""
    x, y = scene.anchor(thing.words[0])
    layers.front.append(_strip((x - 0.024, y + 0.012), (x + 0.024, y + 0.012), 0.020, Role.BAND))


def _pulley(scene: Scene, thing: Thing, layers: Layers) -> None:
    x, y = thing.numbers
    layers.back.append(Circle(scene.paper(x, y), 0.020, fill=Role.IMPLEMENT, stroke=Role.INK))


def _sled(scene: Scene, thing: Thing, layers: Layers) -> None:
    x, height = thing.numbers
    layers.back.append(_rectangle(scene, (x, 0.0, x + 0.42, 0.030), Role.STEEL))
    layers.back.append(_rectangle(scene, (x + 0.03, 0.030, x + 0.050, height), Role.STEEL))
    layers.back.append(_rectangle(scene, (x + 0.24, 0.030, x + 0.26, 0.30), Role.STEEL))
    for low in (0.030, 0.072, 0.114):
        layers.back.append(
            _rectangle(scene, (x + 0.15, low, x + 0.35, low + 0.042), Role.IMPLEMENT)
        )


def _hexbar(scene: Scene, thing: Thing, layers: Layers) -> None:
    """A frame that one stands in: from the side its near rail with a plate behind."""
    radius = thing.numbers[0] if thing.numbers else PLATE
    place = named_point(scene.body, "hands")
    center = scene.project(place)
    layers.back += _plate_face(center, radius, trimmings=scene.trimmings)
    x, y = center
    layers.mid.append(_strip((x - 0.17, y - 0.012), (x + 0.17, y - 0.012), 0.016, Role.STEEL))


def _lever(scene: Scene, thing: Thing, layers: Layers) -> None:
    """A machine's arm from the knee down the shank, with a roller before or behind the ankle."""
    forward = thing.numbers[0]
    down = thing.numbers[1] if len(thing.numbers) > 1 else 0.205
    shank = scene.body.segments["shank" + scene.near]
    knee, roller = scene.project(shank.start), scene.project(shank.point(forward, -down))
    layers.back.append(_strip(knee, roller, 0.022, Role.STEEL))
    layers.front.append(Circle(roller, 0.026, fill=Role.IMPLEMENT, stroke=Role.INK))


def _stick(scene: Scene, thing: Thing, layers: Layers) -> None:
    """A stick along the back, from below the pelvis to above the head."""
    pelvis = scene.body.segments["pelvis"]
    ends = [scene.project(pelvis.point(-0.084, up)) for up in thing.numbers]
    layers.front.append(_strip(ends[0], ends[1], 0.014, Role.WOOD))


LAYER_WORDS = {"behind", "mid", "front"}
KINDS: dict[str, Callable[[Scene, Thing, Layers], None]] = {
    "bench": _bench,
    "box": _box,
    "front_box": _front_box,
    "cushion": _cushion,
    "beam": _beam,
    "roller": _roller,
    "column": _column,
    "rack": _rack,
    "rod": _rod,
    "barbell": _barbell,
    "handle": _handle,
    "dumbbell": _dumbbell,
    "upright_dumbbell": _upright_dumbbell,
    "kettlebell": _kettlebell,
    "disc": _disc,
    "cable": _line(1.3),
    "band": _line(2.6),
    "loop": _loop,
    "cuff": _cuff,
    "pulley": _pulley,
    "lever": _lever,
    "stick": _stick,
    "sled": _sled,
    "hexbar": _hexbar,
}


def arrange(scene: Scene) -> Layers:
    """Everything the pose holds and stands among, sorted into layers."""
    layers = Layers()
    for thing in scene.pose.things:
        KINDS[thing.kind](scene, thing, layers)
    return layers
