"""Kept exercises are those that were read, to the last value, or none at all."""

from __future__ import annotations

from dataclasses import replace
from pathlib import Path

import pytest
from hypothesis import given

from app.domain.exercise import Exercise, ExerciseText
from app.resources import catalogue, kept_exercises, parsed, shipped
from app.resources.kept_exercises import FIELDS, exercise_of, keep, kept, row_of, stamp_for
from tests.strategies import exercises

STAMP: parsed.Stamp = ("form", "0.0", "/resources/x.toml", 12, 5)


@given(one=exercises)
def test_an_exercise_comes_back_as_it_was_kept_to_the_kind_of_every_value(
    tmp_path_factory: pytest.TempPathFactory, one: Exercise
) -> None:
    one = replace(one, own=False, texts=())
    place = tmp_path_factory.mktemp("cache") / "x.json"
    keep(place, STAMP, [one])
    assert repr(kept(place, STAMP)) == repr((one,))  # 1, 1.0 and True are equal


def test_every_shipped_exercise_comes_back_from_its_row() -> None:
    for one in catalogue():
        assert repr(exercise_of(row_of(one))) == repr(one)


def test_a_row_has_room_for_every_field_but_two() -> None:
    assert len(FIELDS) == len(Exercise.__slots__) - 2


@pytest.mark.parametrize("more", [{"own": True}, {"texts": (ExerciseText("de", "Kniebeuge"),)}])
def test_what_a_row_has_no_room_for_keeps_all_from_being_kept(tmp_path: Path, more) -> None:
    first, second, *_ = catalogue()
    keep(tmp_path / "x.json", STAMP, [first, replace(second, **more)])
    assert kept(tmp_path / "x.json", STAMP) is None


def test_exercises_of_other_files_count_as_none(tmp_path: Path) -> None:
    source = tmp_path / "x.toml"
    source.write_text("a = 1", encoding="utf-8")
    place, stamp = tmp_path / "x.json", stamp_for([source])
    keep(place, stamp, catalogue())
    assert kept(place, stamp_for([source])) == tuple(catalogue())
    source.write_text("a = 11", encoding="utf-8")
    assert kept(place, stamp_for([source])) is None
    assert kept(place, (*stamp, *stamp)) is None


def test_the_catalogue_is_the_same_from_the_cache(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setattr(parsed, "place_for", lambda name: tmp_path / name.replace("/", "."))
    read = shipped.catalogue.__wrapped__()
    monkeypatch.setattr(shipped, "_read_exercises", lambda files: pytest.fail("read again"))
    assert repr(shipped.catalogue.__wrapped__().exercises) == repr(read.exercises)
    assert kept_exercises.kept(tmp_path / "exercises", ("other",)) is None
