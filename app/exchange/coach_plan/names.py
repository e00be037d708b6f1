"""Which exercise a coach means by a name: the same one, one with a slip in it, or one to ask about.

Other names count like the first one. What a name's short forms stand for is in the words; whom
the coach has named before is remembered by whoever asks.
"""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from dataclasses import dataclass

from app.domain.exercise import Catalogue, Exercise, ExerciseKey
from app.domain.folding import fold, solid

APART = 4.0
"""By so much (of 100) the likest name must be nearer than the next to be taken for meant."""
SLIPS = 1
LONG_WORD, SLIPS_IN_LONG = 9, 2
"""Letters of a word that may be wrong, missing, too many or swapped. Common practice; few, since
'incline' and 'decline' differ in two."""
LIKELY = 62.0
MOST_OFFERED = 6
_KEEP_S = ("ss", "us", "is")


@dataclass(frozen=True, slots=True)
class Named:
    """A name of the table. meant: the exercise it is taken for; None where it has to be asked;
    offered: the likeliest exercises, best first.
    """

    text: str
    meant: ExerciseKey | None
    offered: tuple[ExerciseKey, ...]


class Names:
    """The names of a catalogue's exercises, to look others up in."""

    def __init__(
        self,
        catalogue: Catalogue,
        short: Mapping[str, str],
        known: Mapping[str, ExerciseKey] | None = None,
    ) -> None:
        self._short = short
        self._exact: dict[str, ExerciseKey] = {}
        self._forms: list[str] = []
        self._keys: list[ExerciseKey] = []
        for exercise in catalogue:
            self._add(exercise)
        self._known = {name: key for name, key in (known or {}).items() if key in catalogue}
        self._found: dict[str, Named] = {}

    def _add(self, exercise: Exercise) -> None:
        for place, name in enumerate((exercise.name, *exercise.aliases)):
            form = self._form(name)
            if place == 0:
                self._exact[solid(name)] = exercise.key
            self._exact.setdefault(solid(name), exercise.key)
            self._forms.append(form)
            self._keys.append(exercise.key)

    def _form(self, name: str) -> str:
        """The name folded, its short forms written out, each word without the s of the plural."""
        words = " ".join(self._short.get(word, word) for word in fold(name).split()).split()
        return " ".join(
            word[:-1] if len(word) > 2 and word[-1] == "s" and word[-2:] not in _KEEP_S else word
            for word in words
        )

    def find(self, text: str) -> Named:
        """What is meant by the text, or what may be; remembered, since a plan repeats itself."""
        if text not in self._found:
            self._found[text] = self._look_up(text)
        return self._found[text]

    def _look_up(self, text: str) -> Named:
        if (known := self._known.get(fold(text))) is not None:
            return Named(text, known, (known,))
        if (exact := self._exact.get(solid(text))) is not None:
            return Named(text, exact, (exact,))
        form = self._form(text)
        if not form:
            return Named(text, None, ())
        ranked = self._ranked(form)
        if not ranked:
            return Named(text, None, ())
        (best, score), *others = ranked
        next_score = others[0][1] if others else 0.0
        sure = score - next_score >= APART and any(
            _slipped(form, other)
            for other, key in zip(self._forms, self._keys, strict=True)
            if key == best
        )
        offered = tuple(key for key, one in ranked if one >= LIKELY)[:MOST_OFFERED]
        return Named(text, best if sure else None, offered)

    def _ranked(self, form: str) -> list[tuple[ExerciseKey, float]]:
        """Exercises by the likeness of their likest name, best first."""
        from rapidfuzz import fuzz, process

        best: dict[ExerciseKey, float] = {}
        for scorer, weight in ((fuzz.token_sort_ratio, 1.0), (fuzz.token_set_ratio, 0.9)):
            for _, score, at in process.extract(form, self._forms, scorer=scorer, limit=20):
                key = self._keys[at]
                best[key] = max(best.get(key, 0.0), weight * score)
        return sorted(best.items(), key=lambda one: (-one[1], one[0]))

    def is_exercise(self, text: str) -> bool:
        """True if the text is an exercise's name, or so like one that it is no heading."""
        found = self.find(text)
        return found.meant is not None


def _slipped(form: str, other: str) -> bool:
    """True if the forms are the same but for a slip of the finger in each word."""
    from rapidfuzz.distance import OSA

    words, others = sorted(form.split()), sorted(other.split())
    if len(words) != len(others):  # parted in another way: 'dead lift'
        joined, apart = form.replace(" ", ""), other.replace(" ", "")
        return len(joined) >= LONG_WORD and OSA.distance(joined, apart) <= SLIPS
    left = list(others)
    for word in words:
        nearest = min(left, key=lambda one: OSA.distance(word, one))
        allowed = SLIPS_IN_LONG if len(word) > LONG_WORD else SLIPS if len(word) > 3 else 0
        if OSA.distance(word, nearest) > allowed:
            return False
        left.remove(nearest)
    return True


def names_of(texts: Iterable[str]) -> dict[str, int]:
    """The different names, in their order, with how often each stands."""
    counted: dict[str, int] = {}
    for text in texts:
        counted[text] = counted.get(text, 0) + 1
    return counted
