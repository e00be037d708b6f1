"""Rules of thumb as a coach reads them."""

from __future__ import annotations

from dataclasses import replace
from datetime import date

import pytest

from app import resources
from app.domain.client import Goal, Status
from app.domain.own_ranges import RULE_NAMES, lines, rule_name, who_text
from app.domain.ranges import Override, Who


def test_every_shipped_rule_and_kind_has_a_name() -> None:
    book = resources.range_book()
    assert set(book.ranges) <= set(RULE_NAMES)
    for line in lines(book):
        assert "_" not in who_text(line.shipped.who), line.shipped.rule


def test_every_shipped_range_is_one_line_and_yes_or_no_cannot_be_changed() -> None:
    book = resources.range_book()
    found = lines(book)
    assert len(found) == sum(len(several) for several in book.ranges.values())
    assert not next(x for x in found if x.shipped.rule == "equipment").changeable
    assert next(x for x in found if x.shipped.rule == "weekly_sets").changeable
    names = [rule_name(line.shipped.rule).casefold() for line in found]
    assert names == sorted(names)


def test_the_newest_own_range_stands_beside_the_shipped_one_of_the_same_people() -> None:
    book = resources.range_book()
    shipped = book.ranges["weekly_sets"][3]
    old = Override(replace(shipped, low=8), by="Mette", on=date(2026, 1, 2), why="seen")
    new = Override(replace(shipped, low=9), by="Mette", on=date(2026, 2, 2), why="seen again")
    found = {x.shipped: x.own for x in lines(book.with_own(old).with_own(new))}
    assert found[shipped].range.low == 9
    assert all(own is None for one, own in found.items() if one is not shipped)


@pytest.mark.parametrize(
    ("who", "text"),
    [
        (Who(), "everybody"),
        (
            Who(status=(Status.NOVICE,), kind=("emphasised",), week_high=6),
            "novice, emphasised muscles, up to week 6 of the plan",
        ),
        (Who(goal=(Goal.STRENGTH,), age_low=40, age_high=64), "for strength, 40 to 64 years old"),
        (Who(age_low=65), "from 65 years old"),
        (Who(week_low=3), "from week 3 of the plan"),
    ],
)
def test_people_are_told_in_words(who: Who, text: str) -> None:
    assert who_text(who) == text
