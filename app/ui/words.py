"""How the window writes numbers and dates: one place, so that every pane says them alike."""

from __future__ import annotations

from datetime import date
from html import escape

from PySide6.QtCore import QDate, QLocale

from app.domain.client import Client, Limitation, Side, Stage, Status
from app.domain.exercise import Motion
from app.domain.program import Program
from app.domain.wording import mark, tr, trn

MINUS = "\N{MINUS SIGN}"
TIMES = "\N{MULTIPLICATION SIGN}"
DASH = "\N{EN DASH}"
DOT = "\N{MIDDLE DOT}"
ARROW = "\N{RIGHTWARDS ARROW}"

HOW_BY_KEY = mark("F3 tells how it came about.")
HOW_BY_MENU = mark("A right click or F3 tells how it came about.")
HOW_BY_CLICK = mark("A click or F3 tells how it came about.")

STATUS_WORDS = {
    Status.NOVICE: mark("novice"),
    Status.INTERMEDIATE: mark("intermediate"),
    Status.ADVANCED: mark("advanced"),
}

STAGE_WORDS = {
    Stage.ENQUIRY: mark("enquiry"),
    Stage.ACTIVE: mark("active"),
    Stage.PAUSED: mark("paused"),
    Stage.ENDED: mark("ended"),
}

MOTION_WORDS = {
    Motion.FLEXION: mark("bending"),
    Motion.EXTENSION: mark("straightening"),
    Motion.ABDUCTION: mark("spreading"),
    Motion.ADDUCTION: mark("drawing in"),
    Motion.ROTATION: mark("turning"),
    Motion.OVERHEAD: mark("overhead work"),
    Motion.COMPRESSION: mark("heavy load along it"),
    Motion.IMPACT: mark("jolts and jumps"),
}


def number(value: float, *, places: int = 1) -> str:
    """The value in the platform's way of writing, without needless zeros."""
    text = QLocale().toString(float(value), "f", places)
    point = QLocale().decimalPoint()
    if point in text:
        text = text.rstrip("0").removesuffix(point)
    return text


def typed_number(value: float, *, places: int = 2) -> str:
    """The value as a coach would type it: the platform's decimal point, no thousands apart."""
    text = f"{value:.{places}f}"
    if places:
        text = text.rstrip("0").removesuffix(".")
    return text.replace(".", "," if QLocale().decimalPoint() == "," else ".")


def clock(seconds: int) -> str:
    """A rest as minutes and seconds, '2:30'."""
    return f"{seconds // 60}:{seconds % 60:02d}"


def day_and_month(day: date, *, short: bool = False) -> str:
    """'23 November', or '23 Nov'."""
    month = QLocale().monthName(
        day.month, QLocale.FormatType.ShortFormat if short else QLocale.FormatType.LongFormat
    )
    return f"{day.day} {month}"


def full_date(day: date) -> str:
    """'2 Oct 2026': the month in letters, so that no order of figures can be mistaken."""
    return f"{day_and_month(day, short=True)} {day.year}"


def qdate(day: date) -> QDate:
    """The Qt form of a date."""
    return QDate(day.year, day.month, day.day)


def pydate(day: QDate) -> date:
    """The plain form of a Qt date."""
    return date(day.year(), day.month(), day.day())


def week_span(program: Program, index: int, *, short: bool = False) -> str:
    """'23 to 29 November' for a week of the program."""
    first = program.week_start(index)
    last = date.fromordinal(first.toordinal() + 6)
    if first.month == last.month:
        return tr(
            "{day} to {day_and_month}",
            day=first.day,
            day_and_month=day_and_month(last, short=short),
        )
    return tr(
        "{day_and_month} to {day_and_month_2}",
        day_and_month=day_and_month(first, short=short),
        day_and_month_2=day_and_month(last, short=short),
    )


def client_line(client: Client, today: date) -> str:
    """'34 · 171 cm · 66.4 kg · intermediate, 3 years': what is known of a client in one line."""
    parts = []
    age = client.age_on(today)
    if age is not None:
        parts.append(str(age))
    if client.height_cm is not None:
        parts.append(f"{number(client.height_cm)} cm")
    if client.mass_kg is not None:
        parts.append(f"{number(client.mass_kg)} kg")
    status = tr(STATUS_WORDS[client.status])
    if client.trained_years:
        unit = trn("year", "years", client.trained_years)
        status += f", {number(client.trained_years)} {unit}"
    parts.append(status)
    return f" {DOT} ".join(parts)


def tip(*lines: str) -> str:
    """Lines as a tooltip that wraps and is never taken for markup of its own."""
    told = "<br>".join(escape(line) for line in lines if line)
    return f"<qt>{told}</qt>" if told else ""


def label_text(text: str) -> str:
    """The text for a menu or button, where a single '&' would underline the next letter."""
    return text.replace("&", "&&")


def list_of(names: list[str]) -> str:
    """'a, b and c'."""
    if len(names) < 2:
        return "".join(names)
    return tr("{names} and {last}", names=", ".join(names[:-1]), last=names[-1])


def limitation_text(limitation: Limitation) -> str:
    """'Left knee: no bending past 90° until 28 Feb 2027'."""
    side = "" if limitation.side is Side.BOTH else f"{tr(limitation.side.value)} "
    text = tr(
        "{side}{joint}: no {motion}",
        side=side,
        joint=tr(limitation.joint.value),
        motion=tr(MOTION_WORDS[limitation.motion]),
    )
    if limitation.past_degrees is not None:
        text += tr(" past {past_degrees}°", past_degrees=limitation.past_degrees)
    if limitation.since is not None:
        text += tr(" from {since}", since=full_date(limitation.since))
    if limitation.until is not None:
        text += tr(" until {until}", until=full_date(limitation.until))
    if limitation.note:
        text += f" ({limitation.note})"
    return text[:1].upper() + text[1:]
