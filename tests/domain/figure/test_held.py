"""Bars, dumbbells, cables and bands."""

from __future__ import annotations

import math

import pytest

from app.domain.errors import ResourceError
from app.domain.figure import Bounds, Circle, Path, Phase, Pose, Role, bounds, primitives, solve
from app.domain.figure.scene import Scene
from app.domain.figure.things import arrange
from tests.domain.figure.shipped import pose, shipped


def boxes(figure: Pose, role: Role) -> list[Bounds]:
    """The boxes of all shapes of one fill."""
    return [bounds((item,)) for item in primitives(figure) if item.fill is role]


def test_the_near_plate_of_a_bar_is_taken_off() -> None:
    figure = pose(bar="upper back", hands="bar 0.2", things=["barbell"])
    layers = arrange(Scene(figure, solve(figure), trimmings=True))
    assert layers.back[0].fill is Role.IMPLEMENT
    assert all(item.fill is not Role.IMPLEMENT for item in layers.front)


@pytest.mark.parametrize("phase", Phase)
@pytest.mark.parametrize("key", ["back_squat", "barbell_reverse_lunge", "good_morning"])
def test_a_plate_on_the_back_does_not_run_into_the_hair(key: str, phase: Phase) -> None:
    drawing = primitives(shipped(key, phase))
    plate = next(
        item for item in drawing if isinstance(item, Circle) and item.fill is Role.IMPLEMENT
    )
    hair = next(item for item in drawing if isinstance(item, Path) and item.fill is Role.HAIR)
    assert min(math.dist(point, plate.center) for point in hair.points) > plate.radius


@pytest.mark.parametrize("key", ["pallof_press", "band_press_out"])
def test_pressing_out_sideways_never_slackens_what_pulls(key: str) -> None:
    def pulled(phase: Phase) -> float:
        drawing = primitives(shipped(key, phase))
        (line,) = (item for item in drawing if item.stroke is Role.BAND)
        assert isinstance(line, Path)
        return math.dist(*line.points)

    assert pulled(Phase.END) > pulled(Phase.START)


def test_a_bar_from_the_front_shows_both_its_ends() -> None:
    figure = pose(bar="at 0.1 0.9", hands="bar 0.2", things=["barbell"], view="front")
    blocks = boxes(figure, Role.IMPLEMENT)
    assert min(box.left for box in blocks) == pytest.approx(-0.40)
    assert max(box.right for box in blocks) == pytest.approx(0.40)


def test_a_bar_without_a_place_is_an_error() -> None:
    with pytest.raises(ResourceError, match="needs a place"):
        primitives(pose(things=["barbell"]))


def test_a_dumbbell_along_the_eye_is_a_disc_and_across_it_two_blocks() -> None:
    def shapes(thing: str) -> list[type]:
        drawing = primitives(pose(hands="down 0 0", things=[thing]))
        return [type(item) for item in drawing if item.fill is Role.IMPLEMENT]

    assert shapes("dumbbell z R") == [Circle]
    assert shapes("dumbbell x R") == [Path, Path]
    assert len(shapes("dumbbell x")) == 4


def test_a_heavy_dumbbell_has_larger_heads() -> None:
    def disc(thing: str) -> float:
        return boxes(pose(hands="down 0 0", things=[thing]), Role.IMPLEMENT)[0].width

    assert disc("dumbbell 0.05 z R") == pytest.approx(0.10)
    assert disc("dumbbell z R") < 0.08


def test_a_dumbbell_between_the_feet_has_a_head_on_either_side_of_the_soles() -> None:
    figure = pose(pin="seat 0 0.4", hip=90, knee=90, things=["foot_dumbbell 0.085"])
    below, above = sorted(boxes(figure, Role.IMPLEMENT), key=lambda box: box.bottom)
    ankle = solve(figure).segments["footR"].start
    assert below.top < ankle[1] - 0.039 < above.bottom  # 0.039: how high the ankle is
    assert (above.left + above.right) / 2 == pytest.approx(ankle[0] + 0.085, abs=1e-6)


def test_a_dumbbell_between_the_feet_tips_with_them() -> None:
    def wide(ankle: float) -> float:
        level = pose(pin="back 0 0", lean=-90, ankle=ankle, things=["foot_dumbbell 0.085"])
        return boxes(level, Role.IMPLEMENT)[0].width

    assert wide(0) < wide(-40)


def test_a_link_is_a_rigid_strip_between_its_points() -> None:
    figure = pose(hands="from 0.3 0 0", things=["link 0.02 hands 0.3,1.1"])
    (strip,) = boxes(figure, Role.STEEL)
    assert strip.width == pytest.approx(0.02, abs=1e-6)
    assert (strip.bottom, strip.top) == pytest.approx((0.818, 1.1), abs=1e-6)


def test_a_dumbbell_on_end_can_be_drawn_before_the_hands() -> None:
    def layers(thing: str) -> tuple[int, int]:
        figure = pose(hands="on chest", elbow_pole="down", things=[thing])
        found = arrange(Scene(figure, solve(figure), trimmings=False))
        return len(found.mid), len(found.front)

    assert layers("upright_dumbbell 0") == (3, 0)
    assert layers("upright_dumbbell 0 front") == (0, 3)


def test_a_cuff_lies_across_its_limb() -> None:
    upright, level = (boxes(pose(hip=hip, things=["cuff ankleR"]), Role.BAND)[0] for hip in (0, 90))
    assert upright.width > upright.height * 2
    assert level.height > level.width * 2


def test_a_cable_runs_from_the_hand_to_its_pulley() -> None:
    figure = pose(hands="from 0.3 0 0", things=["cable hands 0.8,1.0"])
    (line,) = (item for item in primitives(figure) if item.stroke is Role.BAND)
    assert isinstance(line, Path)
    assert line.points[1] == (0.8, 1.0)
    assert line.points[0] == pytest.approx((0.3, 0.818), abs=1e-6)


def test_a_band_is_thicker_than_a_cable() -> None:
    def weight(kind: str) -> float:
        drawing = primitives(pose(things=[f"{kind} handR 0.8,1.0"]))
        return max(item.weight for item in drawing if item.stroke is Role.BAND)

    assert weight("band") > weight("cable")


def test_a_kettlebell_hangs_from_the_hands() -> None:
    figure = pose(hands="from 0.2 -0.1 -0.1", things=["kettlebell hands"])
    balls = [i for i in primitives(figure) if isinstance(i, Circle) and i.fill is Role.IMPLEMENT]
    assert balls[0].center == pytest.approx((0.2, 0.718 - 0.074), abs=1e-6)


def test_a_swung_kettlebell_follows_the_arms() -> None:
    figure = pose(shoulder=80, things=["kettlebell hands along"])
    balls = [i for i in primitives(figure) if isinstance(i, Circle) and i.fill is Role.IMPLEMENT]
    assert balls[0].center[0] > 0.4


def test_a_loop_goes_beyond_both_legs() -> None:
    figure = pose(view="front", hip_out=10, things=["loop 0.03 kneeR kneeL"])
    (loop,) = boxes(figure, Role.BAND)
    knees = solve(figure).segments
    apart = knees["thighR"].end[2] - knees["thighL"].end[2]
    assert loop.width == pytest.approx(apart + 0.06, abs=1e-6)


def test_a_lever_turns_with_the_shank() -> None:
    down, up = (
        boxes(pose(pin="seat 0 0.3", hip=80, knee=knee, things=["lever 0.046"]), Role.IMPLEMENT)
        for knee in (90, 10)
    )
    assert up[-1].bottom > down[-1].bottom + 0.1
