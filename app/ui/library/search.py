"""Finding exercises by what a coach types: plain words first, slips of the finger only then.

A plain look through folded words answers almost every keystroke. Only where it finds nothing are
words compared by likeness, one by one over the vocabulary and as whole names without spaces.
"""

from __future__ import annotations

import re
from collections import defaultdict
from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass
from unicodedata import combining, normalize

from app.domain.exercise import Catalogue, Exercise, Muscle

LIKE_A_WORD = 0.6
LIKE_A_NAME = 72.0
ENOUGH = 0.62
"""How alike, 0 to 1 and 0 to 100, words, whole names and results must be. Common practice."""
MOST_CLOSE = 30
PREFIX_WORTH = 0.95
"""What the likeness to the beginning of a word counts beside that to a whole one."""
LONGER_NAME = 0.015
"""What a name loses for each word that was not typed, so that the plain name comes first."""

_APART = re.compile(r"[\W_]+")


@dataclass(frozen=True, slots=True)
class Entry:
    """An exercise with the folded words that a search looks through.

    words: names, muscles, equipment and pattern; called: names only, each after a line break and
    a space; solid: the same without the spaces.
    """

    number: int
    exercise: Exercise
    words: str
    called: str
    solid: str

    @property
    def names(self) -> tuple[str, ...]:
        """Name and aliases, folded."""
        return tuple(self.called.strip().split("\n "))


@dataclass(frozen=True, slots=True)
class Found:
    """What a search found, best first; alike: nothing held the words, these are names like them."""

    entries: tuple[Entry, ...]
    alike: bool = False


def fold(text: str) -> str:
    """Lower case without accents, apostrophes and hyphens: "Farmer's" is 'farmers'."""
    if not text.isascii():
        text = "".join(letter for letter in normalize("NFKD", text) if not combining(letter))
    text = text.casefold().replace("'", "").replace("\N{RIGHT SINGLE QUOTATION MARK}", "")
    return _APART.sub(" ", text).strip()


def entries(catalogue: Catalogue, names: Mapping[Muscle, str]) -> tuple[Entry, ...]:
    """Every exercise on offer with its search words, in the order of the catalogue."""
    folded = {muscle: fold(name) for muscle, name in names.items()}
    return tuple(_entry(n, exercise, folded) for n, exercise in enumerate(catalogue))


def _entry(number: int, exercise: Exercise, names: Mapping[Muscle, str]) -> Entry:
    called = dict.fromkeys(fold(name) for name in (exercise.name, *exercise.aliases))
    more = [
        *(names[w.muscle] for w in exercise.work),
        *(fold(thing.value) for thing in exercise.equipment),
        fold(exercise.pattern.value),
    ]
    listed = "".join(f"\n {name}" for name in called) + "\n"
    words = f"{listed} {' '.join(dict.fromkeys(more))}"
    return Entry(number, exercise, words, listed, listed.replace(" ", ""))


class Finder:
    """The search over one catalogue; its vocabulary is built once."""

    def __init__(self, all_entries: Sequence[Entry]) -> None:
        self._every, self._count = all_entries, len(all_entries)
        self._names = [(name, entry) for entry in all_entries for name in entry.names]
        self._solid = [name.replace(" ", "") for name, _ in self._names]
        self._words = [len(name.split()) for name, _ in self._names]
        places: defaultdict[str, list[int]] = defaultdict(list)
        for place, (name, _) in enumerate(self._names):
            for word in dict.fromkeys(name.split()):
                places[word].append(place)
        self._places = dict(places)
        self._vocabulary = list(self._places)

    def find(self, left: Sequence[Entry], text: str) -> Found:
        """The entries of `left` that `text` means; all of them, in their order, for no text.

        What is spelt right but left out stays out: then nothing is found, rather than a name
        like it.
        """
        words = fold(text).split()
        if not words:
            return Found(tuple(left))
        hits = plainly(left, words)
        if hits or (len(left) < self._count and plainly(self._every, words)):
            return Found(hits)
        return Found(self._alike(left, words), alike=True)

    def _alike(self, left: Sequence[Entry], words: list[str]) -> tuple[Entry, ...]:
        best = self._by_name("".join(words))
        for place, score in self._by_words(words).items():
            best[place] = max(score, best.get(place, 0.0))
        allowed = None if len(left) == self._count else {entry.number for entry in left}
        ranked = sorted(best.items(), key=lambda pair: (-pair[1], self._words[pair[0]], pair[0]))
        found: dict[int, Entry] = {}
        for place, score in ranked:
            entry = self._names[place][1]
            if score < ENOUGH or len(found) == MOST_CLOSE:
                break
            if allowed is None or entry.number in allowed:
                found.setdefault(entry.number, entry)
        return tuple(found.values())

    def _by_name(self, solid: str) -> dict[int, float]:
        """Likeness of whole names, written without spaces, 0 to 1 by their place."""
        from rapidfuzz import fuzz, process

        found = process.extract(
            solid, self._solid, scorer=fuzz.ratio, score_cutoff=LIKE_A_NAME, limit=MOST_CLOSE
        )
        return {place: score / 100 for _, score, place in found}

    def _by_words(self, words: list[str]) -> dict[int, float]:
        """Likeness word by word, 0 to 1 by the place of the name."""
        total: defaultdict[int, float] = defaultdict(float)
        for word in words:
            best: dict[int, float] = {}
            for known, score in self._words_like(word).items():
                for place in self._places[known]:
                    if score > best.get(place, 0.0):
                        best[place] = score
            for place, score in best.items():
                total[place] += score
        return {
            place: score / len(words) - LONGER_NAME * max(0, self._words[place] - len(words))
            for place, score in total.items()
        }

    def _words_like(self, word: str) -> dict[str, float]:
        """Words of the vocabulary like `word`, or that begin like it, 0 to 1."""
        from rapidfuzz import process
        from rapidfuzz.distance import OSA

        known = self._vocabulary
        like: dict[str, float] = {}
        begun = [one[: len(word)] for one in known] if len(word) > 3 else []
        for several, worth in ((known, 1.0), (begun, PREFIX_WORTH)):
            for _, score, place in process.extract(
                word,
                several,
                scorer=OSA.normalized_similarity,
                score_cutoff=LIKE_A_WORD,
                limit=MOST_CLOSE,
            ):
                like[known[place]] = max(like.get(known[place], 0.0), worth * score)
        return like


def plainly(left: Iterable[Entry], words: list[str]) -> tuple[Entry, ...]:
    """The entries that hold every word, or all of them run together; nearest names first."""
    first, *others = words
    solid = "".join(words)
    hits = [e for e in left if first in e.words]
    for word in others:
        hits = [e for e in hits if word in e.words]
    if not hits and len(solid) > 3:
        return tuple(e for e in left if solid in e.solid)
    classes: tuple[list[Entry], ...] = ([], [], [], [], [])
    exact, begins = f"\n{solid}\n", f"\n {' '.join(words)}"
    starts = [f" {word}" for word in words]
    for entry in hits:
        if exact in entry.solid:
            classes[0].append(entry)
        elif begins in entry.called:
            classes[1].append(entry)
        elif all(start in entry.called for start in starts):
            classes[2].append(entry)
        elif all(word in entry.called for word in words):
            classes[3].append(entry)
        else:
            classes[4].append(entry)
    return tuple(entry for several in classes for entry in several)
