"""What stands about a figure: benches, boxes, machines' frames, columns and racks."""

from app.domain.figure.pose import Thing
from app.domain.figure.primitive import Circle, Role
from app.domain.figure.scene import LAYER_WORDS, Layers, Scene, pad, rectangle, strip


def bench(scene: Scene, thing: Thing, layers: Layers) -> None:
    """A padded bench on two legs: left, right, height."""
    x0, x1, top = thing.numbers
    legs = (x0 + 0.05, x1 - 0.05)
    layers.back += [rectangle(scene, (x - 0.009, 0.0, x + 0.009, top), Role.STEEL) for x in legs]
    layers.back.append(rectangle(scene, (x0, top - 0.032, x1, top), Role.WOOD))


def box(scene: Scene, thing: Thing, layers: Layers) -> None:
    """A block of wood: left, right, height."""
    x0, x1, top = thing.numbers
    layers.back.append(rectangle(scene, (x0, 0.0, x1, top), Role.WOOD))


def cushion(scene: Scene, thing: Thing, layers: Layers) -> None:
    """A padded board between two points, of some thickness."""
    x0, y0, x1, y1, wide = thing.numbers
    board = pad(scene.paper(x0, y0), scene.paper(x1, y1), wide, Role.WOOD)
    (layers.front if "front" in thing.words else layers.back).append(board)


def beam(scene: Scene, thing: Thing, layers: Layers) -> None:
    """A steel strip between two points, of some width."""
    x0, y0, x1, y1, wide = thing.numbers
    bar = strip(scene.paper(x0, y0), scene.paper(x1, y1), wide, Role.STEEL)
    (layers.front if "front" in thing.words else layers.back).append(bar)


def roller(scene: Scene, thing: Thing, layers: Layers) -> None:
    """A round pad at a place, or beside a named point: x, y, radius."""
    x, y, radius = thing.numbers
    place = scene.paper(x, y)
    if thing.words and thing.words[0] not in LAYER_WORDS:  # beside a part of the body
        near = scene.anchor(thing.words[0])
        place = (near[0] + place[0], near[1] + place[1])
    disc = Circle(place, radius, fill=Role.IMPLEMENT, stroke=Role.INK)
    (layers.back if "behind" in thing.words else layers.front).append(disc)


def column(scene: Scene, thing: Thing, layers: Layers) -> None:
    """A post with a foot: x, height."""
    x, top = thing.numbers
    layers.back.append(rectangle(scene, (x - 0.075, 0.0, x + 0.075, 0.018), Role.STEEL))
    layers.back.append(rectangle(scene, (x - 0.018, 0.018, x + 0.018, top), Role.WOOD))


def rack(scene: Scene, thing: Thing, layers: Layers) -> None:
    """Two posts and a bar across: half width, height."""
    half, height = thing.numbers
    for x in (-half, half):
        layers.back.append(rectangle(scene, (x - 0.012, 0.0, x + 0.012, height + 0.02), Role.STEEL))
    bar = (-half - 0.012, height - 0.010, half + 0.012, height + 0.010)
    layers.back.append(rectangle(scene, bar, Role.IMPLEMENT))


def rod(scene: Scene, thing: Thing, layers: Layers) -> None:
    """A bar seen from its end, standing in space."""
    x, y, radius = thing.numbers
    layers.front.append(Circle(scene.paper(x, y), radius, fill=Role.IMPLEMENT, stroke=Role.INK))


def pulley(scene: Scene, thing: Thing, layers: Layers) -> None:
    """A wheel that a cable runs from: x, y."""
    x, y = thing.numbers
    layers.back.append(Circle(scene.paper(x, y), 0.020, fill=Role.IMPLEMENT, stroke=Role.INK))


def sled(scene: Scene, thing: Thing, layers: Layers) -> None:
    """A loaded sled with a post to push: x, height of the post."""
    x, height = thing.numbers
    layers.back.append(rectangle(scene, (x, 0.0, x + 0.42, 0.030), Role.STEEL))
    layers.back.append(rectangle(scene, (x + 0.03, 0.030, x + 0.050, height), Role.STEEL))
    layers.back.append(rectangle(scene, (x + 0.24, 0.030, x + 0.26, 0.30), Role.STEEL))
    for low in (0.030, 0.072, 0.114):
        layers.back.append(rectangle(scene, (x + 0.15, low, x + 0.35, low + 0.042), Role.IMPLEMENT))
