"""Texts that a spreadsheet could run, and how they come back."""

from __future__ import annotations

import pytest
from hypothesis import given
from hypothesis import strategies as st

from app.exchange.tables.cell import STARTS, guarded, unguarded

HOSTILE = ("=", "+", "-", "@", "\t", "\0", "\r", "\n", "'")


@pytest.mark.parametrize("first", HOSTILE)
def test_a_text_that_could_be_run_gets_a_quote(first: str) -> None:
    text = f"{first}HYPERLINK(1)"
    assert first in STARTS
    assert guarded(text) == f"'{text}"
    assert unguarded(guarded(text)) == text


def test_an_ordinary_text_stays_as_it_is() -> None:
    assert guarded("Back squat, 3-0-1-0") == "Back squat, 3-0-1-0"
    assert unguarded("'tis a note") == "'tis a note"
    assert guarded("") == unguarded("") == ""


@given(st.text())
def test_every_text_comes_back(text: str) -> None:
    assert unguarded(guarded(text)) == text
    assert guarded(text)[:1] not in STARTS - {"'"}
