"""Every kind of thing that a pose file may name."""

from __future__ import annotations

import pytest

from app.domain.figure import solve
from app.domain.figure.pose import Thing
from app.domain.figure.scene import Scene
from app.domain.figure.things import COUNTS, KINDS, arrange, mistake_in
from tests.domain.figure.shipped import FOLDER, exercises, pose, poses

USED = {
    thing.kind: thing
    for pair in poses().values()
    for one in (pair.start, pair.end)
    for thing in one.things
}


def test_every_kind_of_thing_is_used_by_some_pose() -> None:
    assert set(USED) == set(KINDS)


# What an exercise's equipment must show as; what is left out is drawn in too many ways.
SHOWN_AS = {
    "dumbbells": {"dumbbell", "upright_dumbbell", "foot_dumbbell"},
    "kettlebell": {"kettlebell"},
    "barbell": {"barbell", "rod"},
    "hex_bar": {"hexbar"},
    "band": {"band", "loop"},
    "cable": {"cable"},
    "suspension": {"cable"},
    "bench": {"bench", "cushion"},
    "box": {"box", "bench"},
    "pull_up_bar": {"rack", "rod"},
    "ankle_weights": {"cuff"},
    "sled": {"sled"},
}
LOADS = ("dumbbells", "kettlebell", "hex_bar", "band")


@pytest.mark.parametrize("key", exercises())
def test_a_figure_shows_what_its_exercise_needs_and_no_other_load(key: str) -> None:
    needed = exercises()[key]["equipment"]
    for one in (poses()[key].start, poses()[key].end):
        kinds = {thing.kind for thing in one.things}
        missing = [name for name in needed if name in SHOWN_AS and not kinds & SHOWN_AS[name]]
        strange = [name for name in LOADS if name not in needed and kinds & SHOWN_AS[name]]
        assert (missing, strange) == ([], [])


@pytest.mark.parametrize("kind", KINDS)
def test_the_readme_beside_the_poses_names_every_kind_of_thing(kind: str) -> None:
    assert f"`{kind}`" in (FOLDER / "README.md").read_text(encoding="utf-8")


@pytest.mark.parametrize("kind", KINDS)
def test_a_shipped_thing_has_no_mistake(kind: str) -> None:
    assert mistake_in(USED[kind]) == ""


@pytest.mark.parametrize("kind", COUNTS)
def test_a_thing_with_the_wrong_numbers_is_told_so(kind: str) -> None:
    too_many = (0.1,) * (COUNTS[kind][1] + 1)
    assert f"not {len(too_many)}" in mistake_in(Thing(kind, too_many))


@pytest.mark.parametrize(
    ("thing", "said"),
    [
        (Thing("rocket"), "no thing"),
        (Thing("dumbbell"), "lies along"),
        (Thing("dumbbell", (), ("sideways",)), "lies along"),
        (Thing("cable", (), ("tail", "0,0")), 'no point "tail"'),
        (Thing("band", (), ("handR",)), "runs between 2 points"),
        (Thing("kettlebell"), "hangs from"),
        (Thing("cuff", (), ("hip",)), "around an ankle"),
        (Thing("kettlebell", (), ("tail",)), "hangs from"),
    ],
)
def test_a_mistake_is_named(thing: Thing, said: str) -> None:
    assert said in mistake_in(thing)


def test_things_are_sorted_into_layers() -> None:
    figure = pose(hands="down 0 0", things=["column 0.5 1.0", "dumbbell x R", "rod 0.3 1.0 0.02"])
    layers = arrange(Scene(figure, solve(figure), trimmings=True))
    assert len(layers.back) == 2
    assert [len(drawn) for drawn in layers.hand.values()] == [2, 0]
    assert len(layers.front) == 1
