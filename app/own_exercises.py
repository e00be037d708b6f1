"""The coach's own exercises between the desk, the coach's file and files that others can use.

What is kept is in the file before the desk offers it. A file is taken in whole or not at all, and
every refusal names the line and the reason.
"""

from __future__ import annotations

import re
from collections.abc import Container, Iterable, Mapping
from dataclasses import dataclass, replace
from pathlib import Path
from unicodedata import combining, normalize

from app import resources
from app.desk import Desk, Keeper
from app.domain.errors import CoachError, ResourceError
from app.domain.exercise import Catalogue, Exercise, ExerciseKey
from app.domain.folding import solid
from app.domain.wording import tr
from app.resources.entry import near

MOST_BYTES = 1_000_000
"""The largest exercise file that is read: some 700 exercises."""
LONGEST_KEY = 60


def catalogue_of(store: Keeper) -> Catalogue:
    """The shipped exercises and the coach's own; retired ones are found but not offered."""
    shipped = resources.catalogue()
    offered = store.own_exercises()
    here = {exercise.key for exercise in offered}
    gone = tuple(
        exercise
        for exercise in store.own_exercises(retired=True)
        if exercise.key not in here and exercise.key not in shipped
    )
    return shipped.with_own(offered + gone, frozenset(exercise.key for exercise in gone))


def key_for(name: str, catalogue: Catalogue) -> ExerciseKey:
    """A key that is not in the catalogue, made of the name: 'Towel row' gives `towel_row`."""
    plain = "".join(one for one in normalize("NFKD", name) if not combining(one)).lower()
    stem = re.sub(r"[^a-z0-9]+", "_", plain).strip("_")
    stem = (stem if stem[:1].isalpha() else f"own_{stem}".strip("_"))[: LONGEST_KEY - 4]
    key, number = stem, 2
    while key in catalogue:
        key = f"{stem}_{number}"
        number += 1
    return ExerciseKey(key)


# -- one exercise ------------------------------------------------------------------------------


def keep(desk: Desk, exercise: Exercise) -> None:
    """Keep an own exercise and offer it. Raises CoachError where its name or key is taken."""
    from app import own_references  # it reads files of reference managers

    exercise = replace(exercise, own=True)
    refuse_contradiction(exercise, desk.catalogue, own_references.every(desk.store))
    desk.store.save_exercise(exercise)
    desk.use_catalogue(catalogue_of(desk.store))


def refuse_contradiction(
    exercise: Exercise, catalogue: Catalogue, studies: Container[str] | None = None
) -> None:
    """Raise CoachError where a name or key is taken, or a relative or study is not there.

    studies: ids of references, the shipped ones where they are left out.
    """
    if exercise.key in catalogue and not catalogue[exercise.key].own:
        shipped = catalogue[exercise.key].name
        raise CoachError(
            tr(
                "{key!r} is the key of {shipped!r}, which is shipped.",
                key=exercise.key,
                shipped=shipped,
            ),
            mend=tr("Choose another name."),
        )
    entry = resources.Entry("", exercise.name, {})
    _refuse_misfit(exercise, catalogue, entry=entry, studies=studies)


def refuse_taken_name(name: str, key: ExerciseKey, catalogue: Catalogue) -> None:
    """Raise CoachError if an exercise on offer, other than that of the key, has this name."""
    other = _named(key, catalogue).get(solid(name))
    if other is not None:
        raise CoachError(
            tr("There is already an exercise called {other!r}.", other=other.name),
            mend=tr("Choose another name."),
        )


def retire(desk: Desk, key: ExerciseKey) -> None:
    """Offer an own exercise no longer; plans that hold it keep it."""
    desk.store.retire_exercise(key)
    desk.use_catalogue(catalogue_of(desk.store))


def _keys(catalogue: Catalogue) -> frozenset[str]:
    return frozenset(exercise.key for exercise in catalogue.exercises)


def _named(key: ExerciseKey, catalogue: Catalogue) -> dict[str, Exercise]:
    """The exercises on offer but that of the key, by their solid names."""
    return {solid(other.name): other for other in catalogue if other.key != key}


def _refuse_misfit(
    exercise: Exercise,
    catalogue: Catalogue,
    *,
    entry: resources.Entry,
    studies: Container[str] | None,
) -> None:
    """Refuse what cannot stand beside those that are there; entry: where to say it is."""
    _refuse_taken_names(exercise, _named(exercise.key, catalogue), entry=entry)
    _refuse_loose(exercise, _keys(catalogue), entry=entry)
    _refuse_tangled(exercise, catalogue, entry=entry)
    _refuse_unknown_studies(exercise, entry, studies)
    _refuse_unknown_figure(exercise, entry)


def _refuse_taken_names(
    exercise: Exercise, named: Mapping[str, Exercise], *, entry: resources.Entry
) -> None:
    if other := named.get(solid(exercise.name)):
        raise entry.error(
            "name",
            tr("There is already an exercise called {other!r}.", other=other.name),
            mend=tr("Choose another name."),
        )
    for alias in exercise.aliases:
        if other := named.get(solid(alias)):
            raise entry.error(
                "aliases",
                tr(
                    "{alias!r} is the name of another exercise, {other!r}.",
                    alias=alias,
                    other=other.name,
                ),
                mend=tr("Leave this other name out."),
            )


def retired(store: Keeper) -> tuple[Exercise, ...]:
    """The coach's own exercises that are no longer offered, by name."""
    offered = {exercise.key for exercise in store.own_exercises()}
    every = store.own_exercises(retired=True)
    gone = (exercise for exercise in every if exercise.key not in offered)
    return tuple(sorted(gone, key=lambda exercise: exercise.name.casefold()))


# -- files -------------------------------------------------------------------------------------


@dataclass(frozen=True, slots=True)
class Delivery:
    """What a file brings: new ones, some in the place of the coach's own, and what is the same."""

    fresh: tuple[Exercise, ...]
    changed: tuple[Exercise, ...]
    same: tuple[Exercise, ...]


def write_own(path: Path, exercises: Iterable[Exercise], catalogue: Catalogue) -> int:
    """Write exercises, with the own ones they name, to a file; how many. Raises FileTrouble."""
    from app.exchange import exercise_file
    from app.exchange.files import write_file

    several = exercise_file.with_relatives(exercises, catalogue)
    write_file(path, exercise_file.write_exercises(several).encode("utf-8"))
    return len(several)


def read_own(path: Path, catalogue: Catalogue, studies: Container[str] | None = None) -> Delivery:
    """What the file would bring beside these exercises; nothing is kept.

    studies: ids of references, the shipped ones where they are left out. Raises CoachError with
    the line and the reason if anything in the file cannot be taken in.
    """
    from app.exchange.files import read_file

    content = _text(read_file(path, most=MOST_BYTES), path.name)
    return delivery(content, source=path.name, catalogue=catalogue, studies=studies)


def delivery(
    content: str,
    *,
    source: str,
    catalogue: Catalogue,
    studies: Container[str] | None = None,
) -> Delivery:
    """What the text of a file would bring beside these exercises. Raises CoachError."""
    try:
        exercises = resources.exercises_from_toml(content, source=source, own=True)
    except CoachError:
        raise
    except (ValueError, RecursionError) as error:
        raise ResourceError(
            tr("A number or a nesting in it is too large."),
            where=source,
            mend=tr("Mend it and try again."),
        ) from error
    if not exercises:
        raise ResourceError(
            tr("It holds no exercise."), where=source, mend=tr("Choose another file.")
        )
    beside = catalogue.with_own(exercises, catalogue.retired - {e.key for e in exercises})
    for exercise in exercises:
        entry = resources.Entry(source, exercise.key, {}, content)
        if exercise.key in catalogue and not catalogue[exercise.key].own:
            shipped = catalogue[exercise.key].name
            raise entry.error(
                "",
                tr("{key!r} is the key of {shipped!r}.", key=exercise.key, shipped=shipped),
                mend=tr("Choose another key."),
            )
        _refuse_misfit(exercise, beside, entry=entry, studies=studies)
    return _sorted(exercises, catalogue)


def _text(data: bytes, source: str) -> str:
    if len(data) > MOST_BYTES:
        lines = data.split(b"\n")
        longest = max(range(len(lines)), key=lambda n: len(lines[n]))
        raise ResourceError(
            tr(
                "The file is too large; this line alone has {lines:,} bytes or more.",
                lines=len(lines[longest]),
            ),
            where=tr("{source}, line {longest}", source=source, longest=longest + 1),
            mend=tr("Shorten it: {most_bytes:,} bytes are read at most.", most_bytes=MOST_BYTES),
        )
    try:
        return data.decode("utf-8-sig")
    except UnicodeDecodeError as error:
        line = data[: error.start].count(b"\n") + 1
        raise ResourceError(
            tr("This is not UTF-8 text."),
            where=tr("{source}, line {line}", source=source, line=line),
            mend=tr("Save the file as UTF-8."),
        ) from error


def _refuse_loose(exercise: Exercise, known: frozenset[str], *, entry: resources.Entry) -> None:
    for field, keys in (("easier", exercise.easier), ("harder", exercise.harder)):
        for key in keys:
            if key not in known or key == exercise.key:
                raise entry.error(
                    field,
                    tr(
                        "{key!r} is no other exercise of the file or the library.{near}",
                        key=key,
                        near=near(key, known),
                    ),
                    mend=tr("Name the key of another exercise, or leave it out."),
                )


def _refuse_tangled(exercise: Exercise, catalogue: Catalogue, *, entry: resources.Entry) -> None:
    """Refuse an exercise that would be both easier and harder than another one."""
    for key in exercise.easier:
        if key in exercise.harder:
            raise entry.error(
                "easier",
                tr(
                    "{catalogue!r} is named as easier and as harder.", catalogue=catalogue[key].name
                ),
                mend=tr("Keep one of the two."),
            )
    for field in ("easier", "harder"):
        for key in getattr(exercise, field):
            other = catalogue[key]
            if exercise.key in getattr(other, field):
                raise entry.error(
                    field,
                    tr(
                        "{other!r} names this exercise as {field} too.",
                        other=other.name,
                        field=field,
                    ),
                    mend=tr("Only one of the two can be: take it out of one."),
                )


def _refuse_unknown_figure(exercise: Exercise, entry: resources.Entry) -> None:
    poses = resources.poses()
    if exercise.figure and exercise.figure not in poses:
        raise entry.error(
            "figure",
            tr(
                "{figure!r} is no figure.{near}",
                figure=exercise.figure,
                near=near(exercise.figure, poses),
            ),
            mend=tr("Use the figure of a shipped exercise, or leave it out."),
        )


def _refuse_unknown_studies(
    exercise: Exercise, entry: resources.Entry, studies: Container[str] | None
) -> None:
    known = resources.references() if studies is None else studies
    for row in exercise.activation:
        if row.study not in known:
            raise entry.error(
                "activation",
                tr("{study!r} is no reference of Weekloom's.", study=row.study),
                mend=tr("Use the id of a shipped reference, or leave the figure out."),
            )


def _sorted(exercises: tuple[Exercise, ...], catalogue: Catalogue) -> Delivery:
    fresh, changed, same = [], [], []
    for one in exercises:
        if one.key not in catalogue or one.key in catalogue.retired:
            fresh.append(one)
        elif catalogue[one.key] == one:
            same.append(one)
        else:
            changed.append(one)
    return Delivery(tuple(fresh), tuple(changed), tuple(same))


def take_in(desk: Desk, brought: Delivery, *, replacing: bool = False) -> int:
    """Keep what a file brings, all of it or nothing; how many exercises were kept.

    replacing: also those that differ from the coach's own of the same key; else they are left.
    """
    several = brought.fresh + (brought.changed if replacing else ())
    if several:
        with desk.store.together():
            for exercise in several:
                desk.store.save_exercise(exercise)
        desk.use_catalogue(catalogue_of(desk.store))
    return len(several)
