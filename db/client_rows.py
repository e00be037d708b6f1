"""A client as rows, and back."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass
from typing import Any

from sqlalchemy import Connection, Row, Select, Table, select

from app.domain.client import (
    NO_TIME,
    Client,
    ClientId,
    EnergyGoal,
    FreeTime,
    Goal,
    Increments,
    Limitation,
    Screening,
    Sex,
    Side,
    Status,
    StrengthTest,
)
from app.domain.exercise import Equipment, ExerciseKey, Joint, Motion, Muscle
from db import models
from db.errors import missing
from db.rows import Rows, Values, put, table_of

CLIENTS = table_of(models.ClientRow)
EMPHASIS = table_of(models.ClientEmphasisRow)
FREE_TIMES = table_of(models.FreeTimeRow)
EQUIPMENT = table_of(models.ClientEquipmentRow)
PLATES = table_of(models.PlateRow)
BANDS = table_of(models.BandRow)
LIMITATIONS = table_of(models.LimitationRow)
SCREENINGS = table_of(models.ScreeningRow)
TESTS = table_of(models.StrengthTestRow)
DISLIKES = table_of(models.DislikeRow)
REFERRALS = table_of(models.ReferralRow)


def client_rows(client: Client) -> Rows:
    """Every row of a client (its programs apart)."""
    rows: Rows = {}
    put(rows, CLIENTS, [_client_row(client)])
    put(rows, EMPHASIS, _in_order(client, "muscle", client.emphasis))
    put(rows, FREE_TIMES, _free_times(client))
    put(rows, EQUIPMENT, _each(client, "equipment", client.equipment))
    put(rows, PLATES, _in_order(client, "size_kg", client.increments.plates_kg))
    put(rows, BANDS, _in_order(client, "name", client.increments.bands))
    put(rows, LIMITATIONS, _limitation_rows(client))
    put(rows, SCREENINGS, _screening_rows(client))
    put(rows, TESTS, _test_rows(client))
    put(rows, DISLIKES, _each(client, "exercise", client.dislikes))
    put(rows, REFERRALS, _in_order(client, "reason", client.refer))
    return rows


def read_client(connection: Connection, client_id: ClientId) -> tuple[Client, int]:
    """The stored client and its version, in one query a table.

    Raises StoreFailure if there is none of that id.
    """
    row = connection.execute(_of(CLIENTS, CLIENTS.c.id == client_id)).one_or_none()
    if row is None:
        raise missing("client", client_id)

    def rows(table: Table) -> list[Row[Any]]:
        keys = tuple(table.primary_key.columns)
        return list(connection.execute(_of(table, table.c.client_id == client_id).order_by(*keys)))

    parts = _Parts(
        emphasis=tuple(Muscle(r.muscle) for r in rows(EMPHASIS)),
        free=_free_from(rows(FREE_TIMES)),
        equipment=frozenset(Equipment(r.equipment) for r in rows(EQUIPMENT)),
        plates_kg=tuple(r.size_kg for r in rows(PLATES)),
        bands=tuple(r.name for r in rows(BANDS)),
        limitations=tuple(map(_limitation, rows(LIMITATIONS))),
        screenings=tuple(map(_screening, rows(SCREENINGS))),
        tests=tuple(map(_test, rows(TESTS))),
        dislikes=frozenset(ExerciseKey(r.exercise) for r in rows(DISLIKES)),
        refer=tuple(r.reason for r in rows(REFERRALS)),
    )
    return _client(row, parts), row.version


@dataclass(frozen=True, slots=True)
class _Parts:
    emphasis: tuple[Muscle, ...]
    free: tuple[FreeTime, ...]
    equipment: frozenset[Equipment]
    plates_kg: tuple[float, ...]
    bands: tuple[str, ...]
    limitations: tuple[Limitation, ...]
    screenings: tuple[Screening, ...]
    tests: tuple[StrengthTest, ...]
    dislikes: frozenset[ExerciseKey]
    refer: tuple[str, ...]


def _of(table: Table, condition: Any) -> Select[Any]:
    return select(table).where(condition)


def _each(client: Client, name: str, things: Iterable[str]) -> list[Values]:
    return [{"client_id": client.id, name: str(thing)} for thing in things]


def _in_order(client: Client, name: str, things: Iterable[str | float]) -> list[Values]:
    return [
        {"client_id": client.id, "position": position, name: thing}
        for position, thing in enumerate(things)
    ]


def _client_row(client: Client) -> Values:
    low, step, high = client.increments.dumbbells_kg
    return {
        "id": client.id,
        "name": client.name,
        "born": client.born,
        "sex": None if client.sex is None else client.sex.value,
        "height_cm": client.height_cm,
        "mass_kg": client.mass_kg,
        "status": client.status.value,
        "goal": client.goal.value,
        "trained_years": client.trained_years,
        "team": client.team,
        "contact": client.contact,
        "note": client.note,
        "kcal_now": client.kcal_now,
        "energy_goal": None if client.energy_goal is None else client.energy_goal.value,
        "activity_level": client.activity_level,
        "units": client.units,
        "archived": client.archived,
        "bar_kg": client.increments.bar_kg,
        "dumbbell_low_kg": low,
        "dumbbell_step_kg": step,
        "dumbbell_high_kg": high,
        "machine_step_kg": client.increments.machine_step_kg,
        "cable_step_kg": client.increments.cable_step_kg,
    }


def _client(row: Row[Any], parts: _Parts) -> Client:
    return Client(
        id=ClientId(row.id),
        name=row.name,
        born=row.born,
        sex=None if row.sex is None else Sex(row.sex),
        height_cm=row.height_cm,
        mass_kg=row.mass_kg,
        status=Status(row.status),
        goal=Goal(row.goal),
        trained_years=row.trained_years,
        team=row.team,
        contact=row.contact,
        note=row.note,
        emphasis=parts.emphasis,
        free=parts.free,
        equipment=parts.equipment,
        increments=Increments(
            bar_kg=row.bar_kg,
            plates_kg=parts.plates_kg,
            dumbbells_kg=(row.dumbbell_low_kg, row.dumbbell_step_kg, row.dumbbell_high_kg),
            machine_step_kg=row.machine_step_kg,
            cable_step_kg=row.cable_step_kg,
            bands=parts.bands,
        ),
        limitations=parts.limitations,
        screenings=parts.screenings,
        tests=parts.tests,
        dislikes=parts.dislikes,
        kcal_now=row.kcal_now,
        energy_goal=None if row.energy_goal is None else EnergyGoal(row.energy_goal),
        activity_level=row.activity_level,
        refer=parts.refer,
        units=row.units,
        archived=row.archived,
    )


def _free_times(client: Client) -> list[Values]:
    return [
        {"client_id": client.id, "day": day, "minutes": free.minutes, "note": free.note}
        for day, free in enumerate(client.free)
        if free != FreeTime()
    ]


def _free_from(rows: list[Row[Any]]) -> tuple[FreeTime, ...]:
    days = list(NO_TIME)
    for row in rows:
        days[row.day] = FreeTime(row.minutes, row.note)
    return tuple(days)


def _limitation_rows(client: Client) -> list[Values]:
    return [
        {
            "client_id": client.id,
            "position": position,
            "joint": limitation.joint.value,
            "motion": limitation.motion.value,
            "side": limitation.side.value,
            "past_degrees": limitation.past_degrees,
            "since": limitation.since,
            "until": limitation.until,
            "note": limitation.note,
        }
        for position, limitation in enumerate(client.limitations)
    ]


def _limitation(row: Row[Any]) -> Limitation:
    return Limitation(
        joint=Joint(row.joint),
        motion=Motion(row.motion),
        side=Side(row.side),
        past_degrees=row.past_degrees,
        since=row.since,
        until=row.until,
        note=row.note,
    )


def _screening_rows(client: Client) -> list[Values]:
    return [
        {
            "client_id": client.id,
            "position": position,
            "on_date": screening.on,
            "active": screening.active,
            "known_disease": screening.known_disease,
            "symptoms": screening.symptoms,
            "pregnant": screening.pregnant,
            "cleared_on": screening.cleared_on,
            "note": screening.note,
        }
        for position, screening in enumerate(client.screenings)
    ]


def _screening(row: Row[Any]) -> Screening:
    return Screening(
        on=row.on_date,
        active=row.active,
        known_disease=row.known_disease,
        symptoms=row.symptoms,
        pregnant=row.pregnant,
        cleared_on=row.cleared_on,
        note=row.note,
    )


def _test_rows(client: Client) -> list[Values]:
    return [
        {
            "client_id": client.id,
            "position": position,
            "exercise": test.exercise,
            "on_date": test.on,
            "load_kg": test.load_kg,
            "reps": test.reps,
            "rir": test.rir,
            "note": test.note,
        }
        for position, test in enumerate(client.tests)
    ]


def _test(row: Row[Any]) -> StrengthTest:
    return StrengthTest(
        exercise=ExerciseKey(row.exercise),
        on=row.on_date,
        load_kg=row.load_kg,
        reps=row.reps,
        rir=row.rir,
        note=row.note,
    )
