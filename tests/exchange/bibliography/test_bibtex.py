"""BibTeX, out and in, through the library."""

from __future__ import annotations

from typing import Any

import pytest
from bibtexparser.entrypoint import parse_string
from hypothesis import given
from hypothesis import strategies as st

from app.exchange.bibliography import bibtex
from app.exchange.bibliography.record import BibliographyError, kept, text_of
from tests.exchange.bibliography.samples import HOSTILE, KEPT, identified, record, records

SAME = ("type", "title", "author", "editor", "issued", "volume", "page", "DOI", "publisher")


def back(*several: dict[str, Any]) -> list[dict[str, Any]]:
    return [kept(one) for one in bibtex.read(bibtex.write(several))]


def test_every_shipped_reference_comes_back() -> None:
    for before, after in zip(KEPT, back(*KEPT), strict=True):
        assert after["id"] == before["id"]
        for field in SAME:
            got, meant = after.get(field), before.get(field)
            if field in ("author", "editor") and meant:
                assert [_said(one) for one in got] == [_said(one) for one in meant]
            else:
                assert got == meant, before["id"]


def _said(name: dict[str, str]) -> str:
    return name.get("literal") or f"{name['family']}, {name.get('given', '')}".strip(", ")


@pytest.mark.parametrize("text", HOSTILE)
def test_hostile_texts_come_back_and_stay_one_entry(text: str) -> None:
    one = identified(title=text, author=[{"literal": text}])
    (made,) = back(one)
    assert made["title"] == text_of(text)
    assert made["author"] == [{"literal": text_of(text)}]


def test_the_library_finds_nothing_wrong() -> None:
    library = parse_string(bibtex.write(KEPT))
    assert len(library.entries) == len(KEPT)
    assert library.failed_blocks == []


def test_the_doi_is_a_link_as_well() -> None:
    assert "https://doi.org/10.1000/x" in bibtex.write([record(DOI="10.1000/x")])


def test_what_others_write_is_read() -> None:
    text = r"""
    @InProceedings{key:1,
      author = "Estvik, Runa and {Ridge Team} and J{\"o}rg M{\"u}ller",
      title = {The {RIR} of $x$ at 50\,\%},
      booktitle = "Proc. of {Lifting}", pages = {1--9}, year = 2019,
      url = {https://doi.org/10.1000/abc},
    }
    """
    made = kept(bibtex.read(text)[0])
    assert made["type"] == "paper-conference"
    assert made["author"] == [
        {"family": "Estvik", "given": "Runa"},
        {"literal": "Ridge Team"},
        {"family": "Müller", "given": "Jörg"},
    ]
    assert made["title"].startswith("The RIR of")
    assert (made["page"], made["DOI"]) == ("1-9", "10.1000/abc")


@pytest.mark.parametrize("text", ["", "nothing", "@comment{x}", "@article{"])
def test_what_holds_no_entry_is_refused(text: str) -> None:
    with pytest.raises(BibliographyError):
        bibtex.read(text)


@given(st.text(max_size=200).map(lambda text: f"@article{{{text}"))
def test_any_text_is_read_or_refused(text: str) -> None:
    try:
        bibtex.read(text)
    except BibliographyError:
        return


@given(records)
def test_any_title_comes_back(one: dict) -> None:
    made = kept(one)
    (got,) = bibtex.read(bibtex.write([made]))
    assert got["title"] == made["title"]
    assert len(got["author"]) == len(made["author"])


def test_two_of_one_key_are_two_entries() -> None:
    made = bibtex.read(bibtex.write([record(), record(title="Another")]))
    assert [one["id"] for one in made] == ["estvik2020", "estvik2020-2"]
