"""Pose files: what they may say and what they are told."""

from __future__ import annotations

import pytest

from app.domain.errors import ResourceError
from app.domain.exercise import Muscle
from app.domain.figure import Side, poses_from_mapping, read_pose
from app.domain.figure.pose import Both, Hold, Thing, Trace
from app.domain.figure.reading import FLAGS, NUMBERS, PAIRED, READERS
from app.domain.figure.space import View
from tests.domain.figure.shipped import FOLDER


def test_a_pose_reads_as_it_is_written() -> None:
    data = {
        "squat": {
            "both": {"pin": "flat R 0 0.1", "things": ["barbell 0.1"], "bar": "upper back"},
            "start": {"hip": 5, "kneeR": 7},
            "end": {"lean": 39, "work": "quadriceps 1, gluteals 2", "path": "bar -0.1 0"},
        }
    }
    pair = poses_from_mapping(data)["squat"]
    assert pair.start.hip == Both(5, 5)
    assert pair.start.knee == Both(7, 0)
    assert pair.start.pin.hold is Hold.FLAT
    assert pair.start.pin.numbers == (0, 0.1)
    assert pair.end.lean == 39
    assert pair.end.work == ((Muscle.QUADRICEPS, 1), (Muscle.GLUTEALS, 2))
    assert pair.end.things == (Thing("barbell", (0.1,)),)
    assert pair.trace == Trace("bar", -0.1, 0)


def test_a_place_for_both_hands_counts_outward() -> None:
    pose = read_pose({"pin": "back 0 0", "hands": "at 0.1 0.2 0.3"}, where="test")
    assert pose.hands.of(Side.R).numbers == (0.1, 0.2, 0.3)
    assert pose.hands.of(Side.L).numbers == (0.1, 0.2, -0.3)


def test_one_hand_may_do_something_else() -> None:
    pose = read_pose({"pin": "back 0 0", "hands": "down 0 0", "handL": "on waist"}, where="test")
    assert pose.hands.of(Side.R).hold is Hold.HANGING
    assert pose.hands.of(Side.L).part == "waist"


def test_a_view_is_a_word_or_two_angles() -> None:
    assert read_pose({"pin": "back 0 0", "view": "back"}, where="t").view == View(-90, 0)
    assert read_pose({"pin": "back 0 0", "view": [10, 5]}, where="t").view == View(10, 5)


@pytest.mark.parametrize(
    "field", sorted({*NUMBERS, *PAIRED, *FLAGS, *READERS, "pin", "hands", "feet", "elbow_pole"})
)
def test_the_readme_beside_the_poses_names_every_field(field: str) -> None:
    assert f"`{field}`" in (FOLDER / "README.md").read_text(encoding="utf-8")


@pytest.mark.parametrize(
    ("field", "value", "said"),
    [
        ("hipp", 5, 'no field "hipp"'),
        ("hip", "five", '"hip" cannot be read'),
        ("hip", True, '"hip" cannot be read'),
        ("pin", "floating R 0 0", '"pin" cannot be read'),
        ("pin", "bar R 0 0", '"bar" cannot stand here'),
        ("hands", "on elbow", 'no body part "elbow"'),
        ("things", ["rocket 1 2"], 'no thing "rocket"'),
        ("things", ["dumbbell sideways"], "a dumbbell lies along"),
        ("things", ["bench 0.1 0.2"], "bench takes 3 to 3 numbers, not 2"),
        ("things", ["cable tail 0.1,0.2"], 'no point "tail"'),
        ("things", ["cable handR"], "cable runs between 2 points"),
        ("feet", "flat 0.1", '"flat" takes 2 to 3 numbers, not 1'),
        ("order", "trunk tail", '"tail" is not one of'),
        ("work", "quadriceps 3", "a muscle does 1"),
        ("view", "below", '"view" cannot be read'),
        ("view", [1], "a view is a word"),
        ("work", "wings 1", '"work" cannot be read'),
        ("elbow_pole", "sideways", '"elbow_pole" cannot be read'),
        ("path", "", '"path" cannot be read'),
        ("path", "bar 1 2 3 4", '"path" cannot be read'),
        ("path", "tail 0 0", '"path" cannot be read'),
        ("path", "bar hip 0 0", '"path" cannot be read'),
    ],
)
def test_a_mistake_names_the_pose_and_the_field(field: str, value: object, said: str) -> None:
    data = {"jump": {"start": {"pin": "flat R 0 0", field: value}, "end": {"pin": "flat R 0 0"}}}
    with pytest.raises(ResourceError) as told:
        poses_from_mapping(data)["jump"]
    assert told.value.where == "pose jump, start"
    assert said in told.value.what
    assert told.value.mend


def test_a_pose_that_nothing_fixes_is_refused() -> None:
    with pytest.raises(ResourceError, match="nothing fixes the person"):
        read_pose({"lean": 3}, where="pose x, start")
