"""The plates for every load that is printed for a bar: what to put on each side."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass

from app.booklet.book import NOTE_LINE_MM, Book, Draw, Page, Sheet
from app.booklet.column import Piece, column_pages, hair, section, text
from app.booklet.content import Part
from app.booklet.fonts import BODY, BODY_BOLD, LABEL, NBSP
from app.booklet.words import mass_number
from app.domain.exercise import LoadKind
from app.domain.units import nearest_plates
from app.domain.wording import listing, tr

_ROW_MM = 7.6
_COLUMNS = 2
_GUTTER_MM = 8.0  # between two columns
_PLATES_X = 22.0
_CRUMB_KG = 0.005


@dataclass(frozen=True, slots=True)
class BarLoad:
    """A load on the bar and the plates of one side, heavy ones first, kg.

    rest_kg: what the plates there are do not make up, below 0 where the bar alone is too heavy;
    place: where the session is, if not at the client's usual place.
    """

    load_kg: float
    plates_kg: tuple[float, ...]
    rest_kg: float
    bar_kg: float = 20.0
    place: str = ""


def bar_loads(book: Book) -> tuple[BarLoad, ...]:
    """Every load of the printed weeks that goes on a bar, by place from light to heavy."""
    client = book.issue.client
    places = {place.name for place in client.places}
    found: set[tuple[str, int, float]] = set()
    for index in book.week_range:
        for day, session in book.issue.program.weeks[index].sessions():
            place = client.free[day].place
            place = place if place in places else ""
            for slot in session.slots:
                load_kg = book.loads.get(slot.id)
                if load_kg and book.exercise(slot.exercise).load_kind is LoadKind.BARBELL:
                    found.add((place, day if place else 0, load_kg))
    seen: dict[tuple[str, float], BarLoad] = {}
    for place, day, load_kg in sorted(found):
        increments = client.increments_on(day) if place else client.increments
        plates = nearest_plates(load_kg, increments.bar_kg, increments.plates_kg)
        seen[place, load_kg] = BarLoad(
            load_kg, plates.plates, plates.remainder_kg, increments.bar_kg, place
        )
    return tuple(seen.values())


def plates_text(book: Book, load: BarLoad) -> str:
    """'20 + 2.5', or in words where the bar alone is the load or is too heavy."""
    units = book.issue.client.units
    text = f"{NBSP}+{NBSP}".join(mass_number(plate, units) for plate in load.plates_kg)
    if load.load_kg < load.bar_kg - _CRUMB_KG:
        text = tr("a lighter bar")
    elif not text:
        text = tr("the bar alone")
    elif abs(load.rest_kg) >= _CRUMB_KG:
        text = tr("{plates} (nearest)", plates=text)
    return tr("{place}: {plates}", place=load.place, plates=text) if load.place else text


def _intro(book: Book, loads: tuple[BarLoad, ...]) -> str:
    units = book.issue.client.units
    bars = sorted({load.bar_kg for load in loads})
    bar = listing(tuple(f"{mass_number(one, units)}{NBSP}{units}" for one in bars))
    return tr(
        "For a bar of {bar}: each load of your program and the plates for one side. The other side "
        "gets the same. Weigh a bar that you do not know.",
        bar=bar,
    )


def pages(book: Book) -> Iterator[Page]:
    """A table in two columns; none where nothing goes on a bar."""
    loads = bar_loads(book)
    tall = _row_mm(book, loads)
    rows = int((book.frame.room - 22.0) / tall)
    for number, start in enumerate(range(0, len(loads), rows * _COLUMNS)):
        part = loads[start : start + rows * _COLUMNS]
        title = "" if number else tr("Plates for the bar")
        yield Page(f"plates-{number}" if number else "plates", _drawing(part, tall), title=title)


def _lines(book: Book, load: BarLoad) -> tuple[str, ...]:
    width = book.frame.width / _COLUMNS - _GUTTER_MM - _PLATES_X
    return book.wrap(plates_text(book, load), BODY, width)


def _row_mm(book: Book, loads: tuple[BarLoad, ...]) -> float:
    """How tall every row is: as the one with the most plates needs it."""
    most = max((len(_lines(book, load)) for load in loads), default=1)
    return _ROW_MM + (most - 1) * BODY.lead_mm


def _drawing(loads: tuple[BarLoad, ...], row_mm: float) -> Draw:
    def draw(sheet: Sheet) -> None:
        pen, p = sheet.pen, sheet.palette
        sheet.title(tr("Plates for the bar"), tr("for one side"))
        y = pen.paragraph(0, 32.0, _intro(sheet.book, loads), width=sheet.width, style=BODY) + 4.0
        tall = -(-len(loads) // _COLUMNS)
        pitch = sheet.width / _COLUMNS
        units = sheet.book.issue.client.units
        for column in range(_COLUMNS):
            part = loads[column * tall : (column + 1) * tall]
            if not part:
                continue
            x, wide = column * pitch, pitch - _GUTTER_MM
            pen.text(
                x + 16.0, y, tr("load, {units}", units=units), style=LABEL, tone=p.mid, align=1
            )
            pen.text(x + _PLATES_X, y, tr("each side"), style=LABEL, tone=p.mid)
            pen.rule(x, y + 1.8, x + wide, weight=0.9)
            for number, load in enumerate(part):
                base = y + 1.8 + number * row_mm + 5.4
                mass = mass_number(load.load_kg, units)
                pen.text(x + 16.0, base, mass, style=BODY_BOLD, align=1)
                pen.lines(x + _PLATES_X, base, _lines(sheet.book, load), style=BODY)
                pen.rule(x, base + row_mm - 5.4, x + wide, tone=p.hair)
        y += 1.8 + tall * row_mm + 10.0
        if y + 3 * NOTE_LINE_MM < sheet.book.frame.last:
            y = sheet.section(y, tr("Other loads"), tr("and their plates"))
            sheet.note_lines(y + NOTE_LINE_MM, sheet.book.frame.last)
        sheet.foot()

    return draw


def plate_pieces(book: Book) -> Iterator[Piece]:
    """The same in one column, under a title of its own."""
    loads = bar_loads(book)
    if not loads:
        return
    yield section(book, tr("Plates for the bar"), tr("for one side"))
    yield text(book, _intro(book, loads))
    for load in loads:
        yield _row(book, load)
        yield hair(gap=0.0)


def slim_pages(book: Book) -> Iterator[Page]:
    """Pages of their own, where the page of the loads does not have them."""
    if Part.LOADS not in book.options.parts:
        pieces = tuple(plate_pieces(book))
        if pieces:
            yield from column_pages(
                book, "plates", pieces=pieces[1:], title=tr("Plates for the bar")
            )


def _row(book: Book, load: BarLoad) -> Piece:
    units = book.issue.client.units
    lines = book.wrap(plates_text(book, load), BODY, book.frame.width - 26.0)

    def draw(sheet: Sheet, y: float) -> None:
        mass = f"{mass_number(load.load_kg, units)}{NBSP}{units}"
        sheet.pen.text(20.0, y + 5.0, mass, style=BODY_BOLD, align=1)
        sheet.pen.lines(26.0, y + 5.0, lines, style=BODY)

    return Piece(max(len(lines), 1) * BODY.lead_mm + 1.4, draw, leads=True)
