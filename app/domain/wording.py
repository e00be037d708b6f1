"""Every sentence that a coach or a client reads, in the language that is spoken at the moment.

A text is written in English where it is used, as a template with named places; the language finds
its own template for it. English is what stands in the code, so nothing can be missing. The
language is a context variable: a booklet can be bound in Spanish in one thread while the window
speaks English in another. Nothing here reads files; catalogues are made in `app.resources`.
"""

from __future__ import annotations

import re
from collections.abc import Iterator, Sequence
from contextlib import contextmanager
from contextvars import ContextVar
from dataclasses import dataclass
from datetime import date
from enum import StrEnum
from string import Formatter
from typing import Any, Protocol


class Catalogue(Protocol):
    """Finds templates, as the standard library's `gettext` translations do."""

    def gettext(self, message: str, /) -> str:
        """The template for an English one; the English one itself where there is none."""

    def ngettext(self, msgid1: str, msgid2: str, n: int, /) -> str:
        """The template for `n` things."""


class English:
    """What stands in the code."""

    def gettext(self, message: str, /) -> str:
        """The template as it is."""
        return message

    def ngettext(self, msgid1: str, msgid2: str, n: int, /) -> str:
        """The first for one, the second for all else."""
        return msgid1 if n == 1 else msgid2


class DateForm(StrEnum):
    """How much of a date is said; the values are CLDR's skeletons."""

    DAY = "dMMM"  # 14 Oct
    LONG_DAY = "dMMMM"  # 14 October
    DATE = "yMMMd"  # 14 Oct 2030
    LONG_DATE = "yMMMMd"  # 14 October 2030
    MONTH = "MMM"  # Oct
    LONG_MONTH = "MMMM"  # October


class Calendar(Protocol):
    """Writes dates as a language does, the month in letters."""

    def text(self, on: date, form: DateForm, /) -> str:
        """The date as far as `form` says it."""


_MONTHS = (
    "January",
    "February",
    "March",
    "April",
    "May",
    "June",
    "July",
    "August",
    "September",
    "October",
    "November",
    "December",
)


class EnglishCalendar:
    """'14 October 2030': day first, so that no order of figures can be mistaken."""

    def text(self, on: date, form: DateForm, /) -> str:
        """The date as far as `form` says it."""
        month = _MONTHS[on.month - 1]
        if "MMMM" not in form:
            month = month[:3]
        day = f"{on.day} " if "d" in form else ""
        year = f" {on.year}" if "y" in form else ""
        return f"{day}{month}{year}"


@dataclass(frozen=True, slots=True)
class Language:
    """A language: its code (BCP 47), templates, decimal and thousands signs, and its dates.

    lowers_nouns: names of things begin with a small letter inside a sentence.
    and_before_i: how a listing ends where its last name begins with the sound of the usual "and".
    seams: the parts before which a compound may be broken that is longer than a line.
    """

    code: str = "en"
    catalogue: Catalogue = English()
    decimal: str = "."
    group: str = ","
    calendar: Calendar = EnglishCalendar()
    lowers_nouns: bool = True
    and_before_i: str = ""
    seams: tuple[str, ...] = ()


ENGLISH = Language()

_process = [ENGLISH]
_spoken: ContextVar[Language | None] = ContextVar("language", default=None)


def language() -> Language:
    """The language that is spoken here and now."""
    return _spoken.get() or _process[0]


def use(spoken: Language) -> None:
    """Speak `spoken` from now on, wherever nothing else is said."""
    _process[0] = spoken


@contextmanager
def speaking(spoken: Language) -> Iterator[None]:
    """Speak `spoken` inside the block, in this thread."""
    token = _spoken.set(spoken)
    try:
        yield
    finally:
        _spoken.reset(token)


def number_as_spoken(text: str) -> str:
    """A number as Python writes it, '2,660.5', with the signs of the language, '2.660,5'."""
    spoken = language()
    if spoken.decimal == ".":
        return text
    return text.translate({ord("."): spoken.decimal, ord(","): spoken.group})


def date_text(on: date, form: DateForm = DateForm.DATE) -> str:
    """A date in the language that is spoken: '14 Oct 2030', '14. Okt. 2030'."""
    return language().calendar.text(on, form)


def mid_sentence(name: str) -> str:
    """A name as it stands inside a sentence: small letters where the language has them so."""
    return name.lower() if language().lowers_nouns else name


class _Parts(Formatter):
    """Fills templates with numbers written as the language writes them."""

    def format_field(self, value: Any, format_spec: str) -> str:
        written: str = super().format_field(value, format_spec)
        if format_spec.endswith("%"):
            written = f"{written[:-1]}\N{NO-BREAK SPACE}%"
        if isinstance(value, float) or (isinstance(value, int) and format_spec):
            return number_as_spoken(written)
        return written


_PARTS = _Parts()


def _filled(template: str, parts: dict[str, object]) -> str:
    if language().decimal == ".":
        return template.format_map(parts)
    return _PARTS.vformat(template, (), parts)


def mark(template: str) -> str:
    """`template` itself: marks a text of a table, which is translated where it is shown."""
    return template


def tr(template: str, /, **parts: object) -> str:
    """`template` in the language that is spoken, with `parts` in its named places.

    >>> tr("{done} of {planned} sets", done=3, planned=4)
    '3 of 4 sets'
    """
    found = language().catalogue.gettext(template) if template else template
    return _filled(found, parts) if parts else found


_MANY = 100  # no language has a form of its own for it


def trn(one: str, many: str, n: float, /, **parts: object) -> str:
    """The template for `n` things, which stands in it as {n}; a fraction counts as many.

    >>> trn("{n} set", "{n} sets", 1)
    '1 set'
    """
    whole = int(n) if n == int(n) else _MANY
    found = language().catalogue.ngettext(one, many, whole)
    return _filled(found, {"n": n, **parts})


def listing(names: Sequence[str]) -> str:
    """'a', 'a and b', 'a, b and c'; nothing for no names."""
    if len(names) < 2:
        return "".join(names)
    several, last = ", ".join(names[:-1]), names[-1]
    if language().and_before_i and _SOUNDS_LIKE_I.match(last):
        return language().and_before_i.format(several=several, last=last)
    return tr("{several} and {last}", several=several, last=last)


_SOUNDS_LIKE_I = re.compile(r"h?[ií](?![aeou])", re.IGNORECASE)
"""'isquiotibiales', 'hígado', but not 'hielo', whose i is a consonant."""
