"""Letters, widths and line breaks."""

from __future__ import annotations

from pathlib import Path

import pytest
from fontTools.ttLib import TTFont
from hypothesis import given
from hypothesis import strategies as st

from app.booklet import fonts
from app.booklet.fonts import (
    BODY,
    NAME,
    SMALLEST_PT,
    TITLE,
    BookletError,
    Face,
    Style,
    one_line,
    open_faces,
    refuse_missing,
)
from app.domain.wording import speaking
from app.resources.languages import find_language
from tests.booklet.sample import FONTS

FACES = open_faces(FONTS)
WORDS = st.lists(st.text("abcdefgh -/éЖλ漢", min_size=1, max_size=30), max_size=12).map(" ".join)


@given(WORDS, st.floats(6, 80))
def test_no_line_is_wider_than_asked_and_no_letter_is_lost(text: str, width: float):
    lines = FACES.wrap(text, BODY, width)
    for line in lines:
        assert FACES.width_mm(line, BODY) <= width or len(line) == 1
    assert "".join(lines).replace(" ", "") == one_line(text).replace(" ", "")


def test_a_long_word_breaks_after_its_hyphen_first():
    lines = FACES.wrap("Преображенская-Вознесенская", NAME, 40)
    assert lines == ("Преображенская-", "Вознесенская")


@pytest.mark.parametrize(
    ("word", "lines"),
    [
        ("Schrägbankdrücken mit", ("Schrägbank-", "drücken mit")),
        ("Kraft", ("Kraft",)),
    ],
)
def test_a_compound_breaks_at_a_seam_of_its_language(word: str, lines: tuple[str, ...]):
    with speaking(find_language("de")):
        assert FACES.wrap(word, NAME, 36) == lines


@given(st.lists(st.sampled_from(["Kraft", "knie", "heben", "übung", "x"]), min_size=1).map("".join))
def test_a_seam_adds_a_hyphen_and_takes_no_letter(word: str):
    with speaking(find_language("de")):
        lines = FACES.wrap(word, NAME, 20)
    assert all(FACES.width_mm(line, NAME) <= 20 for line in lines)
    assert "".join(line.removesuffix("-") for line in lines) == word


def test_an_empty_text_gives_no_line():
    assert FACES.wrap("  \n ", BODY, 50) == ()


@pytest.mark.parametrize("letter", "−≤≥≈→")
def test_signs_that_the_text_font_lacks_are_lent_by_the_title_font(letter: str):
    assert letter not in FACES.letters[Face.SANS]
    assert FACES.runs(f"a {letter} b", Face.SANS) == (
        (Face.SANS.value, "a "),
        (Face.SERIF.value, letter),
        (Face.SANS.value, " b"),
    )
    assert FACES.missing(letter, Face.SANS) == ()


def test_widths_are_those_of_the_font_file():
    with TTFont(FONTS / f"{Face.BOLD.value}.ttf") as font:
        widths, letters = font["hmtx"].metrics, font.getBestCmap()
        units = font["head"].unitsPerEm
        expected = sum(widths[letters[ord(c)]][0] for c in "Łukasz 62.5") / units
    measured = FACES.width_mm("Łukasz 62.5", Style(Face.BOLD, 72, 72))
    assert measured == pytest.approx(expected * 25.4, rel=2e-3)


def test_figures_are_all_equally_wide():
    assert len({FACES.width_mm(c, BODY) for c in "0123456789"}) == 1


@pytest.mark.parametrize(
    ("raw", "clean"),
    [
        ("a\nb\tc", "a b c"),
        ("  a  b ", "a b"),
        ("e\u0301", "é"),
        ("a\u200bb\x07\ufeff", "ab"),
        ("4\u00a0×\u00a08", "4\u00a0×\u00a08"),
    ],
)
def test_a_text_becomes_one_clean_line(raw: str, clean: str):
    assert one_line(raw) == clean


@given(st.text(max_size=60))
def test_cleaning_twice_is_cleaning_once(text: str):
    assert one_line(one_line(text)) == one_line(text)


def test_missing_letters_are_all_named_with_their_texts():
    with pytest.raises(BookletError) as told:
        refuse_missing({"漢": "漢 Runa", "\U0001f3cb": "lift \U0001f3cb"})
    assert "WEIGHT LIFTER" in told.value.what
    assert "“漢 Runa”" in told.value.where
    assert told.value.mend


def test_nothing_is_refused_where_nothing_is_missing():
    refuse_missing({})


def test_a_folder_without_fonts_is_told_as_such(tmp_path: Path):
    with pytest.raises(BookletError, match="NotoSans-Regular.ttf cannot be read"):
        open_faces(tmp_path)


def test_no_style_is_smaller_than_nine_points():
    styles = [value for value in vars(fonts).values() if isinstance(value, Style)]
    assert TITLE in styles
    assert min(style.size for style in styles) == SMALLEST_PT == 9


@pytest.mark.parametrize("sample", ["ẞ", "ấ", "ἆ", "Ђ", "Қ", "ș", "ő", "ģ"])
def test_both_families_have_the_letters_of_three_scripts(sample: str):
    for face in Face:
        assert sample in FACES.letters[face]
