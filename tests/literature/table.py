"""The table of published figures, `checks.csv`, and how a module answers its rows.

Each `test_<topic>.py` beside this file holds `ANSWERS`: for every topic it knows, a function that
takes a row and gives what Weekloom gets for it. `python -m tests.literature` prints them all.
Status of a figure: seen (read in the paper or at the body that issued it), seen-secondary (in a
second-hand copy), memory.
"""

from __future__ import annotations

import csv
import re
from collections.abc import Callable, Mapping
from dataclasses import dataclass
from functools import cache
from pathlib import Path

TABLE = Path(__file__).with_name("checks.csv")
NUMBER = re.compile(r"-?\d+(?:\.\d+)?(?:e-?\d+)?")


@dataclass(frozen=True)
class Row:
    """One published figure: what goes in, what should come out, and who says so."""

    id: str
    topic: str
    inputs: str
    expected: str
    tolerance: str
    source: str
    status: str

    def __str__(self) -> str:
        return self.id

    def given(self, name: str) -> str:
        """The input called `name` in 'name=value; name=value'."""
        for part in self.inputs.split(";"):
            key, _, value = part.strip().partition("=")
            if key.strip() == name:
                return value.strip()
        raise KeyError(f"{self.id} has no input {name!r}: {self.inputs}")

    def number(self, name: str) -> float:
        """The input called `name` as a number, its unit left out."""
        return numbers(self.given(name))[0]


@dataclass(frozen=True)
class Answer:
    """What Weekloom gets for a row, as text, and whether that is what was published."""

    got: str
    right: bool


AnswerRow = Callable[[Row], Answer]


def numbers(text: str) -> list[float]:
    """Every number in a text."""
    return [float(found) for found in NUMBER.findall(text)]


def close(got: float, expected: float, tolerance: float) -> Answer:
    """The answer of a single number; a crumb of float is allowed beside the tolerance."""
    return Answer(f"{got:.6g}", abs(got - expected) <= tolerance + 1e-9)


def all_close(*each: Answer) -> Answer:
    """Several answers as one: right if each is."""
    return Answer("; ".join(a.got for a in each), all(a.right for a in each))


def says(got: str, expected: str) -> Answer:
    """The answer in words."""
    return Answer(got, got == expected)


@cache
def all_rows() -> tuple[Row, ...]:
    """Every row of the table, in its order."""
    with TABLE.open(encoding="utf-8", newline="") as lines:
        return tuple(Row(**row) for row in csv.DictReader(lines))


def rows(*topics: str) -> tuple[Row, ...]:
    """The rows of these topics; asking for a topic that is not there is an error."""
    found = tuple(row for row in all_rows() if row.topic in topics)
    missing = set(topics) - {row.topic for row in found}
    assert not missing, f"no rows for {missing}"
    return found


def check(row: Row, answers: Mapping[str, AnswerRow]) -> None:
    """Fail with the row, its source and what came out instead."""
    answer = answers[row.topic](row)
    assert answer.right, (
        f"{row.id}: {row.inputs}\n  expected {row.expected} (± {row.tolerance})"
        f"\n  got      {answer.got}\n  source   {row.source}"
    )
