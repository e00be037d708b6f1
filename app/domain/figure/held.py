"""What a figure holds or wears: bars, dumbbells, kettlebells, cables, bands and levers."""

import math
from collections.abc import Callable

from app.domain.errors import ResourceError
from app.domain.figure.body import FOOT_HEIGHT, grip
from app.domain.figure.outline import around
from app.domain.figure.pose import Side, Thing
from app.domain.figure.primitive import Circle, Path, Primitive, Role
from app.domain.figure.scene import LAYER_WORDS, Layers, Scene, named_point, solid, strip
from app.domain.figure.space import Point, Vec, add, scale, sub, unit

PLATE, PLATE_ON_BACK = 0.093, 0.074  # radius of the drawn plate; ours
DUMBBELL_HEAD = 0.034
BAR_HALF = 0.40  # half length of the drawn bar from the front
AXES: dict[str, Vec] = {"x": (1.0, 0.0, 0.0), "y": (0.0, 1.0, 0.0), "z": (0.0, 0.0, 1.0)}
STRAPPED = {"ankle": "shank", "foot": "foot", "hand": "forearm"}  # what a strap lies around
STRAP_HALF, STRAP_OFF = 0.024, 0.012  # half its length; how far before the joint it lies
STRAP_SEEN = 0.03  # a limb drawn shorter than this has no direction
DUMBBELL_AXES = (*AXES, "front", "right")


def _plate_face(center: Point, radius: float, *, trimmings: bool) -> list[Primitive]:
    drawn: list[Primitive] = [Circle(center, radius, fill=Role.IMPLEMENT, stroke=Role.INK)]
    if trimmings:
        drawn.append(Circle(center, radius * 0.72, stroke=Role.RING, weight=0.6))
    return drawn


def barbell(scene: Scene, thing: Thing, layers: Layers) -> None:
    """A bar with plates where the pose says; from the side its near plate is taken off."""
    if scene.body.bar is None:
        raise ResourceError("a barbell needs a place.", mend='Add bar = "hands" or another place.')
    radius = thing.numbers[0] if thing.numbers else _usual_plate(scene)
    center = scene.project(scene.body.bar)
    if abs(scene.pose.view.on_paper(AXES["z"])[0]) < 0.5:
        layers.back += _plate_face(center, radius, trimmings=scene.trimmings)
        layers.front.append(Circle(center, 0.015, fill=Role.RING, stroke=Role.INK))
        layers.front.append(Circle(center, 0.005, fill=Role.INK))
        return
    layer = layers.back if "behind" in thing.words else layers.mid
    layer += _bar_from_the_front(scene, radius)


def _usual_plate(scene: Scene) -> float:
    """A plate on the upper back is drawn smaller, so that it does not run into the hair."""
    bar = scene.pose.bar
    return PLATE_ON_BACK if bar is not None and bar.part == "upper_back" else PLATE


def _bar_from_the_front(scene: Scene, radius: float) -> list[Primitive]:
    bar = scene.body.bar or (0.0, 0.0, 0.0)

    def across(z: float, up: float) -> Point:
        return scene.project(add(bar, (0.0, up, z)))

    def block(z0: float, z1: float, up: float) -> Path:
        corners = ((z0, -up), (z1, -up), (z1, up), (z0, up))
        return solid((across(*corner) for corner in corners), Role.IMPLEMENT)

    drawn: list[Primitive] = [block(-BAR_HALF, BAR_HALF, 0.0075)]
    for sign in (scene.near.sign, -scene.near.sign):
        drawn.append(block(sign * 0.325, sign * 0.355, radius))
        drawn.append(block(sign * 0.355, sign * 0.376, radius * 0.66))
    return drawn


def handle(scene: Scene, thing: Thing, layers: Layers) -> None:
    """A plain bar without plates between and beyond the hands."""
    half = thing.numbers[0]
    bar = scene.body.bar or named_point(scene.body, "hands")
    ends = [scene.project(add(bar, (0.0, 0.0, sign * half))) for sign in (-1, 1)]
    if math.dist(*ends) < 0.05:
        layers.front.append(Circle(ends[0], 0.012, fill=Role.IMPLEMENT, stroke=Role.INK))
    else:
        layers.mid.append(strip(ends[0], ends[1], 0.016, Role.IMPLEMENT))


def _axis(scene: Scene, side: Side, word: str) -> Vec:
    frame = scene.body.segments["hand" + side].frame
    axis = {"front": frame.front, "right": frame.right}.get(word) or AXES[word]
    return scale(axis, scene.near.sign) if word in ("z", "right") else axis  # as in a mirror


def dumbbell(scene: Scene, thing: Thing, layers: Layers) -> None:
    """A dumbbell along an axis in one hand or both; `numbers[0]` is the radius of its heads."""
    head = thing.numbers[0] if thing.numbers else DUMBBELL_HEAD
    axis_word = thing.words[0]
    sides = [Side(word) for word in thing.words[1:]] or [Side.R, Side.L]
    for side in sides:
        axis = _axis(scene, side, axis_word)
        layers.hand[side] += _dumbbell_at(scene, grip(scene.body, side), axis, head=head)


def _dumbbell_at(scene: Scene, place: Vec, axis: Vec, *, head: float) -> list[Primitive]:
    ax, ay = scene.project(axis)
    center = scene.project(place)
    size = math.hypot(ax, ay)
    if size < 0.5:
        return [
            *_plate_face(center, head, trimmings=scene.trimmings),
            Circle(center, 0.006, fill=Role.INK),
        ]

    def at(along: float) -> Point:
        return (center[0] + ax * along, center[1] + ay * along)

    wide = 2 * head - 0.002
    return [strip(at(sign * 0.021), at(sign * 0.054), wide, Role.IMPLEMENT) for sign in (1, -1)]


def foot_dumbbell(scene: Scene, thing: Thing, layers: Layers) -> None:
    """A dumbbell across the soles, its grip between the feet `numbers[0]` before the ankles."""
    foot = scene.body.segments["foot" + scene.near]
    place = foot.point(thing.numbers[0], -FOOT_HEIGHT / 2)
    layers.front += _dumbbell_at(scene, place, foot.frame.up, head=DUMBBELL_HEAD)


def upright_dumbbell(scene: Scene, thing: Thing, layers: Layers) -> None:
    """One dumbbell held upright by its upper head, in both hands, `numbers[0]` below the grip."""
    place = add(named_point(scene.body, "hands"), (0.0, thing.numbers[0], 0.0))
    x, y = scene.project(place)
    layer = layers.front if "front" in thing.words else layers.mid
    for low, high, wide in ((-0.085, -0.050, 0.078), (-0.050, 0.000, 0.024), (0.0, 0.035, 0.078)):
        layer.append(strip((x, y + low), (x, y + high), wide, Role.IMPLEMENT))


def kettlebell(scene: Scene, thing: Thing, layers: Layers) -> None:
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


def line(weight: float) -> Callable[[Scene, Thing, Layers], None]:
    """The drawing of a cable or band of some weight between two named points."""

    def draw(scene: Scene, thing: Thing, layers: Layers) -> None:
        points = tuple(scene.anchor(word) for word in thing.words if word not in LAYER_WORDS)
        layer = layers.back if "behind" in thing.words else layers.front
        if "mid" in thing.words:
            layer = layers.mid
        layer.append(Path(points, stroke=Role.INK, weight=weight + 1.4, closed=False))
        layer.append(Path(points, stroke=Role.BAND, weight=weight, closed=False))

    return draw


def link(scene: Scene, thing: Thing, layers: Layers) -> None:
    """A machine's rigid arm between two points, `numbers[0]` wide."""
    ends = [scene.anchor(word) for word in thing.words if word not in LAYER_WORDS]
    layer = layers.mid if "mid" in thing.words else layers.back
    layer.append(strip(ends[0], ends[1], thing.numbers[0], Role.STEEL))


def loop(scene: Scene, thing: Thing, layers: Layers) -> None:
    """A band around both legs: a flat ring across them, `numbers[0]` beyond each."""
    first, second = (scene.anchor(word) for word in thing.words[:2])
    beyond = thing.numbers[0]
    size = math.dist(first, second) or 1.0
    ux, uy = (second[0] - first[0]) / size * beyond, (second[1] - first[1]) / size * beyond
    ends = ((first[0] - ux, first[1] - uy), (second[0] + ux, second[1] + uy))
    layers.front.append(strip(*ends, 0.020, Role.BAND))


def cuff(scene: Scene, thing: Thing, layers: Layers) -> None:
    """A strap around an ankle, a foot or a wrist, across the limb."""
    name = thing.words[0]
    segment = scene.body.segments[STRAPPED[name[:-1]] + name[-1]]
    (ax, ay), (x, y) = scene.project(segment.start), scene.project(segment.end)
    size = math.dist((ax, ay), (x, y))
    ux, uy = ((x - ax) / size, (y - ay) / size) if size > STRAP_SEEN else (0.0, -1.0)
    x, y = x - ux * STRAP_OFF, y - uy * STRAP_OFF
    ends = ((x - uy * STRAP_HALF, y + ux * STRAP_HALF), (x + uy * STRAP_HALF, y - ux * STRAP_HALF))
    layers.front.append(strip(*ends, 0.020, Role.BAND))


def hexbar(scene: Scene, thing: Thing, layers: Layers) -> None:
    """A frame that one stands in: from the side its near rail with a plate behind."""
    radius = thing.numbers[0] if thing.numbers else PLATE
    place = named_point(scene.body, "hands")
    center = scene.project(place)
    layers.back += _plate_face(center, radius, trimmings=scene.trimmings)
    x, y = center
    layers.mid.append(strip((x - 0.17, y - 0.012), (x + 0.17, y - 0.012), 0.016, Role.STEEL))


def lever(scene: Scene, thing: Thing, layers: Layers) -> None:
    """A machine's arm from the knee down the shank, with a roller before or behind the ankle."""
    forward = thing.numbers[0]
    down = thing.numbers[1] if len(thing.numbers) > 1 else 0.205
    shank = scene.body.segments["shank" + scene.near]
    knee, roller = scene.project(shank.start), scene.project(shank.point(forward, -down))
    layers.back.append(strip(knee, roller, 0.022, Role.STEEL))
    layers.front.append(Circle(roller, 0.026, fill=Role.IMPLEMENT, stroke=Role.INK))


def stick(scene: Scene, thing: Thing, layers: Layers) -> None:
    """A stick along the back, from below the pelvis to above the head."""
    pelvis = scene.body.segments["pelvis"]
    ends = [scene.project(pelvis.point(-0.084, up)) for up in thing.numbers]
    layers.front.append(strip(ends[0], ends[1], 0.014, Role.WOOD))
