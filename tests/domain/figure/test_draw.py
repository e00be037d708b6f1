"""From poses to primitives: order, tones, detail levels, traces."""

from __future__ import annotations

import math

import pytest

from app.domain.exercise import Muscle
from app.domain.figure import Circle, Detail, Path, Phase, Role, bounds, draw, primitives
from tests.domain.figure.shipped import CASES, NAMES, pose, poses, shipped


@pytest.mark.parametrize(("key", "phase"), CASES, ids=NAMES)
@pytest.mark.parametrize("detail", Detail)
def test_every_position_is_drawn_at_every_detail(key: str, phase: Phase, detail: Detail) -> None:
    drawing = draw(poses()[key], phase, detail=detail)
    box = bounds(drawing)
    assert all(math.isfinite(side) for side in (box.left, box.bottom, box.right, box.top))
    assert box.height < 1.45
    assert box.width < 1.65


def test_only_drills_for_joints_name_no_muscle() -> None:
    idle = {key for key, pair in poses().items() if not (pair.start.work and pair.end.work)}
    assert idle == {"quadruped", "chest_turn"}


@pytest.mark.parametrize(("key", "phase"), CASES, ids=NAMES)
def test_every_working_position_shows_a_muscle(key: str, phase: Phase) -> None:
    if key in ("band_pull_apart", "face_pull"):
        return  # the rear of the shoulder looks away
    if key in ("quadruped", "chest_turn"):
        return  # moves joints; no muscle works much
    drawing = primitives(shipped(key, phase))
    assert any(item.fill is Role.MUSCLE_OUTER for item in drawing)


@pytest.mark.parametrize(
    ("things", "right", "left"),
    [
        ([], False, False),
        (["dumbbell x"], True, True),
        (["dumbbell x R"], True, False),
        (["cable handL 0.5,1.0"], False, True),
        (["band hands 0.5,1.0"], True, True),
        (["band ankleR 0.5,0.1"], False, False),
    ],
)
def test_a_hand_closes_on_what_it_holds(things: list[str], right: bool, left: bool) -> None:
    def length(holding: list[str], side: str) -> float:
        figure = pose(view="front", shoulder_out=80, things=holding)
        ends = [item for item in primitives(figure) if item.fill in (Role.BODY, Role.FAR)]
        box = bounds(ends)
        return -box.left if side == "R" else box.right

    bare = {side: length([], side) for side in "RL"}
    assert (length(things, "R") < bare["R"] - 0.02) is right
    assert (length(things, "L") < bare["L"] - 0.02) is left


def test_each_shape_is_inked_before_it_is_filled() -> None:
    drawing = primitives(pose())
    first_fill = next(i for i, item in enumerate(drawing) if item.fill is Role.BODY)
    inked = [i for i, item in enumerate(drawing) if item.fill is Role.INK and item.stroke]
    assert min(inked) < first_fill


def test_the_far_side_has_its_own_tone() -> None:
    fills = [item.fill for item in primitives(pose(hipL=40, kneeL=60))]
    assert fills.index(Role.FAR) < fills.index(Role.BODY)
    assert Role.FAR not in [item.fill for item in primitives(pose(view="front"))]


def test_a_small_figure_has_one_tone_and_no_trimmings() -> None:
    figure = pose(work="quadriceps 1", bar="upper back", hands="bar 0.2", things=["barbell"])
    icon = {item.fill for item in primitives(figure, detail=Detail.ICON48)}
    full = {item.fill for item in primitives(figure, detail=Detail.FULL)}
    assert Role.MUSCLE_OUTER in icon
    assert not icon & {Role.MUSCLE_INNER, Role.SHORTS}
    assert {Role.MUSCLE_INNER, Role.SHORTS} <= full


def test_muscles_can_be_left_out_or_replaced() -> None:
    figure = pose(work="quadriceps 1")
    plain = primitives(figure, muscles=False)
    assert not any(item.fill is Role.MUSCLE_OUTER for item in plain)
    other = primitives(figure, work={Muscle.CALVES: 2})
    patch = bounds(item for item in other if item.fill is Role.MUSCLE_OUTER)
    assert patch.top < 0.3
    assert not any(item.fill is Role.MUSCLE_INNER for item in other)


def test_only_the_working_side_is_shaded() -> None:
    both = primitives(pose(work="quadriceps 1", view="front"))
    one = primitives(pose(work="quadriceps 1", view="front", work_sides="R"))
    count = [sum(item.fill is Role.MUSCLE_INNER for item in drawing) for drawing in (both, one)]
    assert count == [2, 1]


def test_the_way_is_drawn_at_the_end_and_at_full_detail_only() -> None:
    pair = poses()["back_squat"]

    def dotted(phase: Phase, detail: Detail) -> int:
        drawing = draw(pair, phase, detail=detail)
        return sum(isinstance(item, Path) and item.dotted for item in drawing)

    assert dotted(Phase.END, Detail.FULL) == 1
    assert dotted(Phase.START, Detail.FULL) == 0
    assert dotted(Phase.END, Detail.PRINT22) == 0


def test_the_way_begins_in_a_ring_beside_the_start() -> None:
    pair = poses()["lateral_raise"]
    rings = [
        item
        for item in draw(pair, Phase.END)
        if isinstance(item, Circle) and item.fill is None and item.stroke is Role.INK
    ]
    assert len(rings) == 1
    assert rings[0].center[1] < 0.6


def test_a_figure_has_one_floor_line_under_everything() -> None:
    drawing = primitives(pose())
    floors = [item for item in drawing if item.stroke is Role.FLOOR]
    assert floors == [drawing[0]]
    assert not [item for item in primitives(pose(floor=False)) if item.stroke is Role.FLOOR]


def test_the_same_pose_gives_the_same_drawing_object() -> None:
    assert primitives(pose(hip=20)) is primitives(pose(hip=20))
