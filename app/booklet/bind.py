"""Bind the pages of a booklet: order, numbers, bookmarks, then print them."""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from dataclasses import replace
from io import BytesIO

from reportlab import rl_config
from reportlab.pdfgen.canvas import Canvas

from app.booklet import (
    caution_page,
    cover,
    energy_page,
    exercise_page,
    glance,
    loads_page,
    notes_page,
    reading,
    source_page,
    warmup_page,
    week_pages,
)
from app.booklet.book import Book, Cite, Page, Sheet, frame_of, left_edge_mm
from app.booklet.content import Content, Options, Part
from app.booklet.figures import FigureForms
from app.booklet.fonts import Face, open_faces, refuse_missing
from app.booklet.pen import PT, Pen
from app.booklet.season import sum_up
from app.domain.errors import CoachError
from app.domain.wording import tr, trn
from app.domain.work import Issue


def make(issue: Issue, content: Content, options: Options | None = None) -> bytes:
    """The booklet as a PDF.

    The same issue, content and options give the same bytes. Raises BookletError for letters that
    the fonts do not have, UnknownExercise for an exercise that is not in the catalogue, CoachError
    for weeks that the program does not have.
    """
    book = open_book(issue, content, options or Options())
    return print_pages(book, bind(book))


def open_book(issue: Issue, content: Content, options: Options) -> Book:
    """What every page of the booklet may read."""
    count = len(issue.program.weeks)
    if options.weeks is not None:
        first, last = options.weeks
        if not 1 <= first <= last <= count:
            raise CoachError(
                tr(
                    "Weeks {first} to {last} cannot be printed: the program has {count}.",
                    first=first,
                    last=last,
                    count=count,
                ),
                where=tr("Booklet"),
                mend=tr("Choose weeks from 1 to {count}, the first before the last.", count=count),
            )
    return Book(
        issue=issue,
        content=content,
        options=options,
        faces=open_faces(content.fonts),
        season=sum_up(issue.program, content.catalogue),
        loads={load.slot: load.load_kg for load in issue.loads},
        energy=content.energy,
        frame=frame_of(options.paper),
    )


def bind(book: Book) -> tuple[Page, ...]:
    """All pages in order, a multiple of four, each week's first page on the left."""
    parts = book.options.parts
    pages = [*cover.pages(book)]
    if Part.READING in parts:
        pages += reading.pages(book)
    pages += caution_page.pages(book)
    if Part.LOADS in parts:
        pages += loads_page.pages(book)
    if Part.GLANCE in parts:
        pages += glance.pages(book)
    if Part.WARMUP in parts:
        pages += warmup_page.pages(book)
    if Part.WEEKS in parts:
        _append(pages, week_pages.pages(book))
    if Part.EXERCISES in parts:
        pages += exercise_page.pages(book)
    if Part.ENERGY in parts:
        pages += energy_page.pages(book)
    if Part.REFERENCES in parts:
        pages += source_page.pages(book, _cites(pages))
    while len(pages) % 4:
        pages.append(notes_page.page(f"notes-{len(pages) + 1}"))
    return tuple(pages)


def _append(pages: list[Page], more: Iterable[Page]) -> None:
    """Add pages; one that must lie on the left gets a page for notes before it if need be."""
    for page in more:
        if page.even and len(pages) % 2 == 0:
            pages.append(notes_page.page(f"notes-{len(pages) + 1}"))
        pages.append(page)


def _cites(pages: Iterable[Page]) -> Mapping[Cite, tuple[int, ...]]:
    """Every source that a page leans on, with the numbers of those pages."""
    found: dict[Cite, tuple[int, ...]] = {}
    for number, page in enumerate(pages, start=1):
        for cite in page.cites:
            found[cite] = (*found.get(cite, ()), number)
    return found


def print_pages(book: Book, pages: tuple[Page, ...]) -> bytes:
    """The bound pages as a PDF. Raises BookletError for letters that the fonts do not have."""
    paper, out = book.options.paper, BytesIO()
    # binary streams: the usual text form costs time and a quarter more bytes
    rl_config.useA85 = 0
    canvas = Canvas(
        out,
        pagesize=(paper.width_mm * PT, paper.height_mm * PT),
        pageCompression=1,
        invariant=1,
        initialFontName=Face.SANS.value,  # type: ignore[arg-type]  # the stubs are wrong here
        initialFontSize=11,
        lang="en",
    )
    program = book.issue.program
    canvas.setTitle(program.name)
    canvas.setAuthor(book.issue.coach.name)
    canvas.setSubject(
        trn("Training booklet, {n} week", "Training booklet, {n} weeks", len(program.weeks))
    )
    canvas.setCreator("Weekloom")
    canvas.setViewerPreference("DisplayDocTitle", "true")
    pen = Pen(canvas, book.faces, book.palette, paper.height_mm)
    sheet = Sheet(
        pen=pen,
        figures=FigureForms(canvas, grey=book.options.grey),
        book=book,
        number=1,
        count=len(pages),
        pages={page.key: number for number, page in enumerate(pages, start=1)},
        sources=source_page.numbers(book, _cites(pages)),
    )
    for number, page in enumerate(pages, start=1):
        pen.begin(left_edge_mm(number))
        canvas.bookmarkPage(page.key)
        if page.title:
            canvas.addOutlineEntry(page.title, page.key, level=page.level, closed=page.level == 0)
        page.draw(replace(sheet, number=number))
        pen.end()
        canvas.showPage()
    refuse_missing(pen.missing)
    canvas.save()
    return out.getvalue()
