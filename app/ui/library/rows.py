"""Which exercises the library lists, and in what order: pure functions over the catalogue."""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from dataclasses import dataclass
from datetime import date

from app.domain.client import Client
from app.domain.exercise import Catalogue, Exercise, ExerciseKey, Muscle, Pattern
from app.domain.fit import fits
from app.domain.program import DAYS, Week

CLOSE_MATCH = 72.0
"""How alike, 0 to 100, a misspelt search must be to a name to be shown. Common practice."""
MOST_CLOSE = 30


@dataclass(frozen=True, slots=True)
class Wish:
    """What the coach narrows the list to; None and empty leave it open."""

    text: str = ""
    muscle: Muscle | None = None
    pattern: Pattern | None = None
    client: Client | None = None
    on: date | None = None


@dataclass(frozen=True, slots=True)
class Entry:
    """An exercise with the words that a search looks through, folded to lower case."""

    exercise: Exercise
    words: str
    names: tuple[str, ...]


def entries(catalogue: Catalogue, names: Mapping[Muscle, str]) -> tuple[Entry, ...]:
    """Every exercise with its search words."""
    return tuple(_entry(exercise, names) for exercise in catalogue)


def _entry(exercise: Exercise, names: Mapping[Muscle, str]) -> Entry:
    called = tuple(name.casefold() for name in (exercise.name, *exercise.aliases))
    words = [
        *called,
        *(names[w.muscle].casefold() for w in exercise.work),
        *(thing.value.replace("_", " ") for thing in exercise.equipment),
        exercise.pattern.value.replace("_", " "),
    ]
    return Entry(exercise, " \n".join(words), called)


def narrowed(all_entries: Iterable[Entry], wish: Wish) -> tuple[Entry, ...]:
    """The entries that the muscle, the pattern and the client leave."""
    return tuple(entry for entry in all_entries if _left(entry.exercise, wish))


def _left(exercise: Exercise, wish: Wish) -> bool:
    if wish.muscle is not None and not exercise.fraction(wish.muscle):
        return False
    if wish.pattern is not None and exercise.pattern is not wish.pattern:
        return False
    if wish.client is not None and wish.on is not None:
        return fits(exercise, wish.client, wish.on)
    return True


def found(left: tuple[Entry, ...], text: str) -> tuple[Entry, ...]:
    """The entries that hold every word of `text`; if none does, those with a name like it."""
    words = text.casefold().split()
    if not words:
        return left
    hits = tuple(e for e in left if all(word in e.words for word in words))
    return hits or _alike(left, " ".join(words))


def _alike(left: tuple[Entry, ...], text: str) -> tuple[Entry, ...]:
    from rapidfuzz import fuzz, process

    names = [(name, entry) for entry in left for name in entry.names]
    scored = process.extract(
        text,
        [name for name, _ in names],
        scorer=fuzz.WRatio,
        score_cutoff=CLOSE_MATCH,
        limit=MOST_CLOSE,
    )
    return tuple(dict.fromkeys(names[index][1] for _, _, index in scored))


def by_emphasis(some: Iterable[Entry], emphasis: tuple[Muscle, ...]) -> tuple[Entry, ...]:
    """The entries, those that train the emphasis most first; drills last, then by name."""

    def rank(entry: Entry) -> tuple[bool, float, str]:
        exercise = entry.exercise
        score = sum(
            exercise.fraction(muscle) / (place + 1) for place, muscle in enumerate(emphasis)
        )
        return (exercise.pattern is Pattern.DRILL, -score, exercise.name)

    return tuple(sorted(some, key=rank))


def days_used(week: Week | None) -> dict[ExerciseKey, str]:
    """Where each exercise of the week stands: 'in Mon', 'in Mon, Thu'."""
    days: dict[ExerciseKey, list[str]] = {}
    if week is not None:
        for day, session in week.sessions():
            for slot in session.slots:
                short = DAYS[day][:3]
                if short not in days.setdefault(slot.exercise, []):
                    days[slot.exercise].append(short)
    return {key: f"in {', '.join(names)}" for key, names in days.items()}


def muscles_text(exercise: Exercise, names: Mapping[Muscle, str]) -> str:
    """'Quadriceps, gluteals, hamstrings ½': prime movers first, helpers with their part."""
    parts = []
    for work in exercise.work:
        name = names[work.muscle].lower()
        if not work.is_prime:
            part = "½" if work.fraction == 0.5 else f"{work.fraction:g}"
            name = f"{name} {part}"
        parts.append(name)
    text = ", ".join(parts)
    return text[:1].upper() + text[1:]


def equipment_text(exercise: Exercise) -> str:
    """'barbell, rack', or 'own weight'."""
    things = [e.value.replace("_", " ") for e in exercise.equipment if e.value != "body"]
    return ", ".join(things) or "own weight"
