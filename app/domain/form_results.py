"""What a client wrote into a fillable booklet, as results, with every doubt said.

Nothing is guessed in silence: what was read in another way than it stands, what is far from what
was printed, and what is kept already in other words is named, and the coach decides.
"""

from __future__ import annotations

import re
from collections.abc import Mapping
from dataclasses import dataclass, field
from datetime import date, timedelta
from enum import StrEnum

from app.domain.errors import CoachError
from app.domain.exercise import Catalogue, Exercise, LoadKind
from app.domain.form_names import SetPlace, What
from app.domain.one_rm import set_text
from app.domain.program import MAX_SECONDS, SessionId, Slot, SlotId
from app.domain.results import Diary, SetDone, SlotResult
from app.domain.units import kg_from_lb, mass_text, number_text
from app.domain.wording import tr
from app.domain.work import Issue, IssueId

FAR = 2.0
"""A load so many times the printed one, or so many times less, is asked about. Common practice."""

_HEAVIEST_KG, _MOST_HELP_KG, _MOST_RIR = 1000.0, -300.0, 10.0
_LETTERS = 1000  # of a remark; more is cut


@dataclass(frozen=True, slots=True)
class FilledForm:
    """The fields of a form that came back, as text.

    issue: the booklet it was handed out as; units: those that its loads are written in; sets and
    days: only fields that something stands in.
    """

    issue: IssueId
    units: str
    sets: Mapping[SetPlace, Mapping[What, str]] = field(default_factory=dict)
    days: Mapping[tuple[int, SessionId], str] = field(default_factory=dict)


class Known(StrEnum):
    """How a result of a form stands to the diary."""

    NEW = "new"
    SAME = "same"
    OTHER = "other"


@dataclass(frozen=True, slots=True)
class FormLine:
    """One exercise of one session as it was filled in.

    week counts from 1; written: the fields as they stand; result: what is taken of them; doubts:
    sentences on what was not plain; known: whether the diary has it.
    """

    week: int
    exercise: Exercise
    written: str
    result: SlotResult
    doubts: tuple[str, ...]
    known: Known

    @property
    def says(self) -> bool:
        """True if there is anything to keep that is not kept already."""
        return self.known is not Known.SAME and _says(self.result)

    @property
    def sure(self) -> bool:
        """True if it can be kept without asking."""
        return self.says and self.known is Known.NEW and not self.doubts


def look_over(
    form: FilledForm, issue: Issue, catalogue: Catalogue, diary: Diary, *, today: date
) -> tuple[FormLine, ...]:
    """Every exercise that something was written for, in the order of the plan.

    Raises CoachError for a form of another issue, and UnknownExercise for an exercise that is no
    longer in the catalogue.
    """
    if form.issue != issue.id:
        raise CoachError(
            tr("The form belongs to another booklet."), mend=tr("Choose the booklet it came from.")
        )
    lines: list[FormLine] = []
    places: dict[tuple[int, SessionId, SlotId], list[SetPlace]] = {}
    for place in sorted(form.sets):
        places.setdefault((place.week, place.session, place.slot), []).append(place)
    for week_index, week in enumerate(issue.program.weeks):
        for day, session in week.sessions():
            planned = issue.program.week_start(week_index) + timedelta(days=day)
            where = (week_index + 1, session.id)
            on, said = _day(form.days.get(where, ""), planned, today)
            for slot in session.slots:
                if mine := places.get((*where, slot.id)):
                    reader = _Reader(form, issue, slot, catalogue[slot.exercise])
                    lines.append(reader.line(mine, diary, on=on, said=said))
    return tuple(lines)


def strangers(form: FilledForm, issue: Issue) -> int:
    """How many sets stand in the form that the issue does not have."""
    known = {
        (number, session.id, slot.id, at)
        for number, week in enumerate(issue.program.weeks, start=1)
        for _, session in week.sessions()
        for slot in session.slots
        for at in range(1, slot.sets + 1)
    }
    return sum((p.week, p.session, p.slot, p.number) not in known for p in form.sets)


@dataclass(frozen=True, slots=True)
class _Reader:
    """Reads the sets of one slot."""

    form: FilledForm
    issue: Issue
    slot: Slot
    exercise: Exercise

    def line(
        self, places: list[SetPlace], diary: Diary, *, on: date, said: tuple[str, ...]
    ) -> FormLine:
        """The slot's line; said: doubts about the day."""
        doubts = list(said)
        sets: list[SetDone] = []
        notes: list[str] = []
        written: list[str] = []
        for place in places:
            texts = self.form.sets[place]
            written.append(_written(place.number, texts))
            if note := _one_line(texts.get(What.NOTE, "")):
                notes.append(note if len(places) == 1 else f"{place.number}: {note}")
            if place.number > self.slot.sets:
                doubts.append(tr("set {n} is not in the plan", n=place.number))
            done, more = self._set(texts)
            doubts += (tr("set {n}: {what}", n=place.number, what=one) for one in more)
            if done is not None:
                sets.append(done)
        result = SlotResult(
            self.issue.program.id,
            self.slot.id,
            self.exercise.key,
            on,
            tuple(sets),
            "; ".join(notes)[:_LETTERS],
        )
        known, kept = _known(result, diary)
        return FormLine(
            week=places[0].week,
            exercise=self.exercise,
            written="; ".join(written),
            result=result,
            doubts=(*doubts, *kept),
            known=known,
        )

    def _set(self, texts: Mapping[What, str]) -> tuple[SetDone | None, list[str]]:
        """One set, or None where it cannot be one, with what is doubtful about it."""
        doubts: list[str] = []
        reps = self._reps(texts.get(What.REPS, ""), doubts)
        load_kg = self._load(texts.get(What.LOAD, ""), doubts, asked=reps is not None)
        rir = self._rir(texts.get(What.RIR, ""), doubts)
        if reps is None:
            if not texts.get(What.REPS, "").strip() and any(
                texts.get(what, "").strip() for what in (What.LOAD, What.RIR)
            ):
                doubts.append(tr("no repetitions; the set is left out"))
            return None, doubts
        if load_kg is None:
            return None, doubts
        return SetDone(load_kg, reps, rir), doubts

    def _reps(self, text: str, doubts: list[str]) -> int | None:
        value, unit = _number(text, doubts)
        if value is None:
            return None
        if unit in ("min", "m"):
            value *= 60
            doubts.append(tr("'{text}' is read as {n} seconds", text=text, n=number_text(value)))
        elif unit and unit not in ("s", "sec", "x", "reps", "rep"):
            doubts.append(tr("'{text}' is read as {n}", text=text, n=number_text(value)))
        if value != int(value) or not 0 <= value <= MAX_SECONDS:
            doubts.append(tr("'{text}' cannot be a number of repetitions", text=text))
            return None
        return int(value)

    def _load(self, text: str, doubts: list[str], *, asked: bool) -> float | None:
        """The load, kg; where nothing is written, the printed one, with a doubt."""
        printed = self._printed()
        if not text.strip():
            if self.exercise.load_kind in (LoadKind.NONE, LoadKind.BAND, LoadKind.BODY):
                return printed if printed and self.exercise.load_kind is LoadKind.BODY else 0.0
            if printed is None:
                if asked:
                    doubts.append(tr("no load; the set is left out"))
                return None
            if asked:
                load = mass_text(printed, self.form.units)
                doubts.append(tr("no load; {load} was printed and is taken", load=load))
            return printed
        value, unit = _number(text, doubts)
        if value is None:
            return None
        units = {"lbs": "lb", "pounds": "lb", "kgs": "kg", "kilo": "kg"}.get(unit, unit)
        units = units or self.form.units
        if units not in ("kg", "lb") or units != self.form.units:
            doubts.append(tr("'{text}' is read in {units}", text=text, units=units))
            units = units if units in ("kg", "lb") else self.form.units
        load_kg = kg_from_lb(value) if units == "lb" and abs(value) < 1e6 else value
        if printed is not None and printed < 0 < load_kg:
            load_kg = -load_kg
            doubts.append(tr("'{text}' is read as help", text=text))
        if not _MOST_HELP_KG <= load_kg <= _HEAVIEST_KG:
            doubts.append(tr("'{text}' cannot be a load", text=text))
            return None
        if printed and load_kg and not 1 / FAR <= load_kg / printed <= FAR:
            load = mass_text(printed, self.form.units)
            doubts.append(tr("'{text}' is far from the printed {load}", text=text, load=load))
        return load_kg

    def _rir(self, text: str, doubts: list[str]) -> float | None:
        value, _ = _number(text, doubts)
        if value is not None and not 0 <= value <= _MOST_RIR:
            doubts.append(tr("'{text}' cannot be a number of repetitions in reserve", text=text))
            return None
        return value

    def _printed(self) -> float | None:
        return next((x.load_kg for x in self.issue.loads if x.slot == self.slot.id), None)


_NUMBER = re.compile(r"([-+\u2212]?)\s*(\d{1,9}(?:[.,]\d{1,4})?)\s*([a-z]{0,6})\.?", re.ASCII)


def _number(text: str, doubts: list[str]) -> tuple[float | None, str]:
    """The number in a field and the word behind it; None, with a doubt, for what is no number.

    A decimal comma is as good as a point. An empty field is None without a doubt.
    """
    text = " ".join(text.split())
    if not text:
        return None, ""
    found = _NUMBER.fullmatch(text.casefold())
    if found is None:
        doubts.append(tr("'{text}' is no number", text=text[:40]))
        return None, ""
    value = float(found[2].replace(",", "."))
    return (-value if found[1] in ("-", "\u2212") else value), found[3]


_DATE = re.compile(r"(\d{1,2})[./ -]+(\d{1,2})(?:[./ -]+(\d{4}|\d{2}))?\.?", re.ASCII)


def _day(text: str, planned: date, today: date) -> tuple[date, tuple[str, ...]]:
    """The day that a session was done on, and what is doubtful about it.

    Read as an ISO date, or as day, month and, if given, year.
    """
    text = " ".join(text.split())
    if not text:
        return planned, ()
    on = _read_day(text, planned)
    if on is None:
        return planned, (tr("'{text}' is no day; the planned one is taken", text=text[:40]),)
    if on > today:
        return on, (tr("{day} is still to come", day=on.isoformat()),)
    if abs((on - planned).days) > 60:
        return on, (tr("{day} is far from the planned day", day=on.isoformat()),)
    return on, ()


def _read_day(text: str, planned: date) -> date | None:
    try:
        return date.fromisoformat(text)
    except ValueError:
        pass
    found = _DATE.fullmatch(text)
    if found is None:
        return None
    day, month = int(found[1]), int(found[2])
    years = [planned.year - 1, planned.year, planned.year + 1]
    if found[3]:
        years = [int(found[3]) + (2000 if len(found[3]) == 2 else 0)]
    days = []
    for year in years:
        try:
            days.append(date(year, month, day))
        except ValueError:
            continue
    return min(days, key=lambda one: abs((one - planned).days), default=None)


def _known(result: SlotResult, diary: Diary) -> tuple[Known, tuple[str, ...]]:
    """How a result stands to what is kept, with the doubts that come of it."""
    here = (result.program, result.slot)
    kept = [one for one in diary.results if (one.program, one.slot) == here]
    if not kept or not _says(result):
        return Known.NEW, ()
    if result in kept:
        return Known.SAME, ()
    one = next((one for one in kept if one.on == result.on), kept[-1])
    said = sets_text(one) or tr("left out")
    if one.on == result.on:
        return Known.OTHER, (tr("kept already as {sets}", sets=said),)
    return Known.OTHER, (tr("kept already on {day}: {sets}", day=one.on.isoformat(), sets=said),)


def _says(result: SlotResult) -> bool:
    return bool(result.sets or result.note)


def sets_text(result: SlotResult, units: str = "kg") -> str:
    """The sets of a result: '60 kg × 8, 2 in reserve; 60 kg × 7'."""
    return "; ".join(set_text(one.load_kg, one.reps, one.rir or 0.0, units) for one in result.sets)


def _written(number: int, texts: Mapping[What, str]) -> str:
    """The fields of a set as they stand: '1) 60 | 8 | 2 | felt good'."""
    return f"{number}) " + " | ".join(_one_line(texts.get(what, "")) or "–" for what in What)


def _one_line(text: str) -> str:
    return " ".join(text.split())[:_LETTERS]
