"""JSON text that can be read and compared, and JSON text from strangers."""

from __future__ import annotations

import json

import pytest

from app.domain.errors import PlanFileError
from app.exchange.json_text import MOST_BYTES, WIDTH, read_json, write_json


def test_what_fits_a_line_stands_on_one() -> None:
    record = {"a": [1, 2], "b": {"c": "x" * 60, "d": list(range(40))}}
    text = write_json(record)
    assert json.loads(text) == record
    assert '  "a": [1, 2],\n' in text
    assert text.endswith("}\n")


def test_no_line_that_could_be_opened_up_is_too_long() -> None:
    text = write_json({"a": [{"b": [{"c": "y" * 30}] * 5}] * 3})
    assert max(map(len, text.splitlines())) <= WIDTH


@pytest.mark.parametrize(
    ("data", "says"),
    [
        (b"", "line 1, column 1: The text stops being JSON"),
        (b'{"a": 1,\n"b": }', "line 2, column 6"),
        (b"\xff\xfe\x00", "Byte 0 is not UTF-8"),
        (b'{"a": 1, "a": 2}', "The field 'a' stands twice"),
        (b'{"a": NaN}', "NaN is not a number"),
        (b'{"a": -Infinity}', "-Infinity is not a number"),
        (b"[" * 100_000, "nested too deeply"),
        (b"1" * 5000, "endless number"),
        (b" " * (MOST_BYTES + 1), "at most 20,971,520"),
    ],
    ids=["empty", "cut", "not-text", "twice", "nan", "infinite", "deep", "digits", "large"],
)
def test_other_bytes_are_refused_by_file_and_place(data: bytes, says: str) -> None:
    with pytest.raises(PlanFileError, match="mine.json") as refused:
        read_json(data, source="mine.json")
    assert says in refused.value.sentence


def test_a_byte_order_mark_does_no_harm() -> None:
    assert read_json(b"\xef\xbb\xbf[1]", source="mine.json") == [1]
