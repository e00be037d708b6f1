"""The packed form: bounded, exact, and refused whole where anything is odd."""

from __future__ import annotations

import csv
import io
import json
import random
import time
import zipfile
from collections.abc import Callable
from pathlib import Path
from typing import Any

import pytest
from hypothesis import given
from hypothesis import strategies as st
from jsonschema import Draft202012Validator

from app.exchange import whole_file
from app.exchange.whole_file import (
    MANIFEST,
    VERSION,
    Row,
    WholeFileError,
    open_whole,
    write_whole,
)
from app.whole import published

ROWS: dict[str, list[dict[str, Any]]] = {
    "coach": [{"id": 1, "name": "=cmd|' /C calc'!A0", "contact": "a\nb", "team": "Łukasz “x”"}],
    "settings": [],
}


def packed(rows: dict[str, list[dict[str, Any]]] = ROWS, pictures=(("a.jpg", b"jpeg"),)) -> bytes:
    out = io.BytesIO()
    write_whole(
        out,
        schema="0002",
        tables=((n, tuple(r[0]) if r else ("key",), iter(r)) for n, r in rows.items()),
        pictures=pictures,
        published="{}",
    )
    return out.getvalue()


@pytest.fixture
def path(tmp_path: Path) -> Path:
    return tmp_path / "all.weekloom.zip"


def read(path: Path) -> tuple[dict[str, list[Row]], dict[str, bytes]]:
    with open_whole(path, published=published()) as found:
        tables = {name: list(rows) for name, rows in found.tables()}
        return tables, dict(found.pictures())


def changed(data: bytes, change: Callable[[dict[str, bytes]], object]) -> bytes:
    """The same file packed again after `change` of its entries."""
    with zipfile.ZipFile(io.BytesIO(data)) as old:
        entries = {name: old.read(name) for name in old.namelist()}
    change(entries)
    out = io.BytesIO()
    with zipfile.ZipFile(out, "w", zipfile.ZIP_DEFLATED) as new:
        for name, content in entries.items():
            new.writestr(name, content)
    return out.getvalue()


def refused(path: Path, data: bytes) -> WholeFileError:
    path.write_bytes(data)
    started = time.monotonic()
    with pytest.raises(WholeFileError) as error:
        read(path)
    assert time.monotonic() - started < 20
    assert str(path) in error.value.sentence
    assert error.value.mend
    return error.value


def test_rows_and_pictures_come_back_as_they_were(path):
    path.write_bytes(packed())
    assert read(path) == (ROWS, {"a.jpg": b"jpeg"})


CELL = st.one_of(
    st.none(),
    st.integers(-(2**53), 2**53),
    st.floats(allow_nan=False, allow_infinity=False),
    st.text(st.characters(exclude_categories=["Cs"]), max_size=30),
)


@given(st.lists(st.fixed_dictionaries({"id": CELL, "note": CELL}), max_size=5))
def test_any_row_comes_back_exactly(tmp_path_factory, rows):
    path = tmp_path_factory.mktemp("whole") / "all.zip"
    path.write_bytes(packed({"coach": rows}, ()))
    assert read(path)[0] == {"coach": rows}


def test_the_same_content_packs_into_the_same_bytes():
    assert packed() == packed()


def test_the_manifest_fits_the_published_schema():
    with zipfile.ZipFile(io.BytesIO(packed())) as found:
        Draft202012Validator(published()).validate(json.loads(found.read(MANIFEST)))


def test_no_cell_for_a_spreadsheet_begins_a_formula():
    with zipfile.ZipFile(io.BytesIO(packed())) as found:
        text = found.read("csv/coach.csv").decode("utf-8-sig")
    head, row = csv.reader(io.StringIO(text, newline=""))
    assert head == ["id", "name", "contact", "team"]
    assert row == ["1", "'=cmd|' /C calc'!A0", "a\nb", "Łukasz “x”"]


def test_what_is_called_off_ends_early():
    out = io.BytesIO()
    manifest = write_whole(
        out,
        schema="0002",
        tables=[("coach", ("id",), iter([{"id": 1}]))],
        pictures=(),
        published="{}",
        cancelled=lambda: True,
    )
    assert manifest.rows == {}


# -- what is refused -----------------------------------------------------------------------------


def with_manifest(**fields: Any) -> bytes:
    def change(entries: dict[str, bytes]) -> None:
        record = json.loads(entries[MANIFEST])
        entries[MANIFEST] = json.dumps(record | fields).encode()

    return changed(packed(), change)


def add(name: str) -> Callable[[dict[str, bytes]], object]:
    return lambda entries: entries.update({name: b"x"})


def spoil(name: str, content: bytes) -> Callable[[dict[str, bytes]], object]:
    return lambda entries: entries.update({name: content})


@pytest.mark.parametrize(
    "name",
    [
        "../evil",
        "/etc/passwd",
        "tables/../../evil.jsonl",
        "tables/Evil.jsonl",
        "pictures/../x.jpg",
        "pictures/.hidden",
        "pictures\\x.jpg",
        "C:evil",
        "run.sh",
        "tables/",
        "pictures/b.jpg",
        "tables/clients.jsonl",
    ],
)
def test_a_name_that_has_no_place_there_is_refused(path, name):
    refused(path, changed(packed(), add(name)))


def test_a_newer_version_is_refused_by_name(path):
    assert str(VERSION + 1) in refused(path, with_manifest(version=VERSION + 1)).what


@pytest.mark.parametrize(
    "fields",
    [
        {"version": 0},
        {"version": "1"},
        {"format": "weekloom plan"},
        {"tables": {}},
        {"tables": []},
        {"schema": "../.."},
        {"more": 1},
        {"tables": {"coach": {"rows": -1, "sha256": "0" * 64}}},
    ],
)
def test_a_manifest_that_breaks_its_schema_is_refused(path, fields):
    refused(path, with_manifest(**fields))


@pytest.mark.parametrize(
    "line",
    [
        b"not json\n",
        b"[1, 2]\n",
        b'{"id": NaN}\n',
        b'{"id": 1, "id": 2}\n',
        b'{"id": {"a": 1}}\n',
        b"\xff\xfe\n",
        b"[" * 100_000 + b"\n",
        b'{"id": 1, "name": "other", "contact": "", "team": ""}\n',
        b"",
    ],
)
def test_a_line_that_is_no_row_or_another_row_is_refused(path, line):
    refused(path, changed(packed(), spoil("tables/coach.jsonl", line)))


def test_another_picture_is_refused(path):
    refused(path, changed(packed(), spoil("pictures/a.jpg", b"another")))


def test_a_bomb_is_refused_before_it_goes_off(path):
    bomb = changed(packed(), spoil("tables/coach.jsonl", b"0" * 200_000_000))
    assert len(bomb) < 1_000_000
    assert "too much room" in refused(path, bomb).what


def test_too_many_entries_are_refused(path, monkeypatch):
    monkeypatch.setattr(whole_file, "MOST_ENTRIES", 3)
    assert "too much room" in refused(path, packed()).what


def test_a_huge_file_is_refused_unread(path, monkeypatch):
    monkeypatch.setattr(whole_file, "MOST_PACKED", 10)
    assert "too much room" in refused(path, packed()).what


def test_a_name_twice_is_refused(path):
    out = io.BytesIO(packed())
    with zipfile.ZipFile(out, "a") as more, pytest.warns(UserWarning, match="Duplicate name"):
        more.writestr(MANIFEST, "{}")
    refused(path, out.getvalue())


def test_a_link_is_refused(path):
    out = io.BytesIO(packed())
    with zipfile.ZipFile(out, "a") as more:
        link = zipfile.ZipInfo("pictures/b.jpg")
        link.external_attr = 0o120777 << 16
        more.writestr(link, "/etc/passwd")
    refused(path, out.getvalue())


@pytest.mark.parametrize("data", [b"", b"text", b"PK\x03\x04", b"PK\x05\x06" + b"\0" * 18])
def test_what_is_no_packed_file_is_refused(path, data):
    refused(path, data)


def test_random_damage_is_always_refused_or_does_no_harm(path):
    whole, chance = packed(), random.Random(20261129)
    for _ in range(200):
        data = bytearray(whole)
        for _ in range(chance.randint(1, 16)):
            data[chance.randrange(len(data))] ^= chance.randrange(1, 256)
        path.write_bytes(data)
        try:
            found = read(path)
        except WholeFileError:
            continue
        assert found[0] == ROWS
