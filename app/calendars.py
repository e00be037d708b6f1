"""Calendars of programs: made from the coach's file, which remembers what each of them said."""

from __future__ import annotations

import json
import os
from collections.abc import Mapping
from dataclasses import asdict, dataclass
from datetime import datetime, time
from pathlib import Path
from typing import Protocol
from zoneinfo import ZoneInfo, available_timezones

from app.domain.client import Client
from app.domain.errors import CoachError
from app.domain.exercise import Catalogue, LoadKind
from app.domain.loads import printed_loads
from app.domain.program import Program, SlotId
from app.domain.units import mass_text
from app.domain.wording import tr
from app.exchange.calendar_file import USUAL_START, Made, Sent, Wish, make_calendar
from app.exchange.files import write_file

SENT_KEY = "calendar "
STARTS_KEY = "calendar starts"
ZONE_KEY = "calendar zone"


class Memory(Protocol):
    """Where settings are kept."""

    def setting(self, key: str) -> str:
        """The value under `key`; empty if there is none."""

    def set_setting(self, key: str, value: str) -> None:
        """Keep a value under `key`."""


@dataclass(frozen=True, slots=True)
class Choice:
    """What the coach chooses of a calendar.

    named: the client's name stands before each session's title.
    """

    zone: str
    starts: tuple[time, ...] = (USUAL_START,) * 7
    weeks: range | None = None
    named: bool = False
    loads: bool = False


def zones() -> tuple[str, ...]:
    """Names of time zones to choose from, places before letters of the alphabet."""
    return tuple(sorted(name for name in available_timezones() if "/" in name or name == "UTC"))


def own_zone() -> str:
    """The time zone of this machine; UTC where it does not say."""
    named = os.environ.get("TZ", "").lstrip(":")
    if named and named in available_timezones():
        return named
    from babel.localtime import LOCALTZ

    key = LOCALTZ.key if isinstance(LOCALTZ, ZoneInfo) else None
    if key in ("Etc/UTC", "Etc/UCT", "Zulu"):
        return "UTC"
    return key if key in available_timezones() else "UTC"


def usual_choice(memory: Memory) -> Choice:
    """What was chosen last, else this machine's zone and the usual hour."""
    zone = memory.setting(ZONE_KEY)
    zone = zone if zone in available_timezones() else own_zone()
    parts = memory.setting(STARTS_KEY).split()
    try:
        starts = tuple(starting(part) for part in parts)
    except CoachError:
        starts = ()
    return Choice(zone, starts if len(starts) == 7 else (USUAL_START,) * 7)


def starting(text: str) -> time:
    """The time of day that the text says: '18:00', '6.30', '7'. Raises CoachError."""
    hour, _, minute = text.strip().replace(".", ":").replace("h", ":").partition(":")
    try:
        return time(int(hour), int(minute or 0))
    except ValueError:
        raise CoachError(
            tr("{text!r} is no time of day.", text=text.strip()), mend=tr("Write it like 18:00.")
        ) from None


def calendar_of(
    program: Program,
    client: Client,
    catalogue: Catalogue,
    choice: Choice,
    *,
    memory: Memory,
    now: datetime,
) -> Made:
    """The calendar as it would be written now; nothing is remembered yet. Raises CoachError."""
    wish = Wish(
        zone=choice.zone,
        starts=choice.starts,
        weeks=choice.weeks,
        title=f"{client.name}:" if choice.named else "",
        loads=_loads(program, client, catalogue) if choice.loads else None,
        places=tuple(free.place for free in client.free),
    )
    return make_calendar(program, catalogue, wish, now=now, earlier=sent_before(memory, program))


def write_calendar(
    path: Path, made: Made, program: Program, choice: Choice, *, memory: Memory
) -> None:
    """Write the file, and remember what it says once it stands. Raises FileTrouble, StoreError."""
    write_file(path, made.data)
    record = {uid: asdict(one) for uid, one in made.sent.items()}
    memory.set_setting(SENT_KEY + program.id, json.dumps(record, separators=(",", ":")))
    memory.set_setting(ZONE_KEY, choice.zone)
    memory.set_setting(STARTS_KEY, " ".join(f"{start:%H:%M}" for start in choice.starts))


def sent_before(memory: Memory, program: Program) -> Mapping[str, Sent]:
    """What earlier calendars of the program said; none where there was none."""
    text = memory.setting(SENT_KEY + program.id)
    try:
        found = json.loads(text) if text else {}
        return {
            str(uid): Sent(
                changes=int(one["changes"]),
                said=str(one["said"]),
                stamp=str(one["stamp"]),
                begins=str(one["begins"]),
                cancelled=bool(one["cancelled"]),
            )
            for uid, one in found.items()
        }
    except (ValueError, KeyError, TypeError, AttributeError):
        return {}


def _loads(program: Program, client: Client, catalogue: Catalogue) -> dict[SlotId, str]:
    kinds = {
        slot.id: catalogue[slot.exercise].load_kind for w in program.weeks for slot in w.slots()
    }
    made = {}
    for one in printed_loads(program, client, catalogue):
        if one.load_kg is not None:
            text = mass_text(one.load_kg, client.units)
            each = kinds[one.slot] is LoadKind.DUMBBELL_EACH
            made[one.slot] = tr("{load} in each hand", load=text) if each else text
    return made
