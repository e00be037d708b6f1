"""What may be done in each exercise's place, on a page or two to keep in a training bag.

The same choice as in the booklet: what the coach prepared first and alone, else what is ranked
best, and never what the client must not do or has no equipment for.
"""

from __future__ import annotations

from collections.abc import Iterator

from app.booklet.bind import open_book
from app.booklet.book import Book
from app.booklet.content import Content, Options, Paper
from app.booklet.flow import Block, Ground, Heading, print_flow
from app.booklet.fonts import CELL, CELL_BOLD, NAME
from app.booklet.instead import Instead, instead_of
from app.booklet.pen import Pen
from app.booklet.words import DOT, full_day_text
from app.domain.exercise import ExerciseKey, Pattern
from app.domain.program import Slot
from app.domain.wording import mark, tr
from app.domain.work import Issue

_INDENT_MM, _REASON_MM = 6.0, 72.0
_CAUTIONS = (
    mark(
        "Swap when a machine is taken, when you travel, or when something feels wrong that day; "
        "then tell your coach."
    ),
    mark("Begin a new exercise lighter than you think, and stop at pain."),
)


def make_substitute_list(
    issue: Issue, content: Content, *, paper: Paper = Paper.A4, grey: bool = False
) -> bytes:
    """The list as a PDF; the same issue gives the same bytes.

    Raises BookletError for letters that the fonts do not have.
    """
    book = open_book(issue, content, Options(paper=paper, grey=grey))
    ground = Ground(book.faces, paper, grey)
    heading = Heading(
        tr("Instead"),
        full_day_text(issue.on),
        DOT.join((issue.client.name, issue.program.name)),
        subject=tr("Substitutes for {program}", program=issue.program.name),
        author=issue.coach.name,
    )
    return print_flow(ground, heading, _blocks(book, ground))


def _blocks(book: Book, ground: Ground) -> Iterator[Block]:
    yield ground.cautions(tuple(tr(text) for text in _CAUTIONS))
    found = False
    for slot in _slots(book):
        exercise = book.exercise(slot.exercise)
        choice = instead_of(book, slot, exercise)
        found = True
        yield _entry(ground, exercise.name, choice)
    if not found:
        yield ground.paragraph(tr("The program has no exercise yet."))


def _slots(book: Book) -> Iterator[Slot]:
    """The first slot of every exercise of the program, drills apart."""
    seen: set[ExerciseKey] = set()
    for week in book.issue.program.weeks:
        for slot in week.slots():
            drill = book.exercise(slot.exercise).pattern is Pattern.DRILL
            if slot.exercise not in seen and not drill:
                seen.add(slot.exercise)
                yield slot


def _entry(ground: Ground, name: str, choice: tuple[Instead, ...]) -> Block:
    names = ground.faces.wrap(name, NAME, ground.width)
    rows = [
        (
            ground.faces.wrap(one.exercise.name, CELL_BOLD, _REASON_MM - _INDENT_MM - 3.0),
            ground.faces.wrap(_why(one), CELL, ground.width - _REASON_MM),
        )
        for one in choice
    ]
    if not choice:
        text = tr("Nothing fits: leave it out that day, and ask.")
        rows = [((), ground.faces.wrap(text, CELL, ground.width - _REASON_MM))]
    count = sum(max(len(left), len(right)) for left, right in rows)
    height = len(names) * NAME.lead_mm + count * CELL.lead_mm + 5.0

    def draw(pen: Pen, y: float) -> None:
        at = pen.lines(0, y + 5.0, names, style=NAME)
        for left, right in rows:
            pen.lines(_INDENT_MM, at, left, style=CELL_BOLD)
            pen.lines(_REASON_MM, at, right, style=CELL, tone=ground.palette.mid)
            at += max(len(left), len(right)) * CELL.lead_mm
        bottom = y + height - 0.4
        pen.rule(0, bottom, ground.width, weight=0.3, tone=ground.palette.hair)

    return Block(height, draw)


def _why(one: Instead) -> str:
    if one.prepared:
        return tr("prepared by your coach; {reason}", reason=one.reason)
    return one.reason
