"""Everything that is held stands on the paper, in letters that the fonts have."""

from __future__ import annotations

from dataclasses import replace
from pathlib import Path

import pytest

from app import resources
from app.booklet.record_book import MOST_EDITS, SPOKEN, make_record_book
from app.domain.client import Client
from app.domain.holding import Holding
from app.domain.results import Diary
from app.domain.wording import speaking
from app.resources.languages import NAMES, find_language
from tests.booklet.reading_pdf import Printed
from tests.db.samples import COACH, DIARY, PLAN, RUNA
from tests.domain.test_holding import HOLDING

FONTS = resources.path_of("fonts")
ROOT = Path(__file__).resolve().parents[2]


def text_of(holding: Holding) -> str:
    printed = Printed(make_record_book(holding, resources.catalogue(), fonts=FONTS))
    return " ".join(" ".join(printed.text(page).split()) for page in range(1, len(printed) + 1))


def test_every_part_of_the_record_is_there():
    said = text_of(HOLDING)
    for words in (
        RUNA.name,
        COACH.name,
        "28 February 1994",
        "181.5 cm",
        "74.25 kg",
        "55.5 kg",
        RUNA.contact,
        "rope partner",
        "Limitations",
        "Knee · bending",
        "Screenings",
        "62.5 kg for 5 repetitions, 1.5 in reserve",
        PLAN.name,
        "nights",
        "drove",
        "waist 78.5 cm",
        "2026-01-11-front.jpg",
        "52.5 x 10 RIR 2",
        "Booklets handed out",
        "Add client",
        "signed",
    ):
        assert words in said, words


def test_the_same_holding_gives_the_same_bytes():
    made = [make_record_book(HOLDING, resources.catalogue(), fonts=FONTS) for _ in range(2)]
    assert made[0] == made[1]


def test_a_letter_without_a_font_is_a_question_mark_and_no_failure():
    odd = replace(RUNA, name="Runa \U0001f9ff")
    assert "Runa ?" in text_of(replace(HOLDING, client=odd))


def test_next_to_nothing_makes_one_page():
    bare = Holding(HOLDING.on, replace(COACH, name=""), Client(RUNA.id, "Oda Vik"), (), Diary())
    assert len(Printed(make_record_book(bare, resources.catalogue(), fonts=FONTS))) == 1


def test_a_long_list_of_edits_is_cut_and_says_so():
    many = replace(HOLDING, edits=HOLDING.edits * (MOST_EDITS + 5))
    said = text_of(many)
    assert said.count("Add client") == MOST_EDITS
    assert "person.json has all of them" in said


def test_what_was_left_out_is_said():
    left_out = replace(DIARY.results[0], sets=())
    assert "left out" in text_of(replace(HOLDING, diary=Diary((), (left_out,))))


@pytest.mark.parametrize("code", [code for code in NAMES if code != "en"])
def test_every_value_that_is_read_as_a_word_is_translated(code: str):
    said = (ROOT / f"resources/languages/{code}.po").read_text(encoding="utf-8")
    words = {member.value.replace("_", " ") for one in SPOKEN for member in one}
    assert [word for word in sorted(words) if f'msgid "{word}"' not in said] == []


def test_the_record_is_read_in_another_language_throughout():
    with speaking(find_language("es")):
        text = text_of(HOLDING)
    for english in (", rest", "% of RM", "intermediate", "hypertrophy", "knee", "bending"):
        assert english not in text
    assert "descanso " in text
