"""Before the first session: what the screening said, what was agreed on, and the contents."""

from __future__ import annotations

from collections.abc import Iterator

from app.booklet.book import Book, Cite, Page, Sheet, Topic
from app.booklet.content import Part
from app.booklet.fonts import BODY, CELL
from app.booklet.pen import Box
from app.booklet.reading import STOP, STOP_TITLE
from app.booklet.signs import caution_box
from app.booklet.words import full_day_text
from app.domain.client import Limitation, Outcome, Side
from app.domain.exercise import Motion
from app.domain.screening import outcome
from app.domain.working import UNSOURCED

_SEE_FIRST = (
    (
        "See a doctor before you begin if you have, or may have, a disease of the heart, the "
        "vessels, the kidneys or the metabolism, or if you feel chest pain, fainting or unusual "
        "breathlessness."
    ),
    (
        "Ask a doctor or midwife if you are pregnant or have given birth lately, and a doctor or "
        "physiotherapist after an injury or an operation."
    ),
    "What they and your local rules say comes before anything in this booklet.",
)
_SAFE = (
    "Set the safety bars or have someone beside you when a bar is over you.",
    "Clear the floor, close the collars, wear shoes that do not slip.",
    "Raise the load only when the reps and the effort of the plan are met.",
)


def pages(book: Book) -> Iterator[Page]:
    """One page; it is in every booklet."""
    yield Page(
        "cautions",
        _draw,
        title="Before you begin",
        cites=_cites(book),
    )


def _draw(sheet: Sheet) -> None:
    book, pen, p = sheet.book, sheet.pen, sheet.palette
    sheet.title("Before you begin")
    y = 30.0
    if Part.READING not in book.options.parts:
        y = caution_box(sheet, y, STOP_TITLE, STOP) + 5.0
    title, sentences = screening_words(book)
    y = caution_box(sheet, y, title, (*sentences, _SEE_FIRST[2])) + 10.0
    cite = sheet.cite(*(cite.key for cite in _cites(book)))
    y = sheet.section(y, "Who asks first") + 6.0
    y = _points(sheet, (_SEE_FIRST[0] + cite, _SEE_FIRST[1]), y) + 5.0
    agreed = limitation_lines(book)
    if agreed:
        y = sheet.section(y, "Left out for you", "by agreement") + 6.0
        y = _points(sheet, agreed, y) + 5.0
    y = sheet.section(y, "Each time") + 6.0
    y = _points(sheet, _SAFE, y) + 5.0
    entries = _contents(sheet)
    if entries and y + 10 + len(entries) * BODY.lead_mm < book.frame.last:
        y = sheet.section(y, "In this booklet") + 6.0
        for key, text in entries:
            sheet.linked(0, y, text, to=key, style=BODY)
            page = sheet.page_text(key)
            pen.text(sheet.width, y, page, style=CELL, tone=p.mid, align=1)
            y += BODY.lead_mm
    sheet.foot()


def screening_words(book: Book) -> tuple[str, tuple[str, ...]]:
    """What the newest screening asks of the client: a title and sentences."""
    screening = book.issue.client.latest_screening
    if screening is None:
        return "No screening yet", (
            "Answer the questions about your health with your coach before the first session.",
        )
    advice = outcome(screening, on=book.issue.on)
    done = f"Your answers are of {full_day_text(screening.on)}. Tell your coach when one changes."
    said = _OUTCOMES[advice.outcome]
    cleared = screening.cleared_on
    if advice.outcome is Outcome.MAY_START and cleared is not None and cleared <= book.issue.on:
        agreed = f"A practitioner agreed to training on {full_day_text(cleared)}."
        return said, (agreed, *advice.cautions, done)
    return said, (*advice.cautions, done)


_OUTCOMES = {
    Outcome.MAY_START: "Begin as agreed with your coach",
    Outcome.MODERATE_ONLY: "Keep to moderate effort",
    Outcome.SEE_PRACTITIONER: "See a doctor before the first session",
}


def _cites(book: Book) -> tuple[Cite, ...]:
    """The logic of the screening, and what else its advice leans on."""
    keys = ["riebe2015"]
    screening = book.issue.client.latest_screening
    if screening is not None:
        keys += outcome(screening, on=book.issue.on).sources
    used_for = "who sees a doctor first"
    return tuple(
        Cite(key, Topic.SAFETY, used_for) for key in dict.fromkeys(keys) if key not in UNSOURCED
    )


def limitation_lines(book: Book) -> tuple[str, ...]:
    """What is ruled out while the plan runs, one sentence a limitation."""
    program = book.issue.program
    first = program.start
    last = program.week_start(len(program.weeks))
    return tuple(
        _limitation_text(limitation)
        for limitation in book.issue.client.limitations
        if (limitation.until is None or limitation.until >= first)
        and (limitation.since is None or limitation.since < last)
    )


_MOTIONS = {
    Motion.FLEXION: "bending",
    Motion.EXTENSION: "straightening",
    Motion.ABDUCTION: "moving away from the middle",
    Motion.ADDUCTION: "moving towards the middle",
    Motion.ROTATION: "turning",
    Motion.OVERHEAD: "work above the head",
    Motion.COMPRESSION: "heavy load from above",
    Motion.IMPACT: "jumps and blows",
}


def _limitation_text(limitation: Limitation) -> str:
    side = "" if limitation.side is Side.BOTH else f"{limitation.side.value} "
    text = f"{side}{limitation.joint.value}: no {_MOTIONS[limitation.motion]}".capitalize()
    if limitation.past_degrees is not None:
        text += f" past {limitation.past_degrees}°"
    if limitation.until is not None:
        text += f", until {full_day_text(limitation.until)}; ask before you begin again"
    note = " ".join(limitation.note.split())
    return f"{text}. {note}" if note else f"{text}."


def _points(sheet: Sheet, sentences: tuple[str, ...], y: float) -> float:
    """Sentences with square points; gives back the baseline that may follow."""
    for sentence in sentences:
        sheet.pen.box(Box(0, y - 1.7, 1.1, 1.1), fill=sheet.palette.ink)
        y = sheet.pen.paragraph(4.0, y, sentence, width=sheet.width - 4, style=BODY) + 0.9
    return y


def _contents(sheet: Sheet) -> tuple[tuple[str, str], ...]:
    """The parts that are there, by bookmark and name."""
    weeks = sheet.book.week_range
    first = f"week-{weeks.start + 1}"
    name = f"Weeks {weeks.start + 1} to {weeks.stop}" if len(weeks) > 1 else f"Week {weeks.stop}"
    exercises = next((key for key in sheet.pages if key.startswith("exercise-")), "")
    entries = (
        ("reading", "How to read this booklet"),
        ("loads", "Where your loads come from"),
        ("glance", "The program at a glance"),
        ("warmup", "Warm-up"),
        (first, name),
        (exercises, "The exercises"),
        ("energy", "Energy and protein"),
        ("sources", "Where the numbers come from"),
    )
    return tuple((key, text) for key, text in entries if key in sheet.pages)
