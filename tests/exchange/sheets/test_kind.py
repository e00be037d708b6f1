"""Files are told by how they begin."""

from __future__ import annotations

import pytest

from app.exchange.sheets.kind import Kind, kind_of
from app.exchange.sheets.sheet import SheetError

ZIP = b"PK\x03\x04rest"


@pytest.mark.parametrize(
    ("data", "what"),
    [
        (b"\xd0\xcf\x11\xe0\xa1\xb1\x1a\xe1...", "old or a locked workbook"),
        (b"%PDF-1.7", "a PDF"),
        (b"\x89PNG\r\n", "a picture"),
        (b"SQLite format 3\0", "a database"),
        (b"\x1f\x8b\x08", "a packed file"),
        (b"MZ\x90", "a program"),
        (b"<html><table>", "a web page"),
        (b"\xef\xbb\xbf <?xml version='1.0'?>", "a web page"),
        (b"  \r\n ", "empty"),
        (b"", "empty"),
    ],
)
@pytest.mark.parametrize("name", ["plan.csv", "plan.xlsx"])
def test_what_is_no_table_is_refused_whatever_its_name(data: bytes, what: str, name: str) -> None:
    with pytest.raises(SheetError, match=what) as caught:
        kind_of(data, source=name)
    assert caught.value.where == name
    assert caught.value.mend


def test_a_renamed_file_is_refused() -> None:
    with pytest.raises(SheetError, match="no workbook"):
        kind_of(b"a;b", source="plan.xlsx")
    with pytest.raises(SheetError, match="packed like a workbook"):
        kind_of(ZIP, source="Plan.CSV")


def test_the_rest_is_read() -> None:
    assert kind_of(b"a;b", source="plan.csv") is Kind.TEXT
    assert kind_of(b"a;b", source="plan") is Kind.TEXT
    assert kind_of(ZIP, source="plan.xlsx") is Kind.WORKBOOK
