"""Benches, boxes and columns."""

from __future__ import annotations

from collections.abc import Iterator

import pytest

from app.domain.figure import Bounds, Phase, Pose, Role, Side, bounds, primitives
from app.domain.figure.pose import Hold
from tests.domain.figure.shipped import CASES, NAMES, pose, shipped


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


SET_DOWN = (Hold.FLAT, Hold.BALL, Hold.TOES)
LAID_DOWN = (*SET_DOWN, Hold.SEAT, Hold.BACK, Hold.FRONT, Hold.UPPER_BACK, Hold.KNEE)
STEPPING = ("farmers_carry", "overhead_carry", "goblet_carry")  # one foot in the air
BESIDE, ABOVE = 0.03, 0.021  # how far a body part may lie from the drawn top


def tops(figure: Pose) -> Iterator[tuple[float, float, float]]:
    """Left end, right end and height of everything one can lie, sit or stand on."""
    for thing in figure.things:
        if thing.kind in ("bench", "box"):
            left, right, top = thing.numbers
            yield left, right, top
        if thing.kind == "cushion":
            x0, y0, x1, y1, wide = thing.numbers
            yield min(x0, x1) - wide / 2, max(x0, x1) + wide / 2, max(y0, y1) + wide / 2


def rests(figure: Pose) -> Iterator[tuple[float, float]]:
    """Where the body is laid or set down."""
    places = [figure.feet.of(side) for side in Side if figure.feet.of(side).hold in SET_DOWN]
    places += [figure.hands.of(side) for side in Side if figure.hands.of(side).hold is Hold.PALM]
    places += [figure.pin] if figure.pin.hold in LAID_DOWN else []
    for place in places:
        yield place.numbers[0], place.numbers[1]


FROM_THE_SIDE = [
    (case, name)
    for case, name in zip(CASES, NAMES, strict=True)
    if not shipped(*case).view.yaw_deg and not shipped(*case).view.pitch_deg
]


@pytest.mark.parametrize(
    ("key", "phase"),
    [case for case, _ in FROM_THE_SIDE],
    ids=[name for _, name in FROM_THE_SIDE],
)
def test_whatever_rests_above_the_floor_rests_on_something(key: str, phase: Phase) -> None:
    figure = shipped(key, phase)
    for x, y in rests(figure):
        if y > 0.02 and key not in STEPPING:
            assert any(
                left - BESIDE <= x <= right + BESIDE and abs(y - top) <= ABOVE
                for left, right, top in tops(figure)
            ), (x, y)


@pytest.mark.parametrize(("key", "phase"), CASES, ids=NAMES)
def test_a_hand_on_a_wall_has_a_wall(key: str, phase: Phase) -> None:
    figure = shipped(key, phase)
    for side in Side:
        hand = figure.hands.of(side)
        if hand.hold is Hold.WALL:
            walls = [thing.numbers for thing in figure.things if thing.kind == "box"]
            assert any(x == hand.numbers[0] and top > hand.numbers[1] for x, _, top in walls)


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
