"""Real files, changed at random: every reader reads them or refuses them with a sentence.

WEEKLOOM_FUZZ sets how many are tried of each kind, for the long run before a release.
"""

from __future__ import annotations

import json
import os
import random
from collections.abc import Callable
from contextlib import suppress
from typing import Any

import pytest

from app import resources
from app.domain.errors import CoachError
from app.exchange.bibliography.files import Form, read_references, write_references
from app.exchange.coach_plan.build import Wanted, build, weeks_in
from app.exchange.coach_plan.columns import Part
from app.exchange.coach_plan.guess import guess
from app.exchange.coach_plan.lines import read_lines
from app.exchange.plan_file import Plan, read_plan, write_plan
from app.exchange.sheets.reading import read_book
from app.exchange.tables.csv_file import STYLES, write_csv
from app.exchange.tables.plan_table import plan_table
from app.exchange.tables.workbook import write_workbook
from app.filing import schema
from tests.builders import CATALOGUE, client, program
from tests.exchange.bibliography.samples import KEPT
from tests.exchange.coach_plan.shipped import WORDS
from tests.exchange.coach_plan.tables import NAMES, START

TRIED = int(os.environ.get("WEEKLOOM_FUZZ", "2000"))
ROUNDS = 20

PLAN = program(
    "Mon: back_squat 3x5 RIR 2 60kg, leg_extension 3x12-15 80% pair A", "Thu: back_squat 5x3"
)
TABLE = plan_table(PLAN, client(), CATALOGUE)
SPLICES = (
    b"",
    b"\0",
    b"\xff\xfe",
    b'"',
    b"'",
    b"=1+1",
    b"{",
    b"}",
    b"[",
    b"9" * 400,
    b"\n",
    b"-1",
    b"1e999",
)


def changed(data: bytes, dice: random.Random) -> bytes:
    """The bytes with a few of them changed, cut out, doubled or put in."""
    made = bytearray(data)
    for _ in range(dice.randint(1, 6)):
        at = dice.randrange(len(made) + 1)
        match dice.randrange(4):
            case 0:
                made[at : at + 1] = bytes([dice.randrange(256)])
            case 1:
                del made[at : at + dice.randint(1, 40)]
            case 2:
                made[at:at] = made[at : at + dice.randint(1, 40)]
            case _:
                made[at:at] = dice.choice(SPLICES)
    return bytes(made)


def bent(record: Any, dice: random.Random) -> Any:
    """The record with a value somewhere in it replaced by another kind of value."""
    others: tuple[Any, ...] = (
        None,
        True,
        -1,
        0,
        1e308,
        10**30,
        "",
        "x" * 5000,
        [],
        {},
        [[]],
        {"x": 1},
        "2026-13-45",
    )
    if isinstance(record, dict) and record and dice.random() < 0.9:
        key = dice.choice(list(record))
        return {**record, key: bent(record[key], dice)}
    if isinstance(record, list) and record and dice.random() < 0.9:
        at = dice.randrange(len(record))
        return [*record[:at], bent(record[at], dice), *record[at + 1 :]]
    return dice.choice(others)


def read_a_plan(data: bytes) -> object:
    return read_plan(data, source="a.plan.json", schema=schema(), catalogue=CATALOGUE)


def read_a_table(data: bytes, source: str) -> object:
    book = read_book(data, source=source)
    mapping = guess(book.sheets, WORDS, is_exercise=NAMES.is_exercise)
    if not mapping.holds(Part.EXERCISE):
        return None
    lines = read_lines(book.sheets, mapping, WORDS, is_exercise=NAMES.is_exercise).lines
    meant = {line.exercise: NAMES.find(line.exercise).meant for line in lines}
    known = {text: key for text, key in meant.items() if key is not None}
    wanted = Wanted(PLAN.id, "Read", START, weeks_in(lines), known)
    return build(lines, wanted, client=client(), catalogue=resources.catalogue())


def read_some_references(data: bytes) -> object:
    return read_references(data, source="a")


Reader = Callable[[bytes], object]

FILES: dict[str, tuple[bytes, Reader]] = {
    "plan": (write_plan(Plan(client(), PLAN)).encode(), read_a_plan),
    "csv": (write_csv(TABLE, STYLES[1]), lambda data: read_a_table(data, "a.csv")),
    "xlsx": (write_workbook([TABLE]), lambda data: read_a_table(data, "a.xlsx")),
    **{form.value: (write_references(KEPT[:6], form), read_some_references) for form in Form},
}


@pytest.mark.parametrize("seed", range(ROUNDS))
@pytest.mark.parametrize("name", FILES)
def test_changed_files_are_read_or_refused_with_a_sentence(name: str, seed: int) -> None:
    dice = random.Random(f"{name} {seed}")
    data, read = FILES[name]
    read(data)
    for _ in range(TRIED // ROUNDS):
        with suppress(CoachError):
            read(changed(data, dice))


@pytest.mark.parametrize("seed", range(ROUNDS))
def test_plan_files_with_another_kind_of_value_are_refused_with_a_sentence(seed: int) -> None:
    dice = random.Random(seed)
    record = json.loads(FILES["plan"][0])
    for _ in range(TRIED // ROUNDS):
        text = json.dumps(bent(record, dice))
        with suppress(CoachError):
            read_a_plan(text.encode())
