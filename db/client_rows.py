"""A client as rows (`client_reading` reads them back)."""

from __future__ import annotations

from collections.abc import Iterable

from app.domain.client import Client, FreeTime, Increments, Place
from db import models
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
LIKES = table_of(models.LikeRow)
TAGS = table_of(models.ClientTagRow)
PLACES = table_of(models.PlaceRow)
PLACE_EQUIPMENT = table_of(models.PlaceEquipmentRow)
PLACE_PLATES = table_of(models.PlacePlateRow)
PLACE_BANDS = table_of(models.PlaceBandRow)
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
    put(rows, LIKES, _each(client, "exercise", client.likes))
    put(rows, TAGS, _each(client, "tag", client.tags))
    for position, place in enumerate(client.places):
        _put_place(rows, client, place, position)
    put(rows, REFERRALS, _in_order(client, "reason", client.refer))
    return rows


def _each(client: Client, name: str, things: Iterable[str]) -> list[Values]:
    return [{"client_id": client.id, name: str(thing)} for thing in things]


def _in_order(client: Client, name: str, things: Iterable[str | float]) -> list[Values]:
    return [
        {"client_id": client.id, "position": position, name: thing}
        for position, thing in enumerate(things)
    ]


def _put_place(rows: Rows, client: Client, place: Place, position: int) -> None:
    key: Values = {"client_id": client.id, "place": position}
    steps = place.increments
    row: Values = {"client_id": client.id, "position": position, "name": place.name}
    put(rows, PLACES, [row | _step_values(steps)])
    put(rows, PLACE_EQUIPMENT, [{**key, "equipment": e.value} for e in place.equipment])
    put(
        rows,
        PLACE_PLATES,
        [{**key, "position": n, "size_kg": size} for n, size in enumerate(steps.plates_kg)],
    )
    put(
        rows,
        PLACE_BANDS,
        [{**key, "position": n, "name": band} for n, band in enumerate(steps.bands)],
    )


def _step_values(increments: Increments) -> Values:
    low, step, high = increments.dumbbells_kg
    return {
        "bar_kg": increments.bar_kg,
        "dumbbell_low_kg": low,
        "dumbbell_step_kg": step,
        "dumbbell_high_kg": high,
        "machine_step_kg": increments.machine_step_kg,
        "cable_step_kg": increments.cable_step_kg,
    }


def _client_row(client: Client) -> Values:
    consent = client.consent
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
        **_step_values(client.increments),
        "stage": client.stage.value,
        "consent_on": None if consent is None else consent.on,
        "consent_note": "" if consent is None else consent.note,
        "keep_until": client.keep_until,
        "language": client.language,
        "paper": client.paper,
        "energy_equation": client.energy_equation,
        "fat_free_kg": client.fat_free_kg,
    }


def _free_times(client: Client) -> list[Values]:
    return [
        {
            "client_id": client.id,
            "day": day,
            "minutes": free.minutes,
            "note": free.note,
            "place": free.place,
        }
        for day, free in enumerate(client.free)
        if free != FreeTime()
    ]


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
            "guessed_from": test.guessed_from,
        }
        for position, test in enumerate(client.tests)
    ]
