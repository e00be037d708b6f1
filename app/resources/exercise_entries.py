"""Exercises from TOML text: the shipped ones and the coach's own, by the same rules.

One table an exercise; its name is the exercise's key. Fields are those of `Exercise`. Written
more readably: `work = { gluteals = 1.0 }`, `reaches = ["knee flexion 110"]`,
`stress = { knee = 2 }`, `faults = [["What you notice", "What to try."]]`.
"""

from __future__ import annotations

import re
from collections.abc import Collection, Iterable, Mapping

from app.domain.errors import ResourceError
from app.domain.exercise import (
    Activation,
    Equipment,
    Exercise,
    ExerciseKey,
    ExerciseText,
    Fault,
    Joint,
    LoadKind,
    Motion,
    Muscle,
    Pattern,
    Plane,
    Reach,
    Work,
)
from app.domain.folding import solid
from app.domain.wording import tr
from app.resources.entry import Entry, near
from app.resources.files import tables_from_toml

FIELDS = (
    "name",
    "aliases",
    "pattern",
    "plane",
    "work",
    "equipment",
    "load_kind",
    "multi_joint",
    "unilateral",
    "timed",
    "body_share",
    "skill",
    "spinal_load",
    "setup_s",
    "rest_s",
    "tempo",
    "rep_low",
    "rep_high",
    "reaches",
    "stress",
    "set_up",
    "cues",
    "faults",
    "easier",
    "harder",
    "activation",
    "figure",
    "warmup_for",
    "version",
    "texts",
)

LONGEST_FILE = 1_000_000
_KEY = re.compile(r"[a-z][a-z0-9_]{0,59}")
_TEMPO = re.compile(r"((\d{1,2}|X)(-(\d{1,2}|X)){3})?")  # X: as fast as can be
_LANGUAGE = re.compile(r"[a-z]{2,3}")
_WORDS = ("name", "set_up", "cues", "faults")
_ACTIVATION = ("muscle", "low", "high", "study", "detail")


def exercises_from_toml(content: str, *, source: str, own: bool = False) -> tuple[Exercise, ...]:
    """The exercises of one file, in its order; all of it or nothing.

    source: the file's name, for errors. own: mark them as the coach's.
    Raises ResourceError naming source, line, entry, field, the value found and those allowed.
    """
    if len(content) > LONGEST_FILE:
        raise ResourceError(
            tr("The file has {content:,} characters.", content=len(content)),
            where=source,
            mend=tr("Split it: {longest_file:,} are read at most.", longest_file=LONGEST_FILE),
        )
    return exercises_from_tables(
        tables_from_toml(content, source=source), content, source=source, own=own
    )


def exercises_from_tables(
    tables: Mapping[str, object], content: str, *, source: str, own: bool = False
) -> tuple[Exercise, ...]:
    """The exercises of one file that is parsed already; content: its text, to tell lines by."""
    entries = [_entry(source, *row, content) for row in tables.items()]
    exercises = tuple(_exercise(entry, own) for entry in entries)
    _refuse_same_names(zip(entries, exercises, strict=True))
    return exercises


def exercise_from_values(
    key: str, values: Mapping[str, object], *, source: str = "", own: bool = False
) -> Exercise:
    """One exercise from the values of its table, as a form would give them; the same rules.

    Raises ResourceError as `exercises_from_toml` does; its place ends in the field's name.
    """
    return _exercise(_entry(source, key, dict(values), ""), own)


def refuse_loose_relatives(exercises: Iterable[Exercise], known: Collection[str]) -> None:
    """Raise ResourceError if an easier or harder relative is not one of `known` keys."""
    for exercise in exercises:
        for key in exercise.easier + exercise.harder:
            if key not in known or key == exercise.key:
                raise ResourceError(
                    tr(
                        "{key!r} is no other exercise of the library.{near}",
                        key=key,
                        near=near(key, known),
                    ),
                    where=tr("{key}, easier or harder", key=exercise.key),
                    mend=tr("Name the key of another exercise, or leave it out."),
                )


def _entry(source: str, key: str, values: object, content: str) -> Entry:
    entry = Entry(source, key, values if isinstance(values, dict) else {}, content)
    if not isinstance(values, dict):
        raise entry.error(
            "", tr("{key!r} stands outside a table.", key=key), mend=tr("Begin with [key_of_it].")
        )
    if not _KEY.fullmatch(key):
        raise entry.error(
            "",
            tr("{key!r} is no key.", key=key),
            mend=tr("Use lower-case letters, digits and _, at most 60."),
        )
    entry.refuse_unknown(FIELDS)
    return entry


def _exercise(entry: Entry, own: bool) -> Exercise:
    rep_low, rep_high = _zone(entry)
    pattern = entry.choice("pattern", Pattern)
    return Exercise(
        key=ExerciseKey(entry.name),
        name=_name(entry),
        pattern=pattern,
        work=_work(entry, pattern),
        equipment=_equipment(entry),
        load_kind=entry.choice("load_kind", LoadKind),
        multi_joint=entry.flag("multi_joint"),
        unilateral=entry.flag("unilateral", False),
        timed=entry.flag("timed", False),
        aliases=entry.lines("aliases"),
        plane=entry.choice("plane", Plane) if "plane" in entry.values else Plane.SAGITTAL,
        body_share=entry.number("body_share", 0.0, low=0, high=1),
        skill=entry.integer("skill", 1, low=1, high=3),
        spinal_load=entry.integer("spinal_load", 0, low=0, high=3),
        setup_s=entry.integer("setup_s", 60, low=0, high=900),
        rest_s=entry.integer("rest_s", 120, low=0, high=900),
        tempo=_tempo(entry),
        rep_low=rep_low,
        rep_high=rep_high,
        reaches=tuple(_reach(entry, line) for line in entry.lines("reaches")),
        stress=_stress(entry),
        set_up=entry.lines("set_up"),
        cues=entry.lines("cues"),
        faults=tuple(_fault(entry, pair) for pair in entry.rows("faults")),
        easier=tuple(ExerciseKey(key) for key in entry.lines("easier")),
        harder=tuple(ExerciseKey(key) for key in entry.lines("harder")),
        activation=tuple(_activation(entry, row) for row in entry.rows("activation")),
        figure=entry.words("figure", ""),
        warmup_for=entry.choices("warmup_for", Pattern),
        own=own,
        version=entry.integer("version", 1, low=1, high=10_000),
        texts=_texts(entry),
    )


def _name(entry: Entry) -> str:
    name = entry.words("name").strip()
    if not 1 <= len(name) <= 80:
        raise entry.error(
            "name", tr("The name has {name} characters.", name=len(name)), mend=tr("Use 1 to 80.")
        )
    return name


def _equipment(entry: Entry) -> tuple[Equipment, ...]:
    if not (found := entry.choices("equipment", Equipment)):
        raise entry.error(
            "equipment",
            tr("No equipment is named."),
            mend=tr('Write ["body"] if nothing is needed.'),
        )
    return found


def _work(entry: Entry, pattern: Pattern) -> tuple[Work, ...]:
    work = []
    for word, fraction in entry.table("work").items():
        muscle = entry.choice("work", Muscle, word)
        part = entry.within("work", fraction, low=0, high=1)
        if part == 0:
            raise entry.error(
                "work", tr("{word} works 0 of a set.", word=word), mend=tr("Leave the muscle out.")
            )
        work.append(Work(muscle, part))
    if pattern is not Pattern.DRILL and not any(part.is_prime for part in work):
        raise entry.error(
            "work",
            tr("No muscle counts a whole set."),
            mend=tr("Give the prime mover the value 1.0."),
        )
    return tuple(work)


def _zone(entry: Entry) -> tuple[int, int]:
    low = entry.integer("rep_low", 5, low=1, high=3600)
    high = entry.integer("rep_high", 20, low=1, high=3600)
    if low > high:
        raise entry.error(
            "rep_low",
            tr("{low} is above rep_high, {high}.", low=low, high=high),
            mend=tr("Swap the two."),
        )
    return low, high


def _tempo(entry: Entry) -> str:
    tempo = entry.words("tempo", "2-0-2-0")
    if not _TEMPO.fullmatch(tempo):
        raise entry.error(
            "tempo",
            tr("{tempo!r} is no tempo.", tempo=tempo),
            mend=tr('Write seconds down, pause, up, pause: "2-0-1-0"; "" if it does not apply.'),
        )
    return tempo


def _texts(entry: Entry) -> tuple[ExerciseText, ...]:
    """The words in further languages, by code."""
    return tuple(text_of(entry, code, values) for code, values in entry.table("texts").items())


def text_of(entry: Entry, language: str, values: object) -> ExerciseText:
    """The words of an exercise in one language. Raises ResourceError for what does not fit."""
    if not _LANGUAGE.fullmatch(language):
        raise entry.error(
            "texts",
            tr("{language!r} is no code of a language.", language=language),
            mend=tr("Write two letters, such as de."),
        )
    if not isinstance(values, dict):
        raise entry.error(
            "texts",
            tr("{values!r} is not a table.", values=values),
            mend=tr("Write { name = ... }."),
        )
    words = Entry(entry.source, entry.name, values, entry.content)
    words.refuse_unknown(_WORDS)
    return ExerciseText(
        language,
        _name(words),
        words.lines("set_up"),
        words.lines("cues"),
        tuple(_fault(words, pair) for pair in words.rows("faults")),
    )


def _reach(entry: Entry, line: str) -> Reach:
    joint, motion, *rest = (*line.split(), "", "")
    degrees = [word for word in rest if word]
    if len(degrees) > 1 or not all(word.isascii() and word.isdigit() for word in degrees):
        raise entry.error(
            "reaches",
            tr("{line!r} is no reach.", line=line),
            mend=tr('Write "knee flexion 110": whole degrees.'),
        )
    angle = entry.within("reaches", int(degrees[0]) if degrees else 0, low=0, high=180)
    return Reach(
        entry.choice("reaches", Joint, joint), entry.choice("reaches", Motion, motion), int(angle)
    )


def _stress(entry: Entry) -> tuple[tuple[Joint, int], ...]:
    return tuple(
        (entry.choice("stress", Joint, joint), int(entry.within("stress", level, low=1, high=3)))
        for joint, level in entry.table("stress").items()
    )


def _fault(entry: Entry, pair: object) -> Fault:
    match pair:
        case [str(), str()]:
            words = Entry(entry.source, entry.name, {"faults": pair}, entry.content)
            return Fault(*words.lines("faults"))
        case _:
            raise entry.error(
                "faults",
                tr("{pair!r} is no pair.", pair=pair),
                mend=tr('Write ["What you notice", "What to try."].'),
            )


def _activation(entry: Entry, row: object) -> Activation:
    if not isinstance(row, dict):
        raise entry.error(
            "activation", tr("{row!r} is no row.", row=row), mend=tr("Write { muscle = ... }.")
        )
    for field in row:
        if field not in _ACTIVATION:
            raise entry.error(
                "activation",
                tr(
                    "There is no field {field!r}.{near}", field=field, near=near(field, _ACTIVATION)
                ),
                mend=tr("Fields are {activation}.", activation=", ".join(_ACTIVATION)),
            )
    part = Entry(entry.source, entry.name, row, entry.content)
    low = part.number("low", -1, low=0, high=500)
    high = part.number("high", low, low=0, high=500)
    if low > high:
        raise entry.error(
            "activation",
            tr("low {low:g} is above high {high:g}.", low=low, high=high),
            mend=tr("Swap them."),
        )
    return Activation(
        part.choice("muscle", Muscle), low, high, part.words("study"), part.words("detail", "")
    )


def _refuse_same_names(rows: Iterable[tuple[Entry, Exercise]]) -> None:
    seen: dict[str, str] = {}
    for entry, exercise in rows:
        first = seen.setdefault(solid(exercise.name), exercise.key)
        if first != exercise.key:
            raise entry.error(
                "name",
                tr(
                    "{key} and {first} share the name {exercise!r}.",
                    key=exercise.key,
                    first=first,
                    exercise=exercise.name,
                ),
                mend=tr("Rename one."),
            )
