"""The coach's own references beside the shipped ones, taken in from files of reference managers.

They serve as sources of own exercises' figures and of own ranges. The shipped ones are never
changed.
"""

from __future__ import annotations

import json
from collections.abc import Iterable, Mapping
from dataclasses import dataclass
from functools import lru_cache
from pathlib import Path
from types import MappingProxyType
from typing import TYPE_CHECKING, Any, Protocol

from app import resources
from app.domain.errors import CoachError
from app.domain.exercise import Exercise
from app.domain.findings import Finding
from app.domain.folding import solid
from app.domain.own_ranges import rule_name
from app.domain.ranges import Override
from app.domain.wording import tr
from app.resources import Reference
from app.resources.shipped import references_from_json

if TYPE_CHECKING:  # the forms of bibliographies are brought in where one is read or written
    from app.exchange.bibliography.files import Form
    from app.exchange.bibliography.record import Csl

KEY = "own references"


class Memory(Protocol):
    """Where settings are kept."""

    def setting(self, key: str) -> str:
        """The value under `key`; empty if there is none."""

    def set_setting(self, key: str, value: str) -> None:
        """Keep a value under `key`."""


@dataclass(frozen=True, slots=True)
class Taken:
    """What became of a file of references. known: those that were there before."""

    fresh: tuple[dict[str, Any], ...]
    known: int
    left_out: tuple[str, ...]


def own(memory: Memory) -> tuple[dict[str, Any], ...]:
    """The coach's own references, in the order they came."""
    return _own_of(memory.setting(KEY))


def every(memory: Memory) -> Mapping[str, Reference]:
    """All references by id, the shipped ones first."""
    return _every_of(memory.setting(KEY))


def _own_of(text: str) -> tuple[dict[str, Any], ...]:
    try:
        found = json.loads(text) if text else []
        references_from_json(json.dumps(found), source=KEY)
    except (ValueError, TypeError):  # damaged: the shipped ones stay in reach
        return ()
    return tuple(found)


@lru_cache(maxsize=4)
def _every_of(text: str) -> Mapping[str, Reference]:
    shipped = resources.references()
    mine = _own_of(text)
    if not mine:
        return shipped
    read = references_from_json(json.dumps(mine), source=KEY)
    return MappingProxyType({**shipped, **{k: v for k, v in read.items() if k not in shipped}})


def read_file(path: Path, memory: Memory) -> Taken:
    """What the file would bring; nothing is kept.

    One that is shipped or the coach's already, by its DOI or by title and year, is known. Raises
    CoachError.
    """
    taken_ids = list(every(memory))
    from app.exchange.bibliography.files import MOST_BYTES, read_references
    from app.exchange.bibliography.record import year_of
    from app.exchange.files import read_whole

    found = read_references(read_whole(path, most=MOST_BYTES), source=str(path), taken=taken_ids)
    there = {mark for one in every(memory).values() for mark in _marks(one.csl)}
    fresh, known, left_out = [], 0, list(found.left_out)
    for record in found.records:
        if year_of(record) is None:
            left_out.append(tr("{title}: it has no year.", title=record["title"][:80]))
        elif there & set(_marks(record)):
            known += 1
        else:
            there |= set(_marks(record))
            fresh.append(record)
    return Taken(tuple(fresh), known, tuple(left_out))


def _marks(record: Csl) -> tuple[str, ...]:
    """What a reference is known by: its DOI, and its title with the year."""
    doi = str(record.get("DOI", "")).lower()
    from app.exchange.bibliography.record import year_of

    named = f"{solid(str(record.get('title', '')))} {year_of(record)}"
    return tuple(mark for mark in (doi, named) if mark)


def keep(memory: Memory, fresh: Iterable[Csl]) -> None:
    """Keep these beside the others. Raises StoreError."""
    _write(memory, (*own(memory), *fresh))


def remove(
    memory: Memory, key: str, exercises: Iterable[Exercise], ranges: Iterable[Override] = ()
) -> None:
    """Keep that reference no longer.

    Raises CoachError while one of these own exercises or own ranges rests on it.
    """
    users = [e.name for e in exercises if any(row.study == key for row in e.activation)]
    if users:
        raise CoachError(
            tr("{name} rests on it.", name=users[0]),
            mend=tr("Take the figure out of the exercise first."),
        )
    if rule := next((rule_name(o.range.rule) for o in ranges if o.range.source == key), ""):
        raise CoachError(
            tr("Your own range of {rule} rests on it.", rule=repr(rule)),
            mend=tr("Let the range rest on something else first."),
        )
    _write(memory, [one for one in own(memory) if one["id"] != key])


def _write(memory: Memory, records: Iterable[Csl]) -> None:
    text = json.dumps([dict(one) for one in records], ensure_ascii=False, separators=(",", ":"))
    memory.set_setting(KEY, text)


# -- out ---------------------------------------------------------------------------------------


def rested_on(
    findings: Iterable[Finding], exercises: Iterable[Exercise], known: Mapping[str, Reference]
) -> tuple[str, ...]:
    """The ids of the references that a program's findings and exercises rest on, in their order."""
    keys = [finding.source for finding in findings]
    keys += [row.study for exercise in exercises for row in exercise.activation]
    wanted = set(keys)
    return tuple(key for key in known if key in wanted)


def write_to(path: Path, references: Iterable[Reference], form: Form) -> int:
    """Write the references to a file; how many. Raises FileTrouble."""
    records = [one.csl for one in references]
    from app.exchange.bibliography.files import write_references
    from app.exchange.files import write_file

    write_file(path, write_references(records, form))
    return len(records)
