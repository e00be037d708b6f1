"""Where muscles are shaded."""

from __future__ import annotations

import pytest

from app.domain.exercise import Muscle
from app.domain.figure import Bounds, Pose, Role, Side, bounds, primitives, solve
from app.domain.figure.muscles import PATCHES, is_seen, patches
from app.domain.figure.space import View
from tests.domain.figure.shipped import pose

SIDE, FRONT, BACK = View(0, 0), View(90, 0), View(-90, 0)


def test_every_muscle_that_sets_are_counted_for_has_its_patch() -> None:
    assert set(PATCHES) == set(Muscle)


@pytest.mark.parametrize("muscle", Muscle)
def test_every_muscle_is_seen_from_somewhere(muscle: Muscle) -> None:
    standing = solve(pose())
    assert any(is_seen(muscle, standing, Side.R, view) for view in (SIDE, FRONT, BACK))


@pytest.mark.parametrize(
    ("muscle", "view", "seen"),
    [
        (Muscle.CHEST, BACK, False),
        (Muscle.LATISSIMUS, FRONT, False),
        (Muscle.LATISSIMUS, BACK, True),
        (Muscle.QUADRICEPS, FRONT, True),
        (Muscle.GLUTEALS, FRONT, False),
        (Muscle.GLUTEALS, BACK, True),
        (Muscle.GLUTEALS, SIDE, True),
    ],
)
def test_a_patch_facing_away_is_not_drawn(muscle: Muscle, view: View, seen: bool) -> None:
    assert is_seen(muscle, solve(pose()), Side.R, view) is seen
    assert bool(patches(muscle, solve(pose()), Side.R, view, main=True)) is seen


def test_a_muscle_that_helps_has_one_tone() -> None:
    standing = solve(pose())
    main = patches(Muscle.QUADRICEPS, standing, Side.R, SIDE, main=True)
    helping = patches(Muscle.QUADRICEPS, standing, Side.R, SIDE, main=False)
    assert [shape.fill for shape in main] == [Role.MUSCLE_OUTER, Role.MUSCLE_INNER]
    assert [shape.fill for shape in helping] == [Role.MUSCLE_OUTER]


def box_of(figure: Pose, role: Role) -> Bounds:
    """The box around everything of one role."""
    return bounds(item for item in primitives(figure) if item.fill is role)


@pytest.mark.parametrize("muscle", sorted(set(Muscle) - {Muscle.FOREARMS}))
def test_the_inner_tone_lies_within_the_outer(muscle: Muscle) -> None:
    standing = solve(pose())
    view = SIDE if is_seen(muscle, standing, Side.R, SIDE) else FRONT
    outer, inner = (bounds((s,)) for s in patches(muscle, standing, Side.R, view, main=True))
    assert outer.joined(inner) == outer


@pytest.mark.parametrize("muscle", Muscle)
def test_a_patch_stays_on_the_body(muscle: Muscle) -> None:
    figure = pose(work=f"{muscle} 1", lean=2, hip=3)
    if not is_seen(muscle, solve(figure), Side.R, SIDE):
        figure = pose(work=f"{muscle} 1", view="front")
    skin, patch = box_of(figure, Role.BODY), box_of(figure, Role.MUSCLE_OUTER)
    assert skin.joined(patch) == skin
