"""The shipped languages: their templates, signs and dates, and the one that tests speak."""

from __future__ import annotations

import re
from dataclasses import replace
from datetime import date

import pytest
from hypothesis import given
from hypothesis import strategies as st

from app import resources
from app.domain.errors import CoachError
from app.domain.exercise import ExerciseKey, ExerciseText
from app.domain.units import mass_text, number_text
from app.domain.wording import ENGLISH, DateForm, date_text, listing, speaking, tr, trn
from app.resources.files import names_in, read_toml
from app.resources.languages import (
    EXERCISES,
    NAMES,
    PSEUDO,
    exercise_texts,
    find_language,
    nearest_language,
    spoken_catalogue,
)

DAY = date(2030, 10, 4)


@pytest.mark.parametrize("code", ["", "en", "en-GB"])
def test_english_is_the_code_itself(code: str) -> None:
    assert find_language(code) is ENGLISH


@pytest.mark.parametrize(
    ("code", "said"), [("de", "Woche 3"), ("de-AT", "Woche 3"), ("es-MX", "Semana 3")]
)
def test_a_region_speaks_its_language(code: str, said: str) -> None:
    with speaking(find_language(code)):
        assert tr("Week {number}", number=3) == said


@pytest.mark.parametrize(
    ("code", "number"),
    [("de", "2.660,5"), ("es", "2.660,5"), ("es-MX", "2,660.5"), ("en", "2,660.5")],
)
def test_numbers_have_the_signs_of_the_region(code: str, number: str) -> None:
    with speaking(find_language(code)):
        assert tr("{kcal:,.1f}", kcal=2660.5) == number


def test_loads_and_halves_have_the_decimal_comma() -> None:
    with speaking(find_language("de")):
        assert mass_text(62.5) == "62,5 kg"
        assert number_text(0.5) == "0,5"


@pytest.mark.parametrize(
    ("code", "form", "said"),
    [
        ("de", DateForm.LONG_DATE, "4. Oktober 2030"),
        ("de", DateForm.LONG_DAY, "4. Oktober"),
        ("de", DateForm.LONG_MONTH, "Oktober"),
        ("es", DateForm.LONG_DATE, "4 de octubre de 2030"),
        ("es", DateForm.MONTH, "oct"),
    ],
)
def test_dates_are_those_of_the_locale(code: str, form: DateForm, said: str) -> None:
    with speaking(find_language(code)):
        assert date_text(DAY, form) == said


@pytest.mark.parametrize(("n", "said"), [(1, "1 Minute"), (2, "2 Minuten"), (0, "0 Minuten")])
def test_plural_forms_follow_the_language(n: int, said: str) -> None:
    with speaking(find_language("de")):
        assert trn("{n} minute", "{n} minutes", n) == said


@pytest.mark.parametrize(
    ("names", "said"),
    [
        (("Glúteos", "Isquiotibiales"), "Glúteos e Isquiotibiales"),
        (("sierra", "hilo"), "sierra e hilo"),
        (("agua", "hielo"), "agua y hielo"),
        (("uno", "dos", "tres"), "uno, dos y tres"),
        (("iris",), "iris"),
    ],
)
def test_spanish_says_e_before_the_sound_of_i(names: tuple[str, ...], said: str) -> None:
    with speaking(find_language("es")):
        assert listing(names) == said
    with speaking(find_language("de")):
        assert " e " not in listing(names)


def test_a_text_that_is_not_translated_is_said_in_english() -> None:
    with speaking(find_language("es")):
        assert tr("A text of nobody") == "A text of nobody"


@pytest.mark.parametrize("code", ["xx", "fr", "Deutsch"])
def test_a_language_that_is_not_shipped_is_refused_or_english(code: str) -> None:
    with pytest.raises(CoachError, match="English, Deutsch, Español"):
        find_language(code)
    assert nearest_language(code) is ENGLISH


def test_each_language_has_its_own_name_and_a_file() -> None:
    assert [find_language(code).code for code in NAMES] == list(NAMES)


# -- the pseudo-language ---------------------------------------------------------------------------


def test_the_pseudo_language_accents_and_lengthens_all_but_the_places() -> None:
    with speaking(find_language(PSEUDO)):
        said = tr("Move {name} to {day}", name="Row", day="Monday")
        assert "Row" in said
        assert "Monday" in said
        assert said.startswith("Móv")
        assert not re.search(r"\bOctober\b", date_text(DAY, DateForm.LONG_DATE))


@given(st.text(alphabet="abcdefghijklmnopqrstuvwxyz ", min_size=10, max_size=80))
def test_the_pseudo_language_is_two_fifths_longer(text: str) -> None:
    letters = sum(sign.isalpha() for sign in text)
    with speaking(find_language(PSEUDO)):
        grown = len(tr(text)) - len(text)
    assert grown == int(letters * 0.4 + 1e-9)


def test_german_knows_where_its_compounds_part_and_english_needs_no_seams() -> None:
    assert ENGLISH.seams == ()
    assert find_language("es").seams == ()
    assert "kniebeuge" in find_language("de-AT").seams
    assert all(part.isalpha() and part.islower() for part in find_language("de").seams)


# -- exercises -------------------------------------------------------------------------------------


@pytest.mark.parametrize("family", ["de", "es"])
def test_the_words_of_an_exercise_stand_in_the_file_of_its_own_name(family: str) -> None:
    files = names_in(f"{EXERCISES}/{family}", ".toml")
    assert files
    for file in files:
        words = read_toml(file)
        english = read_toml(f"exercises/{file.rpartition('/')[2]}")
        assert list(words) == [key for key in english if key in words], file


@pytest.mark.parametrize("family", ["", "en", "xx", ".."])
def test_no_words_of_exercises_are_found_where_none_are_shipped(family: str) -> None:
    assert exercise_texts(family) == {}


def test_a_catalogue_speaks_a_language_as_far_as_it_can() -> None:
    squat, added = (ExerciseKey(key) for key in ("back_squat", "added"))
    shipped = resources.catalogue()
    shipped = shipped.with_own((replace(shipped[squat], key=added, name="Added"),))
    spoken = spoken_catalogue(shipped, "de-CH")
    assert spoken[squat].name == "Kniebeuge mit Langhantel"
    assert spoken[squat].speaks("de")
    assert spoken[added] == shipped[added]
    assert not spoken[added].speaks("de")
    assert spoken_catalogue(shipped, "") is shipped
    assert spoken_catalogue(shipped, "en") is shipped


def test_a_coachs_own_exercise_speaks_by_its_own_texts_alone() -> None:
    shipped = resources.catalogue()
    words = ExerciseText("de", "Meine Kniebeuge")
    own = replace(shipped[ExerciseKey("back_squat")], own=True, texts=(words,))
    spoken = spoken_catalogue(shipped.with_own((own,)), "de")[own.key]
    assert spoken.name == "Meine Kniebeuge"
    assert spoken.cues == own.cues
