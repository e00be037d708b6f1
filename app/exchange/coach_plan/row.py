"""One row of a coach's table: what it asks, column by column, and whom it asks it of."""

from __future__ import annotations

import re
from collections.abc import Iterable
from dataclasses import replace

from app.exchange.coach_plan.asked import (
    Asked,
    effort_of_rating,
    number_in,
    percent_of,
    plain,
    rir_of,
    whole_in,
    with_load,
    with_reps,
    with_rest,
    with_scheme,
    with_tempo,
    with_words,
)
from app.exchange.coach_plan.columns import Column, Part
from app.exchange.coach_plan.words import Words
from app.exchange.sheets.sheet import Cell

LONGEST_NOTE = 500
_LETTERED = re.compile(r"([A-Z])(?:\s?\d{1,2}\s*[.):\-]\s*|\d{1,2}\s+|\s*[.)]\s*)(?=\S{3})")
_COUNTED = re.compile(r"\d{1,2}\s*[.)]\s*(?=\S)")


def asked_in(cells: Iterable[tuple[Column, Cell]], words: Words, *, unit: str) -> Asked:
    """What the cells ask together. unit: of loads that do not say theirs."""
    asked = Asked()
    for column, cell in cells:
        if cell is not None:
            asked = _with(asked, column, cell, words=words, unit=unit)
    return asked


def _with(asked: Asked, column: Column, cell: Cell, *, words: Words, unit: str) -> Asked:
    match column.part:
        case Part.SCHEME:
            return with_scheme(asked, cell, words, unit=column.unit or unit)
        case Part.REPS:
            return with_reps(asked, cell, words)
        case Part.REST:
            return with_rest(asked, cell, words, unit=column.unit)
        case Part.TEMPO:
            return with_tempo(asked, cell)
        case Part.LOAD:
            return with_load(asked, cell, unit=column.unit or unit)
        case Part.EFFORT:
            return with_words(asked, plain(cell), words)
        case Part.NOTE:
            note = " ".join(str(cell).split())[:LONGEST_NOTE]
            return replace(asked, note=f"{asked.note} {note}".strip())
        case Part.PAIR:
            return _with_pair(asked, cell)
        case Part.COUNTED:
            return replace(asked, seconds=plain(cell) in words.seconds)
        case _:
            return _with_number(asked, column.part, cell, words)


def _with_number(asked: Asked, part: Part, cell: Cell, words: Words) -> Asked:
    """What was asked, with a cell that is one number."""
    made = None
    match part:
        case Part.SETS:
            sets = whole_in(cell)
            made = replace(asked, sets=sets) if sets and 1 <= sets <= 20 else None
        case Part.REPS_FROM | Part.REPS_TO:
            ends = [one for one in (asked.low, asked.high, whole_in(cell)) if one]
            if whole_in(cell) and max(ends) <= 600:
                made = replace(asked, low=min(ends), high=max(ends))
        case Part.RIR:
            made = _with_effort(asked, cell, rir_of)
        case Part.RATING:
            made = _with_effort(asked, cell, effort_of_rating)
        case Part.PERCENT:
            made = _with_effort(asked, cell, percent_of)
        case Part.PERCENT_RM:
            made = _with_effort(asked, cell, lambda percent: percent_of(percent, rep_max=True))
        case _:
            return asked
    if made is None and part in (Part.RIR, Part.RATING, Part.PERCENT, Part.PERCENT_RM):
        return with_words(asked, plain(cell), words)
    return made or replace(asked, unread=(*asked.unread, plain(cell)))


def _with_effort(asked: Asked, cell: Cell, read: object) -> Asked | None:
    number = number_in(cell)
    effort = read(number) if number is not None and callable(read) else None
    return replace(asked, effort=effort) if effort is not None else None


def _with_pair(asked: Asked, cell: Cell) -> Asked:
    """A letter, with or without a number behind it; a number alone is an order and says nothing."""
    found = re.fullmatch(r"([A-Za-z])\s*\d{0,2}[.)]?", str(cell).strip())
    return replace(asked, pair=found[1].upper()) if found else asked


def named(cell: Cell) -> tuple[str, str]:
    """The exercise as it is written, and the letter in front of it: 'A1. Row' gives 'Row', 'A'."""
    text = " ".join(str(cell).split())
    found = _LETTERED.match(text)
    if found is not None:
        return text[found.end() :], found[1]
    found = _COUNTED.match(text)
    return (text[found.end() :] if found else text), ""
