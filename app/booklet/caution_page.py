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
from app.domain.exercise import Motion, joint_name
from app.domain.screening import outcome
from app.domain.wording import mark, mid_sentence, tr
from app.domain.working import UNSOURCED

SEE_FIRST = (
    mark(
        "See a doctor before you begin if you have, or may have, a disease of "
        "the heart, the vessels, the kidneys or the metabolism, or if you feel "
        "chest pain, fainting or unusual breathlessness."
    ),
    mark(
        "Ask a doctor or midwife if you are pregnant or have given birth lately, "
        "and a doctor or physiotherapist after an injury or an operation."
    ),
    mark("What they and your local rules say comes before anything in this booklet."),
)
SAFE = (
    mark("Set the safety bars or have someone beside you when a bar is over you."),
    mark("Clear the floor, close the collars, wear shoes that do not slip."),
    mark("Raise the load only when the reps and the effort of the plan are met."),
)


def pages(book: Book) -> Iterator[Page]:
    """One page; it is in every booklet."""
    yield Page(
        "cautions",
        _draw,
        title=tr("Before you begin"),
        cites=cites_of(book),
    )


def _draw(sheet: Sheet) -> None:
    book, pen, p = sheet.book, sheet.pen, sheet.palette
    sheet.title(tr("Before you begin"))
    y = 30.0
    if Part.READING not in book.options.parts:
        y = caution_box(sheet, y, tr(STOP_TITLE), tuple(map(tr, STOP))) + 5.0
    title, sentences = screening_words(book)
    y = caution_box(sheet, y, title, (*sentences, tr(SEE_FIRST[2]))) + 10.0
    cite = sheet.cite(*(cite.key for cite in cites_of(book)))
    y = sheet.section(y, tr("Who asks first")) + 6.0
    y = _points(sheet, (tr(SEE_FIRST[0]) + cite, tr(SEE_FIRST[1])), y) + 5.0
    agreed = limitation_lines(book)
    if agreed:
        y = sheet.section(y, tr("Left out for you"), tr("by agreement")) + 6.0
        y = _points(sheet, agreed, y) + 5.0
    y = sheet.section(y, tr("Each time")) + 6.0
    y = _points(sheet, tuple(map(tr, SAFE)), y) + 5.0
    entries = contents_of(sheet)
    if entries and y + 10 + len(entries) * BODY.lead_mm < book.frame.last:
        y = sheet.section(y, tr("In this booklet")) + 6.0
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
        return tr("No screening yet"), (
            tr("Answer the questions about your health with your coach before the first session."),
        )
    advice = outcome(screening, on=book.issue.on)
    done = tr(
        "Your answers are of {on}. Tell your coach when one changes.",
        on=full_day_text(screening.on),
    )
    said = tr(_OUTCOMES[advice.outcome])
    cleared = screening.cleared_on
    if advice.outcome is Outcome.MAY_START and cleared is not None and cleared <= book.issue.on:
        agreed = tr(
            "A practitioner agreed to training on {cleared}.", cleared=full_day_text(cleared)
        )
        return said, (agreed, *advice.cautions, done)
    return said, (*advice.cautions, done)


_OUTCOMES = {
    Outcome.MAY_START: mark("Begin as agreed with your coach"),
    Outcome.MODERATE_ONLY: mark("Keep to moderate effort"),
    Outcome.SEE_PRACTITIONER: mark("See a doctor before the first session"),
}


def cites_of(book: Book) -> tuple[Cite, ...]:
    """The logic of the screening, and what else its advice leans on."""
    keys = ["riebe2015"]
    screening = book.issue.client.latest_screening
    if screening is not None:
        keys += outcome(screening, on=book.issue.on).sources
    used_for = tr("who sees a doctor first")
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


MOTION_WORDS = {
    Motion.FLEXION: mark("bending"),
    Motion.EXTENSION: mark("straightening"),
    Motion.ABDUCTION: mark("moving away from the middle"),
    Motion.ADDUCTION: mark("moving towards the middle"),
    Motion.ROTATION: mark("turning"),
    Motion.OVERHEAD: mark("work above the head"),
    Motion.COMPRESSION: mark("heavy load from above"),
    Motion.IMPACT: mark("jumps and blows"),
}
"""Motions in a client's words."""


def joint_text(limitation: Limitation) -> str:
    """The joint with its side: 'Left knee'."""
    joint = joint_name(limitation.joint)
    match limitation.side:
        case Side.LEFT:
            return tr("Left {joint}", joint=mid_sentence(joint))
        case Side.RIGHT:
            return tr("Right {joint}", joint=mid_sentence(joint))
        case Side.BOTH:
            return joint


def _limitation_text(limitation: Limitation) -> str:
    joint, motion = joint_text(limitation), tr(MOTION_WORDS[limitation.motion])
    past, until = limitation.past_degrees, limitation.until
    if past is not None:
        motion = tr("{motion} past {degrees}°", motion=motion, degrees=past)
    text = tr("{joint}: no {motion}", joint=joint, motion=motion)
    if until is not None:
        text = tr(
            "{limitation}, until {day}; ask before you begin again",
            limitation=text,
            day=full_day_text(until),
        )
    text = text[:1].upper() + text[1:]
    note = " ".join(limitation.note.split())
    return f"{text}. {note}" if note else f"{text}."


def _points(sheet: Sheet, sentences: tuple[str, ...], y: float) -> float:
    """Sentences with square points; gives back the baseline that may follow."""
    for sentence in sentences:
        sheet.pen.box(Box(0, y - 1.7, 1.1, 1.1), fill=sheet.palette.ink)
        y = sheet.pen.paragraph(4.0, y, sentence, width=sheet.width - 4, style=BODY) + 0.9
    return y


def contents_of(sheet: Sheet) -> tuple[tuple[str, str], ...]:
    """The parts that are there, by bookmark and name."""
    weeks = sheet.book.week_range
    first = f"week-{weeks.start + 1}"
    name = (
        tr("Weeks {start} to {stop}", start=weeks.start + 1, stop=weeks.stop)
        if len(weeks) > 1
        else tr("Week {stop}", stop=weeks.stop)
    )
    exercises = next((key for key in sheet.pages if key.startswith("exercise-")), "")
    entries = (
        ("reading", tr("How to read this booklet")),
        ("loads", tr("Where your loads come from")),
        ("plates", tr("Plates for the bar")),
        ("glance", tr("The program at a glance")),
        ("warmup", tr("Warm-up")),
        (first, name),
        (exercises, tr("The exercises")),
        ("energy", tr("Energy and protein")),
        ("sources", tr("Where the numbers come from")),
    )
    return tuple((key, text) for key, text in entries if key in sheet.pages)
