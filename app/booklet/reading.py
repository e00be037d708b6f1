"""How to read the booklet: one row of a week page taken apart, then the words it uses."""

from __future__ import annotations

from collections.abc import Callable, Iterator, Sequence
from dataclasses import dataclass, replace

from app.booklet.book import Book, Cite, Draw, Page, Sheet, Topic
from app.booklet.content import Part
from app.booklet.fonts import (
    BODY,
    CELL,
    CELL_BOLD,
    FIGURE,
    LABEL,
    LABEL_BOLD,
    NAME,
    NBSP,
    SECTION,
    SMALL_HEAD,
)
from app.booklet.pen import Box
from app.booklet.pictures import draw_picture
from app.booklet.row import cell_boxes, columns, fit_dose, load_cell
from app.booklet.signs import caution_box, caution_height
from app.booklet.warmup_text import ramp_of
from app.booklet.words import dose_text, effort_text, mass_number, number_of_reps, rest_text
from app.domain.effort import Rir
from app.domain.exercise import Exercise
from app.domain.program import Slot
from app.domain.wording import mark, tr, trn

STOP_TITLE = mark("Stop, and ask, when something is wrong")
STOP = (
    mark(
        "Stop the exercise if it hurts in a joint, if pain is sharp or spreads, "
        "or if you feel dizzy, faint, sick or short of breath beyond the effort."
    ),
    mark("Chest pain or pressure, or fainting: stop training and call for medical help at once."),
    mark(
        "See a doctor or physiotherapist before you go on if a pain is still "
        "there after a few days, or if you are ill, pregnant, or on a new "
        "medicine. Tell your coach."
    ),
)
_LOAD = mark(
    "What to put on the bar, or hold in each hand. It is a starting value: effort decides. If the "
    "day is poor, take off 5 to 10 %."
)
_NO_LOAD = mark(
    "This booklet names none. Use what lets you do the reps with the effort that is asked for, and "
    "write it down: it is where you begin next time."
)
_RECORD = mark(
    "One box above the other for each set: load on top, reps below. No box, no set. Leave a box "
    "empty if you skip the set."
)
_FORM_RECORD = mark(
    "A line of fields for each set: load, reps, reps left in reserve, remarks. Figures alone are "
    "enough. Leave a line empty if you skip the set. Save the file and send it to your coach."
)
_COMPACT_RECORD = mark(
    "One box for each set: the load before the sign, the reps behind it. No box, no set. Leave a "
    "box empty if you skip the set."
)
_LETTERS = "abcdef"
_TEXT_X, _HEAD_X = 42.0, 8.0


@dataclass(frozen=True, slots=True)
class Word:
    """One word explained.

    letter: of the column it belongs to; picture: draws below the text from `x` on, and gives back
    its lower edge; picture_mm and picture_wide_mm: the room that takes.
    """

    head: str
    text: str
    letter: str = ""
    picture: Callable[[Sheet, float, float], float] | None = None
    picture_mm: float = 0.0
    picture_wide_mm: float = 0.0
    cites: tuple[str, ...] = ()


@dataclass(frozen=True, slots=True)
class Sample:
    """The row that is taken apart."""

    slot: Slot
    exercise: Exercise


def pages(book: Book) -> Iterator[Page]:
    """One page; the words that it does not hold, and the caution, on a second."""
    found = sample(book)
    words = words_of(book, found)
    room = book.frame.last - (_WORDS_FROM if found is not None else _FIRST)
    stop_mm = caution_height(book, tuple(map(tr, STOP))) + 3.0
    heights = [word_height(book, word) for word in words]
    whole = sum(heights) + stop_mm <= room
    fits = len(words) if whole else _how_many(heights, room)
    title, cites = tr("How to read this booklet"), effort_cites()
    yield Page("reading", _drawing(words[:fits], found, stop=whole), title=title, cites=cites)
    if not whole:
        yield Page("reading-2", _drawing(words[fits:], None, stop=True))


def _how_many(heights: Sequence[float], room: float) -> int:
    """How many of the words one page holds."""
    fits = 0
    while fits < len(heights) and sum(heights[: fits + 1]) <= room:
        fits += 1
    return fits


def word_height(book: Book, word: Word) -> float:
    """The room that a word takes, mm, down to the hair line below it."""
    said = f"{word.text} [1, 2]" if word.cites else word.text
    lines = book.wrap(said, BODY, book.frame.width - _TEXT_X)
    return 5.2 + len(lines) * BODY.lead_mm - BODY.lead_mm + 2.2 + word.picture_mm


def effort_cites() -> tuple[Cite, ...]:
    """What the words on effort lean on."""
    return (
        Cite("zourdos2016", Topic.TRAINING, tr("repetitions left in reserve")),
        Cite("hackett2017", Topic.TRAINING, tr("how well effort is judged")),
    )


def sample(book: Book) -> Sample | None:
    """A row to take apart: the first with a load and a figure, else with a load, else any."""
    best: tuple[int, Sample] | None = None
    for index in book.week_range:
        for slot in book.issue.program.weeks[index].slots():
            exercise = book.exercise(slot.exercise)
            drawn = exercise.figure in book.content.poses
            score = 4 * (book.loads.get(slot.id) is not None) + 2 * (not exercise.timed) + drawn
            if best is None or score > best[0]:
                best = score, Sample(slot, exercise)
        if best is not None and best[0] == 7:
            break
    return None if best is None else best[1]


_FIRST = 33.4
_WORDS_FROM = _FIRST + 35.0
"""Where the words begin: under the title, or under the sample row."""


def _drawing(words: tuple[Word, ...], found: Sample | None, *, stop: bool) -> Draw:
    def draw(sheet: Sheet) -> None:
        sheet.title(tr("How to read this booklet"))
        y = _FIRST
        if found is not None:
            sheet.pen.text(0, y, tr("One row of a week page, from left to right"), style=SECTION)
            y = _draw_sample(sheet, found, y + 4.0)
        y = _draw_words(sheet, words, y + 1.0)
        if stop:
            said = tuple(map(tr, STOP))
            y = min(y + 3.0, sheet.book.frame.last - caution_height(sheet.book, said))
            caution_box(sheet, y, tr(STOP_TITLE), said)
        sheet.foot()

    return draw


def _draw_sample(sheet: Sheet, found: Sample, y: float) -> float:
    """The sample row on a tint, with a letter under each column."""
    pen, p, col, slot = sheet.pen, sheet.palette, columns(sheet.width), found.slot
    pen.box(Box(0, y, sheet.width, 21.0), fill=p.tint)
    draw_picture(sheet, found.exercise, Box(0.5, y + 2.4, 17.0, 17.5))
    base, below = y + 9.7, y + 14.2
    name = sheet.book.wrap(found.exercise.name, NAME, col.dose - col.name - 1)[:2]
    pen.lines(col.name, base - (len(name) - 1) * NAME.lead_mm / 2, name, style=NAME)
    dose = dose_text(slot, found.exercise)
    pen.text(col.dose, base, dose, style=fit_dose(sheet, dose, col))
    effort, of_what = ("–", "") if found.exercise.timed else effort_text(slot.effort, slot.reps)
    pen.text(col.effort, base, effort, style=BODY)
    pen.text(col.effort, below, of_what, style=LABEL, tone=p.mid)
    load = load_cell(sheet.book, slot, found.exercise)
    pen.text(col.load, base, load.number, style=FIGURE)
    pen.text(col.load, below, load.words, style=LABEL, tone=p.mid)
    pen.text(col.rest, base, rest_text(slot.rest_s), style=BODY)
    for upper, lower in cell_boxes(min(slot.sets, 4), col.cells, row_mm=19.2):
        pen.box(Box(upper.x, y + 1.4, upper.width, 9.0), stroke=p.cell)
        pen.box(Box(lower.x, y + 10.4, lower.width, 9.0), stroke=p.cell)
    pen.text(col.cells - 1.4, y + 7.0, tr("load"), style=LABEL, tone=p.mid, align=1)
    pen.text(col.cells - 1.4, y + 16.0, tr("reps"), style=LABEL, tone=p.mid, align=1)
    places = (col.name + 12, col.dose + 7, col.effort + 5, col.load + 6, col.rest + 4.6)
    for letter, x in zip(_LETTERS, (*places, col.cells + 30), strict=True):
        pen.rule(x, y + 21.0, x, to_y=y + 24.5, weight=0.6)
        _badge(sheet, x, y + 26.8, letter)
    return y + 30.0


def _badge(sheet: Sheet, x: float, y: float, letter: str) -> None:
    sheet.pen.disc(x, y, 2.4, fill=sheet.palette.ink)
    sheet.pen.text(x, y + 1.1, letter, style=LABEL_BOLD, tone=sheet.palette.paper, align=0.5)


def _draw_words(sheet: Sheet, words: tuple[Word, ...], y: float) -> float:
    pen, p = sheet.pen, sheet.palette
    for word in words:
        base = y + 5.2
        if word.letter:
            _badge(sheet, 2.6, base - 1.3, word.letter)
        head = pen.fitting(word.head, SMALL_HEAD, _TEXT_X - _HEAD_X - 1.0)
        pen.text(_HEAD_X, base, head, style=SMALL_HEAD)
        said = word.text + sheet.cite(*word.cites)
        y = pen.paragraph(_TEXT_X, base, said, width=sheet.width - _TEXT_X, style=BODY)
        y -= BODY.lead_mm - 2.2
        if word.picture is not None:
            y = word.picture(sheet, _TEXT_X, y)
        pen.rule(0, y, sheet.width, tone=p.hair)
    return y


def words_of(book: Book, found: Sample | None, *, lettered: bool = True) -> tuple[Word, ...]:
    """The words in the order of the columns, with the sample's own figures.

    lettered: as the columns of the sample are.
    """
    sets, reps, timed = 3, "10", False
    if found is not None:
        sets, reps = found.slot.sets, number_of_reps(found.slot.reps)
        timed = found.exercise.timed
    words = [
        Word(tr("Exercise"), _exercise_text(book)),
        Word(
            tr("Sets × reps"),
            _dose_words(sets, reps, timed=timed),
        ),
        _effort_word(found),
        Word(tr("Load"), tr(_LOAD if book.options.loads else _NO_LOAD)),
        Word(
            tr("Rest"),
            tr(
                "Minutes and seconds from the end of one set to the start of the "
                "next. Longer is fine."
            ),
        ),
        Word(tr("Your record"), tr(_record(book))),
    ]
    named = [
        replace(word, letter=_LETTERS[at] if found and lettered else "")
        for at, word in enumerate(words)
    ]
    return (*named, *_more_words(book, found))


def _dose_words(sets: int, reps: str, *, timed: bool) -> str:
    """What the sample's sets and repetitions mean."""
    dose = f"{sets}{NBSP}×{NBSP}{reps}"
    if timed:
        return trn(
            "{dose} means {n} set of {reps} seconds, resting between sets.",
            "{dose} means {n} sets of {reps} seconds, resting between sets.",
            sets,
            dose=dose,
            reps=reps,
        )
    return trn(
        "{dose} means {n} set of {reps} repetitions, resting between sets.",
        "{dose} means {n} sets of {reps} repetitions, resting between sets.",
        sets,
        dose=dose,
        reps=reps,
    )


def _exercise_text(book: Book) -> str:
    """What stands under an exercise's name, and where more is."""
    said = tr("The name, and a picture of where the movement ends.")
    if Part.EXERCISES not in book.options.parts:
        return said
    more = tr(
        "Full instructions and what you may do instead are on the page named with the picture."
    )
    return f"{said} {more}"


def _record(book: Book) -> str:
    """How to write down what was done."""
    if book.options.form:
        return _FORM_RECORD
    return _RECORD if book.options.spread or book.options.slim else _COMPACT_RECORD


def _effort_word(found: Sample | None) -> Word:
    text = tr(
        "RIR: repetitions in reserve, how many more you could have done with "
        "clean form when you put the load down."
    )
    more = tr("If clearly more are left than planned, use more load next set; if fewer, use less.")
    cites = tuple(cite.key for cite in effort_cites())
    slot = None if found is None or found.exercise.timed else found.slot
    if slot is None or not isinstance(slot.effort, Rir) or slot.effort.reps % 1:
        return Word(tr("Effort (RIR)"), f"{text} {more}", cites=cites)
    done, left = slot.reps.high, int(slot.effort.reps)
    example = tr(
        "RIR {left} with {done} reps means {limit} would have been your honest limit.",
        left=left,
        done=done,
        limit=done + left,
    )
    if done + left > 40:
        return Word(tr("Effort (RIR)"), f"{text} {example} {more}", cites=cites)

    def dots(sheet: Sheet, x: float, y: float) -> float:
        pen, p = sheet.pen, sheet.palette
        for at in range(done + left):
            middle = x + 1.0 + at * 2.3
            if at < done:
                pen.disc(middle, y + 1.6, 0.9, fill=p.ink)
            else:
                pen.disc(middle, y + 1.6, 0.8, stroke=p.ink)
        x += 5 + (done + left) * 2.3
        said = tr("{done} done, {left} kept in reserve", done=done, left=left)
        pen.text(x, y + 2.8, said, style=CELL, tone=p.mid)
        return y + 5.0

    return Word(
        tr("Effort (RIR)"),
        f"{text} {example} {more}",
        picture=dots,
        picture_mm=5.0,
        picture_wide_mm=60.0 + (done + left) * 2.3,
        cites=cites,
    )


def _more_words(book: Book, found: Sample | None) -> Iterator[Word]:
    """Words that only some plans need."""
    slots = [slot for at in book.week_range for slot in book.issue.program.weeks[at].slots()]
    on_pages = Part.EXERCISES in book.options.parts
    if any(slot.tempo or (on_pages and book.exercise(slot.exercise).tempo) for slot in slots):
        yield Word(
            tr("Tempo"),
            tr(
                "Four numbers, where given: seconds down, seconds still at the "
                "bottom, seconds up, seconds still at the top."
            ),
        )
    if any(slot.pair for slot in slots):
        yield Word(
            tr("Pairs"),
            tr(
                "Exercises marked A1 and A2, and joined by a bracket where there is room for "
                "one, are done in turn: one set of A1, then one of A2, rest, and again."
            ),
        )
    ramp = ramp_of(book, found.slot, found.exercise) if found else ()
    load_kg = book.loads.get(found.slot.id) if found else None
    if found is None or not ramp or not load_kg:
        return
    steps = (*((step.load_kg, step.reps) for step in ramp), (load_kg, found.slot.reps.high))
    units = book.issue.client.units

    def stairs(sheet: Sheet, left: float, y: float) -> float:
        pen, p = sheet.pen, sheet.palette
        pitch = (sheet.width - left) / len(steps)
        for at, (mass_kg, reps) in enumerate(steps):
            last = at == len(steps) - 1
            tall = 9.5 * mass_kg / load_kg
            x = left + at * pitch
            pen.box(
                Box(x, y + 10.5 - tall, 6.5, tall),
                fill=p.slate if last else p.sand,
                stroke=p.ink,
            )
            text = f"{mass_number(mass_kg, units)}{NBSP}{units}{NBSP}×{NBSP}{reps}"
            style, small = (CELL_BOLD, LABEL_BOLD) if last else (CELL, LABEL)
            fits = pen.width(text, style) <= pitch - 7.6
            pen.text(x + 7.6, y + 10.5, text, style=style if fits else small)
        return y + 13.0

    yield Word(
        tr("Ramp sets"),
        tr(
            "Short, easy sets that lead up to the working load, named in the warm-up "
            "line. Rest about a minute between them. They do not count as sets and "
            "you need not write them down."
        ),
        picture=stairs,
        picture_mm=13.0,
        picture_wide_mm=28.0 * len(steps),
    )
