"""Faults against a schema, as a coach reads them."""

from __future__ import annotations

from typing import Any

import pytest
from jsonschema import Draft202012Validator

from app.exchange.faults import fault, near_words, path_text


def said(schema: dict[str, Any], record: Any) -> str:
    error = next(Draft202012Validator(schema).iter_errors(record))
    return fault(error, source="a.json").sentence


@pytest.mark.parametrize(
    ("schema", "record", "sentence"),
    [
        (
            {"type": "integer", "minimum": 1, "maximum": 20},
            0,
            "a.json, the file: 0 is out of range. Write a whole number from 1 to 20.",
        ),
        (
            {"type": "number", "minimum": 1},
            0.5,
            "a.json, the file: 0.5 is out of range. Write a number from 1 on.",
        ),
        ({"type": "boolean"}, 1, "a.json, the file: 1 is not true or false. Write true or false."),
        (
            {"type": "array", "uniqueItems": True},
            [1, 1],
            "a.json, the file: An entry stands twice. Keep each once.",
        ),
        (
            {"type": "array", "minItems": 2, "maxItems": 2},
            [1],
            "a.json, the file: There are 1 entries. Write exactly 2.",
        ),
        (
            {"type": "string", "maxLength": 3},
            "abcd",
            "a.json, the file: The text has 4 letters. Keep it to 3.",
        ),
        ({"const": 1}, 3, "a.json, the file: 3 stands where 1 belongs. Write 1."),
        (
            {"description": "Write a name.", "pattern": "\\S"},
            " ",
            'a.json, the file: " " cannot stand here. Write a name.',
        ),
        ({"required": ["id"]}, {}, "a.json, the file: The field 'id' is missing. Add 'id'."),
        (
            {"enum": ["squat", "hinge"]},
            "squad",
            "a.json, the file: \"squad\" is not known here. Did you mean 'squat'?",
        ),
    ],
)
def test_each_kind_of_fault_is_one_sentence_with_a_remedy(
    schema: dict[str, Any], record: Any, sentence: str
) -> None:
    assert said(schema, record) == sentence


def test_a_long_value_is_cut() -> None:
    sentence = said({"type": "integer"}, "x" * 1000)
    assert len(sentence) < 140
    assert "..." in sentence


def test_a_place_reads_like_a_path() -> None:
    assert path_text(("program", "weeks", 3, "days", "monday")) == "program.weeks[3].days.monday"


LIBRARY = ["pause_back_squat", "back_squat", "split_squat", "leg_press", "bench_press", "plank"]


@pytest.mark.parametrize(
    ("found", "mend"),
    [
        ("back_sqat", "Did you mean 'back_squat'?"),
        ("sqat", "Did you mean 'back_squat' or 'split_squat'?"),
        ("Leg pres", "Did you mean 'leg_press'?"),
        ("plnk", "Did you mean 'plank'?"),
        ("zzz", f"Use {', '.join(LIBRARY)}."),
        ("", f"Use {', '.join(LIBRARY)}."),
    ],
)
def test_a_word_written_wrong_finds_the_names_that_hold_it(found: str, mend: str) -> None:
    assert near_words(found, LIBRARY) == mend
