"""Where in the plan a text puts what follows it: 'Week 2, Monday: Lower', 'Day 3', 'W1-4'."""

from __future__ import annotations

import re
from dataclasses import dataclass
from functools import cache
from unicodedata import combining, normalize

from app.domain.program import MAX_WEEKS
from app.exchange.coach_plan.asked import plain
from app.exchange.coach_plan.words import Words, weekdays
from app.exchange.sheets.sheet import Cell

MOST_DAYS = 14


@dataclass(frozen=True, slots=True)
class Heading:
    """What the text says. weeks: counted from 1; day: 0 for Monday; nth: the number of a training
    day where no weekday is told; title: what is left, as it was written.
    """

    weeks: tuple[int, ...] = ()
    day: int | None = None
    nth: int | None = None
    title: str = ""
    light: bool = False

    @property
    def places(self) -> bool:
        """True if it says a week or a day."""
        return bool(self.weeks) or self.day is not None or self.nth is not None


def heading_of(cell: Cell, words: Words) -> Heading:
    """What a heading over rows or columns says."""
    shown = " ".join(str(cell).split()) if isinstance(cell, str) else plain(cell)
    text = _unaccented(plain(cell))
    if len(text) != len(shown):
        shown = text  # an accent of its own: the places in it would not agree
    week = _numbered(words.week).search(text)
    weeks = _run(week[1], week[2]) if week else ()
    text, shown = _without(text, shown, week if weeks else None)
    day, text, shown = _weekday(text, shown)
    nth = None
    found = None if day is not None else _lettered(words.day).search(text)
    if found is not None:
        nth = _nth(found[1])
        text, shown = _without(text, shown, found if nth else None)
    light = any(re.search(rf"\b{re.escape(word)}\b", text) for word in words.light)
    return Heading(weeks, day, nth, shown.strip(" -\N{EN DASH}\N{EM DASH}:|,;.()/"), light)


def weeks_in(cell: Cell, words: Words) -> tuple[int, ...]:
    """The weeks that a cell in a column of weeks names; none for anything else."""
    text = _unaccented(plain(cell))
    found = re.fullmatch(r"(\d{1,2})(?:\s*(?:-|to|bis|a|&|,)\s*(\d{1,2}))?", text)
    if found is None:
        found = _numbered(words.week).search(text)
    return _run(found[1], found[2]) if found else ()


def day_in(cell: Cell, words: Words) -> Heading:
    """What a cell in a column of days says: a weekday, the number of a training day, or a title."""
    text = plain(cell)
    if re.fullmatch(r"\d{1,2}", text):
        return Heading(nth=_nth(text)) if _nth(text) else Heading(title=text)
    if re.fullmatch(r"[a-h]", text):
        return Heading(nth=_nth(text), title=str(cell).strip())
    return heading_of(cell, words)


def _unaccented(text: str) -> str:
    return "".join(one for one in normalize("NFKD", text) if not combining(one))


def _words(words: tuple[str, ...]) -> str:
    return "|".join(re.escape(word) for word in words)


@cache
def _numbered(words: tuple[str, ...]) -> re.Pattern[str]:
    return re.compile(
        rf"\b(?:{_words(words)})s?\.?\s*(?:nr\.?|no\.?|#)?\s*(\d{{1,2}})"
        r"(?:\s*(?:-|to|bis|a|&)\s*(\d{1,2}))?(?![\d.,]\d)\b"
    )


@cache
def _lettered(words: tuple[str, ...]) -> re.Pattern[str]:
    return re.compile(rf"\b(?:{_words(words)})\.?\s*(?:nr\.?|no\.?|#)?\s*(\d{{1,2}}|[a-h])\b")


def _run(first: str, last: str | None) -> tuple[int, ...]:
    low, high = int(first), int(last or first)
    return tuple(range(low, high + 1)) if 1 <= low <= high <= MAX_WEEKS else ()


def _nth(text: str) -> int | None:
    number = int(text) if text.isdecimal() else ord(text) - ord("a") + 1
    return number if 1 <= number <= MOST_DAYS else None


def _without(text: str, shown: str, found: re.Match[str] | None) -> tuple[str, str]:
    """Both texts without what was found in the first."""
    if found is None:
        return text, shown
    start, end = found.span()
    return text[:start] + " " + text[end:], shown[:start] + " " + shown[end:]


def _weekday(text: str, shown: str) -> tuple[int | None, str, str]:
    """The weekday that stands in the text, and both texts without it.

    A short form counts only where it stands first: 'Sun' may be a part of a title.
    """
    known = weekdays()
    for found in re.finditer(r"[^\W\d_]+(?:-feira)?", text):
        word = found[0].removesuffix("-feira")
        first = not text[: found.start()].strip(" -:|,(")
        if word in known and (len(word) > 3 or first):
            text, shown = _without(text, shown, found)
            return known[word], text, shown
    return None, text, shown
