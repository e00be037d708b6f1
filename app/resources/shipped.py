"""Everything shipped, read once and kept: exercises, references, muscle names, poses."""

from __future__ import annotations

import json
from collections import Counter
from collections.abc import Iterable, Iterator, Mapping
from dataclasses import dataclass
from functools import cache
from types import MappingProxyType
from typing import TYPE_CHECKING

from app.domain.errors import ResourceError
from app.domain.exercise import Catalogue, Exercise, Muscle
from app.domain.ranges import RangeBook, range_book_from_mappings
from app.domain.wording import tr
from app.resources import kept_exercises, parsed
from app.resources.entry import Entry
from app.resources.exercise_entries import exercises_from_tables, refuse_loose_relatives
from app.resources.files import Table, names_in, path_of, read_toml, tables_from_toml, text

if TYPE_CHECKING:
    from app.domain.figure import PosePair

EXERCISES = "exercises"
REFERENCES = "references.json"
MUSCLES = "muscles.toml"
POSES = "poses"
RANGES = "ranges"


@dataclass(frozen=True, slots=True)
class Reference:
    """One published source: its id, a short name such as `Baz-Valle 2022`, and its CSL-JSON."""

    id: str
    short: str
    csl: Mapping[str, object]


@dataclass(frozen=True, slots=True)
class MuscleName:
    """What a muscle is called: by the trade, by a client, and together with its neighbours."""

    trade: str
    plain: str
    group: str


@cache
def catalogue() -> Catalogue:
    """All shipped exercises, in the order of files and entries."""
    files = names_in(EXERCISES, ".toml")
    stamp = kept_exercises.stamp_for(path_of(file) for file in files)
    place = parsed.place_for(EXERCISES)
    exercises = kept_exercises.kept(place, stamp)
    if exercises is None:
        exercises = _read_exercises(files)
        kept_exercises.keep(place, stamp, exercises)
    return Catalogue(exercises)


def _read_exercises(files: Iterable[str]) -> tuple[Exercise, ...]:
    exercises = tuple(
        exercise
        for file in files
        for exercise in exercises_from_tables(read_toml(file), text(file), source=file)
    )
    refuse_loose_relatives(exercises, {exercise.key for exercise in exercises})
    return exercises


@cache
def references() -> Mapping[str, Reference]:
    """All shipped references, by id."""
    return references_from_json(text(REFERENCES), source=REFERENCES)


def references_from_json(content: str, *, source: str) -> Mapping[str, Reference]:
    """References from a CSL-JSON array, by id. Raises ResourceError on a broken one."""
    try:
        rows = json.loads(content)
    except json.JSONDecodeError as error:
        raise ResourceError(
            tr("This is not JSON: {error}.", error=error),
            where=source,
            mend=tr("Mend the line named."),
        ) from error
    if not isinstance(rows, list) or not all(isinstance(row, dict) for row in rows):
        raise ResourceError(
            tr("This is not a list of records."), where=source, mend=tr("Begin with [.")
        )
    entries = [Entry(source, str(row.get("id", "?")), row) for row in rows]
    shorts = _shorts(entries)
    found = {e.name: Reference(e.words("id"), shorts[e.name], e.values) for e in entries}
    if len(found) != len(entries):
        twice = Counter(entry.name for entry in entries).most_common(1)[0][0]
        raise ResourceError(
            tr("Two records have the id {twice!r}.", twice=twice),
            where=source,
            mend=tr("Rename one."),
        )
    return MappingProxyType(found)


def _shorts(entries: Iterable[Entry]) -> dict[str, str]:
    """Short names by id; where author and year agree, a letter in the order of the file."""
    plain = {entry.name: f"{_cited_as(entry)} {_year(entry)}" for entry in entries}
    count = Counter(plain.values())
    seen: Counter[str] = Counter()
    shorts = {}
    for key, short in plain.items():
        letter = chr(ord("a") + seen[short]) if count[short] > 1 else ""
        seen[short] += 1
        shorts[key] = short + letter
    return shorts


def _cited_as(entry: Entry) -> str:
    """The first author's surname, or the body's usual letters where the record gives them."""
    if "authority" in entry.values:
        return entry.words("authority")
    match entry.values.get("author", entry.values.get("editor")):
        case [{"family": str(name)}, *_] | [{"literal": str(name)}, *_]:
            return name
    raise entry.error(
        "author", tr("There is no first author."), mend=tr("Give a family or a literal.")
    )


def _year(entry: Entry) -> int:
    match entry.values.get("issued"):
        case {"date-parts": [[int(year), *_]]}:
            return year
    raise entry.error("issued", tr("There is no year."), mend=tr('Write {"date-parts": [[2020]]}.'))


@cache
def range_book() -> RangeBook:
    """All shipped ranges."""
    return range_book_from_mappings(read_toml(file) for file in names_in(RANGES, ".toml"))


@cache
def muscle_names() -> Mapping[Muscle, MuscleName]:
    """The names of every muscle group."""
    return _muscle_names(read_toml(MUSCLES), text(MUSCLES), source=MUSCLES)


def muscle_names_from_toml(content: str, *, source: str) -> Mapping[Muscle, MuscleName]:
    """Muscle names from TOML. Raises ResourceError unless every muscle group has all its names."""
    return _muscle_names(tables_from_toml(content, source=source), content, source=source)


def _muscle_names(
    tables: Mapping[str, object], content: str, *, source: str
) -> Mapping[Muscle, MuscleName]:
    names = {}
    for key, values in tables.items():
        entry = Entry(source, key, values if isinstance(values, dict) else {}, content)
        entry.refuse_unknown(("trade", "plain", "group"))
        names[entry.choice("", Muscle, key)] = MuscleName(
            entry.words("trade"), entry.words("plain"), entry.words("group")
        )
    for muscle in Muscle:
        if muscle not in names:
            raise ResourceError(
                tr("The muscle group {muscle} has no names.", muscle=muscle),
                where=source,
                mend=tr("Add [{muscle}].", muscle=muscle),
            )
    return MappingProxyType({muscle: names[muscle] for muscle in Muscle})


class _Poses(Mapping[str, "PosePair"]):
    """The poses, read when the first one is looked at: a window opens before it draws figures."""

    def __getitem__(self, key: str) -> PosePair:
        return _read_poses()[key]

    def __iter__(self) -> Iterator[str]:
        return iter(_read_poses())

    def __len__(self) -> int:
        return len(_read_poses())


@cache
def poses() -> Mapping[str, PosePair]:
    """All shipped poses, start and end, by figure key."""
    return _Poses()


@cache
def _read_poses() -> Mapping[str, PosePair]:
    # Only those who draw need the figures; a list without pictures opens without them.
    from app.domain.figure import poses_from_mapping

    merged: Table = {}
    for file in names_in(POSES, ".toml"):
        for key, pose in read_toml(file).items():
            if key in merged:
                raise ResourceError(
                    tr("Two poses are called {key!r}.", key=key), where=file, mend=tr("Rename.")
                )
            merged[key] = pose
    return poses_from_mapping(merged)
