"""One check-in as a row of texts, in the client's units, and back; what cannot be is named."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import replace
from datetime import date, datetime
from enum import StrEnum
from math import isfinite

from app.domain.errors import CoachError
from app.domain.results import CheckIn
from app.domain.units import KG_PER_LB
from app.domain.wording import mark, tr
from app.ui.words import full_date, number, typed_number


class Column(StrEnum):
    """What a row holds, in the order of the table."""

    DAY = "day"
    MASS = "mass"
    KCAL = "kcal"
    SLEEP = "sleep"
    SORENESS = "soreness"
    STRESS = "stress"
    MOOD = "mood"
    ADHERENCE = "adherence"
    NOTE = "note"


NAMES: Mapping[Column, str] = {
    Column.DAY: mark("Day"),
    Column.MASS: mark("Mass"),
    Column.KCAL: mark("Eaten, kcal"),
    Column.SLEEP: mark("Sleep"),
    Column.SORENESS: mark("Soreness"),
    Column.STRESS: mark("Stress"),
    Column.MOOD: mark("Mood"),
    Column.ADHERENCE: mark("Done, %"),
    Column.NOTE: mark("Note"),
}

ENDS: Mapping[Column, tuple[str, str]] = {
    Column.SLEEP: (mark("poor"), mark("good")),
    Column.SORENESS: (mark("strong"), mark("none")),
    Column.STRESS: (mark("high"), mark("none")),
    Column.MOOD: (mark("low"), mark("good")),
}
"""What 1 and 5 mean of each mark."""

MASS_KG = (25.0, 400.0)

DAY_FORMS = ("%Y-%m-%d", "%d %b %Y", "%d %B %Y", "%d.%m.%Y", "%d/%m/%Y")


def head(column: Column, units: str) -> str:
    """The head of a column, with the unit where there is one."""
    name = tr(NAMES[column])
    return tr("{name}, {units}", name=name, units=units) if column is Column.MASS else name


def tip(column: Column) -> str:
    """What is meant to stand in the column."""
    if column in ENDS:
        low, high = ENDS[column]
        return tr("1 ({low}) to 5 ({high})", low=tr(low), high=tr(high))
    if column is Column.ADHERENCE:
        return tr("How much of the training was done, 0 to 100, as the client judges it")
    return ""


class WrongCell(CoachError):
    """A cell that cannot be read: its column, and a sentence on why."""

    def __init__(self, column: Column, what: str, *, mend: str = "") -> None:
        super().__init__(what, mend=mend)
        self.column = column


def cells(check_in: CheckIn, units: str) -> dict[Column, str]:
    """The check-in as texts; what was not asked is empty."""
    mass = check_in.mass_kg
    if mass is not None and units == "lb":
        mass = mass / KG_PER_LB
    share = check_in.adherence
    return {
        Column.DAY: full_date(check_in.on),
        Column.MASS: "" if mass is None else typed_number(mass),
        Column.KCAL: "" if check_in.kcal is None else typed_number(check_in.kcal, places=0),
        **{column: _mark_text(getattr(check_in, column.value)) for column in ENDS},
        Column.ADHERENCE: "" if share is None else typed_number(100 * share, places=0),
        Column.NOTE: check_in.note,
    }


def _mark_text(value: int | None) -> str:
    return "" if value is None else str(value)


def read_cells(
    texts: Mapping[Column, str], units: str, known: Mapping[date, CheckIn]
) -> CheckIn | None:
    """The check-in that a row stands for, on what is known of that day; None for a blank row.

    What the row does not show (girths, pictures) stays as it is known, and so does a cell that
    nobody changed, every place of it. Raises WrongCell.
    """
    if not any(text.strip() for text in texts.values()):
        return None
    day = read_day(texts[Column.DAY])
    before = known.get(day, CheckIn(day))
    shown = cells(before, units)
    changed = {
        column: text.strip()
        for column, text in texts.items()
        if column is not Column.DAY and text.strip() != shown[column]
    }
    made = before
    for column, text in changed.items():
        made = _with(made, column, text, units)
    return made


def _with(check_in: CheckIn, column: Column, text: str, units: str) -> CheckIn:
    match column:
        case Column.NOTE:
            return replace(check_in, note=text)
        case Column.MASS:
            return replace(check_in, mass_kg=read_mass(text, units))
        case Column.KCAL:
            return replace(check_in, kcal=_number(text, column, 0, 15_000))
        case Column.ADHERENCE:
            share = _number(text, column, 0, 100)
            return replace(check_in, adherence=None if share is None else share / 100)
        case _:
            value = _number(text, column, 1, 5)
            if value is not None and value != int(value):
                raise _wrong(column, text, 1, 5)
            return with_mark(check_in, column, None if value is None else int(value))


def read_mass(text: str, units: str) -> float | None:
    """A mass in kg from what was typed in the client's unit, or with a unit of its own.

    '146 lb' is pounds and '66,4 kg' kilograms whatever the client uses. Raises WrongCell.
    """
    plain = text.strip().lower()
    for unit in ("kg", "lbs", "lb"):
        if plain.endswith(unit):
            plain, units = plain.removesuffix(unit).strip(), unit[:2]
            break
    factor = KG_PER_LB if units == "lb" else 1.0
    low, high = (kg / factor for kg in MASS_KG)
    value = _number(plain, Column.MASS, low, high)
    return None if value is None else value * factor


def read_day(text: str) -> date:
    """A day from '23 Nov 2026', '2026-11-23' or '23.11.2026'. Raises WrongCell."""
    for form in DAY_FORMS:
        try:
            return datetime.strptime(text.strip(), form).date()  # noqa: DTZ007 - a day has no zone
        except ValueError:
            continue
    raise WrongCell(
        Column.DAY,
        tr("'{text}' is no day.", text=text),
        mend=tr("Write it like {day}.", day=full_date(date(2026, 11, 23))),
    )


def _number(text: str, column: Column, low: float, high: float) -> float | None:
    if not text:
        return None
    try:
        value = float(text.replace(",", ".").replace("\N{MINUS SIGN}", "-"))
    except ValueError:
        value = float("nan")
    if not isfinite(value) or not low <= value <= high:
        raise _wrong(column, text, low, high)
    return value


def _wrong(column: Column, text: str, low: float, high: float) -> WrongCell:
    return WrongCell(
        column,
        tr("{name}: '{text}' cannot be.", name=tr(NAMES[column]), text=text),
        mend=tr(
            "Enter {low} to {high}, or leave it empty.",
            low=number(low, places=0),
            high=number(high, places=0),
        ),
    )


def with_mark(check_in: CheckIn, column: Column, value: int | None) -> CheckIn:
    """The check-in with one of its marks, 1 to 5."""
    match column:
        case Column.SLEEP:
            return replace(check_in, sleep=value)
        case Column.SORENESS:
            return replace(check_in, soreness=value)
        case Column.STRESS:
            return replace(check_in, stress=value)
        case Column.MOOD:
            return replace(check_in, mood=value)
        case _:
            raise ValueError(column)
