"""Implements, furniture and cables."""

from __future__ import annotations

import pytest

from app.domain.errors import ResourceError
from app.domain.figure import (
    Body,
    Bounds,
    Circle,
    Path,
    Phase,
    Pose,
    Role,
    bounds,
    primitives,
    solve,
)
from app.domain.figure.pose import Thing
from app.domain.figure.things import KINDS, Scene, arrange, named_point
from tests.domain.figure.shipped import body, pose, poses, shipped


def boxes(figure: Pose, role: Role) -> list[Bounds]:
    """The boxes of all shapes of one fill."""
    return [bounds((item,)) for item in primitives(figure) if item.fill is role]


def scene(figure: Pose, solved: Body) -> Scene:
    return Scene(figure, solved, trimmings=True)


def test_every_kind_of_thing_is_used_by_some_pose() -> None:
    used = {
        thing.kind
        for pair in poses().values()
        for one in (pair.start, pair.end)
        for thing in one.things
    }
    assert used <= set(KINDS)
    assert len(used) >= len(KINDS) - 3


@pytest.mark.parametrize("key", ["bench_press", "hip_thrust", "one_arm_dumbbell_row"])
def test_benches_are_as_high_as_benches(key: str) -> None:
    # 43 to 45 cm at a stature of 175 cm is 0.245 to 0.258; common practice
    heights = [t.numbers[2] for t in shipped(key, Phase.END).things if t.kind == "bench"]
    assert heights
    assert all(0.20 <= height <= 0.28 for height in heights)


def test_a_step_is_lower_than_the_knee() -> None:
    (box,) = (t for t in shipped("step_up", Phase.START).things if t.kind == "box")
    assert 0.20 <= box.numbers[2] <= 0.28


def test_the_near_plate_of_a_bar_is_taken_off() -> None:
    figure = pose(bar="upper back", hands="bar 0.2", things=["barbell"])
    layers = arrange(scene(figure, solve(figure)))
    assert layers.back[0].fill is Role.IMPLEMENT
    assert all(item.fill is not Role.IMPLEMENT for item in layers.front)


def test_a_bar_from_the_front_shows_both_its_ends() -> None:
    figure = pose(bar="at 0.1 0.9", hands="bar 0.2", things=["barbell"], view="front")
    blocks = boxes(figure, Role.IMPLEMENT)
    assert min(box.left for box in blocks) == pytest.approx(-0.40)
    assert max(box.right for box in blocks) == pytest.approx(0.40)


def test_a_bar_without_a_place_is_an_error() -> None:
    figure = pose(things=["barbell"])
    with pytest.raises(ResourceError, match="needs a place"):
        primitives(figure)


def test_a_dumbbell_along_the_eye_is_a_disc_and_across_it_two_blocks() -> None:
    along = pose(hands="down 0 0", things=["dumbbell z R"])
    across = pose(hands="down 0 0", things=["dumbbell x R"])
    held = {
        name: [i for i in primitives(figure) if i.fill is Role.IMPLEMENT]
        for name, figure in (("along", along), ("across", across))
    }
    assert [type(item) for item in held["along"]] == [Circle]
    assert [type(item) for item in held["across"]] == [Path, Path]


def test_a_cable_runs_from_the_hand_to_its_pulley() -> None:
    figure = pose(hands="from 0.3 0 0", things=["cable hands 0.8,1.0"])
    (line,) = (item for item in primitives(figure) if item.stroke is Role.BAND)
    assert isinstance(line, Path)
    assert line.points[1] == (0.8, 1.0)
    assert line.points[0] == pytest.approx((0.3, 0.818), abs=1e-6)


def test_named_points_lie_on_the_body() -> None:
    solved = body("back_squat", Phase.START)
    assert named_point(solved, "bar") == solved.bar
    assert named_point(solved, "kneeR") == solved.segments["thighR"].end
    assert named_point(solved, "hip") == solved.segments["pelvis"].start
    assert named_point(solved, "hands")[2] == pytest.approx(0)


def test_furniture_stands_on_the_floor() -> None:
    figure = pose(things=["bench 0.2 0.7 0.25", "box 0.8 1.0 0.2"])
    assert min(box.bottom for box in boxes(figure, Role.STEEL)) == 0
    assert figure.things[1] == Thing("box", (0.8, 1.0, 0.2))
