"""The program at a glance, where its loads come from, and the warm-up, in one column."""

from __future__ import annotations

from collections.abc import Iterator

from app.booklet.block_table import FRACTION_SOURCE, BlockRow, block_row
from app.booklet.book import Book, Page, Sheet
from app.booklet.column import Piece, column_pages, hair, note_lines, numbered, section, text
from app.booklet.content import Part
from app.booklet.fonts import BODY, BODY_BOLD, CELL, CELL_BOLD
from app.booklet.glance import intro
from app.booklet.glance_chart import charts_mm, cites_of, draw_charts
from app.booklet.loads_page import (
    EQUATION_SOURCES,
    STEPS,
    Tested,
    Untested,
    loads_cites,
    some_by_hand,
    sort_loads,
)
from app.booklet.pen import Box
from app.booklet.pictures import draw_picture
from app.booklet.plates_page import plate_pieces
from app.booklet.warmup_page import STEPS as WARMUP_STEPS
from app.booklet.warmup_page import Drill, drills_of, easy_text, first_ramps, source_text
from app.booklet.words import DOT, span_text
from app.domain.curve import find_curve
from app.domain.wording import tr

_PANEL_MM = 36.0
_SMALL_PANEL_MM = 30.0
_FIGURE_MM = 18.0


def glance_pages(book: Book) -> Iterator[Page]:
    """The charts, then the blocks one below the other."""
    program = book.issue.program
    dates = span_text(program.start, len(program.weeks))
    pieces = [text(book, dates, CELL, mid=True), text(book, intro(book))]
    if any(not week.empty for week in book.season.weeks):
        pieces.append(_charts(book))
    pieces.append(section(book, tr("Blocks")))
    for number in range(len(program.blocks)):
        pieces += _block(book, block_row(book, number))
    key = tr("All sets of the week are counted. In brackets: light weeks.")
    cites: tuple[str, ...] = ()
    if book.season.emphasis is not None:
        cites = (FRACTION_SOURCE,)
        key = tr(
            "In brackets: light weeks. A set counts 1 for a muscle that does most of the work and "
            "a part, usually ½, for one that helps"
        )
    pieces.append(text(book, key, CELL, cites=cites, mid=True))
    title = tr("The program at a glance")
    yield from column_pages(book, "glance", title, pieces, cites=cites_of(book))


def _charts(book: Book) -> Piece:
    panel = _PANEL_MM if book.frame.room > 150 else _SMALL_PANEL_MM

    def draw(sheet: Sheet, y: float) -> None:
        draw_charts(sheet, y, panel_mm=panel)

    return Piece(charts_mm(panel) + 2.0, draw)


def _block(book: Book, row: BlockRow) -> Iterator[Piece]:
    """Name and weeks, dates, reps and sets, and what changes."""
    name = f"{row.title} {row.weeks}"
    yield text(book, name, BODY_BOLD, after=0.4, leads=True)
    sets = " ".join(part for part in (row.sets, f"({row.light})" if row.light else "") if part)
    facts = [row.dates, tr("{reps} reps", reps=row.reps)]
    if sets:
        facts.append(tr("{sets} sets", sets=sets))
    yield text(book, DOT.join(facts), CELL, after=0.4, leads=True)
    yield text(book, row.said, CELL, after=0.6, leads=True)
    yield hair()


# -- loads -----------------------------------------------------------------------------------


def loads_pages(book: Book) -> Iterator[Page]:
    """The tests that the loads rest on, and how to find a load without one."""
    tested, untested = sort_loads(book)
    if not tested and not untested:
        return
    curve = find_curve(book.issue.program.curve).source
    pieces: list[Piece] = []
    if tested:
        words = tr(
            "Each load follows from your newest test: seven published equations estimate the most "
            "you could lift once, their middle is taken, and a table says what share of it allows "
            "the reps and the effort of the week. Then it is rounded to what you can load."
        )
        if some_by_hand(book):
            words = f"{words} {tr('A load that your coach set by hand stands as it is.')}"
        pieces.append(text(book, words, cites=(*EQUATION_SOURCES, curve)))
        for one in tested:
            pieces += _tested(book, one)
    if untested:
        pieces.append(
            section(book, tr("How to find a load"), tr("where the booklet leaves a line"))
        )
        pieces += [numbered(book, number, tr(step)) for number, step in enumerate(STEPS, start=1)]
        for without in untested:
            pieces += _untested(book, without)
    if Part.PLATES in book.options.parts:
        pieces += plate_pieces(book)
    yield from column_pages(
        book,
        "loads",
        tr("Where your loads come from"),
        pieces,
        cites=loads_cites(book) if tested else (),
        fill=note_lines(tr("New tests")),
    )


def _tested(book: Book, row: Tested) -> Iterator[Piece]:
    yield text(book, row.title, CELL_BOLD, after=0.2, leads=True)
    said = tr(
        "{test}; once, about {one_rm}, between {span}",
        test=row.test,
        one_rm=row.one_rm,
        span=row.span,
    )
    yield text(book, said, CELL, after=0.4, leads=True)
    yield hair()


def _untested(book: Book, row: Untested) -> Iterator[Piece]:
    yield text(book, row.title, CELL_BOLD, after=0.2, leads=True)
    yield text(book, row.first, CELL, after=0.2, leads=True)
    more = tr("Five more or better: {what}", what=row.more)
    yield text(book, more, CELL, after=0.4, leads=True)
    yield hair()


# -- warm-up ---------------------------------------------------------------------------------


def warmup_pages(book: Book) -> Iterator[Page]:
    """Three steps, the drills, the ramp sets of the first week."""
    pieces = [
        numbered(book, number, tr(step, easy=easy_text(book)))
        for number, step in enumerate(WARMUP_STEPS, start=1)
    ]
    drills = drills_of(book)
    if drills:
        pieces.append(section(book, tr("Drills")))
        pieces += [_drill(book, drill) for drill in drills]
    if ramps := first_ramps(book):
        pieces.append(section(book, tr("Ramp sets"), tr("in your first week")))
        for day, name, said in ramps:
            pieces.append(text(book, f"{day}{DOT}{name}", CELL_BOLD, after=0.2, leads=True))
            pieces.append(text(book, said, CELL, after=0.8))
        pieces.append(text(book, source_text(book), CELL, mid=True))
    fill = note_lines(tr("Your own"))
    yield from column_pages(book, "warmup", tr("Warm-up"), pieces, fill=fill)


def _drill(book: Book, drill: Drill) -> Piece:
    """A drill with its picture, the days it is for and its instructions."""
    left = _FIGURE_MM + 2.0 if drill.drawn else 0.0
    width = book.frame.width - left
    name = book.wrap(drill.exercise.name, BODY_BOLD, width)
    said = f"{drill.dose}{DOT}{drill.days}" if drill.dose else drill.days
    days = book.wrap(said, CELL, width)
    lines = book.wrap(drill.text, CELL, width)
    tall = len(name) * BODY.lead_mm + (len(days) + len(lines)) * CELL.lead_mm + 2.0

    def draw(sheet: Sheet, y: float) -> None:
        if drill.drawn:
            draw_picture(sheet, drill.exercise, Box(0, y + 1.0, _FIGURE_MM, _FIGURE_MM - 0.5))
        at = sheet.pen.lines(left, y + 4.4, name, style=BODY_BOLD)
        at = sheet.pen.lines(left, at, days, style=CELL, tone=sheet.palette.mid)
        sheet.pen.lines(left, at, lines, style=CELL)

    return Piece(max(tall, _FIGURE_MM + 2.0 if drill.drawn else 0.0), draw, gap=1.0)
