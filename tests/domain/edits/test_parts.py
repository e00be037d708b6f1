"""Finding parts, putting changed ones back, and sharing the rest."""

from __future__ import annotations

from dataclasses import replace

import pytest

from app.domain.edits import parts
from app.domain.errors import EditError
from app.domain.program import Day, SessionId, SlotId, StrandId
from tests import builders
from tests.domain.edits.reading import session_at, slot_at

PLAN = builders.program("Mon: back_squat, leg_curl | Thu: curl", times=3)


def test_a_slot_is_found_where_it_stands() -> None:
    slot = slot_at(PLAN, 1, 0, 1)
    assert parts.locate(PLAN, slot.id) == parts.At(1, 0, 0, 1)
    assert parts.find_slot(PLAN, slot.id) is slot


def test_a_session_is_found_with_its_week_and_day() -> None:
    session = session_at(PLAN, 2, 3)
    assert parts.locate_session(PLAN, session.id) == (2, 3, session)


def test_what_is_gone_is_named_with_a_way_on() -> None:
    with pytest.raises(EditError, match=r"no longer in the program.*undo the last edit"):
        parts.locate(PLAN, SlotId(9999))
    with pytest.raises(EditError, match=r"session is no longer.*undo the last edit"):
        parts.locate_session(PLAN, SessionId(9999))


def test_a_strand_is_looked_up_in_one_week_alone() -> None:
    slot = slot_at(PLAN, 0, 3)
    assert parts.strand_in(PLAN.weeks[2], slot.strand) is slot_at(PLAN, 2, 3)
    assert parts.strand_in(PLAN.weeks[2], StrandId(9999)) is None
    strand = session_at(PLAN, 0, 3).strand
    assert parts.session_in(PLAN.weeks[1], strand) == (3, session_at(PLAN, 1, 3))
    assert parts.session_in(PLAN.weeks[1], StrandId(9999)) is None


def test_an_equal_session_put_back_leaves_the_week_as_it_is() -> None:
    week = PLAN.weeks[0]
    twin = replace(session_at(PLAN, 0, 0))
    assert parts.with_session(week, twin) is week
    assert parts.with_session(week, replace(twin, id=SessionId(9999), note="new")) is week
    assert parts.with_day(week, 0, week.days[0]) is week


def test_only_the_changed_week_is_a_new_object() -> None:
    def louder(week):
        return replace(week, note="test")

    after = parts.map_weeks(PLAN, [1], louder)
    assert [a is b for a, b in zip(after.weeks, PLAN.weeks, strict=True)] == [True, False, True]
    assert parts.map_weeks(PLAN, [0, 1, 2], lambda week: week) is PLAN


def test_a_bare_session_goes_with_its_last_slot_and_a_titled_one_stays() -> None:
    week = PLAN.weeks[0]
    strand = slot_at(PLAN, 0, 3).strand
    assert [s.title for _, s in parts.without_strand(week, strand).sessions()] == ["Mon 1", "Thu 1"]
    bare = parts.with_session(week, replace(session_at(PLAN, 0, 3), title=""))
    assert [d for d, _ in parts.without_strand(bare, strand).sessions()] == [0]


@pytest.mark.parametrize(
    "kept", [{"title": "Legs"}, {"note": "hut"}, {"warmup": builders.drills_of("band_walk")}]
)
def test_a_session_is_bare_only_without_title_note_and_warmup(kept) -> None:
    empty = replace(session_at(PLAN, 0, 3), title="")
    assert parts.is_bare(empty)
    assert not parts.is_bare(replace(empty, **kept))


@pytest.mark.parametrize(
    ("letters", "left"),
    [
        (("A", "A"), ("A", "A")),
        (("A", ""), ("", "")),
        (("A", "", "A"), ("", "", "")),
        (("A", "A", "B"), ("A", "A", "")),
        (("B", "A", "A", "A"), ("", "A", "A", "A")),
        ((), ()),
    ],
)
def test_a_letter_stays_only_beside_another_of_its_pair(letters, left) -> None:
    slots = tuple(replace(builders.slot("curl"), pair=letter) for letter in letters)
    assert tuple(s.pair for s in parts.drop_lone_pairs(slots)) == left


@pytest.mark.parametrize("day", [-1, 7])
def test_there_are_seven_days(day: int) -> None:
    with pytest.raises(EditError, match=rf"no day number {day}\. Days run from 0 to 6"):
        parts.require_day(day)
    assert [parts.require_day(d) for d in (0, 6)] == [0, 6]


@pytest.mark.parametrize("index", [-1, 3])
def test_a_week_that_is_not_there_is_told_with_those_that_are(index: int) -> None:
    with pytest.raises(EditError, match=rf"Ridge season: There is no week {index + 1}\..*1 to 3"):
        parts.require_week(PLAN, index)
    assert parts.require_week(PLAN, 2) is PLAN.weeks[2]


def test_what_came_out_equal_is_the_old_object() -> None:
    again = [replace(week, days=tuple(replace(d) for d in week.days)) for week in PLAN.weeks]
    assert parts.settled(PLAN, again, next_id=PLAN.next_id) is PLAN
    again[0] = replace(again[0], days=(Day(note="rest"), *again[0].days[1:]))
    after = parts.settled(PLAN, again, next_id=PLAN.next_id)
    assert after.weeks[1] is PLAN.weeks[1]
    assert session_at(after, 0, 3) is session_at(PLAN, 0, 3)
