"""What the grid says of a week, as plain text and numbers: the one source for paint and speech.

A face is made from kept values alone, so the same week always looks and sounds the same.
"""

from __future__ import annotations

from collections.abc import Callable, Iterable, Mapping
from dataclasses import dataclass
from datetime import date, timedelta

from app.domain import dose, effort
from app.domain.client import Client, FreeTime
from app.domain.exercise import Catalogue, Exercise, LoadKind
from app.domain.findings import Finding, Weight
from app.domain.loads import GUESS_REMARK, day_text
from app.domain.program import (
    Day,
    Field,
    Program,
    Reps,
    Role,
    Session,
    SessionId,
    Slot,
    SlotId,
    day_name,
)
from app.domain.session_time import whole_minutes
from app.domain.strength import Load
from app.domain.units import lb_from_kg, number_text
from app.domain.wording import tr, trn

LoadOf = Callable[[Slot], Load | None]


@dataclass(frozen=True, slots=True)
class Mark:
    """The heaviest finding on a card or a day: its weight, side and sentence."""

    weight: Weight
    below: bool | None
    accepted: bool
    sentences: tuple[str, ...]


@dataclass(frozen=True, slots=True)
class CardFace:
    """One card in words.

    load: the number alone ('70', '2 × 14', '+5', 'own weight', 'band' or nothing); unit: 'kg'
    or nothing; details: 'each side', 'tempo 3-1-1'; pinned: fields set by hand; start_min: the
    minute it begins at; rests_on: which test, or guess, the load was worked out from.
    """

    slot: Slot
    name: str
    scheme: str
    effort: str
    load: str
    unit: str
    rest: str
    details: tuple[str, ...]
    pinned: frozenset[Field]
    core: bool
    light: bool
    start_min: float
    mark: Mark | None = None
    rests_on: str = ""
    timed: bool = False

    @property
    def load_text(self) -> str:
        """The load with its unit, '70 kg'."""
        return f"{self.load} {self.unit}".strip()

    @property
    def note(self) -> str:
        """The note for the client."""
        return self.slot.note


@dataclass(frozen=True, slots=True)
class SessionFace:
    """One session in words; ends_min: when it is over, counted from its own beginning."""

    id: SessionId
    title: str
    note: str
    cards: tuple[CardFace, ...]
    ends_min: float


@dataclass(frozen=True, slots=True)
class DayFace:
    """One day in words. cap_min: the client's minutes; free: 'team evening', '45 min free'."""

    number: int
    on: date
    today: bool
    sessions: tuple[SessionFace, ...]
    note: str
    free: str
    cap_min: int
    mark: Mark | None = None

    @property
    def name(self) -> str:
        """The day's name in full."""
        return day_name(self.number)

    @property
    def cards(self) -> tuple[CardFace, ...]:
        """All cards of the day, in order."""
        return tuple(card for session in self.sessions for card in session.cards)

    @property
    def sets(self) -> int:
        """Sets of the day."""
        return sum(card.slot.sets for card in self.cards)

    @property
    def minutes(self) -> float:
        """Minutes of all sessions of the day."""
        return sum(session.ends_min for session in self.sessions)


@dataclass(frozen=True, slots=True)
class WeekFace:
    """The open week in words."""

    index: int
    light: bool
    days: tuple[DayFace, ...]

    def card(self, slot_id: SlotId) -> tuple[DayFace, CardFace] | None:
        """The card of that slot with its day, if the week holds it."""
        for day in self.days:
            for card in day.cards:
                if card.slot.id == slot_id:
                    return day, card
        return None


NO_WEEK = WeekFace(0, False, ())


# -- words -------------------------------------------------------------------------------------


def reps_text(reps: Reps) -> str:
    """'10' or '8–10'."""
    return f"{reps.low}" if reps.low == reps.high else f"{reps.low}–{reps.high}"


def scheme_text(slot: Slot, exercise: Exercise) -> str:
    """'4 × 10', '3 × 8–10', '3 × 30 s'."""
    seconds = " s" if exercise.timed else ""
    return f"{slot.sets} × {reps_text(slot.reps)}{seconds}"


def clock_text(seconds: int) -> str:
    """Seconds as minutes and seconds, '2:30'."""
    return f"{seconds // 60}:{seconds % 60:02d}"


def load_texts(load: Load | None, exercise: Exercise, unit: str) -> tuple[str, str]:
    """The load's number and unit as a card says them; both empty where none is known."""
    if exercise.load_kind is LoadKind.BAND:
        return tr("band"), ""
    if load is None:
        return (tr("own weight"), "") if exercise.load_kind is LoadKind.BODY else ("", "")
    number = lb_from_kg(load.load_kg) if unit == "lb" else load.load_kg
    text = number_text(abs(number), 1 if unit == "lb" else 2)
    if exercise.load_kind is LoadKind.BODY:
        if text == "0":
            return tr("own weight"), ""
        return (f"+{text}" if number > 0 else f"−{text}"), unit
    if exercise.load_kind is LoadKind.DUMBBELL_EACH:
        return f"2 × {text}", unit
    return text, unit


def tempo_text(slot: Slot) -> str:
    """'tempo 3-1-1'."""
    return tr("tempo {tempo}", tempo=slot.tempo)


def free_text(free: FreeTime, *, known: bool = True) -> str:
    """What a day without a session says: 'team evening', '45 min free', 'not free'.

    known: whether any day's minutes were entered; if not, only a note is said.
    """
    if free.minutes == 0:
        return free.note or (tr("not free") if known else "")
    return tr("{minutes} min free", minutes=free.minutes)


# -- faces -------------------------------------------------------------------------------------


def card_face(
    slot: Slot,
    exercise: Exercise,
    *,
    load: Load | None = None,
    unit: str = "kg",
    start_min: float = 0.0,
    light: bool = False,
    mark: Mark | None = None,
) -> CardFace:
    """The card of one slot."""
    number, shown_unit = load_texts(load, exercise, unit)
    details: tuple[str, ...] = (tr("each side"),) if exercise.unilateral else ()
    if slot.tempo:
        details += (tempo_text(slot),)
    return CardFace(
        slot=slot,
        name=exercise.name,
        scheme=scheme_text(slot, exercise),
        effort=effort.text(slot.effort, slot.reps.high),
        load=number,
        unit=shown_unit,
        rest=clock_text(slot.rest_s),
        details=details,
        pinned=slot.pinned,
        core=slot.role is Role.CORE,
        light=light,
        start_min=start_min,
        mark=mark,
        rests_on=_rests_on(load),
        timed=exercise.timed,
    )


def _rests_on(load: Load | None) -> str:
    """'Rests on the test of 2 Oct 2026', or that it is a guess; empty without either."""
    test = None if load is None else load.rests_on
    if test is None:
        return ""
    if test.guessed_from is not None:
        return tr(GUESS_REMARK)
    return tr("Rests on the test of {day}", day=day_text(test.on))


def _heaviest(findings: Iterable[Finding], accepted: frozenset[str]) -> Mark | None:
    """The mark of the heaviest finding, those not accepted first."""
    ranked = sorted(findings, key=lambda f: (f.id in accepted, f.weight))
    if not ranked:
        return None
    first = ranked[0]
    sentences = tuple(f"{f.weight.word}: {f.text}" for f in ranked)
    return Mark(first.weight, first.below, first.id in accepted, sentences)


def marks_of(
    program: Program, index: int, findings: Iterable[Finding]
) -> tuple[Mapping[SlotId, Mark], Mapping[int, Mark]]:
    """The marks of week `index`: by slot, and by day for findings that name no slot."""
    week = program.weeks[index]
    accepted = frozenset(a.finding for a in program.accepted)
    by_strand = {slot.strand: slot.id for slot in week.slots()}
    slots: dict[SlotId, list[Finding]] = {}
    days: dict[int, list[Finding]] = {}
    for finding in findings:
        place = finding.place
        if place.week is not None and place.week != week.id:
            continue
        slot_id = place.slot
        if slot_id is None and place.strand is not None:
            slot_id = by_strand.get(place.strand)
        if slot_id is not None:
            slots.setdefault(slot_id, []).append(finding)
        elif place.day is not None and place.week is not None:
            days.setdefault(place.day, []).append(finding)
    by_slot = {k: m for k, v in slots.items() if (m := _heaviest(v, accepted))}
    by_day = {k: m for k, v in days.items() if (m := _heaviest(v, accepted))}
    return by_slot, by_day


@dataclass(frozen=True, slots=True)
class Source:
    """What faces are made from, beside the program."""

    catalogue: Catalogue
    client: Client
    load_of: LoadOf
    today: date


def _session_face(
    session: Session, source: Source, *, light: bool, marks: Mapping[SlotId, Mark]
) -> SessionFace:
    starts = dose.start_minutes(session, source.catalogue)
    cards = tuple(
        card_face(
            slot,
            source.catalogue[slot.exercise],
            load=source.load_of(slot),
            unit=source.client.units,
            start_min=start,
            light=light,
            mark=marks.get(slot.id),
        )
        for slot, start in zip(session.slots, starts, strict=True)
    )
    ends = dose.session_minutes(session, source.catalogue).expected
    return SessionFace(session.id, session.title, session.note, cards, ends)


def week_face(
    program: Program, index: int, source: Source, findings: Iterable[Finding] = ()
) -> WeekFace:
    """Week `index` of the program in words."""
    week = program.weeks[index]
    by_slot, by_day = marks_of(program, index, findings)
    monday = program.week_start(index)

    def face(number: int, day: Day) -> DayFace:
        on = monday + timedelta(days=number)
        free = source.client.free[number]
        sessions = tuple(
            _session_face(session, source, light=week.light, marks=by_slot)
            for session in day.sessions
        )
        return DayFace(
            number=number,
            on=on,
            today=on == source.today,
            sessions=sessions,
            note=day.note,
            free=free_text(free, known=any(day.minutes for day in source.client.free)),
            cap_min=free.minutes,
            mark=by_day.get(number),
        )

    return WeekFace(index, week.light, tuple(face(n, d) for n, d in enumerate(week.days)))


# -- speech ------------------------------------------------------------------------------------


def _spoken_scheme(card: CardFace) -> str:
    """'4 sets of 8 to 10', '3 sets of 30 seconds'."""
    low, high = card.slot.reps.low, card.slot.reps.high
    reps = str(low) if low == high else tr("{low} to {high}", low=low, high=high)
    if card.timed:
        return trn(
            "1 set of {reps} seconds", "{n} sets of {reps} seconds", card.slot.sets, reps=reps
        )
    return trn("1 set of {reps}", "{n} sets of {reps}", card.slot.sets, reps=reps)


def spoken_card(day: DayFace, card: CardFace) -> str:
    """'Tuesday, Back squat, 4 sets of 10, RIR 2, 70 kg', with what else a glance would show."""
    parts = [day.name, card.name, _spoken_scheme(card), card.effort]
    if card.load:
        parts.append(card.load_text.replace("×", tr("times")))
    if card.slot.pair:
        parts.append(tr("paired {pair}", pair=card.slot.pair))
    if card.mark:
        parts.append(card.mark.sentences[0])
    if card.note:
        parts.append(tr("note: {note}", note=card.note))
    return ", ".join(parts)


def spoken_day(day: DayFace) -> str:
    """'Thursday 26, Lower body, 18 sets, 57 of 60 minutes'."""
    start = [f"{day.name} {day.on.day}", *([tr("today")] if day.today else [])]
    if not day.cards:
        return ", ".join([*start, *([day.free] if day.free else []), tr("nothing yet")])
    titles = [session.title for session in day.sessions if session.title]
    sets = trn("{n} set", "{n} sets", day.sets)
    minutes, cap = whole_minutes(day.minutes), day.cap_min
    time = (
        tr("{minutes} of {cap} minutes", minutes=minutes, cap=cap)
        if cap
        else trn("{n} minute", "{n} minutes", minutes)
    )
    return ", ".join([*start, *titles, sets, time])


def tooltip(card: CardFace) -> str:
    """The full form of a card, line by line, as plain text."""
    first = f"{card.scheme}, {card.effort}" + (f", {card.load_text}" if card.load else "")
    second = ", ".join((tr("rest {rest}", rest=card.rest), *card.details))
    lines = [card.name, first, second]
    if card.pinned:
        lines.append(
            tr(
                "Set by hand: {fields}",
                fields=", ".join(sorted(tr(field.value) for field in card.pinned)),
            )
        )
    if card.rests_on:
        lines.append(card.rests_on)
    if card.note:
        lines.append(tr("Note: {note}", note=card.note))
    if card.mark:
        lines += card.mark.sentences
    return "\n".join(lines)


def day_tooltip(day: DayFace) -> str:
    """The full form of a day's head, line by line, as plain text."""
    notes = [session.note for session in day.sessions]
    titles = [session.title for session in day.sessions]
    marks = day.mark.sentences if day.mark else ()
    lines = (f"{day.name} {day.on.day}", *titles, day.free, day.note, *notes, *marks)
    return "\n".join(line for line in lines if line)
