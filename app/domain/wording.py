"""Every sentence that a coach or a client reads, in the language that is spoken at the moment.

A text is written in English where it is used, as a template with named places; the language finds
its own template for it. English is what stands in the code, so nothing can be missing. The
language is a context variable: a booklet can be bound in Spanish in one thread while the window
speaks English in another. Nothing here reads files; catalogues are made in `app.resources`.
"""

from __future__ import annotations

from collections.abc import Iterator
from contextlib import contextmanager
from contextvars import ContextVar
from dataclasses import dataclass
from typing import Protocol


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


@dataclass(frozen=True, slots=True)
class Language:
    """A language: its code (BCP 47), its templates and its decimal sign."""

    code: str = "en"
    catalogue: Catalogue = English()
    decimal: str = "."


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


def mark(template: str) -> str:
    """`template` itself: marks a text of a table, which is translated where it is shown."""
    return template


def tr(template: str, /, **parts: object) -> str:
    """`template` in the language that is spoken, with `parts` in its named places.

    >>> tr("{done} of {planned} sets", done=3, planned=4)
    '3 of 4 sets'
    """
    found = language().catalogue.gettext(template) if template else template
    return found.format_map(parts) if parts else found


def trn(one: str, many: str, n: int, /, **parts: object) -> str:
    """The template for `n` things, which stands in it as {n}.

    >>> trn("{n} set", "{n} sets", 1)
    '1 set'
    """
    found = language().catalogue.ngettext(one, many, n)
    return found.format_map({"n": n, **parts})
