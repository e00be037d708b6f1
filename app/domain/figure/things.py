"""Everything a pose can hold or stand among, by kind: what it takes and how it is drawn."""

from collections.abc import Callable

from app.domain.figure import furniture, held
from app.domain.figure.held import DUMBBELL_AXES, STRAPPED
from app.domain.figure.pose import Thing
from app.domain.figure.scene import LAYER_WORDS, Layers, Scene, is_point

KINDS: dict[str, Callable[[Scene, Thing, Layers], None]] = {
    "bench": furniture.bench,
    "box": furniture.box,
    "cushion": furniture.cushion,
    "beam": furniture.beam,
    "roller": furniture.roller,
    "column": furniture.column,
    "rack": furniture.rack,
    "rod": furniture.rod,
    "barbell": held.barbell,
    "handle": held.handle,
    "dumbbell": held.dumbbell,
    "foot_dumbbell": held.foot_dumbbell,
    "upright_dumbbell": held.upright_dumbbell,
    "kettlebell": held.kettlebell,
    "cable": held.line(1.3),
    "band": held.line(2.6),
    "link": held.link,
    "loop": held.loop,
    "cuff": held.cuff,
    "pulley": furniture.pulley,
    "lever": held.lever,
    "stick": held.stick,
    "sled": furniture.sled,
    "hexbar": held.hexbar,
}


# How many numbers each kind takes, at least and at most; none where a kind is missing here.
COUNTS: dict[str, tuple[int, int]] = {
    "bench": (3, 3),
    "box": (3, 3),
    "cushion": (5, 5),
    "beam": (5, 5),
    "roller": (3, 3),
    "column": (2, 2),
    "rack": (2, 2),
    "rod": (3, 3),
    "barbell": (0, 1),
    "handle": (1, 1),
    "dumbbell": (0, 1),
    "foot_dumbbell": (1, 1),
    "upright_dumbbell": (1, 1),
    "link": (1, 1),
    "loop": (1, 1),
    "pulley": (2, 2),
    "sled": (2, 2),
    "hexbar": (0, 1),
    "lever": (1, 2),
    "stick": (2, 2),
}
LINES = ("cable", "band", "link", "loop", "cuff")


def mistake_in(thing: Thing) -> str:
    """What is wrong with a thing, as a sentence's middle; empty when nothing is."""
    if thing.kind not in KINDS:
        return f'there is no thing "{thing.kind}"'
    low, high = COUNTS.get(thing.kind, (0, 0))
    if not low <= len(thing.numbers) <= high:
        return f"{thing.kind} takes {low} to {high} numbers, not {len(thing.numbers)}"
    if thing.kind == "dumbbell" and (not thing.words or thing.words[0] not in DUMBBELL_AXES):
        return "a dumbbell lies along x, y, z, front or right"
    if thing.kind == "kettlebell" and not (thing.words and is_point(thing.words[0])):
        return "a kettlebell hangs from a named point"
    if thing.kind in LINES:
        return _mistake_in_ends(thing)
    return ""


def _mistake_in_ends(thing: Thing) -> str:
    ends = [word for word in thing.words if word not in LAYER_WORDS]
    strange = [word for word in ends if "," not in word and not is_point(word)]
    if strange:
        return f'there is no point "{strange[0]}"'
    if thing.kind == "cuff" and any(word[:-1] not in STRAPPED for word in ends):
        return "a cuff lies around an ankle, a foot or a hand"
    wanted = 1 if thing.kind == "cuff" else 2
    return "" if len(ends) == wanted else f"{thing.kind} runs between {wanted} points"


def arrange(scene: Scene) -> Layers:
    """Everything the pose holds and stands among, sorted into layers."""
    layers = Layers()
    for thing in scene.pose.things:
        KINDS[thing.kind](scene, thing, layers)
    return layers
