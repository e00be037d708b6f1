"""The search: plain words, words run together, slips of the finger, and other names."""

from __future__ import annotations

import tomllib
from pathlib import Path

import pytest
from hypothesis import given
from hypothesis import strategies as st

from app import resources
from app.ui.library.search import Entry, Finder, entries

NAMES = {muscle: name.trade for muscle, name in resources.muscle_names().items()}
ENTRIES = entries(resources.catalogue(), NAMES)
FINDER = Finder(ENTRIES)
TABLE = [
    (typed, key)
    for rows in tomllib.loads(
        Path(__file__).with_name("search.toml").read_text(encoding="utf-8")
    ).values()
    for typed, key in rows.items()
]


def keys(found: tuple[Entry, ...]) -> list[str]:
    return [entry.exercise.key for entry in found]


def test_the_table_has_at_least_sixty_rows() -> None:
    assert len(TABLE) >= 60


@pytest.mark.parametrize(("typed", "key"), TABLE)
def test_a_slip_or_another_name_finds_its_exercise_in_the_first_three(typed: str, key: str) -> None:
    assert key in keys(FINDER.find(ENTRIES, typed).entries)[:3]


@pytest.mark.parametrize("entry", ENTRIES, ids=[entry.exercise.key for entry in ENTRIES])
def test_an_exercise_is_found_first_by_its_own_name(entry: Entry) -> None:
    assert keys(FINDER.find(ENTRIES, entry.exercise.name).entries)[0] == entry.exercise.key


def test_every_word_must_be_there_in_any_order() -> None:
    found = FINDER.find(ENTRIES, "dumbbells hamstrings")
    assert found.entries
    assert not found.alike
    for entry in found.entries:
        assert "dumbbells" in entry.words
        assert "hamstrings" in entry.words


def test_a_search_goes_by_muscle_and_equipment_too() -> None:
    calves = {e.exercise.key for e in FINDER.find(ENTRIES, "calves").entries}
    assert "standing_calf_raise_machine" in calves


def test_no_text_leaves_the_list_in_its_order() -> None:
    backwards = tuple(reversed(ENTRIES))
    assert FINDER.find(backwards, "  ").entries == backwards


def test_a_name_that_the_choices_leave_out_is_not_replaced_by_one_like_it() -> None:
    left = [e for e in ENTRIES if "sled" not in e.words]
    found = FINDER.find(left, "sled")
    assert found.entries == ()


def test_likeness_keeps_to_what_the_choices_leave() -> None:
    left = [e for e in ENTRIES if e.exercise.key != "romanian_deadlift"]
    found = FINDER.find(left, "romainian deadlift")
    assert found.alike
    assert found.entries
    assert "romanian_deadlift" not in keys(found.entries)


def test_nonsense_finds_nothing() -> None:
    assert FINDER.find(ENTRIES, "qzxqzx").entries == ()


@given(st.text(max_size=40))
def test_any_text_can_be_searched_for_and_finds_each_exercise_once(text: str) -> None:
    found = keys(FINDER.find(ENTRIES, text).entries)
    assert len(found) == len(set(found))


def test_while_a_name_is_typed_the_plain_one_comes_before_its_variants() -> None:
    assert keys(FINDER.find(ENTRIES, "clamshel").entries)[0] == "clam"
    assert keys(FINDER.find(ENTRIES, "wrist cur").entries)[0] == "wrist_curl"
