"""Names of fields: what is written is what is read."""

from __future__ import annotations

import pytest
from hypothesis import given
from hypothesis import strategies as st

from app.domain.form_names import SetPlace, What, day_name, read_day_name, read_set_name
from app.domain.program import MAX_SETS, MAX_WEEKS, SessionId, SlotId

IDS = st.integers(1, 999_999_999)


@given(st.integers(1, MAX_WEEKS), IDS, IDS, st.integers(1, MAX_SETS), st.sampled_from(What))
def test_a_name_is_read_back(week, session, slot, number, what):
    place = SetPlace(week, SessionId(session), SlotId(slot), number)
    assert read_set_name(place.field(what)) == (place, what)
    assert read_day_name(day_name(week, SessionId(session))) == (week, session)


@pytest.mark.parametrize(
    "name",
    [
        "",
        "w3.s12.slot45.set1.load",
        "w03.s12.slot45.set0.load",
        "w03.s12.slot45.set21.load",
        "w03.s12.slot45.set1.mass",
        "w03.s12.slot45.set1.load.more",
        "w\u0663\u0663.s1.slot1.set1.load",
        "w03.s1234567890.slot1.set1.load",
    ],
)
def test_other_names_are_not_ours(name: str):
    assert read_set_name(name) is None
    assert read_day_name(name) is None
