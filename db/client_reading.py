"""A client from the rows that `client_rows` laid out."""

from __future__ import annotations

import sqlite3
from dataclasses import dataclass

from app.domain.client import (
    NO_TIME,
    Client,
    ClientId,
    Consent,
    EnergyGoal,
    FreeTime,
    Goal,
    Increments,
    Limitation,
    Place,
    Screening,
    Sex,
    Side,
    Stage,
    Status,
    StrengthTest,
)
from app.domain.exercise import Equipment, ExerciseKey, Joint, Motion, Muscle
from db.errors import missing
from db.reading import date_of, date_or_none, rows_of


def read_client(raw: sqlite3.Connection, client_id: ClientId) -> tuple[Client, int]:
    """The stored client and its version, in one query a table.

    Raises StoreFailure if there is none of that id.
    """
    row = next(iter(rows_of(raw, "SELECT * FROM clients WHERE id = ?", client_id)), None)
    if row is None:
        raise missing("client", client_id)

    def rows(table: str, order: str = "position") -> list[sqlite3.Row]:
        query = f"SELECT * FROM {table} WHERE client_id = ? ORDER BY {order}"  # noqa: S608
        return rows_of(raw, query, client_id)

    places = rows("places")
    of_places = _of_places(raw, client_id) if places else {}
    parts = _Parts(
        emphasis=tuple(Muscle(r["muscle"]) for r in rows("client_emphasis")),
        free=_free_from(rows("free_times", "day")),
        equipment=frozenset(
            Equipment(r["equipment"]) for r in rows("client_equipment", "equipment")
        ),
        plates_kg=tuple(r["size_kg"] for r in rows("plates")),
        bands=tuple(r["name"] for r in rows("bands")),
        limitations=tuple(map(_limitation, rows("limitations"))),
        screenings=tuple(map(_screening, rows("screenings"))),
        tests=tuple(map(_test, rows("strength_tests"))),
        dislikes=frozenset(ExerciseKey(r["exercise"]) for r in rows("dislikes", "exercise")),
        refer=tuple(r["reason"] for r in rows("referrals")),
        tags=tuple(r["tag"] for r in rows("client_tags", "tag")),
        likes=frozenset(ExerciseKey(r["exercise"]) for r in rows("likes", "exercise")),
        places=tuple(_place(r, of_places.get(r["position"], {})) for r in places),
    )
    return _client(row, parts), row["version"]


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
    tags: tuple[str, ...]
    likes: frozenset[ExerciseKey]
    places: tuple[Place, ...]


def _client(row: sqlite3.Row, parts: _Parts) -> Client:
    return Client(
        id=ClientId(row["id"]),
        name=row["name"],
        born=date_or_none(row["born"]),
        sex=None if row["sex"] is None else Sex(row["sex"]),
        height_cm=row["height_cm"],
        mass_kg=row["mass_kg"],
        status=Status(row["status"]),
        goal=Goal(row["goal"]),
        trained_years=row["trained_years"],
        team=row["team"],
        contact=row["contact"],
        note=row["note"],
        emphasis=parts.emphasis,
        free=parts.free,
        equipment=parts.equipment,
        increments=_increments(row, plates_kg=parts.plates_kg, bands=parts.bands),
        limitations=parts.limitations,
        screenings=parts.screenings,
        tests=parts.tests,
        dislikes=parts.dislikes,
        kcal_now=row["kcal_now"],
        energy_goal=None if row["energy_goal"] is None else EnergyGoal(row["energy_goal"]),
        activity_level=row["activity_level"],
        refer=parts.refer,
        units=row["units"],
        archived=bool(row["archived"]),
        stage=Stage(row["stage"]),
        tags=parts.tags,
        consent=_consent(row),
        keep_until=date_or_none(row["keep_until"]),
        places=parts.places,
        likes=parts.likes,
        language=row["language"],
        paper=row["paper"],
        energy_equation=row["energy_equation"],
        fat_free_kg=row["fat_free_kg"],
    )


def _consent(row: sqlite3.Row) -> Consent | None:
    on = date_or_none(row["consent_on"])
    return None if on is None else Consent(on, row["consent_note"])


def _increments(
    row: sqlite3.Row, *, plates_kg: tuple[float, ...], bands: tuple[str, ...]
) -> Increments:
    return Increments(
        bar_kg=row["bar_kg"],
        plates_kg=plates_kg,
        dumbbells_kg=(row["dumbbell_low_kg"], row["dumbbell_step_kg"], row["dumbbell_high_kg"]),
        machine_step_kg=row["machine_step_kg"],
        cable_step_kg=row["cable_step_kg"],
        bands=bands,
    )


Things = dict[str, list[sqlite3.Row]]
"""What stands at one place: rows by their table, in order."""


def _of_places(raw: sqlite3.Connection, client_id: ClientId) -> dict[int, Things]:
    """What stands at each of the client's places, by its position."""
    found: dict[int, Things] = {}
    for table, order in (
        ("place_equipment", "equipment"),
        ("place_plates", "position"),
        ("place_bands", "position"),
    ):
        query = f"SELECT * FROM {table} WHERE client_id = ? ORDER BY place, {order}"  # noqa: S608
        for row in rows_of(raw, query, client_id):
            found.setdefault(row["place"], {}).setdefault(table, []).append(row)
    return found


def _place(row: sqlite3.Row, things: Things) -> Place:
    return Place(
        name=row["name"],
        equipment=frozenset(Equipment(r["equipment"]) for r in things.get("place_equipment", ())),
        increments=_increments(
            row,
            plates_kg=tuple(r["size_kg"] for r in things.get("place_plates", ())),
            bands=tuple(r["name"] for r in things.get("place_bands", ())),
        ),
    )


def _free_from(rows: list[sqlite3.Row]) -> tuple[FreeTime, ...]:
    days = list(NO_TIME)
    for row in rows:
        days[row["day"]] = FreeTime(row["minutes"], row["note"], row["place"])
    return tuple(days)


def _limitation(row: sqlite3.Row) -> Limitation:
    return Limitation(
        joint=Joint(row["joint"]),
        motion=Motion(row["motion"]),
        side=Side(row["side"]),
        past_degrees=row["past_degrees"],
        since=date_or_none(row["since"]),
        until=date_or_none(row["until"]),
        note=row["note"],
    )


def _screening(row: sqlite3.Row) -> Screening:
    return Screening(
        on=date_of(row["on_date"]),
        active=bool(row["active"]),
        known_disease=bool(row["known_disease"]),
        symptoms=bool(row["symptoms"]),
        pregnant=bool(row["pregnant"]),
        cleared_on=date_or_none(row["cleared_on"]),
        note=row["note"],
    )


def _test(row: sqlite3.Row) -> StrengthTest:
    guess = row["guessed_from"]
    return StrengthTest(
        exercise=ExerciseKey(row["exercise"]),
        on=date_of(row["on_date"]),
        load_kg=row["load_kg"],
        reps=row["reps"],
        rir=row["rir"],
        note=row["note"],
        guessed_from=None if guess is None else ExerciseKey(guess),
    )
