"""The words of tables: folded, each for one part, weekdays in many languages."""

from __future__ import annotations

import pytest

from app.exchange.coach_plan.columns import Part
from app.exchange.coach_plan.words import head_form, weekdays, words_from_table
from tests.exchange.coach_plan.shipped import WORDS


@pytest.mark.parametrize(
    ("head", "part"),
    [
        ("Exercise", Part.EXERCISE),
        ("Übung", Part.EXERCISE),
        ("Ejercicio", Part.EXERCISE),
        ("Sätze", Part.SETS),
        ("Sets × Reps", Part.SCHEME),
        ("% 1RM", Part.PERCENT),
        ("%", Part.PERCENT),
        ("Wdh.", Part.REPS),
        ("Load (kg)", Part.LOAD),
        ("Rest (s)", Part.REST),
        ("Упражнение", Part.EXERCISE),
    ],
)
def test_a_heading_is_known(head: str, part: Part) -> None:
    assert WORDS.columns[head_form(head)] is part


def test_longer_words_are_tried_first() -> None:
    assert WORDS.week.index("week") < WORDS.week.index("w")


@pytest.mark.parametrize(
    ("name", "day"),
    [
        ("monday", 0),
        ("mon", 0),
        ("montag", 0),
        ("mo", 0),
        ("mittwoch", 2),
        ("sabado", 5),
        ("dimanche", 6),
        ("segunda", 0),
        ("пятница", 4),
    ],
)
def test_weekdays_are_known(name: str, day: int) -> None:
    assert weekdays()[name] == day


def test_a_broken_table_is_refused() -> None:
    with pytest.raises((KeyError, ValueError)):
        words_from_table({"columns": {"no_such": ["a"]}, "words": {}, "short": {}})
    with pytest.raises(KeyError):
        words_from_table({})
