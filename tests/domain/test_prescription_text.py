"""Reading and writing a prescription in one line."""

from __future__ import annotations

from dataclasses import replace

import pytest
from hypothesis import given
from hypothesis import strategies as st

from app.domain.effort import PercentOneRm, PercentRepMax, Rir
from app.domain.errors import CoachError
from app.domain.prescription_text import PrescriptionError, Written, applied, format_slot, parse
from app.domain.program import MAX_SETS, Reps
from tests.builders import slot

efforts = st.one_of(
    st.integers(0, 20).map(lambda half: Rir(half / 2)),
    st.integers(2, 220).map(lambda half: PercentOneRm(half / 2)),
    st.integers(2, 200).map(lambda half: PercentRepMax(half / 2)),
)
tempos = st.sampled_from(["", "3-0-1-0", "2-0-X-1", "4-1-1-0"])
repetitions = st.tuples(st.integers(1, 60), st.integers(0, 20)).map(
    lambda pair: Reps(pair[0], pair[0] + pair[1])
)
slots = st.builds(
    lambda sets, reps, effort, rest_s, tempo, load: replace(
        slot("back_squat"),
        sets=sets,
        reps=reps,
        effort=effort,
        rest_s=rest_s,
        tempo=tempo,
        load_kg=load,
    ),
    st.integers(1, MAX_SETS),
    repetitions,
    efforts,
    st.integers(0, 1200),
    tempos,
    st.one_of(st.none(), st.integers(0, 4000).map(lambda quarter: quarter / 4)),
)


@given(slots, st.booleans())
def test_what_is_written_is_read_back_the_same(one, timed):
    assert applied(one, parse(format_slot(one, timed=timed))) == one


@given(slots)
def test_a_load_written_in_pounds_comes_back_as_it_was(one):
    assert applied(one, parse(format_slot(one, unit="lb"))) == one


@given(slots, st.randoms(use_true_random=False))
def test_parts_may_stand_in_any_order(one, random):
    parts = format_slot(one).split(", ")
    random.shuffle(parts)
    assert applied(one, parse(", ".join(parts))) == one


@given(st.text(max_size=60))
def test_any_text_is_read_or_refused_in_three_parts(text):
    refused = None
    try:
        parse(text)
    except CoachError as error:
        refused = error
    assert refused is None or (refused.what and refused.mend)


@pytest.mark.parametrize(
    ("line", "expected"),
    [
        ("4 x 8-10, RIR 2, rest 120 s", Written(4, Reps(8, 10), Rir(2), 120)),
        ("4x8–10,RIR 2,rest 2:00", Written(4, Reps(8, 10), Rir(2), 120)),
        ("3 × 5; 85 % 1RM; rest 3 min", Written(3, Reps(5, 5), PercentOneRm(85), 180)),
        ("3 sets of 12, 1 in reserve", Written(3, Reps(12, 12), Rir(1))),
        ("2 x 10, 95 % of 10RM", Written(2, Reps(10, 10), PercentRepMax(95))),
        ("2 x 10, 80%", Written(2, Reps(10, 10), PercentOneRm(80))),
        ("rest 90, 3 x 10, to failure", Written(3, Reps(10, 10), Rir(0), 90)),
        ("3 x 30 s", Written(3, Reps(30, 30))),
        ("4 x 6, tempo 3-1-1, 72.5 kg", Written(4, Reps(6, 6), tempo="3-1-1-0", load_kg=72.5)),
        ("4 x 6, 72,5 kg", Written(4, Reps(6, 6), load_kg=72.5)),
        ("4 x 6, load from tests", Written(4, Reps(6, 6), no_load=True)),
        ("4 x 6, 2 x 14 kg", Written(4, Reps(6, 6), load_kg=14)),
    ],
)
def test_a_line_is_read_as_textbooks_write_it(line, expected):
    assert parse(line) == expected


@pytest.mark.parametrize(
    ("line", "named"),
    [
        ("", "empty"),
        ("RIR 2", "no sets and repetitions"),
        ("4 y 8", "no sets and repetitions"),
        ("0 x 8", "0 sets"),
        (f"{MAX_SETS + 1} x 8", f"1 to {MAX_SETS}"),
        ("4 x 10-8", "10 down to 8"),
        ("4 x 8, RIR 2, RIR 3", "twice"),
        ("4 x 8, banana", "'banana'"),
    ],
)
def test_nonsense_is_refused_by_name(line, named):
    with pytest.raises(PrescriptionError, match=named) as refusal:
        parse(line)
    assert refusal.value.mend


@pytest.mark.parametrize("line", ["4 x 8, RIR 11", "4 x 8, 130 %", "4 x 8, rest 1201 s", "4 x 0"])
def test_a_number_out_of_range_is_refused(line):
    with pytest.raises(CoachError):
        parse(line)


def test_what_is_left_out_stays_as_it_is():
    one = slot("back_squat 3x5 RIR 1 rest 240 tempo 3-0-1-0 80kg")
    changed = applied(one, parse("4 x 6"))
    assert changed == replace(one, sets=4, reps=Reps(6, 6))


def test_a_load_set_by_hand_is_taken_off_by_words():
    one = slot("back_squat 3x5 80kg")
    assert applied(one, parse("3 x 5, load from tests")).load_kg is None
