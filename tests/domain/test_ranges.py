"""Ranges: what they hold, for whom, and how they are read from data."""

from __future__ import annotations

from dataclasses import replace
from datetime import date
from typing import Any

import pytest

from app.domain.client import Goal, Status
from app.domain.errors import ResourceError
from app.domain.ranges import Override, Range, RangeBook, Who, range_book_from_mappings

SETS = {"low": 12, "high": 20, "unit": "sets", "source": "bazvalle2022"}


OWN = Range("weekly_sets", 9, 15, "sets", "common practice")


def override(own: Range) -> Override:
    return Override(own, "Tavi Hellmark", date(2026, 11, 2), "small room")


def book(*entries: dict[str, object]) -> RangeBook:
    return range_book_from_mappings([{"weekly_sets": list(entries)}])


def sought(one: RangeBook, **options: object) -> Range | None:
    fields: dict[str, object] = {"goal": Goal.HYPERTROPHY, **options}
    return one.find("weekly_sets", Status.INTERMEDIATE, **fields)  # type: ignore[arg-type]


def test_both_ends_belong_to_the_range() -> None:
    band = Range("weekly_sets", 12, 20, "sets", "bazvalle2022")
    assert [value in band for value in (11.9, 12, 20, 20.1)] == [False, True, True, False]
    assert (band.short_by(10), band.over_by(10)) == (2, 0)
    assert (band.short_by(23), band.over_by(23)) == (0, 3)


@pytest.mark.parametrize(
    ("low", "high", "text"),
    [(12, 20, "12–20"), (4, None, "from 4"), (None, 60, "up to 60"), (2, 2, "2"), (None, None, "")],
)
def test_a_range_is_told_in_words(low: float | None, high: float | None, text: str) -> None:
    assert Range("weekly_sets", low, high, "sets", "common practice").text == text


def test_the_most_precise_range_is_found() -> None:
    one = book(
        SETS,
        SETS | {"low": 8, "who": {"status": ["intermediate"], "week_high": 6}},
        SETS | {"low": 10, "who": {"status": ["intermediate"]}},
    )
    assert [r.low for w in (6, 7) if (r := sought(one, week=w))] == [8, 10]


def test_ages_and_kinds_are_told_apart() -> None:
    one = book(SETS | {"who": {"age_low": 65, "kind": ["other"]}})
    assert sought(one, age=64, kind="other") is None
    assert sought(one, age=65, kind="other") is not None
    assert sought(one, age=65, kind="emphasised") is None
    assert sought(one, kind="other") is None  # an unknown age is in no age band


def test_the_coachs_own_range_stands_on_top() -> None:
    own = Range("weekly_sets", 9, 15, "sets", "common practice")
    changed = book(SETS).with_own(Override(own, "Tavi Hellmark", date(2026, 11, 2), "small room"))
    found = sought(changed)
    assert found is not None
    assert (found.low, found.own) == (9, True)
    assert changed.overrides[0].why == "small room"


def test_the_newest_of_the_coachs_own_holds_until_it_is_taken_back() -> None:
    own = Range("weekly_sets", 9, 15, "sets", "common practice")
    changed = book(SETS)
    for low in (9, 10):
        changed = changed.with_own(
            Override(replace(own, low=low), "Tavi Hellmark", date(2026, 11, low), "small room")
        )
    assert [
        r.low
        for one in (changed, changed.without_own("weekly_sets", own.who))
        if (r := sought(one))
    ] == [10, 12]
    assert changed.without_own("rest", own.who).overrides == changed.overrides


def test_the_coachs_own_range_for_everybody_stands_before_a_more_precise_shipped_one() -> None:
    one = book(SETS, SETS | {"low": 8, "who": {"status": ["intermediate"]}})
    for_all = replace(OWN, low=9, high=15)
    for_older = replace(OWN, low=3, high=5, who=Who(age_low=65))
    changed = one.with_own(override(for_all)).with_own(override(for_older))
    assert [r.low for age in (30, 70) if (r := sought(changed, age=age))] == [9, 3]
    back = changed.with_own(override(for_all))
    assert [r.low for age in (30, 70) if (r := sought(back, age=age))] == [9, 3]


def test_the_coachs_own_range_for_others_leaves_the_shipped_one_in_force() -> None:
    changed = book(SETS).with_own(override(replace(OWN, who=Who((Status.NOVICE,)))))
    found = sought(changed)
    assert found is not None
    assert (found.low, found.own) == (12, False)


@pytest.mark.parametrize(
    ("fields", "said"),
    [
        ({"low": 20.0, "high": 10.0}, "low 20 lies above high 10"),
        ({"low": float("nan")}, "low nan is no number"),
        ({"high": float("inf")}, "high inf is no number"),
        ({"low": None, "high": None}, "Both ends are open"),
        ({"source": " "}, "The source is missing"),
        ({"unit": ""}, "The unit is missing"),
        ({"rule": "weekly_set"}, "no rule 'weekly_set'. Did you mean 'weekly_sets'"),
        ({"rule": "zzz"}, "no rule 'zzz'. Choose one that is shipped"),
    ],
)
def test_an_own_range_that_cannot_hold_is_refused(fields: dict[str, Any], said: str) -> None:
    with pytest.raises(ResourceError, match=f"own range for .*{said}"):
        book(SETS).with_own(override(replace(OWN, **fields)))


def test_an_own_range_says_who_set_it_and_why() -> None:
    nobody, for_nothing = replace(override(OWN), by=""), replace(override(OWN), why=" ")
    with pytest.raises(ResourceError, match="The name of who sets it is missing"):
        book(SETS).with_own(nobody)
    with pytest.raises(ResourceError, match="The reason is missing"):
        book(SETS).with_own(for_nothing)


def test_an_unknown_rule_has_no_range() -> None:
    assert RangeBook({}).find("rest", Status.NOVICE, goal=Goal.HEALTH) is None


def test_entries_of_several_tables_are_joined() -> None:
    one = range_book_from_mappings([{"weekly_sets": [SETS]}, {"weekly_sets": [SETS], "rest": []}])
    assert len(one.ranges["weekly_sets"]) == 2


def test_conditions_are_read() -> None:
    (found,) = book(
        SETS
        | {
            "who": {"status": ["novice"], "goal": ["health"], "kind": ["other"], "age_high": 17},
            "note": "young people",
            "weight": "remark",
            "reason": "They grow anyway.",
        }
    ).ranges["weekly_sets"]
    assert found.who == Who((Status.NOVICE,), (Goal.HEALTH,), ("other",), age_high=17)
    assert (found.note, found.weight, found.reason) == (
        "young people",
        "remark",
        "They grow anyway.",
    )


@pytest.mark.parametrize(
    ("entry", "said"),
    [
        (SETS | {"lower": 3}, "'lower' is unknown"),
        (SETS | {"low": "12"}, "low '12' is no number"),
        (SETS | {"low": True}, "low True is no number"),
        (SETS | {"low": 30}, "low 30 lies above high 20"),
        (SETS | {"unit": 3}, "unit 3 is no text"),
        (SETS | {"weight": "severe"}, "'severe' is no weight"),
        (SETS | {"who": {"state": ["novice"]}}, "who has no 'state'"),
        (SETS | {"who": {"status": ["beginner"]}}, "'beginner' is not a valid Status"),
        (SETS | {"who": "novices"}, "who is not a table"),
        ({"low": 3, "unit": "sets"}, "A unit or a source is missing"),
    ],
)
def test_a_broken_entry_is_refused_by_name(entry: dict[str, object], said: str) -> None:
    with pytest.raises(ResourceError, match="weekly_sets, entry 1") as caught:
        book(entry)
    assert said in caught.value.what


def test_a_rule_that_is_no_list_is_refused() -> None:
    with pytest.raises(ResourceError, match="not a list"):
        range_book_from_mappings([{"weekly_sets": SETS}])
