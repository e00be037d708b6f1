"""Finding clients, and what the columns of the roster say."""

from __future__ import annotations

from dataclasses import replace
from datetime import date
from typing import Any

import pytest
from hypothesis import given
from hypothesis import strategies as st

from app.domain.client import ClientId, Stage
from app.domain.due import Need, Standing
from app.ui.roster.finder import Wanted, columns, entries, find, tags_of
from db.roster import RosterLine

TODAY = date(2026, 11, 25)


def line(name: str, *, team: str = "", tags: tuple[str, ...] = (), **standing) -> RosterLine:
    fields: dict[str, Any] = {"screened": TODAY, "stage": Stage.ENQUIRY} | standing
    return RosterLine(ClientId(name.casefold()), name, team, "", None, tags, 0, Standing(**fields))


KNOWN = entries(
    (
        line("Runa Estvik", team="Ombrel Valley"),
        line("Łukasz Aske", tags=("rope",)),
        line("Sigrid Nygård", stage=Stage.ACTIVE),
        line("Jorunn Moe", archived=True, tags=("night", "rope")),
    ),
    TODAY,
)


def names(wanted: Wanted) -> list[str]:
    return [entry.line.name for entry in find(KNOWN, wanted).entries]


@pytest.mark.parametrize(
    ("wanted", "found"),
    [
        (Wanted(), ["Runa Estvik", "Łukasz Aske", "Sigrid Nygård"]),
        (Wanted(archived=True, tag="rope"), ["Łukasz Aske", "Jorunn Moe"]),
        (Wanted("nygard"), ["Sigrid Nygård"]),
        (Wanted("valley runa"), ["Runa Estvik"]),
        (Wanted("ROPE"), ["Łukasz Aske"]),
        (Wanted(stage=Stage.ACTIVE), ["Sigrid Nygård"]),
        (Wanted(due=True), ["Sigrid Nygård"]),
        (Wanted("runa", stage=Stage.ACTIVE), []),
    ],
)
def test_words_and_choices_narrow(wanted: Wanted, found: list[str]) -> None:
    assert names(wanted) == found


@pytest.mark.parametrize(
    ("typed", "name"),
    [("estvk", "Runa Estvik"), ("sigird", "Sigrid Nygård"), ("runa esvtik", "Runa Estvik")],
)
def test_slips_find_names_that_are_alike(typed: str, name: str) -> None:
    found = find(KNOWN, Wanted(typed))
    assert found.alike
    assert found.entries[0].line.name == name


def test_nothing_alike_finds_nobody() -> None:
    assert find(KNOWN, Wanted("qqqqq xxxxx")).entries == ()


def test_tags_are_listed_once_and_sorted() -> None:
    assert tags_of(KNOWN) == ("night", "rope")


def test_columns_say_what_the_line_holds() -> None:
    told = {column.head: column for column in columns(str)}
    active = KNOWN[2]
    assert told["Next"].text(active, TODAY) == "No program yet"
    assert active.next.need is Need.PROGRAM
    assert told["Stage"].text(active, TODAY) == "active"
    assert told["Stage"].text(KNOWN[3], TODAY) == "archived"
    assert told["Tags"].text(KNOWN[3], TODAY) == "night, rope"
    assert told["Last test"].text(active, TODAY) == ""
    tested = replace(active, line=line("x", tested=date(2026, 1, 2)))
    assert told["Last test"].text(tested, TODAY) == "2026-01-02"


def test_the_most_urgent_sorts_first_and_nothing_last() -> None:
    (key,) = (column.key for column in columns(str) if column.head == "Next")
    late = entries((line("late", stage=Stage.ACTIVE, screened=date(2020, 1, 1)),), TODAY)[0]
    never = entries((line("never", screened=None),), TODAY)[0]
    fine = entries((line("fine"),), TODAY)[0]
    assert sorted([fine, late, never], key=key) == [never, late, fine]


@given(st.text(max_size=30))
def test_whatever_is_typed_is_answered(typed: str) -> None:
    found = find(KNOWN, Wanted(typed))
    assert set(found.entries) <= set(KNOWN)
