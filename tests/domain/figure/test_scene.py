"""Named points, layers of paper and plain shapes."""

from __future__ import annotations

import pytest

from app.domain.figure import Phase, Role, bounds, mirror, solve
from app.domain.figure.scene import Scene, is_point, named_point, pad, rectangle, strip
from tests.domain.figure.shipped import body, pose


def test_named_points_lie_on_the_body() -> None:
    solved = body("back_squat", Phase.START)
    assert named_point(solved, "bar") == solved.bar
    assert named_point(solved, "kneeR") == solved.segments["thighR"].end
    assert named_point(solved, "hip") == solved.segments["pelvis"].start
    assert named_point(solved, "hands")[2] == pytest.approx(0)


@pytest.mark.parametrize("point", ["hip", "kneeR", "waistL", "upper_back", "hands"])
def test_known_points_can_be_named(point: str) -> None:
    assert is_point(point)
    assert len(named_point(solve(pose()), point)) == 3


@pytest.mark.parametrize("word", ["", "knee", "tailR", "0.1,0.2"])
def test_other_words_are_no_points(word: str) -> None:
    assert not is_point(word)


def test_furniture_is_mirrored_with_the_person() -> None:
    figure = pose(things=["box 0.2 0.4 0.1"])
    plain = Scene(figure, solve(figure), trimmings=True)
    turned = Scene(mirror(figure), solve(mirror(figure)), trimmings=True)
    assert plain.paper(0.2, 0.1) == (0.2, 0.1)
    assert turned.paper(0.2, 0.1) == (-0.2, 0.1)
    assert turned.anchor("0.3,0.5") == (-0.3, 0.5)


def test_plain_shapes_have_their_measures() -> None:
    figure = pose()
    scene = Scene(figure, solve(figure), trimmings=True)
    assert bounds((rectangle(scene, (0.1, 0.2, 0.4, 0.6), Role.WOOD),)).width == pytest.approx(0.3)
    assert bounds((strip((0.0, 0.0), (1.0, 0.0), 0.1, Role.STEEL),)).height == pytest.approx(0.1)
    assert bounds((pad((0.0, 0.0), (1.0, 0.0), 0.1, Role.WOOD),)).width == pytest.approx(1.1)
