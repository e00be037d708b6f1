"""RIS, out and in, through the library."""

from __future__ import annotations

from typing import Any

import pytest
import rispy
from hypothesis import given
from hypothesis import strategies as st

from app.exchange.bibliography import ris
from app.exchange.bibliography.record import BibliographyError, kept, text_of
from tests.exchange.bibliography.samples import HOSTILE, KEPT, identified, record, records

SAME = ("type", "title", "author", "editor", "issued", "volume", "page", "DOI", "publisher")


def back(*several: dict[str, Any]) -> list[dict[str, Any]]:
    return [kept(one) for one in ris.read(ris.write(several))]


def test_every_shipped_reference_comes_back() -> None:
    for before, after in zip(KEPT, back(*KEPT), strict=True):
        assert after["id"] == before["id"]
        for field in SAME:
            assert after.get(field) == before.get(field), (before["id"], field)


@pytest.mark.parametrize("text", HOSTILE)
def test_hostile_texts_come_back_and_stay_one_entry(text: str) -> None:
    (made,) = back(identified(title=text))
    assert made["title"] == text_of(text)


def test_the_library_reads_what_was_written() -> None:
    entries = rispy.loads(ris.write(KEPT))
    assert len(entries) == len(KEPT)
    assert all(
        entry.get("title") and entry.get("authors", entry.get("secondary_authors"))
        for entry in entries
    )


def test_the_doi_is_a_link_as_well() -> None:
    assert "UR  - https://doi.org/10.1000/x" in ris.write([record(DOI="10.1000/x")])


def test_what_others_write_is_read() -> None:
    text = "TY  - JOUR\nA1  - Estvik, R.\nT1  - On ridges\nJF  - Lifting\nY1  - 2019/05/\nER  - \n"
    made = kept(ris.read(text)[0])
    assert made["author"] == [{"family": "Estvik", "given": "R."}]
    assert made["issued"] == {"date-parts": [[2019]]}


@pytest.mark.parametrize("text", ["", "nothing at all", "ER  - "])
def test_what_holds_no_entry_is_refused(text: str) -> None:
    with pytest.raises(BibliographyError):
        ris.read(text)


@given(st.text(max_size=200).map(lambda text: f"TY  - JOUR\n{text}"))
def test_any_text_is_read_or_refused(text: str) -> None:
    try:
        ris.read(text)
    except BibliographyError:
        return


@given(records)
def test_any_title_comes_back(one: dict) -> None:
    made = kept(one)
    (got,) = ris.read(ris.write([made]))
    assert got["title"] == made["title"]
