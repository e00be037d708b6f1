from __future__ import annotations

import threading
from datetime import date

import pytest

from app.domain.wording import (
    ENGLISH,
    DateForm,
    English,
    Language,
    date_text,
    language,
    listing,
    mark,
    mid_sentence,
    number_as_spoken,
    speaking,
    tr,
    trn,
)


class Loud(English):
    def gettext(self, message: str, /) -> str:
        return message.upper().replace("{NAME}", "{name}")

    def ngettext(self, msgid1: str, msgid2: str, n: int, /) -> str:
        return "{n} !" if n == 1 else "{n} !!"


LOUD = Language("x-loud", Loud(), ",")


def test_english_is_what_stands_in_the_code() -> None:
    assert tr("Move {name} to {day}", name="Row", day="Monday") == "Move Row to Monday"
    assert trn("{n} set of {name}", "{n} sets of {name}", 3, name="row") == "3 sets of row"
    assert mark("Sets") == "Sets"


def test_a_text_without_places_may_hold_braces() -> None:
    assert tr("a {brace}") == "a {brace}"


def test_a_language_is_spoken_inside_its_block_only() -> None:
    with speaking(LOUD):
        assert tr("Row {name}", name="a") == "ROW a"
        assert trn("{n} set", "{n} sets", 2) == "2 !!"
        assert language().decimal == ","
    assert language() is ENGLISH
    assert tr("Row") == "Row"


def test_another_thread_speaks_its_own_language() -> None:
    heard: list[str] = []
    with speaking(LOUD):
        thread = threading.Thread(target=lambda: heard.append(tr("Row")))
        thread.start()
        thread.join()
    assert heard == ["Row"]


def test_the_empty_text_stays_empty() -> None:
    # gettext answers the empty text with the head of its catalogue
    with speaking(LOUD):
        assert tr("") == ""


def test_numbers_in_a_template_get_the_signs_of_the_language() -> None:
    comma = Language("x-comma", English(), ",", ".")
    with speaking(comma):
        assert tr("{kcal:,.1f} kcal in {weeks}", kcal=2660.5, weeks=4) == "2.660,5 kcal in 4"
        assert number_as_spoken("1,000.5") == "1.000,5"
    assert tr("{kcal:,.1f} kcal", kcal=2660.5) == "2,660.5 kcal"


@pytest.mark.parametrize(
    ("form", "text"),
    [
        (DateForm.DAY, "4 Oct"),
        (DateForm.LONG_DAY, "4 October"),
        (DateForm.DATE, "4 Oct 2030"),
        (DateForm.LONG_DATE, "4 October 2030"),
        (DateForm.MONTH, "Oct"),
        (DateForm.LONG_MONTH, "October"),
    ],
)
def test_english_dates_have_the_month_in_letters(form: DateForm, text: str) -> None:
    assert date_text(date(2030, 10, 4), form) == text


def test_a_fraction_counts_as_many() -> None:
    assert trn("{n} set", "{n} sets", 0.5) == "0.5 sets"
    with speaking(LOUD):
        assert trn("{n} set", "{n} sets", 1.5) == "1,5 !!"


def test_names_stand_small_inside_a_sentence_where_the_language_has_them_so() -> None:
    assert mid_sentence("Gluteals") == "gluteals"
    with speaking(Language("x-de", lowers_nouns=False)):
        assert mid_sentence("Gluteals") == "Gluteals"


def test_a_listing_names_the_last_after_and() -> None:
    assert [listing(["a"]), listing(["a", "b"]), listing(["a", "b", "c"])] == [
        "a",
        "a and b",
        "a, b and c",
    ]
    assert listing([]) == ""


def test_per_cent_stands_apart_where_the_language_has_it_so() -> None:
    assert tr("{share:.0%} of energy", share=0.3) == "30% of energy"
    with speaking(Language("xx", decimal=",", group=".")):
        assert tr("{share:.0%} of energy", share=0.3) == "30\N{NO-BREAK SPACE}% of energy"
        assert tr("{change:+.1%}", change=-0.105) == "-10,5\N{NO-BREAK SPACE}%"
