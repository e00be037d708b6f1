"""Layouts: plans to begin with, written as data and fitted to a client when they are used.

A layout names, for each of its places, exercises in order of preference; the first one that
fits the client is taken. It starts a plan and promises nothing: the checks have the last word.
"""

from __future__ import annotations

from collections.abc import Callable, Mapping, Sequence
from dataclasses import dataclass, replace
from typing import Any

from app.domain.client import Client, Status
from app.domain.edits.prescribe import Prescription, make_slot, within
from app.domain.effort import Rir
from app.domain.errors import EditError, ResourceError
from app.domain.exercise import Catalogue, Exercise, ExerciseKey, Muscle
from app.domain.program import (
    DAYS,
    Day,
    Drill,
    Program,
    Reps,
    Role,
    Session,
    SessionId,
    SlotId,
    StrandId,
    Week,
)
from app.domain.wording import tr

Fits = Callable[[Exercise, int], bool]
"""Whether an exercise fits the client on a weekday, 0 for Monday: places differ from day to day."""

NOVICE_RIR = 2.0
"""Least reserve that a layout asks of a novice, repetitions; the floor of the effort check.
Common practice."""

LEAST_REST_S = {Role.CORE: 90, Role.ASSISTANCE: 60}
"""Shortest rest, s, whatever exercise stands in. Sources: singer2024 and acsm2009 (assistance)."""


@dataclass(frozen=True, slots=True)
class LayoutSlot:
    """A place in a layout: exercises in order of preference, and what is asked of them.

    pair: a letter shared by places of the session that are done in turn, or empty.
    """

    choices: tuple[ExerciseKey, ...]
    sets: int
    reps: Reps
    rir: float
    role: Role
    pair: str = ""


@dataclass(frozen=True, slots=True)
class LayoutSession:
    """One session of a layout and the weekday it would like, 0 for Monday."""

    title: str
    day: int
    slots: tuple[LayoutSlot, ...]
    warmup: tuple[ExerciseKey, ...] = ()


@dataclass(frozen=True, slots=True)
class Layout:
    """A plan to begin with. emphasis: the muscles it is for; source: common practice unless a
    reference is named.
    """

    key: str
    name: str
    about: str
    sessions: tuple[LayoutSession, ...]
    emphasis: tuple[Muscle, ...] = ()
    source: str = "common practice"


@dataclass(frozen=True, slots=True)
class Swap:
    """A place where the first choice did not fit: what was wanted and what was taken."""

    session: str
    wanted: ExerciseKey
    taken: ExerciseKey | None


def layout_from_mapping(key: str, entry: Mapping[str, Any], *, source: str) -> Layout:
    """The layout of one entry of the data. Raises ResourceError naming file, entry and field."""
    try:
        sessions = tuple(_session(record) for record in entry["sessions"])
        return Layout(
            key=key,
            name=entry["name"],
            about=entry["about"],
            sessions=sessions,
            emphasis=tuple(Muscle(m) for m in entry.get("emphasis", ())),
            source=entry.get("source", "common practice"),
        )
    except (KeyError, ValueError, TypeError) as error:
        raise ResourceError(
            tr("The layout cannot be read ({error}).", error=error),
            where=f"{source}, {key}",
            mend=tr("Compare it with a layout that works."),
        ) from error


def _session(record: Mapping[str, Any]) -> LayoutSession:
    return LayoutSession(
        title=record["title"],
        day=[d[:3] for d in DAYS].index(record["day"]),
        slots=tuple(_slot(line) for line in record["slots"]),
        warmup=tuple(ExerciseKey(k) for k in record.get("warmup", ())),
    )


def _slot(line: Sequence[Any]) -> LayoutSlot:
    choices, sets, reps, rir, role, *pair = line
    low, _, high = str(reps).partition("-")
    return LayoutSlot(
        choices=tuple(ExerciseKey(k) for k in choices.replace(" ", "").split("|")),
        sets=int(sets),
        reps=Reps(int(low), int(high or low)),
        rir=float(rir),
        role=Role(role),
        pair=_letter(*pair),
    )


def _letter(pair: str = "") -> str:
    """The pairing letter of a line; ValueError for anything but one capital letter or nothing."""
    if pair and not (len(pair) == 1 and pair.isascii() and pair.isupper()):
        raise ValueError(f"{pair!r} is no pairing letter")
    return pair


def choose(
    session: LayoutSession, catalogue: Catalogue, fits: Fits, *, day: int
) -> list[Exercise | None]:
    """For each place of a session the first choice that fits the client, none of them twice.

    day: the weekday it is held on. None where nothing fits.
    """
    chosen: list[Exercise | None] = []
    for slot in session.slots:
        there = (catalogue[key] for key in slot.choices if key in catalogue)
        taken = {one.key for one in chosen if one is not None}
        chosen.append(next((e for e in there if e.key not in taken and fits(e, day)), None))
    return chosen


def days_for(layout: Layout, client: Client) -> tuple[int, ...]:
    """A weekday for each session: its own where the client is free, else the nearest free one.

    With no availability known, or too few free days, the layout's own days stand.
    """
    free = [day for day, time in enumerate(client.free) if time.minutes > 0]
    wanted = [session.day for session in layout.sessions]
    if len(free) < len(wanted):
        return tuple(wanted)
    taken: list[int] = []
    for day in wanted:
        open_days = [d for d in free if d not in taken]
        taken.append(min(open_days, key=lambda d: (d != day, _crowding(d, taken), abs(d - day))))
    return tuple(taken)


def _crowding(day: int, taken: list[int]) -> int:
    """How many sessions would stand within a day of it: 48 hours between is the usual advice."""
    return sum(min(abs(day - other), 7 - abs(day - other)) < 2 for other in taken)


def swaps(layout: Layout, catalogue: Catalogue, *, client: Client, fits: Fits) -> tuple[Swap, ...]:
    """Where the layout's first choices do not fit, so that the coach sees it beforehand."""
    found = []
    for session, day in zip(layout.sessions, days_for(layout, client), strict=True):
        exercises = choose(session, catalogue, fits, day=day)
        for slot, taken in zip(session.slots, exercises, strict=True):
            if taken is None or taken.key != slot.choices[0]:
                key = None if taken is None else taken.key
                found.append(Swap(session.title, slot.choices[0], key))
    return tuple(found)


def lay_out(
    program: Program,
    layout: Layout,
    *,
    client: Client,
    catalogue: Catalogue,
    fits: Fits,
) -> Program:
    """The program with the layout in each of its weeks, in the place of what stood there.

    Light weeks get half the sets. Raises EditError if not a single exercise fits.
    """
    days = days_for(layout, client)
    next_id = program.next_id
    strands: dict[tuple[int, int], int] = {}
    chosen = [
        list(
            zip(
                range(len(session.slots)),
                session.slots,
                choose(session, catalogue, fits, day=day),
                strict=True,
            )
        )
        for session, day in zip(layout.sessions, days, strict=True)
    ]
    if not any(exercise for row in chosen for _, _, exercise in row):
        raise EditError(
            tr("No exercise of {layout!r} fits {client}.", layout=layout.name, client=client.name),
            mend=tr("Enter the equipment in reach, or begin with an empty program."),
        )
    for k, row in enumerate(chosen):
        for n in (-1, *(n for n, _, exercise in row if exercise)):
            strands[k, n] = next_id
            next_id += 1
    weeks = []
    for week in program.weeks:
        laid: list[tuple[Session, ...]] = [()] * 7
        for k, session in enumerate(layout.sessions):
            slots = []
            pairs = _whole_pairs(chosen[k])
            for n, slot, exercise in chosen[k]:
                if exercise is not None:
                    asked = _prescription(slot, exercise, week, status=client.status)
                    strand = StrandId(strands[k, n])
                    made_slot = make_slot(exercise, asked, slot_id=SlotId(next_id), strand=strand)
                    slots.append(replace(made_slot, pair=slot.pair if slot.pair in pairs else ""))
                    next_id += 1
            warmup = tuple(Drill(key) for key in session.warmup if key in catalogue)
            made = Session(SessionId(next_id), StrandId(strands[k, -1]), session.title)
            made = replace(made, slots=tuple(slots), warmup=warmup)
            next_id += 1
            laid[days[k]] = (*laid[days[k]], made)
        weeks.append(
            replace(week, days=tuple(Day(s, d.note) for s, d in zip(laid, week.days, strict=True)))
        )
    emphasis = program.emphasis or client.emphasis or layout.emphasis
    return replace(program, weeks=tuple(weeks), next_id=next_id, emphasis=emphasis)


def _whole_pairs(row: list[tuple[int, LayoutSlot, Exercise | None]]) -> set[str]:
    """The letters that two places or more still share once exercises are chosen."""
    letters = [slot.pair for _, slot, exercise in row if exercise is not None]
    return {letter for letter in letters if letter and letters.count(letter) > 1}


def _prescription(
    slot: LayoutSlot, exercise: Exercise, week: Week, *, status: Status
) -> Prescription:
    seconds = Reps(exercise.rep_low, exercise.rep_high) if exercise.timed else None
    reps = within(Reps(30, 30), exercise) if seconds else within(slot.reps, exercise)
    rir = max(slot.rir, NOVICE_RIR) if status is Status.NOVICE else slot.rir
    return Prescription(
        sets=max(1, slot.sets // 2) if week.light else slot.sets,
        reps=reps,
        effort=Rir(rir),
        rest_s=max(exercise.rest_s, LEAST_REST_S[slot.role]),
        role=slot.role,
    )
