"""Two sessions into one, one into two, and the sets that go to keep inside the minutes."""

from __future__ import annotations

from dataclasses import replace

import pytest
from hypothesis import given
from hypothesis import strategies as st

from app.domain.edits import split
from app.domain.effort import Rir
from app.domain.errors import EditError
from app.domain.program import Field, Program, Role, SessionId, Slot, Span, broken_laws
from tests import builders
from tests.domain.edits.reading import keys, pairs, session_at, session_id, slot_at


def plan() -> Program:
    """Three weeks of two lower-body days, the second one light."""
    text = "Mon: back_squat 4x10 core, leg_curl 3x12 | Thu: deadlift 4x8 core, calf_raise 3x12"
    return builders.program(text, f"light | {text}", text)


def folding(program: Program, *wanted: str, week: int = 0, **more) -> split.Fold:
    """Thursday's session into Monday's, with the exercises named."""
    leaving = session_at(program, week, 3)
    strands = tuple(s.strand for key in wanted for s in leaving.slots if s.exercise == key)
    return split.Fold(leaving.id, session_id(program, week, 0), strands, **more)


def opening(program: Program, *wanted: str, day: int = 2, **more) -> split.Unfold:
    """Monday's session into two, the exercises named going to another day."""
    session = session_at(program, 0, 0)
    strands = tuple(s.strand for s in session.slots if s.exercise in wanted)
    return split.Unfold(session.id, day, strands, **more)


# ---------------------------------------------------------------------------- fold


def test_what_folds_in_stands_with_its_kind_and_the_rest_goes() -> None:
    program = plan()
    after = split.fold(program, folding(program, "deadlift"))
    for week in range(3):
        assert keys(after, week, 0) == ["back_squat", "deadlift", "leg_curl"]
        assert after.weeks[week].days[3].sessions == ()
    assert broken_laws(after) == ()


@pytest.mark.parametrize(
    ("span", "weeks"),
    [(Span.THIS_WEEK, [1]), (Span.FROM_HERE, [1, 2]), (Span.WHOLE_PROGRAM, [0, 1, 2])],
)
def test_folding_reaches_as_far_as_the_span(span: Span, weeks: list[int]) -> None:
    program = plan()
    after = split.fold(program, folding(program, "deadlift", week=1), span=span)
    assert [w for w in range(3) if not after.weeks[w].days[3].sessions] == weeks


def test_weeks_without_both_sessions_are_left_alone() -> None:
    program = builders.program("Mon: curl | Thu: leg_curl", "Mon: curl")
    after = split.fold(program, folding(program, "leg_curl"))
    assert after.weeks[1] is program.weeks[1]


def test_what_folds_in_comes_in_the_order_asked_and_single() -> None:
    program = builders.program("Mon: plank | Thu: curl pair A, leg_curl pair A, calf_raise")
    after = split.fold(program, folding(program, "calf_raise", "leg_curl", "curl"))
    assert keys(after, 0, 0) == ["plank", "calf_raise", "leg_curl", "curl"]
    assert pairs(after, 0, 0) == ["", "", "", ""]


def test_a_pair_stays_together_when_core_work_comes_first() -> None:
    program = builders.program(
        "Mon: calf_raise, back_squat core pair A, leg_curl pair A | Thu: deadlift core"
    )
    after = split.fold(program, folding(program, "deadlift"))
    assert keys(after, 0, 0) == ["back_squat", "leg_curl", "deadlift", "calf_raise"]
    assert pairs(after, 0, 0) == ["A", "A", "", ""]


def test_core_effort_moves_with_the_number_of_days_unless_it_is_pinned() -> None:
    program = builders.program(
        "Mon: back_squat core RIR 3, front_squat core RIR 3 pin effort, curl RIR 2 | Thu: leg_curl"
    )
    after = split.fold(program, folding(program, core_effort=Rir(1)))
    assert [s.effort for s in after.weeks[0].slots()] == [Rir(1), Rir(3), Rir(2)]


def test_named_sets_are_taken_off_but_not_in_light_weeks_nor_where_pinned() -> None:
    program = plan()
    strand = slot_at(program, 0, 0).strand
    after = split.fold(program, folding(program, "deadlift", sets=((strand, 3),)))
    assert [slot_at(after, w, 0).sets for w in range(3)] == [3, 4, 3]
    held = builders.program("Mon: back_squat 4x10 pin sets | Thu: curl")
    plan_ = folding(held, "curl", sets=((slot_at(held, 0, 0).strand, 3),))
    assert slot_at(split.fold(held, plan_), 0, 0).sets == 4


def test_trimming_never_adds_sets_to_a_week_that_has_fewer() -> None:
    program = builders.program("Mon: curl 5x10 | Thu: leg_curl", "Mon: curl 2x10 | Thu: leg_curl")
    plan_ = folding(program, "leg_curl", sets=((slot_at(program, 0, 0).strand, 4),))
    after = split.fold(program, plan_)
    assert [slot_at(after, w, 0).sets for w in range(2)] == [4, 2]


def test_only_two_sessions_of_one_week_are_folded() -> None:
    program = plan()
    monday = session_id(program, 0, 0)
    for plan_ in (
        split.Fold(monday, monday, ()),
        split.Fold(monday, session_id(program, 1, 3), ()),
    ):
        with pytest.raises(EditError, match=r"Two different sessions.*Choose the second session"):
            split.fold(program, plan_)
    with pytest.raises(EditError, match="session is no longer in the program"):
        split.fold(program, split.Fold(SessionId(9999), monday, ()))


# ---------------------------------------------------------------------------- unfold


@pytest.mark.parametrize(
    ("span", "weeks"),
    [(Span.THIS_WEEK, [0]), (Span.FROM_HERE, [0, 1, 2]), (Span.WHOLE_PROGRAM, [0, 1, 2])],
)
def test_opening_reaches_as_far_as_the_span(span: Span, weeks: list[int]) -> None:
    program = plan()
    after = split.unfold(program, opening(program, "leg_curl", title="Curls"), span=span)
    assert [w for w in range(3) if keys(after, w, 2) == ["leg_curl"]] == weeks
    assert [w for w in range(3) if keys(after, w, 0) == ["back_squat"]] == weeks
    assert {session_at(after, w, 2).title for w in weeks} == {"Curls"}
    assert len({session_at(after, w, 2).strand for w in weeks}) == 1
    assert broken_laws(after) == ()


def test_both_sessions_keep_the_warm_up_and_no_half_pairs() -> None:
    program = builders.program("Mon (band_walk): back_squat core, curl pair A, leg_curl pair A")
    after = split.unfold(program, opening(program, "leg_curl"))
    drills = builders.drills_of("band_walk")
    assert session_at(after, 0, 0).warmup == session_at(after, 0, 2).warmup == drills
    assert pairs(after, 0, 0) == ["", ""]
    assert pairs(after, 0, 2) == [""]


def test_each_of_the_two_keeps_an_exercise() -> None:
    program = plan()
    for wanted in ((), ("back_squat", "leg_curl"), ("deadlift",)):
        with pytest.raises(EditError, match=r"needs at least one exercise\. Choose some, but not"):
            split.unfold(program, opening(program, *wanted))


def test_the_second_session_needs_another_day() -> None:
    program = plan()
    with pytest.raises(EditError, match=r"Monday is where the first session is\. Choose another"):
        split.unfold(program, opening(program, "leg_curl", day=0))


@pytest.mark.parametrize("day", [-1, 7])
def test_the_second_session_needs_a_day_that_is_there(day: int) -> None:
    program = plan()
    with pytest.raises(EditError, match=f"no day number {day}"):
        split.unfold(program, opening(program, "leg_curl", day=day))


def test_a_week_without_both_kinds_of_exercises_is_left_alone() -> None:
    program = builders.program("Mon: back_squat, leg_curl", "Mon: back_squat", "Mon: leg_curl")
    after = split.unfold(program, opening(program, "leg_curl"))
    assert after.weeks[1:] == program.weeks[1:]


def test_folding_what_was_opened_brings_the_exercises_back() -> None:
    program = plan()
    opened = split.unfold(program, opening(program, "leg_curl"))
    back = split.Fold(
        session_id(opened, 0, 2),
        session_id(opened, 0, 0),
        tuple(s.strand for s in session_at(opened, 0, 2).slots),
    )
    assert split.fold(opened, back).weeks == program.weeks


# ---------------------------------------------------------------------------- trimming


def minutes_of(slots: tuple[Slot, ...]) -> float:
    """Three minutes a set: enough of a clock for the rule."""
    return 3.0 * sum(s.sets for s in slots)


def test_assistance_is_trimmed_first_and_the_last_of_it_first() -> None:
    slots = builders.session("back_squat 4x10 core, curl 4x12, leg_curl 4x12").slots
    trimmed = split.trimmed_sets(slots, minutes_of, 30)
    assert trimmed == ((slots[2].strand, 2),)
    assert split.trimmed_sets(slots, minutes_of, 24) == (
        (slots[2].strand, 2),
        (slots[1].strand, 2),
    )
    assert split.trimmed_sets(slots, minutes_of, 21)[-1] == (slots[0].strand, 3)


def test_nothing_is_trimmed_where_it_fits() -> None:
    slots = builders.session("back_squat 4x10 core").slots
    assert split.trimmed_sets(slots, minutes_of, 12) == ()


ROLES = st.sampled_from(tuple(Role))
SLOTS = st.lists(st.tuples(st.integers(1, 20), ROLES, st.booleans()), max_size=6)


@given(SLOTS, st.floats(0, 200))
def test_no_slot_goes_under_two_sets_nor_up_and_pinned_ones_stay(drawn, cap: float) -> None:
    blank = builders.session(", ".join(["curl"] * len(drawn))).slots if drawn else ()
    slots = tuple(
        replace(s, sets=sets, role=role, pinned=frozenset({Field.SETS}) if pin else frozenset())
        for s, (sets, role, pin) in zip(blank, drawn, strict=True)
    )
    changes = dict(split.trimmed_sets(slots, minutes_of, cap))
    after = tuple(replace(s, sets=changes.get(s.strand, s.sets)) for s in slots)
    for old, new in zip(slots, after, strict=True):
        if old.strand in changes:
            assert 2 <= new.sets < old.sets
            assert Field.SETS not in old.pinned
    if minutes_of(after) > cap:  # all that may go has gone
        assert all(s.sets <= 2 or Field.SETS in s.pinned for s in after)


@given(st.lists(ROLES, max_size=8))
def test_ordering_is_stable_and_puts_core_first(roles: list[Role]) -> None:
    blank = builders.session(", ".join(["curl"] * len(roles))).slots if roles else ()
    slots = tuple(replace(s, role=role) for s, role in zip(blank, roles, strict=True))
    core = [s for s in slots if s.role is Role.CORE]
    rest = [s for s in slots if s.role is not Role.CORE]
    assert list(split.ordered(slots)) == core + rest
