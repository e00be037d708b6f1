"""One person entered twice: the two records side by side, and one made of both.

What is a list in both (tests, screenings, limitations, tags, places, check-ins, results) is kept
of both. Where two single values differ, the coach chooses; nothing is left out in silence.
"""

from __future__ import annotations

from collections.abc import Callable, Iterable, Mapping
from dataclasses import dataclass, fields, replace
from typing import Any, TypeVar

from app.domain.client import Client, FreeTime, Place
from app.domain.errors import CoachError
from app.domain.results import CheckIn, Diary, Girth, SetDone, SlotResult
from app.domain.wording import mark, tr

T = TypeVar("T")

FIELDS: Mapping[str, str] = {
    "name": mark("Name"),
    "born": mark("Birth date"),
    "sex": mark("Sex, for the equations"),
    "height_cm": mark("Stature, cm"),
    "mass_kg": mark("Body mass, kg"),
    "fat_free_kg": mark("Fat-free mass, kg"),
    "status": mark("Training status"),
    "trained_years": mark("Years of training"),
    "goal": mark("Trains for"),
    "emphasis": mark("Emphasis"),
    "team": mark("Team"),
    "contact": mark("Contact"),
    "note": mark("Note"),
    "free": mark("Days and minutes"),
    "equipment": mark("Equipment"),
    "increments": mark("Steps to load with"),
    "units": mark("Unit of loads"),
    "kcal_now": mark("Eats now, kcal a day"),
    "energy_goal": mark("Energy goal"),
    "activity_level": mark("Activity level"),
    "energy_equation": mark("Equation for the resting energy"),
    "stage": mark("Stage"),
    "consent": mark("Consent"),
    "keep_until": mark("Records kept until"),
    "language": mark("Language of papers"),
    "paper": mark("Size of paper"),
}
"""Single values that can differ, with what they are called; all else is kept of both."""

ALWAYS_SAID = frozenset({"name", "status", "goal", "stage", "units", "activity_level"})
"""Values that a record always has, so that the usual one does not mean that nobody knows."""

KEPT_OF_BOTH = frozenset(
    {
        "limitations",
        "screenings",
        "tests",
        "dislikes",
        "likes",
        "refer",
        "tags",
        "places",
    }
)


@dataclass(frozen=True, slots=True)
class Difference:
    """A single value that differs. prefer_other: True where only the other record has one."""

    field: str
    mine: Any
    other: Any
    prefer_other: bool

    @property
    def label(self) -> str:
        """What the value is called, in the language that is spoken."""
        return tr(FIELDS[self.field])


def differences(mine: Client, other: Client) -> tuple[Difference, ...]:
    """The single values in which the two records differ, in the order of the profile."""
    blank = Client(mine.id, mine.name)
    found = []
    for field in FIELDS:
        a, b = getattr(mine, field), getattr(other, field)
        if a != b:
            unknown = getattr(blank, field)
            prefer_other = field not in ALWAYS_SAID and a == unknown and b != unknown
            found.append(Difference(field, a, b, prefer_other))
    return tuple(found)


def merged(mine: Client, other: Client, take_other: Iterable[str]) -> Client:
    """One record of both, with the id of `mine`.

    take_other: fields whose value comes from `other`. Of two tests of one exercise and day the one
    of `mine` goes on counting. Raises CoachError for a field that is no
    single value, and where the values cannot stand together (days at a place that is not kept).
    """
    taken = frozenset(take_other)
    if not taken <= set(FIELDS):
        raise CoachError(
            tr("{field} is kept of both records.", field=min(taken - set(FIELDS))),
            mend=tr("Choose among single values."),
        )
    places, renamed = _places(mine.places, other.places)
    source = {field: (other if field in taken else mine) for field in FIELDS}
    values: dict[str, Any] = {field: getattr(source[field], field) for field in FIELDS}
    if source["free"] is other:
        values["free"] = tuple(_moved(time, renamed) for time in other.free)
    return replace(
        mine,
        **values,
        limitations=_both(mine.limitations, other.limitations),
        screenings=_both(mine.screenings, other.screenings, key=lambda s: s.on),
        tests=_both(mine.tests, other.tests),
        dislikes=mine.dislikes | other.dislikes,
        likes=(mine.likes | other.likes) - (mine.dislikes | other.dislikes),
        refer=_both(mine.refer, other.refer),
        tags=_both(mine.tags, other.tags),
        places=places,
        archived=mine.archived and other.archived,
    )


def merged_diary(mine: Diary, other: Diary) -> Diary:
    """Check-ins and results of both; two check-ins of one day become one that loses nothing."""
    by_day = {check_in.on: check_in for check_in in mine.check_ins}
    for check_in in other.check_ins:
        there = by_day.get(check_in.on)
        by_day[check_in.on] = check_in if there is None else _one_day(there, check_in)
    results = {result.key: result for result in mine.results}
    for result in other.results:
        there_too = results.get(result.key)
        results[result.key] = result if there_too is None else _one_result(there_too, result)
    return Diary(tuple(by_day.values()), tuple(results.values()))


def _one_result(mine: SlotResult, other: SlotResult) -> SlotResult:
    """One result of two of the same card and day: what the other says else goes into the note."""
    if mine == other:
        return mine
    values = [] if other.exercise == mine.exercise else [str(other.exercise).replace("_", " ")]
    if other.sets != mine.sets:
        values += [_set_text(done) for done in other.sets] or [tr("left out")]
    notes = [note for note in dict.fromkeys((mine.note, other.note)) if note]
    if values:
        notes.append(tr("Also noted that day: {values}", values=", ".join(values)))
    return replace(mine, note="; ".join(notes))


def _set_text(done: SetDone) -> str:
    text = f"{done.load_kg:g} kg \N{MULTIPLICATION SIGN} {done.reps}"
    return text if done.rir is None else f"{text} RIR {done.rir:g}"


def _one_day(mine: CheckIn, other: CheckIn) -> CheckIn:
    """One check-in of two; where both say something else, the other's goes into the note."""
    values: dict[str, Any] = {}
    beside = []
    for field in fields(CheckIn):
        if field.name in {"on", "note", "girths", "pictures"}:
            continue
        a, b = getattr(mine, field.name), getattr(other, field.name)
        values[field.name] = b if a is None else a
        if a is not None and b is not None and a != b:
            beside.append(f"{field.name.removesuffix('_kg')} {b:g}")
    girths: dict[Any, Girth] = {girth.site: girth for girth in mine.girths}
    beside += [
        f"{girth.site.value} {girth.cm:g} cm"
        for girth in other.girths
        if girths.setdefault(girth.site, girth) != girth
    ]
    notes = [*dict.fromkeys(note for note in (mine.note, other.note) if note)]
    if beside:
        notes.append(tr("Also noted that day: {values}", values=", ".join(beside)))
    return replace(
        mine,
        **values,
        note="; ".join(notes),
        girths=tuple(girths.values()),
        pictures=(*mine.pictures, *(p for p in other.pictures if p not in mine.pictures)),
    )


def _both(
    mine: tuple[T, ...], other: tuple[T, ...], key: Callable[[T], Any] | None = None
) -> tuple[T, ...]:
    """What either has, each once; in the order of `key` where one is given."""
    joined = (*mine, *(one for one in other if one not in mine))
    return joined if key is None else tuple(sorted(joined, key=key))


def _places(
    mine: tuple[Place, ...], other: tuple[Place, ...]
) -> tuple[tuple[Place, ...], dict[str, str]]:
    """Places of both; a name that both use for different things gets a number. And old to new."""
    places, names = list(mine), {place.name for place in mine}
    renamed = {}
    for place in other:
        if place in mine:
            continue
        name, number = place.name, 2
        while name in names:
            name, number = f"{place.name} {number}", number + 1
        names.add(name)
        renamed[place.name] = name
        places.append(replace(place, name=name))
    return tuple(places), renamed


def _moved(time: FreeTime, renamed: Mapping[str, str]) -> FreeTime:
    return replace(time, place=renamed.get(time.place, time.place))
