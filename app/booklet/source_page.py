"""Where the numbers come from: the sources, numbered, with the pages that lean on them."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from dataclasses import dataclass

from app.booklet.book import Book, Cite, Draw, Page, Sheet, Topic
from app.booklet.fonts import BODY, CELL, CELL_BOLD
from app.booklet.words import pages_text
from app.domain.wording import mark, tr

HEADINGS = {
    Topic.TRAINING: mark("Sets, load, effort and rest"),
    Topic.ENERGY: mark("Energy and protein"),
    Topic.SAFETY: mark("Exercises and safety"),
}
INTRO = mark(
    "Your coach chose the exercises. The ranges and equations behind the numbers "
    "in this booklet are published; here they are, with the pages that lean on "
    "them. A range describes groups of people. You are one person: your record "
    "decides."
)
_USED_X, _TEXT_X, _NUMBER_X = 139.0, 10.0, 6.0
_HEADING_MM = 11.6

Cites = Mapping[Cite, tuple[int, ...]]


@dataclass(frozen=True, slots=True)
class _Entry:
    """One source as it is printed, or a heading before it."""

    number: int
    heading: str
    text: tuple[str, ...]
    used: tuple[str, ...]

    @property
    def height(self) -> float:
        """Its room, mm."""
        lines = max(len(self.text), len(self.used))
        return lines * CELL.lead_mm + 1.2 + (_HEADING_MM if self.heading else 0.0)


def numbers(book: Book, cites: Cites) -> Mapping[str, int]:
    """The number of every source that is listed, by key: sorted by topic, then by first use."""
    known = [cite for cite in cites if cite.key in book.content.references]
    known.sort(key=lambda cite: cite.topic)
    return {key: number for number, key in enumerate(dict.fromkeys(c.key for c in known), start=1)}


def pages(book: Book, cites: Cites) -> Iterator[Page]:
    """As many pages as the sources need; none where nothing is listed."""
    entries = _entries(book, cites)
    sheets: list[list[_Entry]] = []
    room = 0.0
    for entry in entries:
        if entry.height > room:
            room = book.frame.last - (32.0 if sheets else 49.0)
            sheets.append([])
        sheets[-1].append(entry)
        room -= entry.height
    for number, part in enumerate(sheets):
        yield Page(
            f"sources-{number}" if number else "sources",
            _drawing(tuple(part), first=not number),
            title="" if number else tr("Where the numbers come from"),
        )


def _entries(book: Book, cites: Cites) -> list[_Entry]:
    entries = []
    topic_before: Topic | None = None
    for key, number in numbers(book, cites).items():
        topic = min(cite.topic for cite in cites if cite.key == key)
        entries.append(
            _Entry(
                number,
                heading=tr(HEADINGS[topic]) if topic is not topic_before else "",
                text=book.wrap(book.content.references[key].text, CELL, _USED_X - _TEXT_X - 5),
                used=book.wrap(used_text(cites, key), CELL, book.frame.width - _USED_X),
            )
        )
        topic_before = topic
    return entries


def used_text(cites: Cites, key: str) -> str:
    """What a source is used for, with the pages that lean on it."""
    mine = {cite: pages for cite, pages in cites.items() if cite.key == key}
    return "; ".join(f"{cite.used_for}, {pages_text(at)}" for cite, at in mine.items())


def _drawing(entries: tuple[_Entry, ...], *, first: bool) -> Draw:
    def draw(sheet: Sheet) -> None:
        pen, mid = sheet.pen, sheet.palette.mid
        sheet.title(tr("Where the numbers come from"))
        y = 32.0
        if first:
            y = pen.paragraph(0, y, tr(INTRO), width=sheet.width, style=BODY) + 1.0
        for entry in entries:
            if entry.heading:
                y += 5.0
                sheet.section(y, entry.heading)
                if entry is entries[0]:
                    pen.text(_USED_X, y, tr("used for"), style=CELL, tone=mid)
                y += 6.6
            pen.text(_NUMBER_X, y, str(entry.number), style=CELL_BOLD, align=1)
            pen.lines(_TEXT_X, y, entry.text, style=CELL)
            pen.lines(_USED_X, y, entry.used, style=CELL, tone=mid)
            y += entry.height - (_HEADING_MM if entry.heading else 0.0)
        sheet.foot()

    return draw
