"""All that is held on one client, as one value: what the person may ask for."""

from __future__ import annotations

from dataclasses import dataclass
from datetime import date, datetime

from app.domain.client import Client
from app.domain.exercise import Exercise
from app.domain.program import Program
from app.domain.results import Diary
from app.domain.work import Coach, Issue


@dataclass(frozen=True, slots=True)
class Noted:
    """A line of the list of edits. at: when, with its zone."""

    at: datetime
    label: str


@dataclass(frozen=True, slots=True)
class Holding:
    """What a coach holds on a client on a day.

    programs: archived ones too; issues: what was handed out, in that order; exercises: the
    coach's own that are named anywhere in it; edits: the oldest first.
    """

    on: date
    coach: Coach
    client: Client
    programs: tuple[Program, ...]
    diary: Diary
    issues: tuple[Issue, ...] = ()
    exercises: tuple[Exercise, ...] = ()
    edits: tuple[Noted, ...] = ()
