"""Records carry the fields of their values, and the published schema names them all."""

from __future__ import annotations

import json
from dataclasses import fields
from enum import StrEnum

import pytest

from app import resources
from app.domain import client, exercise, program
from app.domain.effort import PercentOneRm, PercentRepMax, Rir
from app.domain.errors import PlanFileError
from app.exchange.record import EFFORTS, WEEKDAYS, from_record, to_record

SCHEMA = json.loads(resources.text("schema/plan.schema.json"))
DEFS = SCHEMA["$defs"]
RECORDS: dict[str, type] = {
    "client": client.Client,
    "freeTime": client.FreeTime,
    "increments": client.Increments,
    "place": client.Place,
    "limitation": client.Limitation,
    "screening": client.Screening,
    "strengthTest": client.StrengthTest,
    "program": program.Program,
    "week": program.Week,
    "weekday": program.Day,
    "session": program.Session,
    "slot": program.Slot,
    "exercise": exercise.Exercise,
}
WORDS: list[tuple[dict[str, object], type[StrEnum]]] = [
    (DEFS["muscle"], exercise.Muscle),
    (DEFS["pattern"], exercise.Pattern),
    (DEFS["equipment"], exercise.Equipment),
    (DEFS["joint"], exercise.Joint),
    (DEFS["motion"], exercise.Motion),
    (DEFS["client"]["properties"]["sex"], client.Sex),
    (DEFS["client"]["properties"]["status"], client.Status),
    (DEFS["client"]["properties"]["goal"], client.Goal),
    (DEFS["client"]["properties"]["energy_goal"], client.EnergyGoal),
    (DEFS["client"]["properties"]["stage"], client.Stage),
    (DEFS["limitation"]["properties"]["side"], client.Side),
    (DEFS["slot"]["properties"]["role"], program.Role),
    (DEFS["slot"]["properties"]["pinned"]["items"], program.Field),
    (DEFS["exercise"]["properties"]["load_kind"], exercise.LoadKind),
    (DEFS["exercise"]["properties"]["plane"], exercise.Plane),
]


@pytest.mark.parametrize("name", RECORDS)
def test_the_schema_names_every_field_in_its_order(name: str) -> None:
    written = [field.name for field in fields(RECORDS[name]) if field.init]
    assert list(DEFS[name]["properties"]) == written
    assert DEFS[name]["additionalProperties"] is False


@pytest.mark.parametrize(("part", "kind"), WORDS, ids=[kind.__name__ for _, kind in WORDS])
def test_the_schema_names_every_word(part: dict[str, object], kind: type[StrEnum]) -> None:
    assert part["enum"] == [word.value for word in kind]


def test_the_schema_keeps_the_limits_of_the_values() -> None:
    slot = DEFS["slot"]["properties"]
    assert slot["sets"]["maximum"] == program.MAX_SETS
    assert DEFS["reps"]["items"]["maximum"] == program.MAX_SECONDS
    assert DEFS["program"]["properties"]["weeks"]["maxItems"] == program.MAX_WEEKS
    assert list(DEFS["effort"]["properties"]) == list(EFFORTS)
    assert list(DEFS["week"]["properties"]["days"]["properties"]) == list(WEEKDAYS)


@pytest.mark.parametrize(
    ("effort", "record"),
    [
        (Rir(2), {"rir": 2}),
        (PercentOneRm(72.5), {"percent_one_rm": 72.5}),
        (PercentRepMax(95), {"percent_rep_max": 95}),
    ],
)
def test_an_effort_is_named_by_how_it_is_meant(effort: object, record: object) -> None:
    assert to_record(effort) == record


def test_what_has_its_default_is_left_out_and_comes_back() -> None:
    plain = client.Client(client.ClientId("a"), "Jorunn Aske")
    record = to_record(plain)
    assert set(record) == {"id", "name", "free", "equipment"}
    assert from_record(client.Client, record, where="client") == plain


def test_a_law_that_is_broken_is_told_by_its_place() -> None:
    with pytest.raises(PlanFileError) as refused:
        from_record(client.FreeTime, {"minutes": 601}, where="client.free.monday")
    assert refused.value.where == "client.free.monday"
    assert "601" in refused.value.what
