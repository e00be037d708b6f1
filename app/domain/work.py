"""What is open on the desk, and what was handed out: the values that the store keeps."""

from __future__ import annotations

from dataclasses import dataclass
from datetime import date
from typing import TYPE_CHECKING, NewType

from app.domain.client import Client
from app.domain.program import Program, SlotId

if TYPE_CHECKING:
    from app.domain.results import Diary

IssueId = NewType("IssueId", str)


@dataclass(frozen=True, slots=True)
class Work:
    """A client with one of the client's programs, or none yet, and the client's diary.

    diary: None where it has not been read; the stored one is then left alone.
    """

    client: Client
    program: Program | None = None
    diary: Diary | None = None


@dataclass(frozen=True, slots=True)
class Coach:
    """Who hands the booklet out; printed on its cover and foot."""

    name: str = ""
    contact: str = ""
    team: str = ""


@dataclass(frozen=True, slots=True)
class PrintedLoad:
    """The load printed for one slot.

    load_kg in the exercise's own terms (per hand for dumbbells); None where nothing was tested.
    """

    slot: SlotId
    load_kg: float | None


@dataclass(frozen=True, slots=True)
class Issue:
    """A booklet that a client was handed: the program and loads frozen on that day."""

    id: IssueId
    on: date
    coach: Coach
    client: Client
    program: Program
    loads: tuple[PrintedLoad, ...]
