"""Bind the pages of a booklet: order, numbers, bookmarks, then print them."""

from __future__ import annotations

from collections.abc import Callable, Iterable, Mapping
from dataclasses import replace

from app.booklet import (
    caution_page,
    cover,
    energy_page,
    exercise_page,
    glance,
    loads_page,
    notes_page,
    plates_page,
    reading,
    slim_back,
    slim_front,
    slim_plan,
    slim_weeks,
    source_page,
    wall,
    warmup_page,
    week_pages,
)
from app.booklet.book import Book, Cite, Page, Sheet, frame_for, left_mm
from app.booklet.content import Content, Kind, Options, Paper, Part
from app.booklet.document import open_document
from app.booklet.fields import Fields
from app.booklet.figures import FigureForms
from app.booklet.fonts import open_faces, refuse_missing
from app.booklet.pen import Pen
from app.booklet.season import sum_up
from app.domain import form_names
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
    if options.large and options.paper is Paper.A5:
        raise CoachError(
            tr("Large print has no room on A5."), mend=tr("Choose A4 or Letter, or ordinary print.")
        )
    known = (load.slot for load in issue.loads if load.load_kg)
    return Book(
        issue=_as_chosen(issue, options),
        content=content,
        options=options,
        faces=open_faces(content.fonts),
        season=sum_up(issue.program, content.catalogue),
        loads={load.slot: load.load_kg for load in issue.loads} if options.loads else {},
        energy=content.energy,
        frame=frame_for(options),
        withheld=frozenset() if options.loads else frozenset(known),
    )


def _as_chosen(issue: Issue, options: Options) -> Issue:
    """The issue with the unit and the printed name that were chosen."""
    client = issue.client
    units, name = options.units or client.units, options.name.strip() or client.name
    if (units, name) == (client.units, client.name):
        return issue
    return replace(issue, client=replace(client, units=units, name=name))


_Maker = Callable[[Book], Iterable[Page]]

_BEFORE: tuple[tuple[Part, _Maker, _Maker], ...] = (
    (Part.LOADS, loads_page.pages, slim_plan.loads_pages),
    (Part.PLATES, plates_page.pages, plates_page.slim_pages),
    (Part.GLANCE, glance.pages, slim_plan.glance_pages),
    (Part.WARMUP, warmup_page.pages, slim_plan.warmup_pages),
    (Part.WEEKS, week_pages.pages, slim_weeks.pages),
    (Part.EXERCISES, exercise_page.pages, slim_back.exercise_pages),
    (Part.ENERGY, energy_page.pages, slim_back.energy_pages),
)
"""What stands between cautions and sources, in order, for wide pages and for one column."""


def bind(book: Book) -> tuple[Page, ...]:
    """All pages in order; on paper a multiple of four, on wide pages each week begins on the left.

    Without loads there is no page that says where they come from, and none about plates.
    """
    if book.options.kind is Kind.WALL:
        return tuple(wall.pages(book))
    parts, slim = book.options.parts, book.options.slim
    if not book.options.loads:
        parts -= {Part.LOADS, Part.PLATES}
    pages = [*cover.pages(book)]
    if Part.READING in parts:
        pages += slim_front.reading_pages(book) if slim else reading.pages(book)
    pages += slim_front.caution_pages(book) if slim else caution_page.pages(book)
    for part, wide_maker, slim_maker in _BEFORE:
        if part in parts:
            _append(pages, slim_maker(book) if slim else wide_maker(book))
    if Part.REFERENCES in parts:
        make_sources = slim_back.source_pages if slim else source_page.pages
        pages += make_sources(book, _cites(pages))
    while len(pages) % 4 and not book.options.form:
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
    wide_mm, tall_mm = book.options.size_mm
    program = book.issue.program
    canvas, out = open_document(
        wide_mm,
        tall_mm,
        title=program.name,
        author=book.issue.coach.name,
        subject=trn(
            "Training booklet, {n} week", "Training booklet, {n} weeks", len(program.weeks)
        ),
    )
    pen = Pen(canvas, book.faces, book.palette, book.frame.height_mm, zoom=book.zoom)
    sheet = Sheet(
        pen=pen,
        figures=FigureForms(canvas, grey=book.options.grey),
        fields=Fields(canvas, book.faces, book.content.fonts),
        book=book,
        number=1,
        count=len(pages),
        pages={page.key: number for number, page in enumerate(pages, start=1)},
        sources=source_page.numbers(book, _cites(pages)),
    )
    for number, page in enumerate(pages, start=1):
        pen.begin(left_mm(book.options, number))
        canvas.bookmarkPage(page.key)
        if page.title:
            canvas.addOutlineEntry(page.title, page.key, level=page.level, closed=page.level == 0)
        page.draw(replace(sheet, number=number))
        if number == len(pages) and book.options.form:
            _say_whose(sheet.fields, book)
        pen.finish()
        canvas.showPage()
    sheet.fields.finish()
    refuse_missing(pen.missing)
    canvas.save()
    return out.getvalue()


def _say_whose(fields: Fields, book: Book) -> None:
    """Say which issue the form belongs to, for reading it back; nothing about the client."""
    fields.hidden(form_names.ISSUE, book.issue.id)
    fields.hidden(form_names.UNITS, book.issue.client.units)
    fields.hidden(form_names.VERSION, str(form_names.FORM_VERSION))
