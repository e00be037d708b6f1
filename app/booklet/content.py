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
    """Paper sizes: width and height, mm (ISO 216; letter is 8.5 by 11 in)."""

    A4 = (210.0, 297.0)
    LETTER = (215.9, 279.4)

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
    WARMUP = "warmup"
    WEEKS = "weeks"
    EXERCISES = "exercises"
    ENERGY = "energy"
    REFERENCES = "references"


ALL_PARTS = frozenset(Part)


@dataclass(frozen=True, slots=True)
class Options:
    """What the coach chooses before printing.

    grey: tones that a grey printer keeps apart; weeks: the first and the last week to print,
    counted from 1 (None: all of them).
    """

    paper: Paper = Paper.A4
    grey: bool = False
    weeks: tuple[int, int] | None = None
    parts: frozenset[Part] = ALL_PARTS


@dataclass(frozen=True, slots=True, eq=False)
class Content:
    """The texts, data and fonts a booklet draws on.

    fonts: the folder that holds the four font files; references: by key; muscles: plain names for
    a client ('front thigh'); poses: start and end of exercises by their figure name; nothing is
    drawn where a pose is missing; energy: the targets of the plan's
    weeks, a referral, or nothing.
    """

    catalogue: Catalogue
    fonts: Path
    references: Mapping[str, Reference] = field(default_factory=dict)
    ranges: RangeBook = field(default_factory=lambda: RangeBook({}))
    muscles: Mapping[Muscle, str] = field(default_factory=dict)
    poses: Poses = field(default_factory=dict)
    energy: EnergyPlan | Referral | None = None
