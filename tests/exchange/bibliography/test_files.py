"""Files of references in any form."""

from __future__ import annotations

import json
from contextlib import suppress

import pytest
from hypothesis import given
from hypothesis import strategies as st

from app.exchange.bibliography import files
from app.exchange.bibliography.files import (
    LABELS,
    SUFFIXES,
    Form,
    form_of,
    read_references,
    write_references,
)
from app.exchange.bibliography.record import BibliographyError
from tests.exchange.bibliography.samples import KEPT, record


@pytest.mark.parametrize("form", list(Form))
def test_every_form_is_known_by_what_it_holds(form: Form) -> None:
    data = write_references(KEPT, form)
    assert form_of(data.decode()) is form
    found = read_references(data, source="a")
    assert len(found.records) == len(KEPT)
    assert found.left_out == ()
    assert set(LABELS) == set(SUFFIXES) == set(Form)


def test_what_cannot_be_taken_is_told_and_the_rest_is() -> None:
    data = json.dumps([record(), {"id": "x"}, 3, record(id="b", author=[])]).encode()
    found = read_references(data, source="a.json")
    assert [one["id"] for one in found.records] == ["estvik2020"]
    assert found.left_out[0] == "Reference 2 (x): It has no title."
    assert len(found.left_out) == 3


def test_ids_that_are_taken_are_not_given_again() -> None:
    data = write_references([record()], Form.RIS)
    (one,) = read_references(data, source="a", taken=["estvik2020"]).records
    assert one["id"] == "estvik2020-2"


@pytest.mark.parametrize(
    "data", [b"", b"hello", b"\x89PNG\r\n\x1a\n\0\0\0\0\0\0\0\0\0\0", b"[]", b"[1]"]
)
def test_what_is_no_such_file_is_refused_with_its_name(data: bytes) -> None:
    with pytest.raises(BibliographyError) as caught:
        read_references(data, source="mine.bib")
    assert caught.value.where == "mine.bib"
    assert caught.value.mend


def test_too_many_or_too_large_is_refused(monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr(files, "MOST", 1)
    with pytest.raises(BibliographyError, match="2 references"):
        read_references(write_references([record(), record()], Form.CSL_JSON), source="a")
    monkeypatch.setattr(files, "MOST_BYTES", 10)
    with pytest.raises(BibliographyError, match="at most 10"):
        read_references(b"x" * 11, source="a")


def test_older_encodings_are_read() -> None:
    text = "TY  - JOUR\nAU  - Müller, Jörg\nTI  - Über Grate und Größe der Übungen\nER  - \n"
    (one,) = read_references(text.encode("cp1252"), source="a.ris").records
    assert one["author"] == [{"family": "Müller", "given": "Jörg"}]


@given(st.binary(max_size=300) | st.text(max_size=300).map(lambda t: t.encode("utf-8", "replace")))
def test_any_bytes_are_read_or_refused(data: bytes) -> None:
    with suppress(BibliographyError):
        read_references(data, source="a")
