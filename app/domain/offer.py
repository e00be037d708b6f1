"""What giving a program to a client would mean: differences, findings, and loads that are known.

Nothing is kept here. A coach looks at the offers first and gives the program afterwards.
"""

from __future__ import annotations

from dataclasses import dataclass
from datetime import date

from app.domain.checks import check
from app.domain.client import Client
from app.domain.exercise import Catalogue, Exercise, LoadKind
from app.domain.findings import Finding, Weight
from app.domain.loads import load_for
from app.domain.program import Program, ProgramId, Slot
from app.domain.ranges import RangeBook
from app.domain.refit import Refit, refit
from app.domain.wording import tr

_WITHOUT_LOAD = frozenset({LoadKind.BODY, LoadKind.BAND, LoadKind.NONE})


@dataclass(frozen=True, slots=True)
class LoadsKnown:
    """Names of the exercises that take a load in kg, by whether a test tells how much."""

    known: tuple[str, ...]
    unknown: tuple[str, ...]

    @property
    def text(self) -> str:
        """'3 of 5 known', 'all known', 'none known' or 'none needed'."""
        of = len(self.known) + len(self.unknown)
        if not of:
            return tr("none needed")
        if not self.unknown:
            return tr("all known")
        return (
            tr("{known} of {of} known", known=len(self.known), of=of)
            if self.known
            else tr("none of {of} known", of=of)
        )


@dataclass(frozen=True, slots=True)
class Offer:
    """A program refitted to a client, with what the checks and the tests say of it."""

    client: Client
    refit: Refit
    findings: tuple[Finding, ...]
    loads: LoadsKnown

    def count(self, weight: Weight) -> int:
        """How many findings have that weight."""
        return sum(finding.weight is weight for finding in self.findings)


def offer(
    program: Program,
    client: Client,
    catalogue: Catalogue,
    ranges: RangeBook,
    *,
    program_id: ProgramId,
    start: date,
) -> Offer:
    """The program as `client` would get it, under that id and from that week on.

    Raises EditError if nothing of it fits the client.
    """
    made = refit(program, client, catalogue, program_id=program_id, start=start)
    findings = check(made.program, client, catalogue, ranges)
    return Offer(client, made, findings, loads_known(made.program, client, catalogue))


def loads_known(program: Program, client: Client, catalogue: Catalogue) -> LoadsKnown:
    """For which of the program's exercises the client's tests give a load, in their order."""
    slots: dict[str, tuple[Exercise, Slot]] = {}
    for week in program.weeks:
        for slot in week.slots():
            exercise = catalogue[slot.exercise]
            if exercise.load_kind not in _WITHOUT_LOAD and not exercise.timed:
                slots.setdefault(exercise.name, (exercise, slot))
    known = [
        name
        for name, (exercise, slot) in slots.items()
        if load_for(slot, exercise, client, program.curve) is not None
    ]
    return LoadsKnown(tuple(known), tuple(name for name in slots if name not in known))
