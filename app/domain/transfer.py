"""A guess at the strength in one exercise from a test of a related one.

People differ widely here: the relation is a range, the guess is its low end, and it counts only
once the coach has confirmed it and only while the exercise itself has no test. Nothing is ever
guessed by itself.
"""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from dataclasses import dataclass
from datetime import date

from app.domain.client import Client, StrengthTest
from app.domain.errors import CoachError, ResourceError
from app.domain.exercise import Catalogue, Exercise, ExerciseKey
from app.domain.loads import newest_test, one_rep_max_of
from app.domain.strength import OneRepMax, estimate_one_rep_max
from app.domain.units import mass_text, number_text
from app.domain.wording import tr
from app.domain.working import COMMON_PRACTICE, Line, Working

GUESS_REPS = 5
"""A guess is kept as the load for so many repetitions to failure, as a test would be."""

LIGHTEST_GUESS_KG = 0.5


@dataclass(frozen=True, slots=True)
class Related:
    """The 1RM of `exercise` as a part, from low to high, of that of `from_exercise`."""

    exercise: ExerciseKey
    from_exercise: ExerciseKey
    low: float
    high: float
    source: str
    note: str = ""


@dataclass(frozen=True, slots=True)
class Guess:
    """What a related test suggests, in the terms of the exercise's own load.

    low_kg and high_kg: the 1RM at either end of the relation; one_rm and on: what it rests on.
    """

    related: Related
    from_name: str
    on: date
    one_rm: OneRepMax
    low_kg: float
    high_kg: float

    @property
    def load_kg(self) -> float:
        """The load for five repetitions to failure at the low end, to half a kilogram below."""
        part = estimate_one_rep_max(100.0, GUESS_REPS).median / 100.0
        return max(LIGHTEST_GUESS_KG, int(2 * self.low_kg / part) / 2)

    def test(self, on: date) -> StrengthTest:
        """The guess as the coach confirms it on that day, marked as what it is."""
        return StrengthTest(
            self.related.exercise,
            on,
            self.load_kg,
            GUESS_REPS,
            guessed_from=self.related.from_exercise,
        )

    def working(self, unit: str = "kg") -> Working:
        """How the guess came about."""
        ends = f"{number_text(100 * self.related.low)}–{number_text(100 * self.related.high)} %"
        return Working(
            title=tr("Guess: {load} for 5", load=mass_text(self.load_kg, unit)),
            about=tr("From a related exercise, confirmed by nobody yet."),
            lines=(
                Line(
                    tr("1RM of {exercise}", exercise=self.from_name),
                    mass_text(self.one_rm.median, unit, digits=1),
                ),
                Line(tr("Part of it"), ends, self.related.note),
                Line(
                    tr("1RM here"),
                    tr(
                        "{low} to {high}",
                        low=mass_text(self.low_kg, unit, digits=1),
                        high=mass_text(self.high_kg, unit, digits=1),
                    ),
                    tr("the low end counts"),
                ),
            ),
            sources=(self.related.source, *self.one_rm.sources),
        )


def guesses(
    exercise: Exercise, client: Client, *, catalogue: Catalogue, related: Iterable[Related]
) -> tuple[Guess, ...]:
    """What the client's tests of related exercises suggest for `exercise`, newest test first.

    Only tests that were done count, not other guesses.
    """
    found = []
    for relation in related:
        if relation.exercise != exercise.key or relation.from_exercise not in catalogue:
            continue
        source = catalogue[relation.from_exercise]
        test, one_rm = newest_test(source, client), one_rep_max_of(source, client)
        if test is None or one_rm is None or test.guessed_from is not None:
            continue
        low, high = relation.low * one_rm.median, relation.high * one_rm.median
        found.append(Guess(relation, source.name, test.on, one_rm, low_kg=low, high_kg=high))
    return tuple(sorted(found, key=lambda guess: guess.on, reverse=True))


def confirmed(client: Client, guess: Guess, on: date) -> tuple[StrengthTest, ...]:
    """The client's tests with the guess among them, in the place of an earlier one.

    Raises CoachError where the exercise itself was tested: a test says more.
    """
    key = guess.related.exercise
    if any(test.exercise == key and test.guessed_from is None for test in client.tests):
        raise CoachError(
            tr("The exercise itself was tested, which says more than a guess."),
            mend=tr("Enter a new test of it instead."),
        )
    kept = tuple(test for test in client.tests if test.exercise != key)
    return (*kept, guess.test(on))


_WORDS = ("exercise", "from", "source", "note")
_ENDS = ("low", "high")


def related_from_mappings(entries: object, *, known: Catalogue, source: str) -> tuple[Related, ...]:
    """Relations as read from a file. Raises ResourceError that names the entry."""
    if not isinstance(entries, list):
        raise ResourceError(tr("This is no list of relations."), where=source, mend="[[related]]")
    found: dict[tuple[str, str], Related] = {}
    for number, entry in enumerate(entries, start=1):
        where = tr("{source}, entry {number}", source=source, number=number)
        if not isinstance(entry, Mapping):
            raise ResourceError(
                tr("An entry is no table."), where=where, mend=tr("Write [[related]].")
            )
        one = _related(entry, where, known)
        if (one.exercise, one.from_exercise) in found:
            raise ResourceError(
                tr("This relation stands twice."), where=where, mend=tr("Remove one.")
            )
        found[one.exercise, one.from_exercise] = one
    return tuple(found.values())


def _related(entry: Mapping[str, object], where: str, known: Catalogue) -> Related:
    for name in entry:
        if name not in (*_WORDS, *_ENDS):
            allowed = ", ".join((*_WORDS, *_ENDS))
            raise ResourceError(
                tr("{name!r} is unknown.", name=name),
                where=where,
                mend=tr("Use {allowed}.", allowed=allowed),
            )
    words = {name: str(entry.get(name, "")) for name in _WORDS}
    if not words["source"]:
        raise ResourceError(tr("A source is missing."), where=where, mend=f"{COMMON_PRACTICE!r}?")
    for name in ("exercise", "from"):
        if words[name] not in known:
            what = tr("There is no exercise {words!r}.", words=words[name])
            raise ResourceError(what, where=where, mend=tr("Name a shipped one."))
    low, high = entry.get("low"), entry.get("high")
    if not isinstance(low, float) or not isinstance(high, float) or not 0 < low < high < 4:
        what = tr("low {low} and high {high} make no range.", low=low, high=high)
        raise ResourceError(what, where=where, mend=tr("0 < low < high < 4."))
    return Related(
        ExerciseKey(words["exercise"]),
        ExerciseKey(words["from"]),
        low,
        high,
        source=words["source"],
        note=words["note"],
    )
