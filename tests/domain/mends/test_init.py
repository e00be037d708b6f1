"""Mends settle what they are offered for, and are worked out once."""

from __future__ import annotations

from hypothesis import given
from hypothesis import strategies as st

from app.domain import checks
from app.domain.client import FreeTime, Status
from app.domain.mends import Mender
from tests.builders import CATALOGUE, client, program
from tests.domain.mends.settle import KNEE, context, first, found


def test_findings_without_a_mend_stay_the_same_objects() -> None:
    plan = program("Mon: curl 3x10 rest 30")
    raw = found(plan, client())
    mended = tuple(map(Mender(plan, context(plan, client())).mended, raw))
    assert [one.id for one in mended] == [one.id for one in raw]
    rest = next(one for one in mended if one.rule == "rest")
    assert rest.mend is not None
    assert rest.mend.label == "Rest 1:00"
    assert all(new is old for new, old in zip(mended, raw, strict=True) if new.mend is None)


def test_a_mender_keeps_its_answers() -> None:
    plan = program("Mon: split_squat 3x10")
    who = client(limitations=(KNEE,))
    mender = Mender(plan, context(plan, who))
    finding = first("limitation", plan, who)
    assert mender.mended(finding) is mender.mended(finding)
    later = Mender(plan, mender.context, earlier=mender)
    assert later.mended(finding) == mender.mended(finding)


SLOT = st.tuples(
    st.sampled_from([one.key for one in CATALOGUE if one.key != "band_walk"]),
    st.integers(1, 9),
    st.integers(1, 25),
    st.sampled_from([0, 1, 3, 7]),
    st.sampled_from([20, 75, 150]),
    st.sampled_from(["", "core", "tempo 6-0-6-0"]),
)
DAYS = st.dictionaries(st.sampled_from(["Mon", "Tue", "Wed", "Fri"]), st.lists(SLOT, max_size=4))


@given(DAYS, st.sampled_from([Status.NOVICE, Status.INTERMEDIATE]))
def test_every_mend_that_is_offered_settles_its_finding(
    days: dict[str, list[tuple[str, int, int, int, int, str]]], status: Status
) -> None:
    text = " | ".join(
        f"{day}: "
        + ", ".join(f"{k} {s}x{r} RIR {e} rest {p} {more}" for k, s, r, e, p, more in slots)
        for day, slots in days.items()
    )
    plan = program("", text)
    who = client(
        status=status,
        limitations=(KNEE,),
        free=(FreeTime(45), FreeTime(60), FreeTime(), FreeTime(60), *(FreeTime(40),) * 3),
    )
    memo = checks.Memo()
    for finding in map(Mender(plan, context(plan, who)).mended, found(plan, who, memo)):
        if finding.mend is not None:
            after = found(finding.mend(plan), who, memo)
            assert finding.id not in {one.id for one in after}, finding.mend.label
