"""Texts in whatever encoding they were saved."""

from __future__ import annotations

import codecs
from contextlib import suppress

import pytest
from hypothesis import given
from hypothesis import strategies as st

from app.exchange.sheets.decoding import ENCODINGS, decode
from app.exchange.sheets.sheet import SheetError

GERMAN = "Woche;Übung;Sätze\r\n1;Kniebeuge (größte Tiefe);3\r\n" * 20
GREEK = "Εβδομάδα;Άσκηση;Σετ\r\n1;Κάθισμα με μπάρα;3\r\n" * 20
RUSSIAN = "Неделя;Упражнение;Подходы\r\n1;Приседания со штангой;3\r\n" * 20  # noqa: RUF001
POLISH = (
    "Tydzień;Ćwiczenie;Serie;Powtórzenia;Uwagi\r\n"
    "1;Przysiad ze sztangą;3;8;Nie śpiesz się, zatrzymaj na chwilę w dole\r\n"
    "1;Wyciskanie leżąc;3;10;Łopatki ściągnięte, łokcie bliżej ciała\r\n"
)


def read(data: bytes, **fields: str) -> str:
    return decode(data, source="a.csv", **fields).text


@pytest.mark.parametrize("text", [GERMAN, GREEK, RUSSIAN, POLISH])
@pytest.mark.parametrize(
    "encoding", ["utf-8", "utf-8-sig", "utf-16", "utf-32", "utf-16-le", "utf-16-be"]
)
def test_unicode_is_known_with_its_mark_and_utf_8_without(text: str, encoding: str) -> None:
    if encoding.startswith("utf-16-") and not text.isascii() and text is not GERMAN:
        return  # without a mark only Latin letters tell it
    assert read(text.encode(encoding)) == text


@pytest.mark.parametrize(
    ("text", "encoding"),
    [(GERMAN, "cp1252"), (GREEK, "cp1253"), (RUSSIAN, "cp1251"), (POLISH, "cp1250")],
)
def test_older_encodings_are_guessed_and_the_guess_is_said(text: str, encoding: str) -> None:
    decoded = decode(text.encode(encoding), source="a.csv")
    assert decoded.text == text
    assert decoded.encoding in decoded.remark


def test_an_encoding_that_was_chosen_is_kept_to() -> None:
    assert read(GERMAN.encode("mac_roman"), encoding="mac_roman") == GERMAN
    with pytest.raises(SheetError, match="cannot be read as utf-8"):
        read(b"\xff\xff", encoding="utf-8")
    with pytest.raises(SheetError, match="no-such"):
        read(b"a", encoding="no-such")


def test_two_encodings_in_one_file_are_read_line_by_line_and_said() -> None:
    data = "Übung;Sätze\n".encode() + "Kniebeuge größer;3\n".encode("cp1252") + b"Row;4\n"
    decoded = decode(data, source="a.csv")
    assert decoded.text == "Übung;Sätze\nKniebeuge größer;3\nRow;4\n"
    assert decoded.remark.startswith("1 line is not UTF-8")


@pytest.mark.parametrize("data", [bytes(200), bytes(range(32)) * 20, b"a;b\n" + bytes(40)])
def test_what_is_no_text_is_refused(data: bytes) -> None:
    with pytest.raises(SheetError, match=r"no text|cannot be read"):
        read(data)


def test_every_encoding_on_offer_exists() -> None:
    for name in ENCODINGS:
        codecs.lookup(name)


@given(st.binary(max_size=400))
def test_any_bytes_are_read_or_refused(data: bytes) -> None:
    with suppress(SheetError):
        assert isinstance(read(data), str)
