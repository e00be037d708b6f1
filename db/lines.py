"""Lines of lists: what a picker shows of clients, programs, issues and edits."""

from __future__ import annotations

from dataclasses import dataclass
from datetime import date, datetime

from app.domain.client import ClientId
from app.domain.program import ProgramId
from app.domain.work import IssueId


@dataclass(frozen=True, slots=True)
class ClientLine:
    """One client in a list; programs: how many there are, archived ones included."""

    id: ClientId
    name: str
    team: str
    archived: bool
    programs: int


@dataclass(frozen=True, slots=True)
class ProgramLine:
    """One program in a list; weeks: how many it has."""

    id: ProgramId
    name: str
    start: date
    weeks: int
    archived: bool


@dataclass(frozen=True, slots=True)
class IssueLine:
    """One issue in a list; weeks: how many its program had."""

    id: IssueId
    on: date
    program_name: str
    weeks: int


@dataclass(frozen=True, slots=True)
class LogLine:
    """One kept edit; at: when, with its zone (UTC)."""

    at: datetime
    label: str
