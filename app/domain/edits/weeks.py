"""Edits of whole weeks and blocks: add, remove, copy, move, lighten, clear, name."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace

from app.domain.edits.parts import map_slots, map_weeks, require_week, with_week
from app.domain.errors import EditError
from app.domain.program import (
    EMPTY_WEEK,
    MAX_WEEKS,
    Block,
    Field,
    Program,
    SessionId,
    Slot,
    SlotId,
    Week,
    WeekId,
    require_name,
)
from app.domain.wording import tr


def _require_room(program: Program) -> None:
    if len(program.weeks) >= MAX_WEEKS:
        raise EditError(
            tr("The program has {max_weeks} weeks already.", max_weeks=MAX_WEEKS),
            mend=tr("Remove a week first, or start a following program."),
        )


def _resized(program: Program, block: int, by: int) -> tuple[Block, ...]:
    blocks = tuple(
        replace(b, weeks=b.weeks + by) if number == block else b
        for number, b in enumerate(program.blocks)
    )
    return tuple(b for b in blocks if b.weeks > 0)


def _inserted(program: Program, index: int, week: Week, *, block: int) -> Program:
    weeks = (*program.weeks[:index], week, *program.weeks[index:])
    return replace(program, weeks=weeks, blocks=_resized(program, block, +1))


def fresh_copy(week: Week, next_id: int) -> tuple[Week, int]:
    """A copy of the week with ids of its own, strands kept, and the next free number."""
    number = next_id

    def take() -> int:
        nonlocal number
        number += 1
        return number - 1

    week_id = WeekId(take())
    days = tuple(
        replace(
            day,
            sessions=tuple(
                replace(
                    session,
                    id=SessionId(take()),
                    slots=tuple(replace(s, id=SlotId(take())) for s in session.slots),
                )
                for session in day.sessions
            ),
        )
        for day in week.days
    )
    return replace(week, id=week_id, days=days), number


def add_week(program: Program, after: int) -> Program:
    """The program with an empty week behind week `after` (-1: before the first)."""
    _require_room(program)
    if after >= 0:
        require_week(program, after)
    week = Week(WeekId(program.next_id))
    grown = replace(program, next_id=program.next_id + 1)
    return _inserted(grown, after + 1, week, block=program.block_of(max(after, 0)))


def duplicate_week(program: Program, index: int) -> Program:
    """The program with a copy of week `index` behind it; strands go on through the copy."""
    _require_room(program)
    week, next_id = fresh_copy(require_week(program, index), program.next_id)
    grown = replace(program, next_id=next_id)
    return _inserted(grown, index + 1, week, block=program.block_of(index))


def remove_weeks(program: Program, indices: Sequence[int]) -> Program:
    """The program without those weeks. Raises EditError if none would be left."""
    gone = set(indices)
    for index in gone:
        require_week(program, index)
    if len(gone) >= len(program.weeks):
        raise EditError(
            tr("A program keeps at least one week."),
            where=program.name,
            mend=tr("Clear the week instead, or archive the program."),
        )
    blocks = tuple(
        replace(block, weeks=sum(i not in gone for i in program.block_range(number)))
        for number, block in enumerate(program.blocks)
    )
    return replace(
        program,
        weeks=tuple(w for i, w in enumerate(program.weeks) if i not in gone),
        blocks=tuple(b for b in blocks if b.weeks > 0),
    )


def move_weeks(program: Program, indices: Sequence[int], to: int) -> Program:
    """The program with those weeks side by side in their order, the first of them at `to`.

    to: counted without those weeks, 0 to the number of others. The lengths of the blocks stay.
    """
    moved = sorted(set(indices))
    taken = tuple(require_week(program, index) for index in moved)
    rest = tuple(week for at, week in enumerate(program.weeks) if at not in moved)
    if not 0 <= to <= len(rest):
        raise EditError(
            tr("There is no place {to} for those weeks.", to=to + 1),
            where=program.name,
            mend=tr("Choose a place from 1 to {rest}.", rest=len(rest) + 1),
        )
    weeks = (*rest[:to], *taken, *rest[to:])
    same = all(a is b for a, b in zip(weeks, program.weeks, strict=True))
    return program if same else replace(program, weeks=weeks)


def clear_weeks(program: Program, indices: Sequence[int]) -> Program:
    """The program with those weeks empty, notes and all."""
    for index in indices:
        require_week(program, index)
    return map_weeks(
        program,
        indices,
        lambda w: w if w.days == EMPTY_WEEK else replace(w, days=EMPTY_WEEK, light=False),
    )


def fill_weeks(program: Program, source: int, targets: Sequence[int]) -> Program:
    """The program with the sessions of week `source` copied into the target weeks.

    Strands go on, so that later edits reach all of them; what stood there is replaced.
    """
    pattern = require_week(program, source)
    next_id = program.next_id
    weeks = list(program.weeks)
    for index in targets:
        require_week(program, index)
        if index == source:
            continue
        fresh, next_id = fresh_copy(pattern, next_id)
        weeks[index] = replace(weeks[index], days=fresh.days, light=pattern.light)
    return replace(program, weeks=tuple(weeks), next_id=next_id)


def lightened(week: Week) -> Week:
    """The week made light: half the sets of each slot rounded down, at least one.

    The loads stay, as most coaches keep them. Source: common practice (fewer sets, intensity
    kept: rogerson2024, bell2023).
    """
    if week.light:
        return week
    halved = map_slots(week, _halved)
    return replace(halved, light=True)


def _halved(slot: Slot) -> Slot:
    if Field.SETS in slot.pinned or slot.sets == 1:
        return slot
    return replace(slot, sets=max(1, slot.sets // 2))


def make_light(program: Program, index: int) -> Program:
    """The program with week `index` made light: half the sets, loads kept."""
    return with_week(program, index, lightened(require_week(program, index)))


def make_ordinary(program: Program, index: int) -> Program:
    """The program with week `index` no longer light.

    Sets come back from the nearest ordinary week of the same strand; others double.
    """
    week = require_week(program, index)
    if not week.light:
        return program
    others = [w for w in (*reversed(program.weeks[:index]), *program.weeks[index:]) if not w.light]

    def restored(slot: Slot) -> Slot:
        if Field.SETS in slot.pinned:
            return slot
        for other in others:
            for twin in other.slots():
                if twin.strand == slot.strand:
                    return slot if twin.sets == slot.sets else replace(slot, sets=twin.sets)
        return replace(slot, sets=min(20, slot.sets * 2))

    return with_week(program, index, replace(map_slots(week, restored), light=False))


def insert_light_week(program: Program, after: int) -> Program:
    """The program with a light copy of week `after` behind it."""
    copied = duplicate_week(program, after)
    return make_light(copied, after + 1)


def rename_block(program: Program, number: int, *, name: str) -> Program:
    """The program with that block named anew. Raises EditError if there is no such block."""
    if not 0 <= number < len(program.blocks):
        raise EditError(
            tr("There is no block {number}.", number=number + 1),
            where=program.name,
            mend=tr("The program has blocks 1 to {blocks}.", blocks=len(program.blocks)),
        )
    name = require_name(name, "block")
    blocks = tuple(
        replace(b, name=name) if k == number else b for k, b in enumerate(program.blocks)
    )
    return replace(program, blocks=blocks)


def start_block(program: Program, index: int, *, name: str) -> Program:
    """The program with a block of its own beginning at week `index`."""
    require_week(program, index)
    name = require_name(name, "block")
    number = program.block_of(index)
    reach = program.block_range(number)
    if index == reach.start:
        return rename_block(program, number, name=name)
    old = program.blocks[number]
    halves = (replace(old, weeks=index - reach.start), Block(name, reach.stop - index))
    blocks = (*program.blocks[:number], *halves, *program.blocks[number + 1 :])
    return replace(program, blocks=blocks)


def join_block(program: Program, number: int) -> Program:
    """The program with block `number` joined to the one before it."""
    if not 0 < number < len(program.blocks):
        raise EditError(
            tr("There is no block before this one."),
            mend=tr("Join a later block to the one before."),
        )
    before, joined = program.blocks[number - 1 : number + 1]
    merged = replace(before, weeks=before.weeks + joined.weeks)
    return replace(
        program, blocks=(*program.blocks[: number - 1], merged, *program.blocks[number + 1 :])
    )


def set_week_note(program: Program, index: int, *, note: str) -> Program:
    """The program with a note on week `index`."""
    week = require_week(program, index)
    return with_week(program, index, replace(week, note=note.strip()))
