"""Where the loads come from: the tests they rest on, and how to find one that has no test."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass

from app.booklet.book import NOTE_LINE_MM, Book, Cite, Draw, Page, Sheet, Topic
from app.booklet.fonts import BODY, BODY_BOLD, CELL, CELL_BOLD, LABEL, NBSP
from app.booklet.words import day_text, mass_number
from app.domain.curve import find_curve
from app.domain.exercise import Exercise, LoadKind
from app.domain.loads import calibration, newest_test, one_rep_max_of
from app.domain.one_rm import EQUATIONS, set_text
from app.domain.program import Slot
from app.domain.units import number_text
from app.domain.wording import mark, tr

EQUATION_SOURCES = tuple(equation.source for equation in EQUATIONS.values())
"""Where the equations for the one-repetition maximum come from."""

STEPS = (
    mark("Warm up. Begin with the load named below and do the reps of the week, in good form."),
    mark(
        "If you could have done five more or better, go up as named below; if "
        "three or four, go up one step. Rest two minutes. Repeat."
    ),
    mark(
        "Stop at the first set that leaves what the effort column asks for. If "
        "pain or bad form comes earlier, stop there."
    ),
    mark(
        "That set counts as your first. Write the load into the box, and on the "
        "line in the load column of the weeks to come."
    ),
)
_TEST_X, _ONE_X, _SPAN_X = 66.0, 118.0, 148.0


@dataclass(frozen=True, slots=True)
class Tested:
    """A tested exercise in its words; title and test: name and test as they are before they are
    broken into lines.
    """

    name: tuple[str, ...]
    told: tuple[str, ...]
    title: str
    test: str
    one_rm: str
    span: str

    @property
    def height(self) -> float:
        """Its room, mm."""
        return 7.0 + CELL.lead_mm * (max(len(self.name), len(self.told)) - 1)


@dataclass(frozen=True, slots=True)
class Untested:
    """An exercise whose load has to be found.

    title, first and more: name, first step and way up, as they are before they are broken.
    """

    name: tuple[str, ...]
    begin: tuple[str, ...]
    go_up: tuple[str, ...]
    title: str
    first: str
    more: str

    @property
    def height(self) -> float:
        """Its room, mm."""
        return max(len(self.name), len(self.begin), len(self.go_up)) * CELL.lead_mm + 2.4


def pages(book: Book) -> Iterator[Page]:
    """As many pages as the exercises need; none where no load is printed or to be found."""
    tested, untested = sort_loads(book)
    if not tested and not untested:
        return
    room = book.frame.last - 46.0
    steps_mm = _steps_mm(book)
    tested_sheets = _split([row.height for row in tested], room) or [(0, 0)]
    number = 0
    used = 0.0
    for start, end in tested_sheets:
        used = _intro_mm(book) + 7.4 * (end - start) if end > start else 0.0
        last = end == len(tested)
        fits: list[Untested] = []
        if last and untested:
            left = room - used - steps_mm
            while untested and untested[0].height <= left:
                left -= untested[0].height
                fits.append(untested.pop(0))
        yield _page(book, tuple(tested[start:end]), tuple(fits), number)
        number += 1
    while untested:
        left, fits = room - steps_mm, []
        while untested and (untested[0].height <= left or not fits):
            left -= untested[0].height
            fits.append(untested.pop(0))
        yield _page(book, (), tuple(fits), number)
        number += 1


def _intro_mm(book: Book) -> float:
    """The room that the text above the tests takes, mm; never less than in English."""
    lines = book.wrap(_intro_text(book, "[1, 2, 3, 4, 5, 6, 7]", "[8]"), BODY, book.frame.width)
    return max(24.0, len(lines) * BODY.lead_mm + 4.0)


def _steps_mm(book: Book) -> float:
    """The room that the steps above the untested exercises take, mm; likewise."""
    wide = book.frame.width - 6
    steps = sum(len(book.wrap(tr(step), BODY, wide)) * BODY.lead_mm + 0.8 for step in STEPS)
    return max(48.0, steps + 22.0)


def _split(heights: list[float], room: float) -> list[tuple[int, int]]:
    """Runs of rows that fit a page each."""
    runs: list[tuple[int, int]] = []
    start, used = 0, 0.0
    for at, height in enumerate(heights):
        if used + height > room:
            runs.append((start, at))
            start, used = at, 0.0
        used += height
    if start < len(heights):
        runs.append((start, len(heights)))
    return runs


def sort_loads(book: Book) -> tuple[list[Tested], list[Untested]]:
    """The exercises of the printed weeks, with a test and without one; each once."""
    seen: dict[str, Slot] = {}
    for index in book.week_range:
        for slot in book.issue.program.weeks[index].slots():
            seen.setdefault(slot.exercise, slot)
    tested: list[Tested] = []
    untested: list[Untested] = []
    for slot in seen.values():
        exercise = book.exercise(slot.exercise)
        if book.loads.get(slot.id) is not None and one_rep_max_of(exercise, book.issue.client):
            tested.append(_tested(book, exercise))
        elif exercise.load_kind not in (LoadKind.NONE, LoadKind.BODY) and not book.loads.get(
            slot.id
        ):
            untested.append(_untested(book, slot, exercise))
    return tested, untested


def _tested(book: Book, exercise: Exercise) -> Tested:
    client = book.issue.client
    test, estimate = newest_test(exercise, client), one_rep_max_of(exercise, client)
    assert test is not None
    assert estimate is not None
    units = client.units
    reserve = tr(", {rir} left", rir=number_text(test.rir)) if test.rir else ""
    done = set_text(test.load_kg, test.reps, unit=units).replace(" ", NBSP) + reserve
    if test.guessed_from is not None:
        done = tr("guess: {done}", done=done)
    low, high = (number_text(_in(edge, units)) for edge in (estimate.low, estimate.high))
    said = f"{done}, {day_text(test.on)}{NBSP}{test.on.year}"
    return Tested(
        name=book.wrap(exercise.name, CELL_BOLD, _TEST_X - 3),
        told=book.wrap(said, CELL, _ONE_X - _TEST_X - 2),
        title=exercise.name,
        test=said,
        one_rm=f"{number_text(_in(estimate.median, units))}{NBSP}{units}",
        span=tr("{low} to {high}", low=low, high=high),
    )


def _in(mass_kg: float, units: str) -> float:
    return float(mass_number(mass_kg, units)) if units == "lb" else mass_kg


def _untested(book: Book, slot: Slot, exercise: Exercise) -> Untested:
    found = calibration(slot, exercise, book.issue.client)
    more = found.go_up[:1].upper() + found.go_up[1:]
    return Untested(
        name=book.wrap(exercise.name, CELL_BOLD, 50.0),
        begin=book.wrap(found.steps[0], CELL, 60.0),
        go_up=book.wrap(more, CELL, book.frame.width - 118.0),
        title=exercise.name,
        first=found.steps[0],
        more=more,
    )


def _page(
    book: Book, tested: tuple[Tested, ...], untested: tuple[Untested, ...], number: int
) -> Page:
    curve = find_curve(book.issue.program.curve)
    return Page(
        f"loads-{number}" if number else "loads",
        _drawing(tested, untested, curve.source, first=not number),
        title="" if number else tr("Where your loads come from"),
        cites=loads_cites(book) if tested else (),
    )


def loads_cites(book: Book) -> tuple[Cite, ...]:
    """What a load that follows from a test leans on."""
    curve = find_curve(book.issue.program.curve)
    return (
        Cite(curve.source, Topic.TRAINING, tr("reps and load")),
        *(Cite(key, Topic.TRAINING, tr("one-repetition maximum")) for key in EQUATION_SOURCES),
    )


def _drawing(
    tested: tuple[Tested, ...], untested: tuple[Untested, ...], curve: str, *, first: bool
) -> Draw:
    def draw(sheet: Sheet) -> None:
        sheet.title(tr("Where your loads come from"))
        y = 32.0
        if tested:
            y = _draw_tested(sheet, tested, y, curve=curve) + 10.0
        if untested:
            y = _draw_untested(sheet, untested, y) + 10.0
        if y + 30.0 < sheet.book.frame.last:
            y = sheet.section(
                y, tr("New tests"), tr("date, exercise, load × reps, how many were left")
            )
            sheet.note_lines(y + NOTE_LINE_MM, sheet.book.frame.last)
        sheet.foot()

    return draw


def some_by_hand(book: Book) -> bool:
    """Whether the coach set a load by hand."""
    weeks = book.issue.program.weeks
    return any(slot.load_kg is not None for week in weeks for slot in week.slots())


def _intro_text(book: Book, cite: str, cite_curve: str) -> str:
    """How a load follows from a test."""
    text = tr(
        "Each load follows from your newest test: seven published "
        "equations{cite} estimate the most you could lift once, their middle is "
        "taken, and a table says what share of it allows the reps and the effort "
        "of the week{cite_curve}. Then it is rounded to what you can load.",
        cite=cite,
        cite_curve=cite_curve,
    )
    if some_by_hand(book):
        by_hand = tr("A load that your coach set by hand stands as it is.")
        return f"{text} {by_hand}"
    return text


def _draw_tested(sheet: Sheet, tested: tuple[Tested, ...], y: float, *, curve: str) -> float:
    """The tests and what they stand for; gives back the lower edge."""
    pen, p = sheet.pen, sheet.palette
    text = _intro_text(sheet.book, sheet.cite(*EQUATION_SOURCES), sheet.cite(curve))
    y = pen.paragraph(0, y, text, width=sheet.width, style=BODY) + 3.4
    for x, head in (
        (0.0, tr("exercise")),
        (_TEST_X, tr("your test")),
        (_ONE_X, tr("once, about")),
        (_SPAN_X, tr("between")),
    ):
        pen.text(x, y, head, style=LABEL, tone=p.mid)
    y += 1.8
    pen.rule(0, y, sheet.width, weight=0.9)
    for row in tested:
        y += 4.9
        end = pen.lines(0, y, row.name, style=CELL_BOLD)
        end = max(end, pen.lines(_TEST_X, y, row.told, style=CELL))
        pen.text(_ONE_X, y, row.one_rm, style=CELL_BOLD)
        pen.text(_SPAN_X, y, row.span, style=CELL, tone=p.mid)
        y = end - CELL.lead_mm + 2.2
        pen.rule(0, y, sheet.width, tone=p.hair)
    return y


def _draw_untested(sheet: Sheet, untested: tuple[Untested, ...], y: float) -> float:
    """The steps, then each exercise with where to begin and how to go up.

    Gives back the lower edge.
    """
    pen, p = sheet.pen, sheet.palette
    y = sheet.section(y, tr("How to find a load"), tr("where the booklet leaves a line")) + 6.0
    for number, step in enumerate(map(tr, STEPS), start=1):
        pen.text(0, y, str(number), style=BODY_BOLD)
        y = pen.paragraph(6.0, y, step, width=sheet.width - 6, style=BODY) + 0.8
    y += 2.6
    for x, head in ((0.0, tr("exercise")), (54.0, tr("first")), (118.0, tr("five more or better"))):
        pen.text(x, y, head, style=LABEL, tone=p.mid)
    y += 1.8
    pen.rule(0, y, sheet.width, weight=0.9)
    for row in untested:
        base = y + 4.9
        pen.lines(0, base, row.name, style=CELL_BOLD)
        pen.lines(54.0, base, row.begin, style=CELL)
        pen.lines(118.0, base, row.go_up, style=CELL)
        y += row.height
        pen.rule(0, y, sheet.width, tone=p.hair)
    return y
