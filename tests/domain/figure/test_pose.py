"""Poses as data, and their mirror image."""

from __future__ import annotations

import pytest

from app.domain.figure import Circle, Detail, Phase, Pose, Side, mirror, primitives
from app.domain.figure.pose import Both, Hold, Place, swap_sides
from app.domain.figure.primitive import bounds
from tests.domain.figure.shipped import CASES, NAMES, pose, shipped


def test_a_both_gives_each_side_its_own() -> None:
    assert Both(30, 10).of(Side.R) == 30
    assert Both(30, 10).of(Side.L) == 10


def test_a_side_knows_its_sign_and_its_other() -> None:
    assert (Side.R.sign, Side.L.sign) == (1, -1)
    assert Side.R.other is Side.L


def test_only_a_given_sideways_place_is_turned_over() -> None:
    assert Place(Hold.AT, (1.0, 2.0, 3.0)).turned_over(-1).numbers == (1.0, 2.0, -3.0)
    assert Place(Hold.AT, (1.0, 2.0)).turned_over(-1).numbers == (1.0, 2.0)
    assert Place(Hold.FROM, (1.0, 2.0, 3.0)).turned_over(-1).numbers == (1.0, 2.0, 3.0)


def test_groups_change_sides_by_name() -> None:
    assert swap_sides("trunk+legR+armL") == "trunk+legL+armR"


def test_a_mirror_in_a_mirror_is_the_pose() -> None:
    original = pose(hipR=40, kneeL=20, roll=5, handR="at 0.2 0.8 0.1", things=["dumbbell x R"])
    assert mirror(mirror(original)) == original
    assert mirror(original).hip == Both(0, 40)


@pytest.mark.parametrize(("key", "phase"), CASES, ids=NAMES)
def test_the_mirrored_pose_draws_the_mirrored_figure(key: str, phase: Phase) -> None:
    original: Pose = shipped(key, phase)
    plain = primitives(original, detail=Detail.FULL)
    turned = primitives(mirror(original), detail=Detail.FULL)
    assert [type(item) for item in plain] == [type(item) for item in turned]
    assert [item.fill for item in plain] == [item.fill for item in turned]
    for mine, other in zip(plain, turned, strict=True):
        box, image = bounds((mine,)), bounds((other,))
        # a hull's points may be picked from the other end
        loose = 1e-6 if isinstance(mine, Circle) else 0.006
        assert image.left == pytest.approx(-box.right, abs=loose)
        assert image.right == pytest.approx(-box.left, abs=loose)
        assert image.top == pytest.approx(box.top, abs=loose)
        assert image.bottom == pytest.approx(box.bottom, abs=loose)
