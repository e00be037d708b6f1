"""A coach's table on its way to a program: read, guessed at as was kept before, matched, built.

What the coach said of a table is kept by its headings, and what a name means by the name, so that
the next table of the same kind needs no answers.
"""

from __future__ import annotations

import hashlib
import json
from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass
from functools import cache
from pathlib import Path
from typing import Protocol

from app import resources
from app.domain.exercise import Catalogue, ExerciseKey
from app.domain.folding import fold
from app.exchange.coach_plan.asked import plain
from app.exchange.coach_plan.columns import Mapping as Columns
from app.exchange.coach_plan.columns import mapping_of
from app.exchange.coach_plan.guess import guess
from app.exchange.coach_plan.lines import Reading, read_lines
from app.exchange.coach_plan.names import Named, Names, names_of
from app.exchange.coach_plan.words import Words, words_from_table
from app.exchange.files import read_whole
from app.exchange.sheets.reading import MOST_BYTES, read_book
from app.exchange.sheets.sheet import Book, Sheet, Stop

WORDS = "table_words.toml"
COLUMNS_KEY = "table columns "
NAMES_KEY = "table names"
LEFT_OUT = ""
"""What a name means that is always to be left out."""
MOST_NAMES = 2_000


class Memory(Protocol):
    """Where settings are kept."""

    def setting(self, key: str) -> str:
        """The value under `key`; empty if there is none."""

    def set_setting(self, key: str, value: str) -> None:
        """Keep a value under `key`."""


@cache
def words() -> Words:
    """The words that coaches' tables are known by."""
    return words_from_table(resources.read_toml(WORDS))


def open_table(
    path: Path, *, encoding: str = "", separator: str = "", stop: Stop | None = None
) -> Book:
    """The sheets of the file. Raises SheetError or FileTrouble; the file is only read.

    stop: asked now and then, whether nobody waits for it any more.
    """
    data = read_whole(path, most=MOST_BYTES)
    return read_book(data, source=str(path), encoding=encoding, separator=separator, stop=stop)


def shown_sheets(book: Book) -> tuple[Sheet, ...]:
    """The sheets that a plan may stand in: those that are not hidden and not empty."""
    filled = tuple(sheet for sheet in book.sheets if any(any(row) for row in sheet.rows))
    return tuple(sheet for sheet in filled if not sheet.hidden) or filled


@dataclass(frozen=True, slots=True)
class Matched:
    """What was read of a table, and for each name how often it stands and what it may mean."""

    reading: Reading
    names: Mapping[str, tuple[int, Named]]

    @property
    def meant(self) -> dict[str, ExerciseKey]:
        """The names whose exercise is sure."""
        return {text: one.meant for text, (_, one) in self.names.items() if one.meant is not None}

    @property
    def asked(self) -> tuple[str, ...]:
        """The names that have to be asked about, in their order."""
        return tuple(text for text, (_, one) in self.names.items() if one.meant is None)


class TableReader:
    """Reads tables against one library and what was kept about earlier tables."""

    def __init__(self, catalogue: Catalogue, memory: Memory) -> None:
        self.memory = memory
        self.use_catalogue(catalogue)

    def use_catalogue(self, catalogue: Catalogue) -> None:
        """Match names against this library from now on."""
        self.catalogue = catalogue
        known = {name: ExerciseKey(key) for name, key in kept_names(self.memory).items() if key}
        self.names = Names(catalogue, words().short, known)

    def columns(self, sheets: Sequence[Sheet], *, unit: str) -> Columns:
        """How the sheets are to be read: as was kept for their headings, else as is guessed."""
        made = guess(sheets, words(), is_exercise=self.names.is_exercise, unit=unit)
        kept = self.memory.setting(_columns_key(sheets, made.head))
        if not kept:
            return made
        return mapping_of(_json(kept), width=len(made.columns)) or made

    def match(self, sheets: Sequence[Sheet], columns: Columns) -> Matched:
        """The lines of the sheets, with their names looked up. Raises SheetError."""
        reading = read_lines(sheets, columns, words(), is_exercise=self.names.is_exercise)
        counted = names_of(line.exercise for line in reading.lines)
        return Matched(reading, {t: (n, self.names.find(t)) for t, n in counted.items()})

    def left_out(self, texts: Iterable[str]) -> frozenset[str]:
        """Those of the names that were left out before."""
        kept = kept_names(self.memory)
        return frozenset(text for text in texts if kept.get(fold(text)) == LEFT_OUT)

    def keep(
        self,
        sheets: Sequence[Sheet],
        columns: Columns,
        answers: Mapping[str, ExerciseKey | None],
    ) -> None:
        """Remember how the sheets are read and what the coach answered; None for left out."""
        record = json.dumps(columns.record(), separators=(",", ":"))
        guessed = guess(sheets, words(), is_exercise=self.names.is_exercise)
        self.memory.set_setting(_columns_key(sheets, guessed.head), record)
        if answers:
            kept = kept_names(self.memory)
            fresh = {fold(text): key or LEFT_OUT for text, key in answers.items()}
            merged = {name: key for name, key in kept.items() if name not in fresh} | fresh
            newest = dict(list(merged.items())[-MOST_NAMES:])
            self.memory.set_setting(NAMES_KEY, json.dumps(newest, ensure_ascii=False))


def kept_names(memory: Memory) -> dict[str, str]:
    """What the coach said names mean: folded names and keys, empty for left out."""
    found = _json(memory.setting(NAMES_KEY))
    if not isinstance(found, dict):
        return {}
    return {str(name): str(key) for name, key in found.items()}


def _json(text: str) -> object:
    try:
        return json.loads(text) if text else None
    except ValueError:
        return None


def _columns_key(sheets: Sequence[Sheet], head: int) -> str:
    """The key for tables with these headings; the words themselves are not kept."""
    sheet = max(sheets, key=lambda one: len(one.rows))
    width = max(one.width for one in sheets)
    row = sheet.rows[head] if 0 <= head < len(sheet.rows) else ()
    said = "\0".join([str(width), *(plain(cell) for cell in row)])
    return COLUMNS_KEY + hashlib.sha256(said.encode("utf-8", "replace")).hexdigest()[:16]
