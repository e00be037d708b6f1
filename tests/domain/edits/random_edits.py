"""Random edits of random programs, for the properties that every edit must keep."""

from __future__ import annotations

from collections.abc import Callable

from hypothesis import strategies as st

from app.domain.edits import fields, place, split, weeks, written
from app.domain.edits.parts import Spot
from app.domain.effort import PercentOneRm, PercentRepMax, Rir
from app.domain.errors import EditError
from app.domain.findings import Edit, edit
from app.domain.prescription_text import parse
from app.domain.program import Field, Program, Reps, Role, Session, Slot, Span
from app.domain.ramp import NO_RAMP, read_ramp
from tests import builders

EXERCISES = tuple(builders.CATALOGUE)
DRILLS = builders.drills_of("band_walk bridge 2x12-15 band_walk 3x20")
RAMPS = st.sampled_from([None, NO_RAMP, read_ramp("50 % x 5, 60 kg x 2")])
LINES = st.sampled_from(["5 x 3-5, RIR 1", "3 x 12, rest 60 s", "4 x 8, 80 kg"]).map(parse)
SPANS = st.sampled_from(tuple(Span))


def start() -> Program:
    """Three weeks with two sessions, the middle one light."""
    return builders.program(
        "Mon: back_squat 4x10 core, leg_extension 3x12 | Thu: back_squat 3x8",
        "light | Mon: back_squat 2x10 core, leg_extension 1x12 | Thu: back_squat 2x8",
        "Mon: back_squat 4x10 core, leg_extension 3x12 | Thu: back_squat 3x8",
    )


def slots_of(program: Program) -> list[Slot]:
    """Every slot of every week."""
    return [slot for week in program.weeks for slot in week.slots()]


def sessions_of(program: Program) -> list[Session]:
    """Every session of every week."""
    return [session for week in program.weeks for _, session in week.sessions()]


@st.composite
def spots(draw: st.DrawFn, program: Program) -> Spot:
    """A spot of the program, sometimes at a position past the end."""
    week = draw(st.integers(0, len(program.weeks) - 1))
    day = draw(st.integers(0, 6))
    there = program.weeks[week].days[day].sessions
    session = draw(st.sampled_from([None, *(s.id for s in there)]))
    position = draw(st.none() | st.integers(0, 6))
    return Spot(week, day, session, position)


_VALUES = {
    Field.SETS: st.integers(1, 12),
    Field.REPS: st.integers(1, 30).map(lambda n: Reps(n, n + 2)),
    Field.EFFORT: st.sampled_from([Rir(0), Rir(2.5), PercentOneRm(72.5), PercentRepMax(90)]),
    Field.REST: st.integers(0, 600),
    Field.TEMPO: st.sampled_from(["", "3-0-1-0"]),
    Field.LOAD: st.none() | st.floats(1, 300),
}


def _slot_edit(draw: st.DrawFn, program: Program) -> Edit:
    slot, span = draw(st.sampled_from(slots_of(program))), draw(SPANS)
    neighbours = next(
        tuple(s.id for s in session.slots[:2])
        for session in sessions_of(program)
        if slot in session.slots
    )

    def spot() -> Spot:
        return draw(spots(program))

    def swap() -> Edit:
        exercise = draw(st.sampled_from(EXERCISES))
        return edit("swap", place.replace_exercise, slot_id=slot.id, exercise=exercise, span=span)

    def set_field() -> Edit:
        field = draw(st.sampled_from(tuple(Field)))
        value = draw(_VALUES[field])
        return edit("set", fields.set_field, slot_id=slot.id, field=field, value=value, span=span)

    def prepare() -> Edit:
        chosen = draw(st.lists(st.sampled_from(EXERCISES), max_size=6))
        keys = tuple(exercise.key for exercise in chosen)
        return edit("prepare", fields.set_prepared, slot_id=slot.id, prepared=keys, span=span)

    kinds: tuple[Callable[[], Edit], ...] = (
        lambda: edit("move", place.move, slot_id=slot.id, to=spot(), span=span),
        lambda: edit("copy", place.copy, slot_id=slot.id, to=spot(), span=span),
        lambda: edit("remove", place.remove, slot_id=slot.id, span=span),
        swap,
        lambda: edit("pair", place.pair, slot_ids=neighbours, span=span),
        lambda: edit("unpair", place.unpair, slot_id=slot.id, span=span),
        lambda: edit("paste", place.paste, slots=(slot,), to=spot(), span=span),
        set_field,
        prepare,
        lambda: edit("ramp", fields.set_ramp, slot_id=slot.id, ramp=draw(RAMPS), span=span),
        lambda: edit("sets", fields.add_sets, slot_id=slot.id, by=1, span=span),
        lambda: edit("note", fields.set_note, slot_id=slot.id, note="slowly", span=span),
        lambda: edit("role", fields.set_role, slot_id=slot.id, role=Role.CORE, span=span),
        lambda: edit("unpin", fields.unpin, slot_id=slot.id, field=Field.SETS, span=span),
        lambda: edit("write", written.write, slot_id=slot.id, written=draw(LINES), span=span),
        lambda: edit("let go", written.unpin_all, slot_ids=neighbours, span=span),
    )
    return draw(st.sampled_from(kinds))()


def _session_edit(draw: st.DrawFn, program: Program) -> Edit:
    chosen = draw(st.sampled_from(sessions_of(program)))
    span, day = draw(SPANS), draw(st.integers(0, 6))
    strands = tuple(s.strand for s in chosen.slots[:1])

    def fold() -> Edit:
        other = draw(st.sampled_from(sessions_of(program)))
        return edit("fold", split.fold, plan=split.Fold(chosen.id, other.id, strands, Rir(1)))

    def warm_up() -> Edit:
        drills = draw(st.lists(st.sampled_from(DRILLS), max_size=3))
        ramps = tuple((slot.id, draw(RAMPS)) for slot in chosen.slots[:1])
        return edit(
            "warm-up",
            place.set_warmup,
            session_id=chosen.id,
            warmup=tuple(drills),
            ramps=ramps,
            span=span,
        )

    kinds: tuple[Callable[[], Edit], ...] = (
        warm_up,
        lambda: edit("day", place.move_session, session_id=chosen.id, day=day, span=span),
        lambda: edit("drop", place.remove_session, session_id=chosen.id, span=span),
        lambda: edit("title", place.rename_session, session_id=chosen.id, title="Legs", span=span),
        lambda: edit("note", fields.set_session_note, session_id=chosen.id, note="hm", span=span),
        fold,
        lambda: edit("open", split.unfold, plan=split.Unfold(chosen.id, day, strands)),
    )
    return draw(st.sampled_from(kinds))()


def _week_edit(draw: st.DrawFn, program: Program) -> Edit:
    index = draw(st.integers(0, len(program.weeks) - 1))
    day = draw(st.integers(0, 6))

    def put() -> Edit:
        exercise, at = draw(st.sampled_from(EXERCISES)), draw(spots(program))
        return edit("place", place.place, exercise=exercise, at=at, span=draw(SPANS))

    def other() -> int:
        return draw(st.integers(0, len(program.weeks) - 1))

    kinds: tuple[Callable[[], Edit], ...] = (
        put,
        lambda: edit("session", place.add_session, week=index, day=day, span=draw(SPANS)),
        lambda: edit("clear day", place.clear_day, week=index, day=day, span=draw(SPANS)),
        lambda: edit("add", weeks.add_week, after=index),
        lambda: edit("double", weeks.duplicate_week, index=index),
        lambda: edit("cut", weeks.remove_weeks, indices=(index,)),
        lambda: edit("shift", weeks.move_weeks, indices=(index,), to=other()),
        lambda: edit("clear", weeks.clear_weeks, indices=(index,)),
        lambda: edit("fill", weeks.fill_weeks, source=index, targets=(other(),)),
        lambda: edit("light", weeks.make_light, index=index),
        lambda: edit("ordinary", weeks.make_ordinary, index=index),
        lambda: edit("light week", weeks.insert_light_week, after=index),
        lambda: edit("block", weeks.start_block, index=index, name="Build"),
        lambda: edit("join", weeks.join_block, number=len(program.blocks) - 1),
        lambda: edit("day note", fields.set_day_note, week=index, day=day, note="hut duty"),
        lambda: edit("accept", fields.accept, finding="weekly_sets/w1//quads", reason="asked"),
        lambda: edit("take back", fields.take_back, finding="weekly_sets/w1//quads"),
    )
    return draw(st.sampled_from(kinds))()


@st.composite
def edits_of(draw: st.DrawFn, program: Program) -> Edit:
    """One edit that may or may not be possible on `program`."""
    kinds = [_week_edit]
    if sessions_of(program):
        kinds.append(_session_edit)
    if slots_of(program):
        kinds += [_slot_edit, _slot_edit]
    return draw(st.sampled_from(kinds))(draw, program)


class Run(list[Program]):
    """The values of a run; written short, since a program in full fills pages."""

    def __repr__(self) -> str:
        return f"Run({len(self)} programs)"


@st.composite
def runs(draw: st.DrawFn, *, longest: int = 8) -> Run:
    """A program and what a run of random edits makes of it, one value a step."""
    values = Run([start()])
    for _ in range(draw(st.integers(1, longest))):
        try:
            after = draw(edits_of(values[-1]))(values[-1])
        except EditError:
            continue
        values.append(after)
    return values
