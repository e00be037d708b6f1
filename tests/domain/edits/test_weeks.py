"""Edits of whole weeks and blocks."""

from __future__ import annotations

from dataclasses import replace

import pytest
from hypothesis import given
from hypothesis import strategies as st

from app.domain.edits import weeks
from app.domain.errors import CoachError, EditError
from app.domain.program import EMPTY_WEEK, MAX_WEEKS, Block, Program, broken_laws
from tests import builders
from tests.domain.edits.reading import keys, session_at, slot_at

BLOCKS = (Block("Base", 2), Block("Build", 2))


def plan() -> Program:
    """Four weeks with a day each, in two blocks."""
    return builders.program(
        "Mon: back_squat 5x10 core, leg_curl 3x12",
        "Tue: curl 4x12",
        "Wed: plank 2x30",
        "Thu: leg_press 1x10",
        blocks=BLOCKS,
    )


def sizes(program: Program) -> list[tuple[str, int]]:
    return [(b.name, b.weeks) for b in program.blocks]


def ids(program: Program) -> list[int]:
    return [week.id for week in program.weeks]


@pytest.mark.parametrize(
    ("after", "at", "blocks"),
    [(-1, 0, [3, 2]), (0, 1, [3, 2]), (1, 2, [3, 2]), (2, 3, [2, 3]), (3, 4, [2, 3])],
)
def test_an_empty_week_joins_the_block_of_the_week_before(after, at, blocks) -> None:
    program = plan()
    grown = weeks.add_week(program, after)
    assert grown.weeks[at].days == EMPTY_WEEK
    assert [size for _, size in sizes(grown)] == blocks
    assert ids(grown)[:at] + ids(grown)[at + 1 :] == ids(program)
    assert broken_laws(grown) == ()


@pytest.mark.parametrize(
    "act",
    [
        lambda p: weeks.add_week(p, 0),
        lambda p: weeks.duplicate_week(p, 0),
        lambda p: weeks.insert_light_week(p, 0),
    ],
)
def test_a_program_has_no_more_than_52_weeks(act) -> None:
    full = builders.program("Mon: curl", times=MAX_WEEKS)
    with pytest.raises(EditError, match=r"has 52 weeks already\. Remove a week first"):
        act(full)


def test_a_copied_week_stands_behind_its_source_with_ids_of_its_own_and_the_same_strands() -> None:
    program = plan()
    after = weeks.duplicate_week(program, 0)
    assert keys(after, 1, 0) == ["back_squat", "leg_curl"]
    assert [s.strand for s in after.weeks[1].slots()] == [s.strand for s in after.weeks[0].slots()]
    assert not {s.id for s in after.weeks[1].slots()} & {s.id for s in after.weeks[0].slots()}
    assert sizes(after) == [("Base", 3), ("Build", 2)]
    assert broken_laws(after) == ()


def test_removed_weeks_shrink_their_blocks_and_empty_blocks_go() -> None:
    program = plan()
    assert sizes(weeks.remove_weeks(program, (0,))) == [("Base", 1), ("Build", 2)]
    after = weeks.remove_weeks(program, (1, 0, 0))
    assert sizes(after) == [("Build", 2)]
    assert after.weeks == program.weeks[2:]


def test_a_program_keeps_at_least_one_week() -> None:
    with pytest.raises(EditError, match=r"Ridge season: A program keeps at least one week\. Clear"):
        weeks.remove_weeks(plan(), range(4))


@given(st.integers(0, 3), st.integers(0, 3))
def test_a_week_moved_and_moved_back_is_the_identity(index: int, to: int) -> None:
    program = plan()
    moved = weeks.move_weeks(program, (index,), to)
    assert moved.weeks[to] is program.weeks[index]
    assert moved.blocks == program.blocks
    assert weeks.move_weeks(moved, (to,), index) == program
    assert (moved is program) is (index == to)


def test_a_cleared_week_is_empty_and_ordinary_and_keeps_its_own_note() -> None:
    program = weeks.set_week_note(weeks.make_light(plan(), 1), 1, note="holiday")
    after = weeks.clear_weeks(program, (1,))
    assert after.weeks[1] == replace(program.weeks[1], days=EMPTY_WEEK, light=False)
    assert weeks.clear_weeks(after, (1,)) is after


def test_filled_weeks_are_copies_of_the_source_and_keep_their_ids() -> None:
    program = plan()
    after = weeks.fill_weeks(program, 0, (0, 2, 3))
    assert [keys(after, w, 0) for w in range(4)] == [
        ["back_squat", "leg_curl"],
        [],
        ["back_squat", "leg_curl"],
        ["back_squat", "leg_curl"],
    ]
    assert ids(after) == ids(program)
    assert keys(after, 2, 2) == [], "what stood there is replaced"
    strands = {session_at(after, w, 0).strand for w in (0, 2, 3)}
    assert len(strands) == 1
    assert broken_laws(after) == ()


def test_a_light_week_has_half_the_sets_but_one_at_least_and_pinned_ones_stay() -> None:
    program = builders.program("Mon: back_squat 5x10 core, leg_curl 3x12 pin sets, curl 1x12")
    after = weeks.make_light(program, 0)
    assert after.weeks[0].light
    assert [s.sets for s in after.weeks[0].slots()] == [2, 3, 1]
    assert [s.reps for s in after.weeks[0].slots()] == [s.reps for s in program.weeks[0].slots()]
    assert weeks.make_light(after, 0).weeks[0] is after.weeks[0]


@given(st.lists(st.integers(1, 20), min_size=1, max_size=5))
def test_a_light_week_never_has_more_than_half_nor_no_set(sets: list[int]) -> None:
    week = builders.week("Mon: " + ", ".join(f"curl {count}x10" for count in sets))
    for before, after in zip(sets, weeks.lightened(week).slots(), strict=True):
        assert after.sets >= 1
        assert after.sets == max(1, before // 2)


def test_ordinary_again_takes_the_sets_of_the_nearest_week_before() -> None:
    program = builders.program(
        "Mon: curl 3x10", "Mon: curl 5x10", "Mon: curl 5x10", "Mon: curl 4x10"
    )
    light = weeks.make_light(program, 2)
    assert slot_at(light, 2, 0).sets == 2
    assert slot_at(weeks.make_ordinary(light, 2), 2, 0).sets == 5
    first = weeks.make_light(program, 0)
    assert slot_at(weeks.make_ordinary(first, 0), 0, 0).sets == 5, "the first week looks ahead"
    assert weeks.make_ordinary(program, 1) is program


def test_ordinary_again_without_another_week_doubles_the_sets() -> None:
    light = builders.program("light | Mon: curl 3x10, leg_curl 2x10 pin sets, plank 15x30")
    after = weeks.make_ordinary(light, 0)
    assert [s.sets for s in after.weeks[0].slots()] == [6, 2, 20]
    assert not after.weeks[0].light


def test_a_light_copy_is_put_behind_the_week() -> None:
    after = weeks.insert_light_week(plan(), 0)
    assert [w.light for w in after.weeks] == [False, True, False, False, False]
    assert [s.sets for s in after.weeks[1].slots()] == [2, 1]
    assert broken_laws(after) == ()


def test_blocks_are_named_parted_and_joined() -> None:
    program = plan()
    assert sizes(weeks.rename_block(program, 1, name=" Peak ")) == [("Base", 2), ("Peak", 2)]
    parted = weeks.start_block(program, 3, name="Peak")
    assert sizes(parted) == [("Base", 2), ("Build", 1), ("Peak", 1)]
    assert sizes(weeks.start_block(program, 2, name="Peak")) == [("Base", 2), ("Peak", 2)]
    assert weeks.join_block(parted, 2) == program
    assert parted.weeks is program.weeks


@pytest.mark.parametrize("number", [0, 2, -1])
def test_the_first_block_has_none_before_it(number: int) -> None:
    with pytest.raises(EditError, match=r"no block before this one\. Join a later block"):
        weeks.join_block(plan(), number)


@pytest.mark.parametrize("number", [2, -1])
def test_a_block_that_is_not_there_is_told_with_those_that_are(number: int) -> None:
    with pytest.raises(EditError, match=rf"no block {number + 1}\. The program has blocks 1 to 2"):
        weeks.rename_block(plan(), number, name="Peak")


def test_a_block_needs_a_name() -> None:
    with pytest.raises(CoachError, match=r"block has no name\. Give it one"):
        weeks.rename_block(plan(), 0, name=" ")
    with pytest.raises(CoachError, match="block has no name"):
        weeks.start_block(plan(), 1, name="")


@pytest.mark.parametrize(
    "act",
    [
        lambda p: weeks.add_week(p, 4),
        lambda p: weeks.duplicate_week(p, 4),
        lambda p: weeks.remove_weeks(p, (4,)),
        lambda p: weeks.move_weeks(p, (4,), 0),
        lambda p: weeks.clear_weeks(p, (4,)),
        lambda p: weeks.fill_weeks(p, 4, (0,)),
        lambda p: weeks.fill_weeks(p, 0, (4,)),
        lambda p: weeks.make_light(p, 4),
        lambda p: weeks.make_ordinary(p, 4),
        lambda p: weeks.start_block(p, 4, name="x"),
        lambda p: weeks.set_week_note(p, 4, note="x"),
    ],
)
def test_a_week_that_is_not_there_is_refused(act) -> None:
    with pytest.raises(EditError, match=r"There is no week 5\. The program has weeks 1 to 4"):
        act(plan())


@given(st.sets(st.integers(0, 3)), st.integers(0, 4))
def test_moved_weeks_stand_side_by_side_and_none_is_lost(indices: set[int], to: int) -> None:
    program = plan()
    if to > 4 - len(indices):
        with pytest.raises(EditError, match="There is no place"):
            weeks.move_weeks(program, sorted(indices), to)
        return
    moved = weeks.move_weeks(program, sorted(indices), to)
    taken = [program.weeks[k] for k in sorted(indices)]
    assert list(moved.weeks[to : to + len(taken)]) == taken
    assert sorted(w.id for w in moved.weeks) == sorted(w.id for w in program.weeks)
    assert moved.blocks == program.blocks
    assert broken_laws(moved) == broken_laws(program)


def test_weeks_moved_to_where_they_are_leave_the_program_itself() -> None:
    program = plan()
    assert weeks.move_weeks(program, (1, 2), 1) is program
    with pytest.raises(EditError):
        weeks.move_weeks(program, (9,), 0)
