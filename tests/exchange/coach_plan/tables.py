"""Plans in tables as coaches keep them, each laid out in another way, and how they are read."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from datetime import date

from app import resources
from app.domain.program import Program, ProgramId
from app.exchange.coach_plan.build import Built, Wanted, build, weeks_in
from app.exchange.coach_plan.columns import Mapping
from app.exchange.coach_plan.guess import guess
from app.exchange.coach_plan.lines import Reading, read_lines
from app.exchange.coach_plan.names import Names
from app.exchange.sheets.sheet import Cell, Sheet
from tests.builders import client
from tests.exchange.coach_plan.shipped import WORDS

CATALOGUE = resources.catalogue()
NAMES = Names(CATALOGUE, WORDS.short)
START = date(2026, 11, 23)


def sheet(text: str, name: str = "Plan", *, separator: str = "|") -> Sheet:
    """A sheet of lines of cells; '.' is an empty cell, figures are numbers."""
    rows = [
        tuple(_cell(one.strip()) for one in line.split(separator))
        for line in text.strip("\n").splitlines()
    ]
    return Sheet(name, tuple(rows))


def _cell(text: str) -> Cell:
    if text in ("", "."):
        return None
    for kind in (int, float):
        try:
            return kind(text)
        except ValueError:
            continue
    return text


@dataclass(frozen=True)
class Read:
    """Everything on the way from sheets to a program."""

    mapping: Mapping
    reading: Reading
    built: Built

    @property
    def program(self) -> Program:
        return self.built.program

    @property
    def said(self) -> list[str]:
        return [one.sentence for one in (*self.reading.remarks, *self.built.remarks)]


def read(*sheets: Sheet, mapping: Mapping | None = None, free: Sequence[int] = ()) -> Read:
    mapping = mapping or guess(sheets, WORDS, is_exercise=NAMES.is_exercise)
    reading = read_lines(sheets, mapping, WORDS, is_exercise=NAMES.is_exercise)
    found = {line.exercise: NAMES.find(line.exercise) for line in reading.lines}
    meant = {text: one.meant for text, one in found.items() if one.meant is not None}
    wanted = Wanted(ProgramId("p"), "Read", START, weeks_in(reading.lines), meant)
    built = build(reading.lines, wanted, client=client(), catalogue=CATALOGUE)
    return Read(mapping, reading, built)


def shorthand(program: Program) -> list[str]:
    """Each slot in one line: 'w1 Mon Lower: back_squat 3x5-5 Rir(reps=2)'."""
    days = ("Mon", "Tue", "Wed", "Thu", "Fri", "Sat", "Sun")
    return [
        f"w{index + 1} {days[day]} {session.title}: {slot.exercise} "
        f"{slot.sets}x{slot.reps.low}-{slot.reps.high}"
        for index, week in enumerate(program.weeks)
        for day, session in week.sessions()
        for slot in session.slots
    ]
