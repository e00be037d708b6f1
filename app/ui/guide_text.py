"""The pages of the guide as text: shipped Markdown, with tables made from what they describe."""

from __future__ import annotations

import re
from collections.abc import Callable, Sequence
from dataclasses import dataclass
from functools import cache

from app import press, resources
from app.domain.ranges import Range, Who
from app.domain.wording import tr
from app.resources.files import names_in

FOLDER = "guide"


@dataclass(frozen=True, slots=True)
class Page:
    """One page. name: as others link to it, without its number; file: as it lies in the guide."""

    name: str
    file: str
    title: str
    text: str


@dataclass(frozen=True, slots=True)
class Command:
    """A command as a menu shows it; keys as this system names them."""

    menu: str
    text: str
    keys: str


@cache
def pages() -> tuple[Page, ...]:
    """All pages in reading order, their tables not filled in yet."""
    return tuple(_page(file) for file in names_in(FOLDER, ".md"))


def _page(file: str) -> Page:
    text = resources.text(file)
    name = file.removeprefix(f"{FOLDER}/")
    title = text.partition("\n")[0].removeprefix("#").strip()
    return Page(name.removesuffix(".md").partition("-")[2], name, title, text)


def find_page(name: str) -> Page:
    """The page of that name or file. Raises KeyError."""
    for page in pages():
        if name in (page.name, page.file):
            return page
    raise KeyError(name)


def filled(page: Page, commands: Sequence[Command] = ()) -> str:
    """The page's Markdown with its tables made; commands: those of the window it is shown for."""
    return re.sub(r"\{\{(\w+)\}\}", lambda found: TABLES[found[1]](commands), page.text)


def _table(head: tuple[str, ...], rows: Sequence[tuple[str, ...]]) -> str:
    lines = [head, ("---",) * len(head), *rows]
    return "\n".join(f"| {' | '.join(map(_cell, line))} |" for line in lines)


def _cell(text: str) -> str:
    return text.replace("|", "/").replace("\n", " ")


def shortcuts(commands: Sequence[Command]) -> str:
    """Every command with its keys, menu by menu."""
    parts = []
    for menu in dict.fromkeys(command.menu for command in commands):
        rows = [(command.text, command.keys) for command in commands if command.menu == menu]
        parts.append(f"## {menu}\n\n{_table((tr('command'), tr('keys')), rows)}")
    return "\n\n".join(parts)


def ranges(_: Sequence[Command] = ()) -> str:
    """Every shipped range with its unit, for whom it is and its source."""
    book, names = resources.range_book().ranges, resources.references()
    rows = []
    for rule in sorted(book):
        for band in book[rule]:
            source = names[band.source].short if band.source in names else band.source
            rows.append((rule_text(rule), amount(band), whom(band), source))
    return _table(("check", "range", tr("for whom"), "source"), rows)


def rule_text(rule: str) -> str:
    """The name of a check in words."""
    return rule.replace("_", " ")


def amount(band: Range) -> str:
    """A range with its unit; for a rule that needs no number, why it is there."""
    if not band.text:
        return band.reason
    return tr("none") if (band.low, band.high) == (None, 0) else f"{band.text} {tr(band.unit)}"


def whom(band: Range) -> str:
    """For whom a range is, in words; empty for everybody."""
    who: Who = band.who
    parts = [
        tr(" or ").join(tr(status.value) for status in who.status),
        tr(" or ").join(tr(goal.value) for goal in who.goal),
        tr(" or ").join(kind.replace("_", " ") for kind in who.kind),
        _between("age", who.age_low, who.age_high),
        _between("week", who.week_low, who.week_high),
    ]
    return ", ".join(part for part in parts if part)


def _between(what: str, low: int | None, high: int | None) -> str:
    if low is not None and high is not None:
        return tr("{what} {low} to {high}", what=what, low=low, high=high)
    if low is not None:
        return tr("{what} {low} on", what=what, low=low)
    return "" if high is None else tr("{what} to {high}", what=what, high=high)


def sources(_: Sequence[Command] = ()) -> str:
    """Every reference in full, in the order of its key."""
    cited = press.citations()
    return "\n".join(f"- {_escaped(cited[key].text)}" for key in sorted(cited))


def _escaped(text: str) -> str:
    return re.sub(r"([\\`*_\[\]<>#])", r"\\\1", text)


TABLES: dict[str, Callable[[Sequence[Command]], str]] = {
    "shortcuts": shortcuts,
    "ranges": ranges,
    "sources": sources,
}
"""What stands for `{{name}}` in a page."""
