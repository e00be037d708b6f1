"""Finding exercises by what a coach types: plain words first, slips of the finger only then.

A plain look through folded words answers almost every keystroke. Only where it finds nothing are
words compared by likeness, one by one over the vocabulary and as whole names without spaces.
"""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass, field
from math import ceil

from app.domain.exercise import Catalogue, Exercise, Muscle
from app.domain.folding import fold

LIKE_A_WORD = 0.65
LIKE_A_NAME = 72.0
ENOUGH = 0.62
"""How alike, 0 to 1 and 0 to 100, words, whole names and results must be. Common practice."""
MOST_CLOSE = 30
MOST_WORDS = 8
PREFIX_WORTH = 0.95
"""What the likeness to the beginning of a word counts beside that to a whole one."""
SURE = 0.85
"""From this likeness of single words on, whole names need not be compared as well."""
WORDS_KEPT = 16
"""Words whose likeness is remembered while a coach types on."""
LONGER_NAME = 0.015
"""What a name loses for each word that was not typed, so that the plain name comes first."""


@dataclass(slots=True, eq=False)
class Entry:
    """An exercise with the folded words that a search looks through, once `fold_words` made them.

    muscles: what muscles are called, folded; words: names, muscles, equipment and pattern; called:
    names only, each after a line break and a space; solid: the same without the spaces.
    """

    number: int
    exercise: Exercise
    muscles: Mapping[Muscle, str] = field(repr=False)
    words: str = ""
    called: str = ""
    solid: str = ""

    def fold_words(self) -> None:
        """Make the words, for the first search."""
        if self.words:
            return
        names = dict.fromkeys(fold(name) for name in (self.exercise.name, *self.exercise.aliases))
        more = [
            *(self.muscles[w.muscle] for w in self.exercise.work),
            *(fold(thing.value) for thing in self.exercise.equipment),
            fold(self.exercise.pattern.value),
        ]
        self.called = "".join(f"\n {name}" for name in names) + "\n"
        self.solid = self.called.replace(" ", "")
        self.words = f"{self.called} {' '.join(dict.fromkeys(more))}"

    @property
    def names(self) -> tuple[str, ...]:
        """Name and aliases, folded."""
        return tuple(self.called.strip().split("\n "))


@dataclass(frozen=True, slots=True)
class Found:
    """What a search found, best first; alike: nothing held the words, these are names like them."""

    entries: tuple[Entry, ...]
    alike: bool = False


Ranked = tuple[float, int, int]
"""A name's likeness below 0, its number of words and its place, so that sorting ranks names."""


def entries(catalogue: Catalogue, names: Mapping[Muscle, str]) -> tuple[Entry, ...]:
    """Every exercise on offer with its search words, in the order of the catalogue."""
    folded = {muscle: fold(name) for muscle, name in names.items()}
    return tuple(Entry(n, exercise, folded) for n, exercise in enumerate(catalogue))


class Finder:
    """The search over one catalogue; its vocabulary is built once.

    Which exercises hold a word is a number whose bit n stands for entry n.
    """

    def __init__(self, all_entries: Sequence[Entry]) -> None:
        for entry in all_entries:
            entry.fold_words()
        self._count = len(all_entries)
        self._names = [(name, entry) for entry in all_entries for name in entry.names]
        self._solid = [name.replace(" ", "") for name, _ in self._names]
        self._all_solid = "".join(entry.solid for entry in all_entries)
        self._words = [len(name.split()) for name, _ in self._names]
        places: defaultdict[str, list[int]] = defaultdict(list)
        for place, (name, _) in enumerate(self._names):
            for word in dict.fromkeys(name.split()):
                places[word].append(place)
        self._places = dict(places)
        self._vocabulary = list(self._places)
        self._holding = _holding(all_entries)
        self._known: dict[str, dict[int, float]] = {}

    def find(self, left: Sequence[Entry], text: str) -> Found:
        """The entries of `left` that `text` means; all of them, in their order, for no text.

        What is spelt right but left out stays out: then nothing is found, rather than a name
        like it.
        """
        words = fold(text).split()
        if not words:
            return Found(tuple(left))
        if holders := self._holders(words):
            digits = f"{holders:0{self._count}b}"[::-1]
            return Found(nearest_first([e for e in left if digits[e.number] == "1"], words))
        solid = "".join(words)
        if len(solid) > 3 and solid in self._all_solid:
            return Found(tuple([e for e in left if solid in e.solid]))
        return Found(self._alike(left, words), alike=True)

    def _holders(self, words: list[str]) -> int:
        """The entries in which every word is, or is a part of, a word."""
        every = -1
        for word in words:
            some = 0
            for known, entries_ in self._holding.items():
                if word in known:
                    some |= entries_
            every &= some
        return every

    def _alike(self, left: Sequence[Entry], words: list[str]) -> tuple[Entry, ...]:
        ranked = self._by_words(words)
        if not ranked or -ranked[0][0] < SURE:
            ranked = sorted(ranked + self._by_name("".join(words)))
        allowed = None if len(left) == self._count else {entry.number for entry in left}
        found: dict[int, Entry] = {}
        for _, _, place in ranked:
            entry = self._names[place][1]
            if len(found) == MOST_CLOSE:
                break
            if allowed is None or entry.number in allowed:
                found.setdefault(entry.number, entry)
        return tuple(found.values())

    def _by_name(self, solid: str) -> list[Ranked]:
        """Names alike as a whole, written without spaces."""
        from rapidfuzz import fuzz, process

        found = process.extract(
            solid, self._solid, scorer=fuzz.ratio, score_cutoff=LIKE_A_NAME, limit=MOST_CLOSE
        )
        return [(-score / 100, self._words[place], place) for _, score, place in found]

    def _by_words(self, words: list[str]) -> list[Ranked]:
        """Names that are alike enough word by word, best first."""
        several = sorted((self._places_like(word) for word in words), key=len)
        # Whoever reaches the limit is like so many words, so it is in one of the rarest few.
        needed = ceil(ENOUGH * len(words))
        rarest = several[: len(words) - needed + 1]
        count, lengths = len(words), self._words
        found: list[Ranked] = []
        for place in set().union(*rarest):
            length = lengths[place]
            score = sum([one.get(place, 0.0) for one in several]) / count
            if length > count:
                score -= LONGER_NAME * (length - count)
            if score >= ENOUGH:
                found.append((-score, length, place))
        found.sort()
        return found

    def _places_like(self, word: str) -> dict[int, float]:
        """Likeness of the nearest word in each name, by the name's place; the last are kept."""
        best = self._known.get(word)
        if best is None:
            best = {}
            for known, score in sorted(self._words_like(word).items(), key=lambda pair: pair[1]):
                best.update(dict.fromkeys(self._places[known], score))
            if len(self._known) >= WORDS_KEPT:
                self._known.clear()
            self._known[word] = best
        return best

    def _words_like(self, word: str) -> dict[str, float]:
        """Words of the vocabulary like `word`, or that begin like it, 0 to 1."""
        from rapidfuzz import process
        from rapidfuzz.distance import OSA

        known = self._vocabulary
        like = {one: PREFIX_WORTH for one in known if one.startswith(word)}
        begun = [one[: len(word)] for one in known] if len(word) > 3 else []
        for several, worth in ((known, 1.0), (begun, PREFIX_WORTH)):
            for _, score, place in process.extract(
                word,
                several,
                scorer=OSA.normalized_similarity,
                score_cutoff=LIKE_A_WORD,
                limit=MOST_WORDS,
            ):
                like[known[place]] = max(like.get(known[place], 0.0), worth * score)
        return like


def _holding(all_entries: Sequence[Entry]) -> dict[str, int]:
    """The entries that hold each word, as sets of bits."""
    numbers: defaultdict[str, list[int]] = defaultdict(list)
    for entry in all_entries:
        for word in dict.fromkeys(entry.words.split()):
            numbers[word].append(entry.number)
    return {word: set_of(some, len(all_entries)) for word, some in numbers.items()}


def set_of(numbers: Iterable[int], count: int) -> int:
    """The set of these numbers below `count`: bit n stands for n."""
    digits = bytearray(b"0" * (count + 1))
    for number in numbers:
        digits[-1 - number] = 49  # the digit 1, counted from the right
    return int(digits, 2)


def nearest_first(hits: list[Entry], words: list[str]) -> tuple[Entry, ...]:
    """The entries, those first whose names are the words or begin with them."""
    solid, begins = "".join(words), f"\n {' '.join(words)}"
    if len(solid) < 3:  # almost everything is a hit, and no finer order says much
        return tuple(
            [e for e in hits if begins in e.called] + [e for e in hits if begins not in e.called]
        )
    exact, starts = f"\n{solid}\n", [f" {word}" for word in words]

    def distance(entry: Entry) -> int:
        if exact in entry.solid:
            return 0
        if begins in entry.called:
            rest = entry.called.partition(begins)[2].partition("\n")[0]
            return 2 if " " in rest else 1
        if _holds(entry.called, starts):
            return 3
        return 4 if _holds(entry.called, words) else 5

    return tuple(sorted(hits, key=distance))


def _holds(text: str, parts: list[str]) -> bool:
    """True if the text holds every part."""
    for part in parts:  # noqa: SIM110 - all() takes three times as long, thousands of times
        if part not in text:
            return False
    return True
