"""Poses that are like others, and poses that are read when they are asked for."""

from __future__ import annotations

import pytest

from app.domain.errors import ResourceError
from app.domain.exercise import Muscle
from app.domain.figure import poses_from_mapping
from app.domain.figure.pose import Both, Thing, Trace
from tests.domain.figure.shipped import exercises, poses

FLAT = {"pin": "flat R 0 0"}
SQUAT = {
    "both": {**FLAT, "things": ["barbell"], "bar": "upper back", "handL": "on waist"},
    "start": {"hip": 5, "hipL": 8},
    "end": {"hip": 100, "path": "hip 0.1 0"},
}


def test_every_shipped_pose_can_be_read() -> None:
    assert len(dict(poses())) == len(poses())


@pytest.mark.parametrize("key", exercises())
def test_every_exercise_has_a_figure_of_its_own(key: str) -> None:
    assert exercises()[key]["figure"] == key
    assert key in poses()


def test_every_pose_belongs_to_an_exercise() -> None:
    assert set(poses()) == set(exercises())


@pytest.mark.parametrize(
    "key", [key for key, entry in exercises().items() if entry["pattern"] != "drill"]
)
def test_the_shading_agrees_with_what_the_exercise_counts(key: str) -> None:
    counted = {Muscle(name): share for name, share in exercises()[key]["work"].items()}
    prime = {muscle for muscle, share in counted.items() if share >= 1}
    for pose in (poses()[key].start, poses()[key].end):
        assert {muscle for muscle, weight in pose.work if weight == 1} == prime
        assert {muscle for muscle, weight in pose.work if weight == 2} <= set(counted)


def test_a_pose_is_read_once_and_only_when_it_is_asked_for() -> None:
    found = poses_from_mapping({"squat": SQUAT, "broken": 3})
    assert found["squat"] is found["squat"]
    assert "broken" in found
    assert list(found) == ["squat", "broken"]
    with pytest.raises(ResourceError, match="pair of tables"):
        dict(found)


def test_a_key_without_a_pose_is_a_plain_missing_key() -> None:
    found = poses_from_mapping({"squat": SQUAT})
    assert found.get("jump") is None
    with pytest.raises(KeyError):
        found["jump"]


def test_a_pose_like_another_says_only_what_differs() -> None:
    data = {"squat": SQUAT, "deep": {"like": "squat", "end": {"hip": 120}}}
    squat, deep = (poses_from_mapping(data)[key] for key in data)
    assert deep.key == "deep"
    assert deep.start == squat.start
    assert deep.end.hip == Both(120, 120)
    assert deep.trace == squat.trace == Trace("hip", 0.1, 0)


def test_what_a_pose_says_of_both_positions_goes_over_the_other_pose() -> None:
    data = {"squat": SQUAT, "stiff": {"like": "squat", "both": {"hip": 20}}}
    stiff = poses_from_mapping(data)["stiff"]
    assert stiff.start.hip == stiff.end.hip == Both(20, 20)


def test_a_field_for_both_sides_sets_inherited_single_sides_aside() -> None:
    data = {"squat": SQUAT, "free": {"like": "squat", "both": {"hands": "down 0 0"}}}
    hands = poses_from_mapping(data)["free"].start.hands
    assert hands.left == hands.right


def test_a_pose_may_be_like_one_that_is_like_another() -> None:
    data = {
        "squat": SQUAT,
        "deep": {"like": "squat", "end": {"hip": 120}},
        "deeper": {"like": "deep", "end": {"knee": 130}},
    }
    end = poses_from_mapping(data)["deeper"].end
    assert (end.hip.right, end.knee.right) == (120, 130)


def test_more_things_are_added_and_nothing_takes_a_field_away() -> None:
    changes = {"more": ["box 0 1 0.2"], "bar": "none"}
    data = {"squat": SQUAT, "boxed": {"like": "squat", "both": changes, "end": {"path": "none"}}}
    boxed = poses_from_mapping(data)["boxed"]
    assert boxed.end.things == (Thing("barbell"), Thing("box", (0, 1, 0.2)))
    assert boxed.end.bar is None
    assert boxed.trace is None


@pytest.mark.parametrize(
    ("data", "said"),
    [
        ({"a": {"like": "b"}}, '"b", which is no pose'),
        ({"a": {"like": "a"}}, "like itself"),
        ({"a": {"like": "b"}, "b": {"like": "c"}, "c": {"like": "a"}}, "like itself"),
        ({"a": {"start": FLAT}}, "the end position is missing"),
        ({"a": {"start": FLAT, "end": FLAT, "middle": FLAT}}, 'no table "middle"'),
        ({"a": {"start": FLAT, "end": 4}}, "a position is a table"),
        ({"a": 3}, "pair of tables"),
        ({"a": {"like": "b"}, "b": 3}, "pair of tables"),
    ],
)
def test_a_family_that_does_not_work_out_is_refused(data: dict[str, object], said: str) -> None:
    with pytest.raises(ResourceError, match=said) as told:
        poses_from_mapping(data)["a"]
    assert told.value.where
    assert told.value.mend
