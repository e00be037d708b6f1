"""Placing, moving, copying, removing, replacing, pairing; and what happens to sessions."""

from __future__ import annotations

import itertools

import pytest
from hypothesis import given
from hypothesis import strategies as st

from app.domain.edits import place
from app.domain.edits.parts import Spot
from app.domain.edits.prescribe import Prescription
from app.domain.effort import Rir
from app.domain.errors import CoachError, EditError
from app.domain.program import Block, Program, Reps, Role, Span, broken_laws
from app.domain.ramp import read_ramp
from tests import builders
from tests.domain.edits.reading import (
    CURL,
    GONE_SESSION,
    GONE_SLOT,
    SQUAT,
    keys,
    pairs,
    session_at,
    session_id,
    slot_at,
    slot_id,
    weeks_with,
)

DRILLS = builders.drills_of("band_walk")
TWO_BLOCKS = (Block("Base", 2), Block("Build", 2))


def plan(text: str = "Mon: back_squat, leg_curl, calf_raise | Thu: leg_press") -> Program:
    """Four weeks alike, in two blocks of two."""
    return builders.program(text, times=4, blocks=TWO_BLOCKS)


SPANS = pytest.mark.parametrize(
    ("span", "weeks"),
    [
        (Span.THIS_WEEK, [2]),
        (Span.FROM_HERE, [2, 3]),
        (Span.WHOLE_BLOCK, [2, 3]),
        (Span.WHOLE_PROGRAM, [0, 1, 2, 3]),
    ],
)

# ---------------------------------------------------------------------------- place


@SPANS
def test_placing_reaches_as_far_as_the_span(span: Span, weeks: list[int]) -> None:
    after = place.place(plan(), CURL, at=Spot(2, 0), span=span)
    assert weeks_with(after, "curl") == weeks
    strands = {s.strand for week in after.weeks for s in week.slots() if s.exercise == "curl"}
    assert len(strands) == 1
    assert broken_laws(after) == ()


def test_the_whole_block_is_the_block_of_the_week_and_no_other() -> None:
    after = place.place(plan(), CURL, at=Spot(1, 0), span=Span.WHOLE_BLOCK)
    assert weeks_with(after, "curl") == [0, 1]


@pytest.mark.parametrize(("position", "at"), [(0, 0), (1, 1), (3, 3), (None, 3), (9, 3)])
def test_an_exercise_lands_at_its_position_and_past_the_end_at_the_end(position, at) -> None:
    after = place.place(plan(), CURL, at=Spot(0, 0, position=position))
    assert keys(after, 0, 0).index("curl") == at


def test_an_empty_day_gets_a_session() -> None:
    after = place.place(plan(), CURL, at=Spot(0, 4), span=Span.WHOLE_PROGRAM)
    assert keys(after, 3, 4) == ["curl"]
    assert len({session_at(after, w, 4).strand for w in range(4)}) == 1
    assert len({session_at(after, w, 4).id for w in range(4)}) == 4


def test_each_week_takes_its_own_usual_repetitions() -> None:
    program = builders.program("Mon: leg_curl 3x12", "light | Mon: leg_curl 2x15")
    after = place.place(program, CURL, at=Spot(0, 0), span=Span.WHOLE_PROGRAM)
    assert [slot_at(after, w, 0, 1).reps.low for w in (0, 1)] == [12, 15]
    assert [slot_at(after, w, 0, 1).sets for w in (0, 1)] == [3, 1]


def test_a_prescription_is_taken_as_it_is() -> None:
    asked = Prescription(5, Reps(6, 6), Rir(0), 45, role=Role.CORE)
    after = place.place(plan(), CURL, at=Spot(0, 3), prescription=asked)
    slot = slot_at(after, 0, 3, 1)
    assert (slot.sets, slot.reps, slot.effort, slot.rest_s) == (5, Reps(6, 6), Rir(0), 45)


def test_placing_amid_a_pair_dissolves_it() -> None:
    paired = plan("Mon: back_squat pair A, leg_curl pair A")
    assert pairs(place.place(paired, CURL, at=Spot(0, 0, position=1)), 0, 0) == ["", "", ""]
    assert pairs(place.place(paired, CURL, at=Spot(0, 0, position=0)), 0, 0) == ["", "A", "A"]


def test_a_session_that_is_not_on_that_day_is_refused() -> None:
    program = plan()
    with pytest.raises(EditError, match=r"Week 1, Friday has no such session.*another day"):
        place.place(program, CURL, at=Spot(0, 4, session=session_id(program, 0, 0)))


@pytest.mark.parametrize(
    ("spot", "sentence"),
    [(Spot(4, 0), "There is no week 5"), (Spot(0, 7), "There is no day number 7")],
)
def test_a_place_outside_the_program_is_refused(spot: Spot, sentence: str) -> None:
    with pytest.raises(EditError, match=sentence):
        place.place(plan(), CURL, at=spot)


def test_a_session_holds_no_more_than_24_exercises() -> None:
    full = plan(f"Mon: {', '.join(['curl'] * place.MAX_SLOTS)}")
    with pytest.raises(EditError, match=r"has 24 exercises already.*Remove one first"):
        place.place(full, SQUAT, at=Spot(0, 0))


# ---------------------------------------------------------------------------- move


@SPANS
def test_moving_reaches_as_far_as_the_span(span: Span, weeks: list[int]) -> None:
    program = plan()
    after = place.move(program, slot_id(program, 2, 0, 1), to=Spot(2, 3), span=span)
    assert [w for w in range(4) if keys(after, w, 3) == ["leg_press", "leg_curl"]] == weeks
    assert [w for w in range(4) if keys(after, w, 0) == ["back_squat", "calf_raise"]] == weeks
    assert after.next_id >= program.next_id


def test_moving_keeps_id_strand_and_prescription() -> None:
    program = plan("Mon: back_squat 5x3 RIR 1 rest 200, leg_curl | Thu: curl")
    slot = slot_at(program, 0, 0)
    after = place.move(program, slot.id, to=Spot(0, 3))
    assert slot_at(after, 0, 3, 1) == slot


@pytest.mark.parametrize(
    ("frm", "position", "order"),
    [
        (0, 2, "leg_curl back_squat calf_raise"),
        (0, 3, "leg_curl calf_raise back_squat"),
        (0, None, "leg_curl calf_raise back_squat"),
        (2, 0, "calf_raise back_squat leg_curl"),
        (2, 1, "back_squat calf_raise leg_curl"),
        (1, 99, "back_squat calf_raise leg_curl"),
    ],
)
def test_moving_within_a_session(frm: int, position: int | None, order: str) -> None:
    program = plan()
    after = place.move(program, slot_id(program, 0, 0, frm), to=Spot(0, 0, position=position))
    assert keys(after, 0, 0) == order.split()


@pytest.mark.parametrize("position", [1, 2])
def test_moving_to_where_it_stands_is_no_change(position: int) -> None:
    program = plan()
    here = slot_id(program, 0, 0, 1)
    for span in Span:
        assert place.move(program, here, to=Spot(0, 0, position=position), span=span) is program
    last = slot_id(program, 0, 0, 2)
    assert place.move(program, last, to=Spot(0, 0)) is program


def test_the_only_exercise_of_a_bare_session_keeps_its_place_in_the_day() -> None:
    program = place.add_session(plan("Tue: curl"), 0, day=4)
    program = place.place(program, CURL, at=Spot(0, 4))
    program = place.add_session(program, 0, day=4, title="Evening")
    assert place.move(program, slot_id(program, 0, 4), to=Spot(0, 4)) is program


def test_a_day_emptied_by_a_move_loses_its_bare_session() -> None:
    program = place.place(plan(), CURL, at=Spot(0, 4))
    after = place.move(program, slot_id(program, 0, 4), to=Spot(0, 0))
    assert after.weeks[0].days[4].sessions == ()


def test_to_another_week_one_slot_goes_whatever_the_span() -> None:
    program = plan()
    after = place.move(program, slot_id(program, 0, 0, 2), to=Spot(2, 3), span=Span.WHOLE_PROGRAM)
    assert [len(keys(after, w, 0)) for w in range(4)] == [2, 3, 3, 3]
    assert keys(after, 2, 3) == ["leg_press", "calf_raise"]
    assert broken_laws(after) == ()


def test_weeks_without_the_strand_are_left_alone() -> None:
    program = plan()
    short = place.remove(program, slot_id(program, 1, 0, 1))
    after = place.move(short, slot_id(short, 0, 0, 1), to=Spot(0, 3), span=Span.WHOLE_PROGRAM)
    assert after.weeks[1] is short.weeks[1]
    assert keys(after, 3, 3) == ["leg_press", "leg_curl"]


def test_partners_that_change_places_stay_a_pair() -> None:
    program = plan("Mon: back_squat pair A, leg_curl pair A, calf_raise")
    after = place.move(program, slot_id(program, 0, 0, 0), to=Spot(0, 0, position=2))
    assert keys(after, 0, 0) == ["leg_curl", "back_squat", "calf_raise"]
    assert pairs(after, 0, 0) == ["A", "A", ""]


def test_a_partner_moved_away_leaves_no_letter_behind() -> None:
    program = plan("Mon: back_squat pair A, leg_curl pair A, calf_raise | Thu: curl")
    here = slot_id(program, 0, 0, 0)
    assert pairs(place.move(program, here, to=Spot(0, 0)), 0, 0) == ["", "", ""]
    there = place.move(program, here, to=Spot(0, 3))
    assert pairs(there, 0, 0) == ["", ""]
    assert pairs(there, 0, 3) == ["", ""]


@given(st.integers(0, 2), st.integers(0, 6), st.sampled_from(tuple(Span)), st.integers(0, 4))
def test_moving_and_moving_back_is_the_identity(at, day, span, position) -> None:
    program = plan()
    slot = slot_id(program, 2, 0, at)
    there = place.move(program, slot, to=Spot(2, day, position=position), span=span)
    landed = next(d for d in range(7) if slot in _ids(there, 2, d))
    back = at
    if landed == 0 and _ids(there, 2, 0).index(slot) < at:
        back = at + 1  # positions count the slots as they stand before the edit
    again = place.move(there, slot, to=Spot(2, 0, position=back), span=span)
    assert again.weeks == program.weeks


def _ids(program: Program, week: int, day: int) -> list[int]:
    return [s.id for one in program.weeks[week].days[day].sessions for s in one.slots]


# ---------------------------------------------------------------------------- copy, paste, remove


@SPANS
def test_a_copy_is_a_strand_of_its_own(span: Span, weeks: list[int]) -> None:
    program = plan()
    source = slot_at(program, 2, 0)
    after = place.copy(program, source.id, to=Spot(2, 5), span=span)
    assert [w for w in range(4) if keys(after, w, 5) == ["back_squat"]] == weeks
    copies = [slot_at(after, w, 5) for w in weeks]
    assert len({c.strand for c in copies}) == 1
    assert source.strand not in {c.strand for c in copies}
    assert broken_laws(after) == ()


def test_each_week_copies_its_own_prescription() -> None:
    program = builders.program("Mon: back_squat 4x10", "Mon: back_squat 3x5", "Thu: curl")
    after = place.copy(program, slot_id(program, 0, 0), to=Spot(0, 5), span=Span.WHOLE_PROGRAM)
    assert [(slot_at(after, w, 5).sets, slot_at(after, w, 5).reps.low) for w in range(3)] == [
        (4, 10),
        (3, 5),
        (4, 10),
    ]


def test_a_copy_is_not_paired() -> None:
    program = plan("Mon: back_squat pair A, leg_curl pair A")
    after = place.copy(program, slot_id(program, 0, 0), to=Spot(0, 0))
    assert pairs(after, 0, 0) == ["A", "A", ""]


def test_pasted_slots_keep_their_order_and_pairs_and_get_ids_of_their_own() -> None:
    program = plan("Mon: back_squat pair A, leg_curl pair A, calf_raise | Thu: curl")
    slots = session_at(program, 0, 0).slots
    after = place.paste(program, slots, to=Spot(1, 3, position=0), span=Span.FROM_HERE)
    assert keys(after, 1, 3) == ["back_squat", "leg_curl", "calf_raise", "curl"]
    assert pairs(after, 3, 3) == ["A", "A", "", ""]
    assert keys(after, 0, 3) == ["curl"]
    assert broken_laws(after) == ()


def test_half_a_pair_is_pasted_without_its_letter() -> None:
    program = plan("Mon: back_squat pair A, leg_curl pair A | Thu: curl")
    after = place.paste(program, session_at(program, 0, 0).slots[:1], to=Spot(0, 3))
    assert pairs(after, 0, 3) == ["", ""]


def test_pasting_nothing_is_no_change() -> None:
    program = plan()
    assert place.paste(program, (), to=Spot(0, 3)) is program


@SPANS
def test_removing_reaches_as_far_as_the_span(span: Span, weeks: list[int]) -> None:
    program = plan()
    after = place.remove(program, slot_id(program, 2, 0, 0), span=span)
    assert weeks_with(after, "back_squat") == [w for w in range(4) if w not in weeks]


def test_the_partner_of_a_removed_slot_is_single_again() -> None:
    program = plan("Mon: back_squat pair A, leg_curl pair A, calf_raise")
    after = place.remove(program, slot_id(program, 0, 0, 0))
    assert pairs(after, 0, 0) == ["", ""]


# ---------------------------------------------------------------------------- replace


@SPANS
def test_a_substitute_takes_the_place_as_far_as_the_span(span: Span, weeks: list[int]) -> None:
    program = plan()
    after = place.replace_exercise(
        program, slot_id(program, 2, 0, 1), exercise=CURL, old=None, span=span
    )
    assert [w for w in range(4) if keys(after, w, 0)[1] == "curl"] == weeks
    assert [slot_at(after, w, 0, 1).id for w in range(4)] == [
        slot_at(program, w, 0, 1).id for w in range(4)
    ]


def test_weeks_that_hold_another_exercise_in_the_strand_keep_it() -> None:
    program = plan()
    once = place.replace_exercise(program, slot_id(program, 1, 0, 1), exercise=CURL)
    after = place.replace_exercise(
        once, slot_id(once, 0, 0, 1), exercise=SQUAT, span=Span.WHOLE_PROGRAM
    )
    assert [keys(after, w, 0)[1] for w in range(4)] == ["back_squat", "curl"] + ["back_squat"] * 2


def test_the_same_exercise_in_its_own_place_is_no_change() -> None:
    program = plan()
    assert place.replace_exercise(program, slot_id(program, 0, 0), exercise=SQUAT) is program


# ---------------------------------------------------------------------------- pairs


@SPANS
def test_pairing_reaches_as_far_as_the_span(span: Span, weeks: list[int]) -> None:
    program = plan()
    both = (slot_id(program, 2, 0, 1), slot_id(program, 2, 0, 0))
    after = place.pair(program, both, span=span)
    assert [w for w in range(4) if pairs(after, w, 0) == ["A", "A", ""]] == weeks


def test_a_second_pair_gets_the_next_letter_and_a_broken_first_one_loses_its_own() -> None:
    program = plan("Mon: back_squat, leg_curl, calf_raise, curl")
    ids = [slot_id(program, 0, 0, k) for k in range(4)]
    once = place.pair(program, (ids[0], ids[1]))
    assert pairs(place.pair(once, (ids[2], ids[3])), 0, 0) == ["A", "A", "B", "B"]
    assert pairs(place.pair(once, (ids[1], ids[2])), 0, 0) == ["", "B", "B", ""]
    assert pairs(place.pair(program, (ids[0], ids[1], ids[2])), 0, 0) == ["A", "A", "A", ""]


def test_only_neighbours_of_one_session_are_paired() -> None:
    program = plan()
    monday = [slot_id(program, 0, 0, k) for k in range(3)]
    for ids in (
        (monday[0], monday[2]),
        (monday[0],),
        (monday[2], slot_id(program, 0, 3)),
        (monday[0], slot_id(program, 1, 0, 1)),
    ):
        with pytest.raises(EditError, match=r"Only neighbours in one session.*then pair"):
            place.pair(program, ids)


@SPANS
def test_dissolving_a_pair_reaches_as_far_as_the_span(span: Span, weeks: list[int]) -> None:
    program = plan("Mon: back_squat pair A, leg_curl pair A, calf_raise pair B, curl pair B")
    after = place.unpair(program, slot_id(program, 2, 0, 1), span=span)
    assert [w for w in range(4) if pairs(after, w, 0) == ["", "", "B", "B"]] == weeks


def test_dissolving_what_is_not_paired_is_no_change() -> None:
    program = plan()
    assert place.unpair(program, slot_id(program, 0, 0)) is program


# ---------------------------------------------------------------------------- sessions


@SPANS
def test_sessions_come_and_go_as_far_as_the_span(span: Span, weeks: list[int]) -> None:
    program = plan()
    grown = place.add_session(program, 2, day=3, title="Evening", span=span)
    assert [w for w in range(4) if len(grown.weeks[w].days[3].sessions) == 2] == weeks
    after = place.remove_session(grown, session_id(grown, 2, 3, 1), span=span)
    assert after.weeks == program.weeks


@SPANS
def test_a_whole_session_moves_as_far_as_the_span(span: Span, weeks: list[int]) -> None:
    program = plan()
    after = place.move_session(program, session_id(program, 2, 0), day=5, span=span)
    assert [w for w in range(4) if not keys(after, w, 0)] == weeks
    assert all(session_at(after, w, 5) is session_at(program, w, 0) for w in weeks)
    back = place.move_session(after, session_id(program, 2, 0), day=0, span=span)
    assert back == program


def test_moving_a_session_to_its_own_day_is_no_change() -> None:
    program = plan()
    assert place.move_session(program, session_id(program, 0, 0), day=0) is program
    with pytest.raises(EditError, match="no day number 9"):
        place.move_session(program, session_id(program, 0, 0), day=9)


@SPANS
def test_a_title_and_drills_reach_as_far_as_the_span(span: Span, weeks: list[int]) -> None:
    program = plan()
    here = session_id(program, 2, 0)
    named = place.rename_session(program, here, title="  Lower   body ", span=span)
    assert [w for w in range(4) if session_at(named, w, 0).title == "Lower body"] == weeks
    drilled = place.set_warmup(program, here, warmup=DRILLS, span=span)
    assert [w for w in range(4) if session_at(drilled, w, 0).warmup] == weeks
    assert place.rename_session(named, here, title="Lower body", span=span) is named
    assert place.set_warmup(drilled, here, warmup=DRILLS, span=span) is drilled


@SPANS
def test_drills_and_ramp_sets_reach_as_far_as_the_span(span: Span, weeks: list[int]) -> None:
    program = plan()
    here, slot = session_id(program, 2, 0), slot_id(program, 2, 0)
    ramp = read_ramp("50 % x 5")
    after = place.set_warmup(program, here, warmup=DRILLS, ramps=((slot, ramp),), span=span)
    assert [w for w in range(4) if slot_at(after, w, 0).ramp == ramp] == weeks
    assert [w for w in range(4) if session_at(after, w, 0).warmup == DRILLS] == weeks
    assert slot_at(after, 2, 0, 1) is slot_at(program, 2, 0, 1)
    back = place.set_warmup(after, here, ramps=((slot, None),), span=span)
    assert [w for w in range(4) if session_at(back, w, 0).warmup == DRILLS] == weeks
    assert place.set_warmup(back, here, warmup=(), span=span) == program


def test_a_session_needs_a_title_of_at_least_one_letter() -> None:
    program = plan()
    with pytest.raises(CoachError, match=r"session has no name\. Give it one"):
        place.rename_session(program, session_id(program, 0, 0), title="  ")


@SPANS
def test_clearing_a_day_keeps_its_note(span: Span, weeks: list[int]) -> None:
    program = plan()
    after = place.clear_day(program, 2, day=0, span=span)
    assert [w for w in range(4) if not keys(after, w, 0)] == weeks
    assert place.clear_day(after, 2, day=0, span=span) is after


@pytest.mark.parametrize(
    "act",
    [
        lambda p: place.remove_session(p, GONE_SESSION),
        lambda p: place.move_session(p, GONE_SESSION, day=1),
        lambda p: place.rename_session(p, GONE_SESSION, title="x"),
        lambda p: place.set_warmup(p, GONE_SESSION, warmup=()),
        lambda p: place.set_warmup(p, session_id(p, 0, 0), ramps=((GONE_SLOT, None),)),
        lambda p: place.remove(p, GONE_SLOT),
        lambda p: place.move(p, GONE_SLOT, to=Spot(0, 0)),
        lambda p: place.copy(p, GONE_SLOT, to=Spot(0, 0)),
        lambda p: place.unpair(p, GONE_SLOT),
        lambda p: place.pair(p, (GONE_SLOT, GONE_SLOT)),
        lambda p: place.replace_exercise(p, GONE_SLOT, exercise=CURL),
    ],
)
def test_what_is_gone_cannot_be_edited(act) -> None:
    with pytest.raises(EditError, match=r"no longer in the program\. Choose another"):
        act(plan())


@pytest.mark.parametrize(
    "act",
    [
        lambda p, w: place.add_session(p, w, day=0),
        lambda p, w: place.clear_day(p, w, day=0),
        lambda p, w: place.move(p, slot_id(p, 0, 0), to=Spot(w, 0)),
        lambda p, w: place.copy(p, slot_id(p, 0, 0), to=Spot(w, 0)),
    ],
)
def test_a_week_that_is_not_there_cannot_be_edited(act) -> None:
    for week in (-1, 4):
        with pytest.raises(EditError, match=rf"no week {week + 1}\. The program has weeks 1 to 4"):
            act(plan(), week)


def test_the_blocks_of_the_plans_here_add_up() -> None:
    assert broken_laws(plan()) == ()
    assert list(itertools.accumulate(b.weeks for b in TWO_BLOCKS)) == [2, 4]
