"""Prescriptions, dates and lists in the client's words."""

from __future__ import annotations

from datetime import date

import pytest

from app.booklet import words
from app.domain.effort import PercentOneRm, PercentRepMax, Rir
from app.domain.exercise import ExerciseKey, Muscle
from app.domain.program import Reps
from app.domain.wording import listing
from tests.builders import CATALOGUE, slot

NBSP = "\u00a0"


def plain(text: str) -> str:
    return text.replace(NBSP, " ")


@pytest.mark.parametrize(
    ("text", "dose"),
    [
        ("back_squat 4x11", "4 × 11"),
        ("back_squat 3x8-10", "3 × 8–10"),
        ("plank 2x30", "2 × 30 s"),
        ("plank 2x30-45", "2 × 30–45 s"),
    ],
)
def test_sets_and_reps_read_as_on_a_board(text: str, dose: str):
    one = slot(text)
    assert plain(words.dose_text(one, CATALOGUE[one.exercise])) == dose


@pytest.mark.parametrize(
    ("effort", "said"),
    [
        (Rir(2), ("RIR 2", "")),
        (Rir(1.5), ("RIR 1.5", "")),
        (PercentOneRm(72.5), ("72.5 %", "of 1RM")),
        (PercentRepMax(95), ("95 %", "of 10RM")),
    ],
)
def test_effort_is_said_in_the_coachs_own_form(effort, said):
    assert tuple(map(plain, words.effort_text(effort, Reps(8, 10)))) == said


@pytest.mark.parametrize(("rest_s", "said"), [(150, "2:30"), (60, "1:00"), (5, "0:05"), (0, "–")])
def test_rest_is_minutes_and_seconds(rest_s: int, said: str):
    assert words.rest_text(rest_s) == said


@pytest.mark.parametrize(
    ("key", "said"),
    [
        ("step_up", "each leg"),
        ("side_lying_abduction", "each side"),
        ("back_squat", ""),
    ],
)
def test_unilateral_exercises_say_what_each_set_is_for(key: str, said: str):
    assert plain(words.side_text(CATALOGUE[ExerciseKey(key)])) == said


def test_dates_are_the_same_in_every_locale():
    monday = date(2030, 10, 14)
    assert plain(words.week_text(monday)) == "14 Oct to 20 Oct 2030"
    assert plain(words.week_text(date(2029, 12, 31))) == "31 Dec 2029 to 6 Jan 2030"
    assert plain(words.week_text(date(2029, 12, 24), 2)) == "24 Dec 2029 to 6 Jan 2030"
    assert plain(words.span_text(date(2030, 9, 2), 21)) == "2 September 2030 to 26 January 2031"


@pytest.mark.parametrize(
    ("pages", "said"),
    [
        ((5,), "page 5"),
        ((8, 9, 10), "pages 8 to 10"),
        ((2, 5, 8, 9), "pages 2, 5 and 8 to 9"),
        ((1, 3, 5, 7, 9), "pages 1 to 9"),
    ],
)
def test_pages_are_gathered_into_runs(pages, said):
    assert plain(words.pages_text(pages)) == said


def test_lists_end_with_and():
    assert listing(("5", "10", "15")) == "5, 10 and 15"
    assert listing(("5",)) == "5"
    assert listing(()) == ""


def test_every_muscle_has_a_plain_name():
    assert set(words.MUSCLES) == set(Muscle)


def test_masses_lose_idle_zeros():
    assert words.mass_number(60.0, "kg") == "60"
    assert words.mass_number(61.25, "kg") == "61.25"
    assert words.mass_number(20.0, "lb") == "44.1"


def test_what_is_needed_counts_the_dumbbells():
    assert words.equipment_text(CATALOGUE[ExerciseKey("step_up")]) == "box, two dumbbells"
    assert words.equipment_text(CATALOGUE[ExerciseKey("goblet_squat")]) == "dumbbell"


def test_minutes_are_a_span_or_one_number():
    assert words.minutes_text(41.6, 54.2) == "42 to 54 minutes"
    assert words.minutes_text(30.2, 30.4) == "30 minutes"
