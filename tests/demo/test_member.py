"""A member's table becomes a client and a plan by the edits a coach would make."""

from __future__ import annotations

from typing import Any

import pytest

from app import resources
from app.demo.member import Member, member_from
from app.domain.effort import Rir
from app.domain.errors import EditError, PlanFileError
from app.domain.program import Field, broken_laws


def plain(**changes: Any) -> dict[str, Any]:
    table: dict[str, Any] = {
        "client": {"id": "ask", "name": "Ask Elverum", "free": {"monday": {"minutes": 60}}},
        "program": {
            "id": "p",
            "name": "Four weeks",
            "start": "2026-10-12",
            "emphasis": ["gluteals"],
            "blocks": [["One", 2], ["Two", 2]],
            "light": [2],
        },
        "sessions": [
            {
                "title": "Legs",
                "day": "Mon",
                "slots": [
                    ["hip_thrust", 4, 10, 2, "core"],
                    ["leg_extension", 3, 12, 2, "assistance"],
                    ["seated_leg_curl", 3, 12, 2, "assistance"],
                ],
            }
        ],
        "progression": [{"reps": [12, 9], "rir": [3, 1]}],
    }
    return table | changes


def read(table: dict[str, Any]) -> Member:
    return member_from(
        table,
        source="ask.toml",
        catalogue=resources.catalogue(),
        ranges=resources.range_book(),
    )


def test_a_plan_follows_its_table() -> None:
    program = read(
        plain(
            pairs=[["leg_extension", "seated_leg_curl"]],
            swaps=[[3, "seated_leg_curl", "lying_leg_curl"]],
            sets=[[1, "hip_thrust", 1]],
            by_hand=[[4, "hip_thrust", "load", 80]],
            notes=[[1, "hip_thrust", "Pause on top."]],
        )
    ).program
    assert broken_laws(program) == ()
    assert [(b.name, b.weeks) for b in program.blocks] == [("One", 2), ("Two", 2)]
    thrusts = [next(w.slots()) for w in program.weeks]
    assert [s.reps.low for s in thrusts] == [12, 11, 10, 9]
    assert [s.sets for s in thrusts] == [5, 2, 5, 5]
    assert thrusts[0].effort == Rir(3)
    assert thrusts[3].effort == Rir(1)
    assert thrusts[3].load_kg == 80
    assert Field.LOAD in thrusts[3].pinned
    assert thrusts[2].note == "Pause on top."
    assert [w.light for w in program.weeks] == [False, True, False, False]
    last = list(program.weeks[3].slots())
    assert [s.exercise for s in last] == ["hip_thrust", "leg_extension", "lying_leg_curl"]
    assert [s.pair for s in last] == ["", "A", "A"]


def test_a_client_without_a_program_has_none() -> None:
    assert read({"client": {"id": "ask", "name": "Ask Elverum"}}).program is None


def test_a_finding_is_accepted_with_its_reason() -> None:
    table = plain(accept=[{"rule": "equipment", "about": "hip_thrust", "reason": "On its way."}])
    accepted = read(table).program.accepted
    assert len(accepted) == 4
    assert {one.reason for one in accepted} == {"On its way."}


def test_broken_data_is_refused() -> None:
    with pytest.raises(PlanFileError, match="ask.toml, client.free.monday"):
        read({"client": {"id": "a", "name": "A", "free": {"monday": {"minutes": 1000}}}})
    with pytest.raises(EditError, match="paired"):
        read(plain(pairs=[["hip_thrust", "seated_leg_curl"]]))
