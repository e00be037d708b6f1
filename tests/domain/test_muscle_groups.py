"""Groups of the tally."""

from __future__ import annotations

from app.domain.exercise import Muscle
from app.domain.muscle_groups import GROUP_OF, GROUPS, muscle_name


def test_every_muscle_belongs_to_one_group() -> None:
    members = [muscle for group in GROUPS for muscle in group.muscles]
    assert sorted(members) == sorted(Muscle)
    assert all(muscle in GROUPS[number].muscles for muscle, number in GROUP_OF.items())


def test_keys_are_unique_and_lone_muscles_keep_theirs() -> None:
    keys = [group.key for group in GROUPS]
    assert len(set(keys)) == len(keys)
    assert all(group.key == group.muscles[0] for group in GROUPS if len(group.muscles) == 1)


def test_muscles_have_plain_names() -> None:
    assert muscle_name(Muscle.SPINAL_ERECTORS) == "Spinal erectors"
