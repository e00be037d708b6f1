"""Finding clients in a list of thousands: plain words first, slips of the finger only then.

What is typed is looked for in one folded text a client, so a keystroke costs a few milliseconds;
names are compared by likeness only where nothing holds the words.
"""

from __future__ import annotations

from collections.abc import Callable, Sequence
from dataclasses import dataclass
from datetime import date
from typing import Any

from app.domain.client import Stage
from app.domain.due import Due, dues
from app.domain.folding import fold
from app.domain.wording import mark, tr
from app.ui.words import STAGE_WORDS
from db.roster import RosterLine

LIKE_A_NAME = 76.0
"""How alike, 0 to 100, what was typed and a part of a name must be. Common practice."""
MOST_ALIKE = 30
LATE = date.max


@dataclass(frozen=True, slots=True)
class Entry:
    """A line of the roster with what it needs, and the folded words that a search looks through."""

    line: RosterLine
    dues: tuple[Due, ...]
    name: str
    words: str

    @property
    def next(self) -> Due | None:
        """What is due first."""
        return self.dues[0] if self.dues else None


@dataclass(frozen=True, slots=True)
class Wanted:
    """What is looked for: words, a stage, a tag, archived ones too, only those who need something.

    stage and tag of None: whatever it is.
    """

    words: str = ""
    stage: Stage | None = None
    tag: str | None = None
    archived: bool = False
    due: bool = False


@dataclass(frozen=True, slots=True)
class Found:
    """Entries in order. alike: nothing held the words, these are names like them."""

    entries: tuple[Entry, ...]
    alike: bool = False


def entries(lines: Sequence[RosterLine], today: date) -> tuple[Entry, ...]:
    """Every line with what it needs today."""
    return tuple(_entry(line, today) for line in lines)


def _entry(line: RosterLine, today: date) -> Entry:
    name = fold(line.name)
    words = f"{name}\n{fold(line.team)}\n{fold(line.contact)}\n{fold(' '.join(line.tags))}"
    return Entry(line, dues(line.standing, today), name, words)


def tags_of(known: Sequence[Entry]) -> tuple[str, ...]:
    """Every tag that some client has."""
    return tuple(sorted({tag for entry in known for tag in entry.line.tags}))


def find(known: Sequence[Entry], wanted: Wanted) -> Found:
    """Those of `known` that are wanted, in their order."""
    return find_words(suiting(known, wanted), wanted.words)


def suiting(known: Sequence[Entry], wanted: Wanted) -> list[Entry]:
    """Those that suit all but the words."""
    return [entry for entry in known if _suits(entry, wanted)]


def find_words(pool: Sequence[Entry], typed: str) -> Found:
    """Those of `pool` that hold every word typed; names like it where nobody does."""
    words = fold(typed).split()
    left = pool
    for word in words:
        left = [entry for entry in left if word in entry.words]
        if not left:
            return Found(_alike(pool, " ".join(words)), alike=True)
    return Found(tuple(left))


def _suits(entry: Entry, wanted: Wanted) -> bool:
    standing = entry.line.standing
    return (
        (wanted.archived or not standing.archived)
        and (wanted.stage is None or standing.stage is wanted.stage)
        and (wanted.tag is None or wanted.tag in entry.line.tags)
        and (not wanted.due or bool(entry.dues))
    )


def _alike(pool: Sequence[Entry], words: str) -> tuple[Entry, ...]:
    """Those whose name is like the words, most alike first."""
    from rapidfuzz import fuzz, process

    ranked = process.extract(
        words,
        [entry.name for entry in pool],
        scorer=fuzz.partial_ratio if len(words) < 8 else fuzz.ratio,
        score_cutoff=LIKE_A_NAME,
        limit=MOST_ALIKE,
    )
    return tuple(pool[at] for _, _, at in ranked)


@dataclass(frozen=True, slots=True)
class Column:
    """A column of the roster: its head, what it says of an entry, and what it is sorted by."""

    head: str
    text: Callable[[Entry, date], str]
    key: Callable[[Entry], Any]


def stage_text(entry: Entry) -> str:
    """'active', or 'archived'."""
    standing = entry.line.standing
    return tr("archived") if standing.archived else tr(STAGE_WORDS[standing.stage])


def _urgency(entry: Entry) -> tuple[date, str]:
    """What never took place is as urgent as today, what is late more so, nothing last."""
    due = entry.next
    if due is None:
        return LATE, entry.name
    return due.on or date.min, entry.name


def columns(day: Callable[[date], str]) -> tuple[Column, ...]:
    """The columns of the roster; `day` writes a date."""

    def told(when: date | None) -> str:
        return "" if when is None else day(when)

    return (
        Column(mark("Client"), lambda e, _: e.line.name, lambda e: e.name),
        Column(
            mark("Next"),
            lambda e, today: "" if e.next is None else e.next.text(today),
            _urgency,
        ),
        Column(mark("Stage"), lambda e, _: stage_text(e), stage_text),
        Column(mark("Tags"), lambda e, _: ", ".join(e.line.tags), lambda e: e.line.tags),
        Column(mark("Team"), lambda e, _: e.line.team, lambda e: fold(e.line.team)),
        _day_column(mark("Last test"), lambda e: e.line.standing.tested, told),
        _day_column(mark("Last check-in"), lambda e: e.line.standing.checked_in, told),
        _day_column(mark("Booklet to"), lambda e: e.line.standing.issue_end, told),
        _day_column(mark("Program to"), lambda e: e.line.standing.program_end, told),
    )


def _day_column(
    head: str, when: Callable[[Entry], date | None], told: Callable[[date | None], str]
) -> Column:
    return Column(head, lambda e, _: told(when(e)), lambda e: when(e) or date.min)
