"""The account a number gives of itself: inputs, steps and sources in short lines.

The window, the booklet and the tests read the same object.
"""

from __future__ import annotations

from dataclasses import dataclass

from app.domain.wording import mark

COMMON_PRACTICE = mark("common practice")
FROM_MEMORY = mark("value from memory")
UNSOURCED = (COMMON_PRACTICE, FROM_MEMORY)
"""What stands in the place of a source key where there is none."""


@dataclass(frozen=True, slots=True)
class Line:
    """One step of an account: what it is, what came out, and a remark (method or table)."""

    label: str
    value: str
    remark: str = ""


@dataclass(frozen=True, slots=True)
class Working:
    """How a number came about.

    title: the number with its unit; about: what it is for; sources: keys of the references, or
    one of `UNSOURCED`.
    """

    title: str
    about: str
    lines: tuple[Line, ...]
    sources: tuple[str, ...] = ()
