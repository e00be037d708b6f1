"""Every field of a client has its column, and comes back from it."""

from __future__ import annotations

from dataclasses import fields

import pytest
from hypothesis import given

from app.domain.client import (
    Client,
    FreeTime,
    Increments,
    Limitation,
    Place,
    Screening,
    StrengthTest,
)
from db.client_rows import (
    CLIENTS,
    DISLIKES,
    EQUIPMENT,
    FREE_TIMES,
    LIKES,
    LIMITATIONS,
    PLACE_BANDS,
    PLACE_EQUIPMENT,
    PLACE_PLATES,
    PLACES,
    SCREENINGS,
    TAGS,
    TESTS,
    client_rows,
)
from tests.db.samples import RUNA
from tests.strategies import clients

ELSEWHERE = {
    "emphasis",
    "free",
    "equipment",
    "increments",
    "limitations",
    "screenings",
    "tests",
    "dislikes",
    "refer",
    "consent",
    "tags",
    "places",
    "likes",
}
"""Fields of a client that have tables of their own."""


def names(kind: type) -> set[str]:
    return {field.name for field in fields(kind)}


def columns(table) -> set[str]:
    return {column.name for column in table.columns} - {"client_id", "position"}


def test_a_client_has_a_column_or_a_table_for_every_field():
    dumbbells = {"dumbbell_low_kg", "dumbbell_step_kg", "dumbbell_high_kg"}
    increments = names(Increments) - {"plates_kg", "bands", "dumbbells_kg"} | dumbbells
    consent = {"consent_on", "consent_note"}
    versions = {"version", "diary_version"}
    assert columns(CLIENTS) == names(Client) - ELSEWHERE | increments | consent | versions


def test_a_place_has_a_column_or_a_table_for_every_field():
    dumbbells = {"dumbbell_low_kg", "dumbbell_step_kg", "dumbbell_high_kg"}
    increments = names(Increments) - {"plates_kg", "bands", "dumbbells_kg"} | dumbbells
    assert columns(PLACES) == names(Place) - {"equipment", "increments"} | increments
    rows = client_rows(RUNA)
    assert [len(rows[table]) for table in (PLACE_EQUIPMENT, PLACE_PLATES, PLACE_BANDS)] == [2, 1, 2]


@pytest.mark.parametrize(
    ("kind", "table"),
    [(Limitation, LIMITATIONS), (Screening, SCREENINGS), (StrengthTest, TESTS)],
)
def test_a_part_of_a_client_has_a_column_for_every_field(kind, table):
    renamed = {"on": "on_date"}
    assert columns(table) == {renamed.get(name, name) for name in names(kind)}


def test_days_without_time_or_note_have_no_row():
    assert names(FreeTime) | {"day"} == columns(FREE_TIMES)
    assert [row["day"] for row in client_rows(RUNA)[FREE_TIMES].values()] == [0, 2]


@given(clients)
def test_sets_have_a_row_for_each_member(client):
    rows = client_rows(client)
    assert {row["equipment"] for row in rows[EQUIPMENT].values()} == set(client.equipment)
    assert {row["exercise"] for row in rows[DISLIKES].values()} == set(client.dislikes)
    assert {row["exercise"] for row in rows[LIKES].values()} == set(client.likes)
    assert [row["tag"] for row in rows[TAGS].values()] == list(client.tags)
