"""Slots from elsewhere: letters that are free, and substitutes that the library has."""

from __future__ import annotations

from dataclasses import replace

from hypothesis import given
from hypothesis import strategies as st

from app.domain.edits.pasted import relettered, with_known_prepared
from app.domain.exercise import ExerciseKey
from tests import builders


def test_pasted_pairs_take_letters_that_are_free() -> None:
    there = builders.session("back_squat pair A, curl pair A")
    pasted = builders.session("leg_press pair A, calf_raise pair A, crunch pair B").slots
    assert [slot.pair for slot in relettered(pasted, there)] == ["B", "B", ""]
    assert [slot.pair for slot in relettered(pasted, None)] == ["A", "A", ""]


@given(st.lists(st.sampled_from(["", "A", "B", "C"]), min_size=1, max_size=8), st.booleans())
def test_who_was_paired_stays_paired_and_with_nobody_else(letters: list[str], there: bool) -> None:
    session = builders.session("back_squat pair A, curl pair A") if there else None
    slots = tuple(replace(builders.slot("crunch 3x8"), pair=letter) for letter in letters)
    new = [slot.pair for slot in relettered(slots, session)]
    for k, old in enumerate(letters):
        for j, other in enumerate(letters):
            together = bool(new[k]) and new[k] == new[j]
            # neighbours alone make a pair, so a letter may be dropped, but never shared anew
            assert not together or (old == other != "")
    assert not (there and "A" in new)


def test_prepared_substitutes_that_the_library_lacks_stay_behind() -> None:
    keys = (ExerciseKey("leg_press"), ExerciseKey("sled_march"))
    copied = replace(builders.slot("back_squat 3x8"), prepared=keys)
    assert with_known_prepared(copied, builders.CATALOGUE).prepared == keys[:1]
    plain = builders.slot("back_squat 3x8")
    assert with_known_prepared(plain, builders.CATALOGUE) is plain
