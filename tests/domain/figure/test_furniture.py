"""Benches, boxes and columns."""

from __future__ import annotations

import pytest

from app.domain.figure import Bounds, Phase, Pose, Role, bounds, primitives
from tests.domain.figure.shipped import pose, shipped


def boxes(figure: Pose, role: Role) -> list[Bounds]:
    """The boxes of all shapes of one fill."""
    return [bounds((item,)) for item in primitives(figure) if item.fill is role]


@pytest.mark.parametrize("key", ["bench_press", "hip_thrust", "one_arm_dumbbell_row"])
def test_benches_are_as_high_as_benches(key: str) -> None:
    # 43 to 45 cm at a stature of 175 cm is 0.245 to 0.258; common practice
    heights = [t.numbers[2] for t in shipped(key, Phase.END).things if t.kind == "bench"]
    assert heights
    assert all(0.20 <= height <= 0.28 for height in heights)


def test_a_step_is_lower_than_the_knee() -> None:
    (box,) = (t for t in shipped("step_up", Phase.START).things if t.kind == "box")
    assert 0.20 <= box.numbers[2] <= 0.28


def test_furniture_stands_on_the_floor() -> None:
    figure = pose(things=["bench 0.2 0.7 0.25", "box 0.8 1.0 0.2", "column 1.2 1.0"])
    assert min(box.bottom for box in boxes(figure, Role.STEEL)) == 0
    assert max(box.top for box in boxes(figure, Role.WOOD)) == 1.0


def test_a_rack_spans_both_its_posts() -> None:
    (bar,) = boxes(pose(things=["rack 0.4 1.2"], view="back"), Role.IMPLEMENT)
    assert (bar.left, bar.right) == pytest.approx((-0.412, 0.412))


def test_a_roller_can_follow_a_knee() -> None:
    straight, bent = (
        boxes(pose(hip=angle, knee=2 * angle, things=["roller 0.05 0 0.03 kneeR"]), Role.IMPLEMENT)
        for angle in (0, 30)
    )
    assert bent[0].left > straight[0].left


def test_a_sled_carries_its_load() -> None:
    assert len(boxes(pose(things=["sled 0.4 0.6"]), Role.IMPLEMENT)) == 3
