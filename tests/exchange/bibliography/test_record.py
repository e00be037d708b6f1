"""One reference and what of it is kept."""

from __future__ import annotations

from typing import Any

import pytest
from hypothesis import given
from hypothesis import strategies as st

from app.exchange.bibliography.record import (
    BibliographyError,
    doi_link,
    doi_of,
    kept,
    name_from,
    name_text,
    names_of,
    text_of,
    with_ids,
    year_of,
)
from tests.exchange.bibliography.samples import SHIPPED, record


def test_every_shipped_reference_is_kept_with_what_it_says() -> None:
    for one in SHIPPED:
        made = kept(one)
        for field in ("title", "volume", "page", "DOI", "container-title"):
            assert made.get(field) == one.get(field)
        assert year_of(made) == year_of(one)


@pytest.mark.parametrize(
    ("text", "doi"),
    [
        ("10.1000/abc.1", "10.1000/abc.1"),
        ("https://doi.org/10.1000/a%28b%29", "10.1000/a(b)"),
        ("doi:10.1000/abc.", "10.1000/abc"),
        ("none", ""),
        (None, ""),
    ],
)
def test_a_doi_is_found(text: Any, doi: str) -> None:
    assert doi_of(text) == doi


def test_a_doi_is_a_link() -> None:
    assert doi_link("10.1000/a<b>") == "https://doi.org/10.1000/a%3Cb%3E"
    assert doi_of(doi_link("10.1000/a<b>#c")) == "10.1000/a<b>#c"


@pytest.mark.parametrize("fields", [{"title": ""}, {"title": 3.5, "author": []}, {"author": "x"}])
def test_without_a_title_or_an_author_it_is_refused(fields: dict[str, Any]) -> None:
    with pytest.raises(BibliographyError, match="has no"):
        kept(record(**fields))


def test_only_links_that_lead_to_the_web_are_kept() -> None:
    assert "URL" not in kept(record(URL="javascript:alert(1)"))
    assert "URL" not in kept(record(URL="file:///etc/passwd"))
    assert kept(record(URL="https://a.test/x"))["URL"] == "https://a.test/x"
    assert kept(record(URL="https://doi.org/10.1000/x"))["DOI"] == "10.1000/x"


@pytest.mark.parametrize(
    ("text", "name"),
    [
        ("Estvik, Runa", {"family": "Estvik", "given": "Runa"}),
        ("Runa M. Estvik", {"family": "Estvik", "given": "Runa M."}),
        ("ACSM", {"literal": "ACSM"}),
        ("Estvik,", {"literal": "Estvik"}),
    ],
)
def test_a_name_is_read(text: str, name: dict[str, str]) -> None:
    assert name_from(text) == name
    assert name_text(name_from(name_text(name))) == name_text(name)


def test_names_without_anything_are_left_out() -> None:
    assert names_of([{}, 3, {"family": ""}, {"literal": "ACSM"}]) == [{"literal": "ACSM"}]
    assert names_of("x") == []


@pytest.mark.parametrize(
    ("issued", "year"),
    [
        ({"date-parts": [[2020, 3]]}, 2020),
        ({"date-parts": [["2020"]]}, 2020),
        ({"raw": "May 2019"}, 2019),
        ({}, None),
        (None, None),
        ("2020", None),
    ],
)
def test_a_year_is_read(issued: Any, year: int | None) -> None:
    assert year_of(record(issued=issued)) == year


def test_ids_are_plain_and_each_is_its_own() -> None:
    made = with_ids([record(), record(), record(id=""), record(id="../../x")], taken=["estvik2020"])
    assert [one["id"] for one in made] == ["estvik2020-2", "estvik2020-3", "estvik2020-4", "x"]


@given(st.dictionaries(st.sampled_from(list(record())), st.none() | st.text() | st.integers()))
def test_any_fields_are_kept_or_refused(fields: dict[str, Any]) -> None:
    try:
        made = kept(record(**fields))
    except BibliographyError:
        return
    assert made["title"] == text_of(made["title"])
