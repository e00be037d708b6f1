"""Texts of a table kept from being taken for formulas, and read back as they were.

A spreadsheet runs a cell that begins with certain signs. A text that does gets a quote in front;
numbers are never touched, so that a negative one stays a number. Sources: OWASP, CSV injection;
ASVS 5.0, 1.2.10. The list there is longer here by the quote itself, so that taking it off again
is exact, by the wide forms that some programs fold into the plain ones, and by the sign that
stands where a workbook cannot hold a NUL.
"""

from __future__ import annotations

from datetime import date

Cell = str | float | int | date | None
"""What stands in a cell; None for an empty one."""

QUOTE = "'"
STARTS = frozenset("=+-@\t\0\r\n'\N{FULLWIDTH EQUALS SIGN}\N{FULLWIDTH PLUS SIGN}") | {
    "\N{FULLWIDTH HYPHEN-MINUS}",
    "\N{FULLWIDTH COMMERCIAL AT}",
    "\N{REPLACEMENT CHARACTER}",
}
"""What a text may not begin with."""


def guarded(text: str) -> str:
    """The text with a quote in front where a spreadsheet could run it.

    >>> guarded("=1+1"), guarded("Back squat")
    ("'=1+1", 'Back squat')
    """
    return QUOTE + text if text[:1] in STARTS else text


def unguarded(text: str) -> str:
    """The text that was guarded; any other is left as it is.

    >>> unguarded("'=1+1"), unguarded("'tis")
    ('=1+1', "'tis")
    """
    return text[1:] if text[:1] == QUOTE and text[1:2] in STARTS else text
