"""A diary from the rows that `diary_rows` laid out."""

from __future__ import annotations

import sqlite3

from app.domain.client import ClientId
from app.domain.exercise import ExerciseKey
from app.domain.program import ProgramId, SlotId
from app.domain.results import CheckIn, Diary, Girth, SetDone, Site, SlotResult
from db.errors import missing
from db.reading import date_of, rows_of

Key = tuple[str, str, int]


def read_diary(raw: sqlite3.Connection, client_id: ClientId) -> tuple[Diary, int]:
    """The client's stored diary and its version, in one query a table.

    Raises StoreFailure if there is no client of that id.
    """
    asked = rows_of(raw, "SELECT diary_version FROM clients WHERE id = ?", client_id)
    if not asked:
        raise missing("client", client_id)
    diary = Diary(_check_ins(raw, client_id), _results(raw, client_id))
    return diary, asked[0]["diary_version"]


def _check_ins(raw: sqlite3.Connection, client_id: ClientId) -> tuple[CheckIn, ...]:
    girths: dict[str, list[Girth]] = {}
    for row in rows_of(raw, "SELECT on_date, site, cm FROM girths WHERE client_id = ?", client_id):
        girths.setdefault(row["on_date"], []).append(Girth(Site(row["site"]), row["cm"]))
    pictures: dict[str, list[str]] = {}
    query = "SELECT on_date, name FROM check_in_pictures WHERE client_id = ? ORDER BY position"
    for row in rows_of(raw, query, client_id):
        pictures.setdefault(row["on_date"], []).append(row["name"])
    query = "SELECT * FROM check_ins WHERE client_id = ? ORDER BY on_date"
    return tuple(
        CheckIn(
            on=date_of(row["on_date"]),
            mass_kg=row["mass_kg"],
            kcal=row["kcal"],
            sleep=row["sleep"],
            soreness=row["soreness"],
            mood=row["mood"],
            note=row["note"],
            stress=row["stress"],
            adherence=row["adherence"],
            girths=tuple(girths.get(row["on_date"], ())),
            pictures=tuple(pictures.get(row["on_date"], ())),
        )
        for row in rows_of(raw, query, client_id)
    )


def _results(raw: sqlite3.Connection, client_id: ClientId) -> tuple[SlotResult, ...]:
    # plain tuples and one object a different set: these are the only rows that come in thousands
    sets: dict[Key, list[SetDone]] = {}
    known: dict[tuple[float, int, float | None], SetDone] = {}
    query = (
        "SELECT on_date, program_id, slot_id, load_kg, reps, rir FROM result_sets "
        "WHERE client_id = ? ORDER BY on_date, program_id, slot_id, position"
    )
    for on, program, slot, load_kg, reps, rir in raw.execute(query, (client_id,)):
        values = (load_kg, reps, rir)
        done = known.get(values)
        if done is None:
            done = known[values] = SetDone(load_kg, reps, rir)
        sets.setdefault((on, program, slot), []).append(done)
    query = (
        "SELECT on_date, program_id, slot_id, exercise, note FROM results "
        "WHERE client_id = ? ORDER BY on_date, program_id, slot_id"
    )
    return tuple(
        SlotResult(
            ProgramId(program),
            SlotId(slot),
            ExerciseKey(exercise),
            date_of(on),
            tuple(sets.get((on, program, slot), ())),
            note,
        )
        for on, program, slot, exercise, note in raw.execute(query, (client_id,))
    )
