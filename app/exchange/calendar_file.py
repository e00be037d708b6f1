"""The sessions of a program as an iCalendar file (RFC 5545): one event each, to be taken in again.

An event keeps its identity through every export, and its number of changes rises when something
about it changed, so that a calendar replaces what it has. A session that was sent and is no longer
in the program is sent as cancelled. Nothing of a client's health is written: no notes, no tests.
"""

from __future__ import annotations

import hashlib
from collections.abc import Iterator, Mapping
from dataclasses import dataclass
from datetime import UTC, date, datetime, time, timedelta
from math import ceil
from typing import TYPE_CHECKING
from zoneinfo import ZoneInfo

from app.domain.errors import CoachError
from app.domain.exercise import Catalogue
from app.domain.program import Program, Session, Slot, SlotId
from app.domain.session_time import session_minutes
from app.domain.wording import tr

if TYPE_CHECKING:
    from icalendar import Calendar, Event

SUFFIX = ".ics"
MAKER = "-//Weekloom//Weekloom//EN"
USUAL_START = time(18, 0)
"""When a session begins where nobody chose. Common practice."""
STEP_MIN = 5
SHORTEST_MIN = 15

LoadText = Mapping[SlotId, str]


@dataclass(frozen=True, slots=True)
class Sent:
    """What a calendar was told of a session: how often it changed, what it said, and when.

    said: a digest of the event, never its words; begins: its start as it was written.
    """

    changes: int
    said: str
    stamp: str
    begins: str
    cancelled: bool = False


@dataclass(frozen=True, slots=True)
class Wish:
    """How the sessions are to stand in a calendar.

    zone: an IANA name; starts: when sessions begin on each weekday, Monday first; weeks: indices
    of the weeks that are written, None for all; title: stands before each session's own, as a
    client's name; loads: texts of loads to write behind the exercises, None for none; places: where
    sessions of each weekday are, empty where nobody said.
    """

    zone: str
    starts: tuple[time, ...] = (USUAL_START,) * 7
    weeks: range | None = None
    title: str = ""
    loads: LoadText | None = None
    places: tuple[str, ...] = ("",) * 7


@dataclass(frozen=True, slots=True)
class Made:
    """The file, how many sessions are in it and cancelled by it, and what to remember of it."""

    data: bytes
    sessions: int
    cancelled: int
    sent: Mapping[str, Sent]


def zone_of(name: str) -> ZoneInfo:
    """The time zone of that name. Raises CoachError for another."""
    try:
        return ZoneInfo(name)
    except (KeyError, ValueError, OSError) as error:
        raise CoachError(
            tr("There is no time zone {name!r}.", name=name),
            mend=tr("Write it like 'Europe/Vienna'."),
        ) from error


def make_calendar(
    program: Program,
    catalogue: Catalogue,
    wish: Wish,
    *,
    now: datetime,
    earlier: Mapping[str, Sent],
) -> Made:
    """The calendar of the program's sessions.

    now: with its zone; earlier: what `Made.sent` was when it was last exported.
    """
    from icalendar import Calendar

    zone = zone_of(wish.zone)
    calendar = Calendar()
    for name, value in (("prodid", MAKER), ("version", "2.0"), ("method", "PUBLISH")):
        calendar.add(name, value)
    calendar.add("x-wr-calname", " ".join(program.name.split()))
    stamp = now.astimezone(UTC).strftime("%Y%m%dT%H%M%SZ")
    sent, there, count = dict(earlier), set[str](), 0
    for index, event in _events(program, catalogue, wish, zone):
        there.add(event.uid)
        if wish.weeks is not None and index not in wish.weeks:
            continue
        count += 1
        sent[event.uid] = told = _told(event, earlier.get(event.uid), stamp)
        calendar.add_component(_component(event, told))
    gone = [uid for uid in earlier if uid not in there]
    for uid in gone:
        sent[uid] = told = _cancelled(earlier[uid], stamp)
        calendar.add_component(_cancellation(uid, told, zone, now))
    _add_zone(calendar, program)
    return Made(calendar.to_ical(), count, len(gone), sent)


@dataclass(frozen=True, slots=True)
class _Event:
    """One session as a calendar shows it."""

    uid: str
    begins: datetime
    ends: datetime
    title: str
    about: str
    place: str = ""

    @property
    def digest(self) -> str:
        times = (self.begins.isoformat(), self.ends.isoformat())
        words = (*times, self.title, self.about, self.place)
        zone = str(self.begins.tzinfo)
        return hashlib.sha256("\0".join((*words, zone)).encode()).hexdigest()[:32]


def _events(
    program: Program, catalogue: Catalogue, wish: Wish, zone: ZoneInfo
) -> Iterator[tuple[int, _Event]]:
    for index, week in enumerate(program.weeks):
        ends: dict[int, datetime] = {}
        for day, session in week.sessions():
            on = program.week_start(index) + timedelta(days=day)
            begins = ends.get(day, _moment(on, wish.starts[day], zone))
            length = timedelta(minutes=_minutes(session, catalogue))
            ends[day] = begins + length  # a second session of the day follows the first
            yield (
                index,
                _Event(
                    f"{program.id}.{session.id}@weekloom",
                    begins,
                    begins + length,
                    " ".join(part for part in (wish.title, session.title) if part) or program.name,
                    _about(program, index, session, catalogue=catalogue, loads=wish.loads),
                    wish.places[day],
                ),
            )


def _moment(on: date, at: time, zone: ZoneInfo) -> datetime:
    return datetime.combine(on, at, tzinfo=zone)


def _minutes(session: Session, catalogue: Catalogue) -> int:
    """The expected minutes of a session, up to the next five."""
    expected = session_minutes(session, catalogue).expected
    return max(SHORTEST_MIN, STEP_MIN * ceil(expected / STEP_MIN))


def _about(
    program: Program,
    index: int,
    session: Session,
    *,
    catalogue: Catalogue,
    loads: LoadText | None,
) -> str:
    """What is done in the session, a line an exercise."""
    head = tr("{program}, week {n}", program=program.name, n=index + 1)
    lines = [_line(slot, catalogue, loads) for slot in session.slots]
    return "\n".join([head, "", *lines] if lines else [head])


def _line(slot: Slot, catalogue: Catalogue, loads: LoadText | None) -> str:
    from app.domain import effort

    exercise = catalogue[slot.exercise]
    low, high = slot.reps.low, slot.reps.high
    reps = str(low) if low == high else f"{low}-{high}"
    if exercise.timed:
        reps += " s"
    parts = [f"{exercise.name}: {slot.sets} x {reps}", effort.text(slot.effort, low)]
    if loads and loads.get(slot.id):
        parts.append(loads[slot.id])
    return ", ".join(parts)


def _told(event: _Event, before: Sent | None, stamp: str) -> Sent:
    """What the calendar is told now; the same as before where nothing changed."""
    begins = event.begins.strftime("%Y%m%dT%H%M%S")
    if before is None:
        return Sent(0, event.digest, stamp, begins)
    if before.said == event.digest and not before.cancelled:
        return before
    return Sent(before.changes + 1, event.digest, stamp, begins)


def _cancelled(before: Sent, stamp: str) -> Sent:
    if before.cancelled:
        return before
    return Sent(before.changes + 1, before.said, stamp, before.begins, cancelled=True)


def _component(event: _Event, told: Sent) -> Event:
    made = _started(event.uid, told)
    made.add("dtstart", event.begins)
    made.add("dtend", event.ends)
    made.add("summary", _clean(event.title))
    made.add("description", _clean(event.about))
    if event.place:
        made.add("location", _clean(event.place))
    made.add("status", "CONFIRMED")
    return made


def _cancellation(uid: str, told: Sent, zone: ZoneInfo, now: datetime) -> Event:
    made = _started(uid, told)
    made.add("dtstart", _begin(told.begins, zone, now))
    made.add("summary", tr("Session cancelled"))
    made.add("status", "CANCELLED")
    return made


def _begin(text: str, zone: ZoneInfo, now: datetime) -> datetime:
    try:
        return datetime.strptime(text, "%Y%m%dT%H%M%S").replace(tzinfo=zone)
    except ValueError:  # what was remembered is damaged; the identity is what counts
        return now.astimezone(zone).replace(microsecond=0)


def _started(uid: str, told: Sent) -> Event:
    from icalendar import Event

    made = Event()
    made.add("uid", uid)
    made.add("dtstamp", _stamp(told.stamp))
    made.add("sequence", told.changes)
    return made


def _stamp(text: str) -> datetime:
    try:
        return datetime.strptime(text, "%Y%m%dT%H%M%SZ").replace(tzinfo=UTC)
    except ValueError:
        return datetime(2000, 1, 1, tzinfo=UTC)


def _clean(text: str) -> str:
    """The text without signs that the format forbids; line breaks stay in descriptions."""
    return "".join(one for one in text if one in "\n\t" or (one >= " " and one != "\x7f"))


def _add_zone(calendar: Calendar, program: Program) -> None:
    """The rules of the time zone for the years that the program can reach."""
    last = program.week_start(len(program.weeks))
    first_day = date(program.start.year - 1, 1, 1)
    calendar.add_missing_timezones(first_date=first_day, last_date=date(last.year + 2, 1, 1))
