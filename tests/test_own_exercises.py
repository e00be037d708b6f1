"""Own exercises: kept, retired, written to a file, and taken in whole or not at all."""

from __future__ import annotations

from dataclasses import replace
from pathlib import Path

import pytest

from app import own_exercises, resources
from app.desk import Desk
from app.domain.errors import CoachError
from app.domain.exercise import Exercise, ExerciseKey
from app.domain.work import Work
from app.own_exercises import Delivery
from db.store import Store
from tests import builders

SHIPPED = resources.catalogue()
TOWEL_ROW = replace(
    SHIPPED[ExerciseKey("inverted_row")],
    key=ExerciseKey("towel_row"),
    name="Row on a towel",
    aliases=("towel row",),
    easier=(),
    harder=(ExerciseKey("inverted_row"),),
    own=True,
)
FILE = """\
[door_row]
name = "Row at a door"
pattern = "horizontal_pull"
work = { upper_back = 1.0, biceps = 0.5 }
equipment = ["body"]
load_kind = "body"
multi_joint = true
cues = ["Pull."]

[door_row_low]
name = "Row at a door, leaning far"
pattern = "horizontal_pull"
work = { upper_back = 1.0 }
equipment = ["body"]
load_kind = "body"
multi_joint = true
easier = ["door_row"]
"""


@pytest.fixture
def desk() -> Desk:
    store = Store.in_memory()
    return Desk(store, own_exercises.catalogue_of(store), resources.range_book())


def mine(desk: Desk) -> list[str]:
    return [one.key for one in desk.store.own_exercises()]


# -- one exercise ------------------------------------------------------------------------------


def test_a_kept_exercise_is_in_the_file_and_on_offer(desk: Desk) -> None:
    own_exercises.keep(desk, TOWEL_ROW)
    assert desk.store.own_exercises() == (TOWEL_ROW,)
    assert desk.catalogue[TOWEL_ROW.key] == TOWEL_ROW
    assert TOWEL_ROW in tuple(desk.catalogue)


def test_keeping_it_again_changes_it(desk: Desk) -> None:
    own_exercises.keep(desk, TOWEL_ROW)
    own_exercises.keep(desk, replace(TOWEL_ROW, rest_s=45))
    assert desk.catalogue[TOWEL_ROW.key].rest_s == 45
    assert len(desk.store.own_exercises()) == 1


@pytest.mark.parametrize(
    ("exercise", "reason"),
    [
        (replace(TOWEL_ROW, name="BACK squat"), "already an exercise called 'Back squat'"),
        (replace(TOWEL_ROW, key=ExerciseKey("back_squat")), "'Back squat', which is shipped"),
        (replace(TOWEL_ROW, harder=(ExerciseKey("levitation"),)), "'levitation' is no other"),
        (replace(TOWEL_ROW, name="Back\u00a0squat"), "already an exercise called 'Back squat'"),
        (replace(TOWEL_ROW, aliases=("back-squat",)), "the name of another exercise, 'Back squat'"),
        (replace(TOWEL_ROW, figure="inverted_roww"), "Did you mean 'inverted_row'"),
        (replace(TOWEL_ROW, easier=TOWEL_ROW.harder), "named as easier and as harder"),
        (replace(TOWEL_ROW, easier=(TOWEL_ROW.key,)), "'towel_row' is no other"),
    ],
)
def test_what_is_taken_or_loose_is_refused_and_nothing_kept(
    desk: Desk, exercise: Exercise, reason: str
) -> None:
    with pytest.raises(CoachError, match=reason):
        own_exercises.keep(desk, exercise)
    assert mine(desk) == []
    assert TOWEL_ROW.key not in desk.catalogue


def test_a_retired_exercise_is_offered_no_longer_but_old_plans_keep_it(desk: Desk) -> None:
    own_exercises.keep(desk, TOWEL_ROW)
    program = builders.program("Mon: towel_row 3x10")
    client = builders.client()
    desk.store.save(None, Work(client, program), label="Add client")
    desk.open(client.id, program.id)
    own_exercises.retire(desk, TOWEL_ROW.key)
    assert TOWEL_ROW not in tuple(desk.catalogue)
    assert desk.catalogue[TOWEL_ROW.key] == TOWEL_ROW
    assert desk.check(desk.program) is not None
    anew = own_exercises.catalogue_of(desk.store)
    assert anew[TOWEL_ROW.key] == TOWEL_ROW
    assert len(anew) == len(SHIPPED)


def test_a_retired_exercise_is_offered_again_once_it_is_kept_again(desk: Desk) -> None:
    own_exercises.keep(desk, TOWEL_ROW)
    own_exercises.retire(desk, TOWEL_ROW.key)
    own_exercises.keep(desk, TOWEL_ROW)
    assert TOWEL_ROW in tuple(desk.catalogue)


def test_listeners_hear_of_other_exercises(desk: Desk) -> None:
    heard: list[bool] = []
    desk.listen(lambda _before, _after: heard.append(TOWEL_ROW.key in desk.catalogue))
    own_exercises.keep(desk, TOWEL_ROW)
    assert heard == [True]


@pytest.mark.parametrize(
    ("name", "key"),
    [
        ("Towel row", "towel_row"),
        ("  Écarté, low!  ", "ecarte_low"),
        ("45 degree press", "own_45_degree_press"),
        ("深蹲", "own"),
        ("Back squat", "back_squat_2"),
    ],
)
def test_a_key_is_made_of_the_name_and_is_free(name: str, key: str) -> None:
    assert own_exercises.key_for(name, SHIPPED) == key


def test_a_long_name_makes_a_key_that_the_rules_take() -> None:
    key = own_exercises.key_for("very " * 16, SHIPPED)
    assert (
        resources.exercise_from_values(
            key,
            {
                "name": "Very",
                "pattern": "squat",
                "work": {"quadriceps": 1.0},
                "equipment": ["body"],
                "load_kind": "body",
                "multi_joint": True,
            },
        ).key
        == key
    )


# -- files -------------------------------------------------------------------------------------


def read(text: str, desk: Desk) -> Delivery:
    return own_exercises.delivery(text, source="theirs.toml", catalogue=desk.catalogue)


def test_a_file_goes_from_one_coach_to_another(desk: Desk, tmp_path: Path) -> None:
    own_exercises.keep(desk, TOWEL_ROW)
    path = tmp_path / "own.exercises.toml"
    assert own_exercises.write_own(path, [TOWEL_ROW], desk.catalogue) == 1
    store = Store.in_memory()
    other = Desk(store, own_exercises.catalogue_of(store), resources.range_book())
    brought = own_exercises.read_own(path, other.catalogue)
    assert own_exercises.take_in(other, brought) == 1
    assert other.catalogue[TOWEL_ROW.key] == TOWEL_ROW
    assert own_exercises.read_own(path, other.catalogue).same == (TOWEL_ROW,)


def test_exercises_of_one_file_may_name_each_other(desk: Desk) -> None:
    brought = read(FILE, desk)
    assert [one.key for one in brought.fresh] == ["door_row", "door_row_low"]
    assert own_exercises.take_in(desk, brought) == 2
    assert mine(desk) == ["door_row", "door_row_low"]


def test_a_changed_form_of_an_own_exercise_waits_for_a_word(desk: Desk) -> None:
    own_exercises.take_in(desk, read(FILE, desk))
    brought = read(FILE.replace('["Pull."]', '["Pull hard."]'), desk)
    assert ([one.key for one in brought.changed], len(brought.same)) == (["door_row"], 1)
    assert own_exercises.take_in(desk, brought) == 0
    assert desk.catalogue[ExerciseKey("door_row")].cues == ("Pull.",)
    assert own_exercises.take_in(desk, brought, replacing=True) == 1
    assert desk.catalogue[ExerciseKey("door_row")].cues == ("Pull hard.",)


BAD = [
    (
        '"Row at a door, leaning far"',
        '"Row at a door"',
        "line 11",
        "share the name 'Row at a door'",
    ),
    ('"Row at a door"', '"back squat"', "line 2", "already an exercise called 'Back squat'"),
    ('"Row at a door"', '"Back\u00a0squat"', "line 2", "already an exercise called 'Back squat'"),
    ('"Row at a door"', '"Back-squ\u200bat"', "line 2", "already an exercise called 'Back squat'"),
    ('cues = ["Pull."]', 'aliases = ["back-squat"]', "line 8", "the name of another exercise"),
    ('cues = ["Pull."]', 'figure = "back_sqat"', "line 8", "Did you mean 'back_squat'?"),
    (
        'cues = ["Pull."]',
        'easier = ["door_row_low"]',
        "line 8",
        "names this exercise as easier too",
    ),
    (
        'easier = ["door_row"]',
        'easier = ["door_row"]\nharder = ["door_row"]',
        "line 17",
        "'Row at a door' is named as easier and as harder",
    ),
    ("[door_row_low]", "[door_row]", "line 10", "TOML"),
    ("[door_row_low]", "[back_squat]", "line 10", "'back_squat' is the key of 'Back squat'"),
    ("upper_back = 1.0, b", "uper_back = 1.0, b", "line 4", "upper_back"),
    ("biceps = 0.5", "biceps = 1.5", "line 4", "1.5 is outside 0 to 1"),
    ("biceps = 0.5", "biceps = nan", "line 4", "nan is outside 0 to 1"),
    ('easier = ["door_row"]', 'easier = ["levitation"]', "line 17", "'levitation' is no other"),
    ('easier = ["door_row"]', 'easier = ["door_row_low"]', "line 17", "is no other"),
    ('"Row at a door"', '"<b>Row</b>"', "line 2", "'<' is not allowed"),
    ('["Pull."]', '["' + "Pull. " * 60 + '"]', "line 8", "360 characters is too long"),
    ('cues = ["Pull."]', 'clues = ["Pull."]', "line 8", "Did you mean 'cues'"),
    ("multi_joint = true\ncues", "cues", "line 1", "neither true nor false"),
    ('cues = ["Pull."]', "setup_s = " + "9" * 5000, "", "too large"),
    ('["Pull."]', "[" * 900 + "]" * 900, "", ""),
    (
        'cues = ["Pull."]',
        'activation = [{ muscle = "biceps", low = 1, study = "nobody1999" }]',
        "line 8",
        "'nobody1999' is no reference",
    ),
    (FILE, "", "", "holds no exercise"),
    (FILE, "not toml at all", "line 1", "TOML"),
]


@pytest.mark.parametrize(("old", "new", "line", "reason"), BAD, ids=range(len(BAD)))
def test_a_bad_file_is_refused_with_line_and_reason_and_nothing_is_taken_in(
    desk: Desk, old: str, new: str, line: str, reason: str
) -> None:
    assert old in FILE
    with pytest.raises(CoachError) as refused:
        own_exercises.take_in(desk, read(FILE.replace(old, new, 1), desk))
    assert refused.value.sentence.startswith("theirs.toml")
    assert line in refused.value.sentence
    assert reason in refused.value.sentence
    assert mine(desk) == []


def test_a_note_of_five_megabytes_is_refused_with_its_line(desk: Desk, tmp_path: Path) -> None:
    path = tmp_path / "long.toml"
    path.write_text(FILE.replace('["Pull."]', '["' + "x" * 5_000_000 + '"]'), encoding="utf-8")
    with pytest.raises(CoachError) as refused:
        own_exercises.read_own(path, desk.catalogue)
    assert "long.toml, line 8" in refused.value.sentence
    assert "too large" in refused.value.sentence


def test_bytes_that_are_no_text_are_refused_with_their_line(desk: Desk, tmp_path: Path) -> None:
    path = tmp_path / "odd.toml"
    path.write_bytes(FILE.encode().replace(b"Pull", b"\xff\xfe"))
    with pytest.raises(CoachError, match=r"odd\.toml, line 8: This is not UTF-8"):
        own_exercises.read_own(path, desk.catalogue)


def test_a_file_with_a_byte_order_mark_is_read(desk: Desk, tmp_path: Path) -> None:
    path = tmp_path / "marked.toml"
    path.write_bytes(b"\xef\xbb\xbf" + FILE.encode())
    assert len(own_exercises.read_own(path, desk.catalogue).fresh) == 2


def test_a_failure_half_way_keeps_nothing(desk: Desk, monkeypatch: pytest.MonkeyPatch) -> None:
    brought = read(FILE, desk)
    whole = desk.store.save_exercise

    def fail_at_the_second(exercise: Exercise) -> None:
        if exercise.key == "door_row_low":
            raise CoachError("The disk is full.")
        whole(exercise)

    monkeypatch.setattr(desk.store, "save_exercise", fail_at_the_second)
    with pytest.raises(CoachError, match="full"):
        own_exercises.take_in(desk, brought)
    assert mine(desk) == []
    assert "door_row" not in desk.catalogue
