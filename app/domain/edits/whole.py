"""Edits of the program as a whole: its name, its emphasis, its start, its place in the archive."""

from __future__ import annotations

from dataclasses import replace
from datetime import date, timedelta

from app.domain.exercise import Muscle
from app.domain.program import Program, require_name


def rename(program: Program, *, name: str) -> Program:
    """The program under another name. Raises CoachError for an empty one."""
    return replace(program, name=require_name(name, "program"))


def set_emphasis(program: Program, *, emphasis: tuple[Muscle, ...]) -> Program:
    """The program with other muscles to be for, most important first, each once."""
    return replace(program, emphasis=tuple(dict.fromkeys(emphasis)))


def set_start(program: Program, *, start: date) -> Program:
    """The program beginning on the Monday of `start`'s week."""
    return replace(program, start=start - timedelta(days=start.weekday()))


def archive(program: Program, *, archived: bool = True) -> Program:
    """The program put into the archive, or brought back; it keeps everything."""
    return program if program.archived is archived else replace(program, archived=archived)
