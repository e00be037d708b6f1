"""A language that says all shipped exercises says them whole, in its own words, and in their room.

Name a language in COMPLETE once its folder in `resources/languages/exercises` has every exercise.
"""

from __future__ import annotations

import re
from collections.abc import Iterator
from datetime import date

import pytest

from app import press, resources
from app.booklet import Options, Paper, Part
from app.booklet.book import frame_of
from app.domain.exercise import ExerciseText, Pattern
from app.domain.work import Coach, Issue, IssueId
from app.resources.languages import NAMES, exercise_texts
from tests import builders
from tests.booklet.reading_pdf import Printed

COMPLETE = ("de", "es")
SHIPPED = {str(exercise.key): exercise for exercise in resources.catalogue()}

LOANS: dict[str, frozenset[str]] = {"de": frozenset(), "es": frozenset()}
"""Texts that a language has taken over from English as they are."""

ENGLISH_WORDS = re.compile(
    r"\b(the|and|with|your|you|of|or|to|from|for|is|are|on|at|by|it|than|then|until|each|its)\b",
    re.IGNORECASE,
)
FAMILIAR = {
    "de": re.compile(r"\b(du|dich|dir|dein\w*|euch|euer\w*|eure\w*)\b", re.IGNORECASE),
    "es": re.compile(r"\b(tú|tus?|ti|contigo|vosotr\w+|vuestr\w+)\b", re.IGNORECASE),
}
"""How a client is not addressed."""


def parts(words: ExerciseText) -> Iterator[str]:
    """Every text of an exercise but its name."""
    yield from (*words.set_up, *words.cues)
    for fault in words.faults:
        yield from (fault.notice, fault.remedy)


def english(key: str) -> ExerciseText:
    one = SHIPPED[key]
    return ExerciseText("en", one.name, one.set_up, one.cues, one.faults)


def said(family: str) -> Iterator[tuple[str, str]]:
    """Every text of a language with the key of its exercise."""
    for key, words in exercise_texts(family).items():
        yield key, words.name
        yield from ((key, text) for text in parts(words))


def test_complete_languages_are_shipped_ones() -> None:
    assert set(COMPLETE) <= set(NAMES) - {"en"}
    assert set(COMPLETE) == set(LOANS) == set(FAMILIAR)


@pytest.mark.parametrize("family", COMPLETE)
def test_every_shipped_exercise_is_said_in_all_its_fields(family: str) -> None:
    texts = exercise_texts(family)
    assert set(texts) == set(SHIPPED)
    for key, words in texts.items():
        model = english(key)
        shape = [len(field) for field in (words.set_up, words.cues, words.faults)]
        assert shape == [len(field) for field in (model.set_up, model.cues, model.faults)], key
        assert all((words.name, *parts(words))), key


@pytest.mark.parametrize("family", COMPLETE)
def test_no_two_exercises_share_a_name(family: str) -> None:
    names = [words.name.casefold() for words in exercise_texts(family).values()]
    assert sorted(set(names)) == sorted(names)


@pytest.mark.parametrize("family", COMPLETE)
def test_no_text_is_english(family: str) -> None:
    for key, words in exercise_texts(family).items():
        model = english(key)
        pairs = zip((words.name, *parts(words)), (model.name, *parts(model)), strict=True)
        for text, meant in pairs:
            assert text != meant or text in LOANS[family], key
            assert not ENGLISH_WORDS.search(text), (key, text)


@pytest.mark.parametrize("family", COMPLETE)
def test_texts_are_sentences_where_the_english_are_and_address_the_client_formally(
    family: str,
) -> None:
    for key, words in exercise_texts(family).items():
        for text, meant in zip(parts(words), parts(english(key)), strict=True):
            assert text.endswith(".") == meant.endswith("."), (key, text)
            assert text[0].isupper() or not text[0].isalpha(), (key, text)
            assert not FAMILIAR[family].search(text), (key, text)


@pytest.mark.parametrize("family", COMPLETE)
def test_signs_are_those_of_print(family: str) -> None:
    for key, text in said(family):
        assert not re.search(r"[\"'`]|  |\.\.|\s$|^\s", text), (key, text)


@pytest.mark.parametrize("family", COMPLETE)
def test_what_stops_a_client_is_never_left_out(family: str) -> None:
    coach = re.compile(r"\b(coach|entrenador\w*)\b", re.IGNORECASE)
    for key, words in exercise_texts(family).items():
        for text, meant in zip(parts(words), parts(english(key)), strict=True):
            assert bool(coach.search(text)) == bool(coach.search(meant)), (key, text)


@pytest.mark.parametrize("family", COMPLETE)
def test_the_page_of_every_exercise_holds_its_words(family: str) -> None:
    """The shortest wide paper: all is printed, and nothing reaches into the foot."""
    catalogue = resources.catalogue()
    lifts = [key for key, one in SHIPPED.items() if one.pattern is not Pattern.DRILL]
    days = ("Mon", "Tue", "Wed", "Thu", "Fri", "Sat", "Sun")
    sessions = (
        f"{day}: " + ", ".join(f"{key} 3x10" for key in lifts[number :: len(days)])
        for number, day in enumerate(days)
    )
    program = builders.program(" | ".join(sessions))
    client = builders.client(language=family)
    one = Issue(IssueId("i"), date(2026, 11, 25), Coach("Tavi Hellmark"), client, program, ())
    options = Options(paper=Paper.LETTER, parts=frozenset({Part.EXERCISES}))
    booklet = Printed(press.bind(one, catalogue, resources.range_book(), options=options))
    last_mm = frame_of(Paper.LETTER).last
    texts = exercise_texts(family)
    pages = {booklet.text(page): page for page in range(2, len(booklet) + 1)}
    for key in lifts:
        words = texts[key]
        begun = [text for text in pages if text.startswith(f"{words.name} ")]
        told = [re.sub(r"\s", " ", part) for part in parts(words)]
        (page,) = (text for text in begun if all(part in text for part in told))
        ends = [letter.bottom for letter in booklet.letters(pages[page])]
        foot = max(ends) - 2.0
        assert max(end for end in ends if end < foot) <= last_mm + 1.5, key
