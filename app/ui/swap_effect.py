"""What a swap does to its week, in one line: sets of muscles and minutes of the session."""

from __future__ import annotations

from app.domain.checks import Difference
from app.domain.edits.parts import locate
from app.domain.findings import Weight
from app.domain.program import Program, SlotId
from app.domain.session_time import session_minutes, whole_minutes
from app.domain.wording import tr, trn
from app.ui.bench import Bench
from app.ui.tally_rows import TallyRow, tally
from app.ui.words import ARROW, DOT, number

MOST = 4
"""So many muscles are named; the tally shows them all."""


def effect_text(bench: Bench, before: Program, after: Program, *, slot_id: SlotId) -> str:
    """'Quadriceps 15 → 12 · 57 → 55 min' for the week and the session of the slot."""
    moved = [
        f"{name} {number(was)} {ARROW} {number(becomes)}"
        for name, was, becomes in _moved_sets(bench, before, after, slot_id=slot_id)
    ]
    if len(moved) > MOST:
        moved = [*moved[:MOST], tr("{moved} more", moved=len(moved) - MOST)]
    sets = f" {DOT} ".join(moved) or tr("Same sets for every muscle")
    return f"{sets} {DOT} {_minutes_text(bench, before, after, slot_id=slot_id)}"


def effect_words(change: Difference) -> str:
    """'1 more conflict, 2 fewer remarks', or 'no finding comes or goes'."""
    parts = []
    for weight in Weight:
        came = sum(finding.weight is weight for finding in change.gained)
        went = sum(finding.weight is weight for finding in change.lost)
        if came != went:
            parts.append(_change_of(weight, came - went))
    if not parts and (change.gained or change.lost):
        return tr("as many findings, others than before")
    return ", ".join(parts) or tr("no finding comes or goes")


def _change_of(weight: Weight, by: int) -> str:
    """'1 more conflict', '2 fewer remarks'."""
    match weight, by > 0:
        case Weight.CONFLICT, True:
            return trn("{n} more conflict", "{n} more conflicts", by)
        case Weight.CONFLICT, False:
            return trn("{n} fewer conflict", "{n} fewer conflicts", -by)
        case Weight.OUTSIDE, True:
            return trn(
                "{n} more finding outside its range", "{n} more findings outside their range", by
            )
        case Weight.OUTSIDE, False:
            return trn(
                "{n} fewer finding outside its range", "{n} fewer findings outside their range", -by
            )
        case _, True:
            return trn("{n} more remark", "{n} more remarks", by)
        case _:
            return trn("{n} fewer remark", "{n} fewer remarks", -by)


def _moved_sets(
    bench: Bench, before: Program, after: Program, *, slot_id: SlotId
) -> list[tuple[str, float, float]]:
    """Muscles and groups whose sets change in that week, the emphasis first."""
    index = locate(before, slot_id).week
    was, becomes = (_rows(bench, program, index) for program in (before, after))
    moved = []
    for about, row in (was | becomes).items():
        sets = tuple(rows[about].sets if about in rows else 0.0 for rows in (was, becomes))
        if number(sets[0]) != number(sets[1]):
            moved.append((row.name, sets[0], sets[1]))
    return moved


def _rows(bench: Bench, program: Program, index: int) -> dict[str, TallyRow]:
    desk = bench.desk
    names = {muscle: name.trade for muscle, name in bench.shelf.muscles.items()}
    rows = tally(desk.facts(program.weeks[index]), desk.context, index, names)
    return {row.about: row for row in rows}


def _minutes_text(bench: Bench, before: Program, after: Program, *, slot_id: SlotId) -> str:
    at = locate(before, slot_id)
    was, becomes = (
        whole_minutes(
            session_minutes(
                program.weeks[at.week].days[at.day].sessions[at.session], bench.desk.catalogue
            ).expected
        )
        for program in (before, after)
    )
    return f"{was} min" if was == becomes else f"{was} {ARROW} {becomes} min"
