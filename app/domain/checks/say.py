"""How findings are put into words: the measured value first, then how far it lies outside."""

from __future__ import annotations

from datetime import date

from app.domain.facts import Placed, WeekFacts
from app.domain.findings import Finding, Place, Weight
from app.domain.program import Session, Week, day_name
from app.domain.ranges import Range
from app.domain.wording import date_text, number_as_spoken, tr, trn

WEIGHTS = {weight.name.lower(): weight for weight in Weight}


def amount(value: float) -> str:
    """A number as a coach writes it: no trailing noughts, two decimals at most."""
    return number_as_spoken(f"{round(value, 2):g}")


def lead(words: str) -> str:
    """The words with a capital first letter."""
    return words[:1].upper() + words[1:]


def how_far(measured: float, band: Range, unit: str = "") -> str:
    """'2 short of 12–20' or '3 over 12–20', with the near end alone where the range is open."""
    short = band.short_by(measured)
    unit = f" {unit}" if unit else ""
    if short:
        whole = band.text if band.high is not None else amount(band.low or 0)
        return tr("{much} short of {range}", much=f"{amount(short)}{unit}", range=whole)
    whole = band.text if band.low is not None else amount(band.high or 0)
    much = f"{amount(band.over_by(measured))}{unit}"
    return tr("{much} over {range}", much=much, range=whole)


def plural(count: float, one: str, many: str) -> str:
    """'1 set', '2 sets', '0.5 sets', from templates with the count as {n}."""
    return trn(one, many, count, n=amount(count))


def day_text(day: date) -> str:
    """'2 Oct 2026', whatever the system's language."""
    return date_text(day)


def week_place(week: Week) -> Place:
    """The whole week."""
    return Place(week=week.id)


def day_place(week: Week, day: int) -> Place:
    """A day of the week."""
    return Place(week=week.id, day=day)


def session_place(week: Week, day: int, *, session: Session) -> Place:
    """A session of the week; its strand keeps the finding's id steady."""
    return Place(week=week.id, day=day, session=session.id, strand=session.strand)


def slot_place(week: Week, placed: Placed) -> Place:
    """A slot of the week."""
    slot = placed.at.slot
    return Place(week.id, placed.day, placed.session.id, slot=slot.id, strand=slot.strand)


def slot_finding(
    rule: str,
    band: Range,
    *,
    week: WeekFacts,
    placed: Placed,
    text: str,
    measured: float | None = None,
    detail: str = "",
) -> Finding:
    """A finding on one slot; `text` follows the name of its exercise.

    detail: what tells two findings of one rule on the same slot apart.
    """
    about = placed.at.slot.exercise
    return finding(
        rule,
        band,
        place=slot_place(week.week, placed),
        about=f"{about}:{detail}" if detail else about,
        text=f"{placed.at.exercise.name} {text}",
        measured=measured,
    )


def finding(
    rule: str,
    band: Range,
    *,
    place: Place,
    about: str,
    text: str,
    measured: float | None = None,
    where: str = "",
) -> Finding:
    """The finding that `band` is left, or for a matter of yes or no that it speaks of."""
    below = None
    if measured is not None:
        below = True if band.short_by(measured) else False if band.over_by(measured) else None
    return Finding(
        rule=rule,
        weight=WEIGHTS[band.weight],
        place=place,
        about=about,
        text=text,
        measured=measured,
        range=band,
        below=below,
        place_text=where or ("" if place.day is None else day_name(place.day)),
        reason=tr(band.reason),
        source=band.source,
    )
