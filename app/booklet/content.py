"""What a booklet is made from besides the issue itself, and what can be chosen about it.

Everything here is handed in by the caller: the booklet reads no file but the fonts.
"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, field
from enum import Enum, StrEnum
from pathlib import Path
from typing import Protocol

from app.domain.energy import EnergyPlan, Referral
from app.domain.exercise import Catalogue, Muscle
from app.domain.figure import Poses
from app.domain.ranges import RangeBook


class Reference(Protocol):
    """A published source: as short as 'Baz-Valle et al. 2022', and in full."""

    @property
    def short(self) -> str:
        """Author and year."""

    @property
    def text(self) -> str:
        """The whole citation as one line of plain text."""


class Paper(Enum):
    """Paper sizes: width and height, mm (ISO 216; letter is 8.5 by 11 in).

    PHONE is no paper: a page in the shape of a small screen, to be filled in there.
    """

    A4 = (210.0, 297.0)
    LETTER = (215.9, 279.4)
    A5 = (148.0, 210.0)
    PHONE = (100.0, 178.0)

    @property
    def width_mm(self) -> float:
        """From left to right."""
        return self.value[0]

    @property
    def height_mm(self) -> float:
        """From top to bottom."""
        return self.value[1]


class Part(StrEnum):
    """The parts of a booklet that can be left out; cover and cautions always stay."""

    READING = "reading"
    GLANCE = "glance"
    LOADS = "loads"
    PLATES = "plates"
    WARMUP = "warmup"
    WEEKS = "weeks"
    EXERCISES = "exercises"
    ENERGY = "energy"
    REFERENCES = "references"


ALL_PARTS = frozenset(Part)


class Kind(StrEnum):
    """What is made of an issue: a booklet, a form to fill in on a screen, a sheet for the wall."""

    BOOKLET = "booklet"
    FORM = "form"
    WALL = "wall"


@dataclass(frozen=True, slots=True)
class Options:
    """What the coach chooses before printing.

    grey: tones that a grey printer keeps apart; weeks: the first and the last week to print,
    counted from 1 (None: all of them); units: 'kg' or 'lb' (empty: the client's own); loads:
    whether they are printed, or left to be written down; large: large print, body text of 16
    points; spread: a week lies on two facing pages (else it is drawn together on one page where
    that holds it); name: how the client's name is printed (empty: as it is kept).
    """

    paper: Paper = Paper.A4
    grey: bool = False
    weeks: tuple[int, int] | None = None
    parts: frozenset[Part] = ALL_PARTS
    units: str = ""
    loads: bool = True
    large: bool = False
    spread: bool = True
    kind: Kind = Kind.BOOKLET
    name: str = ""

    @property
    def size_mm(self) -> tuple[float, float]:
        """Width and height of a page; a sheet for the wall lies on its long edge."""
        size = (self.paper.width_mm, self.paper.height_mm)
        return (max(size), min(size)) if self.kind is Kind.WALL else size

    @property
    def form(self) -> bool:
        """Whether there are fields to fill in."""
        return self.kind is Kind.FORM

    @property
    def slim(self) -> bool:
        """Whether pages are one column with names above the rows: small paper, large print."""
        return self.large or self.form or self.paper.width_mm < SLIM_MM


SLIM_MM = 160.0
"""Narrower paper has no room for names, figures and boxes side by side."""


@dataclass(frozen=True, slots=True, eq=False)
class Content:
    """The texts, data and fonts a booklet draws on.

    fonts: the folder that holds the four font files; references: by key; muscles: plain names for
    a client ('front thigh'); poses: start and end of exercises by their figure name; nothing is
    drawn where a pose is missing; energy: the targets of the plan's
    weeks, a referral, or nothing; mark: the coach's picture as PNG, or nothing.
    """

    catalogue: Catalogue
    fonts: Path
    references: Mapping[str, Reference] = field(default_factory=dict)
    ranges: RangeBook = field(default_factory=lambda: RangeBook({}))
    muscles: Mapping[Muscle, str] = field(default_factory=dict)
    poses: Poses = field(default_factory=dict)
    energy: EnergyPlan | Referral | None = None
    mark: bytes = b""
