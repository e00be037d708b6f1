"""CSL-JSON, out and in."""

from __future__ import annotations

import json

import pytest
from hypothesis import given

from app.exchange.bibliography import csl_json
from app.exchange.bibliography.record import BibliographyError, kept
from tests.exchange.bibliography.samples import HOSTILE, KEPT, record, records


def test_every_shipped_reference_comes_back() -> None:
    assert [kept(one) for one in csl_json.read(csl_json.write(KEPT))] == KEPT


@pytest.mark.parametrize("text", HOSTILE)
def test_hostile_texts_come_back(text: str) -> None:
    one = kept(record(title=text, author=[{"literal": text}]))
    assert kept(csl_json.read(csl_json.write([one]))[0]) == one


def test_the_doi_is_a_link() -> None:
    (one,) = json.loads(csl_json.write([record(DOI="10.1000/x")]))
    assert one["URL"] == "https://doi.org/10.1000/x"


@pytest.mark.parametrize("text", ["", "{", "3", '"x"', "[" * 100_000])
def test_what_is_no_list_is_refused(text: str) -> None:
    with pytest.raises(BibliographyError):
        csl_json.read(text)


@pytest.mark.parametrize(
    ("text", "held"),
    [
        ("[]", True),
        ('\ufeff [{"title": "x"}]', True),
        ('{"items": []}', True),
        ('{"title": "x"}', True),
        ('{"format": "weekloom plan", "title": "x"}', False),
        ('{"client": {}}', False),
        ("{", False),
        ("3", False),
        ("{" * 100_000, False),
    ],
)
def test_references_are_told_from_other_json(text: str, *, held: bool) -> None:
    assert csl_json.holds(text) is held


def test_a_single_record_is_a_list_of_one() -> None:
    assert csl_json.read('{"title": "x"}') == [{"title": "x"}]
    assert csl_json.read('{"items": []}') == []


@given(records)
def test_any_reference_comes_back(one: dict) -> None:
    assert kept(csl_json.read(csl_json.write([one]))[0]) == kept(one)
