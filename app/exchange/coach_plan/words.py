"""The words that tables are headed and divided by, in several languages, and names of weekdays."""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from dataclasses import dataclass
from functools import cache
from typing import Any

from app.domain.folding import fold
from app.domain.wording import tr
from app.exchange.coach_plan.columns import Part

LANGUAGES = (
    *("en", "de", "es", "fr", "it", "pt", "nl", "nb", "sv", "da"),
    *("fi", "pl", "cs", "ru", "uk", "el", "hu", "ro", "tr"),
)
"""Whose names of weekdays are known, most common among coaches' tables first. Common practice."""


@dataclass(frozen=True, slots=True)
class Words:
    """columns: parts by the folded words that head them; the rest are words inside cells.

    short: what the short forms in names stand for, word by word.
    """

    columns: Mapping[str, Part]
    week: tuple[str, ...]
    day: tuple[str, ...]
    seconds: tuple[str, ...]
    minutes: tuple[str, ...]
    repetitions: tuple[str, ...]
    light: tuple[str, ...]
    no: tuple[str, ...]
    short: Mapping[str, str]


def head_form(text: str) -> str:
    """A heading as it is compared: folded, with the sign for per cent as a word."""
    return fold(text.replace("%", tr(" percent ")))


def words_from_table(table: Mapping[str, Any]) -> Words:
    """The words of `resources/table_words.toml`. Raises KeyError or ValueError for a broken one."""
    columns = {head_form(word): Part(part) for part, ws in table["columns"].items() for word in ws}
    inside = table["words"]
    return Words(
        columns=columns,
        week=_folded(inside["week"]),
        day=_folded(inside["day"]),
        seconds=tuple(inside["seconds"]),
        minutes=tuple(inside["minutes"]),
        repetitions=tuple(inside["repetitions"]),
        light=_folded(inside["light"]),
        no=tuple(inside["no"]),
        short={fold(short): fold(long) for short, long in table["short"].items()},
    )


def _folded(words: Iterable[str]) -> tuple[str, ...]:
    """The words, longest first, so that the whole one is found before its first letter."""
    return tuple(sorted({fold(word) for word in words}, key=lambda word: (-len(word), word)))


@cache
def weekdays() -> Mapping[str, int]:
    """Folded names of weekdays and their usual short forms, 0 for Monday."""
    from babel import Locale

    found: dict[str, int] = {}
    for width in ("wide", "abbreviated", "short"):
        for language in LANGUAGES:
            for context in ("format", "stand-alone"):
                names = Locale.parse(language).days[context].get(width, {})
                for number, name in names.items():
                    word = fold(name)
                    if len(word) > 1:
                        found.setdefault(word, number)
                        found.setdefault(word.split()[0], number)
    return found
