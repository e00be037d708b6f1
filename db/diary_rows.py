"""A diary as rows (`diary_reading` reads them back).

A diary has thousands of rows and a save changes a handful, so only what differs is laid out.
"""

from __future__ import annotations

from collections.abc import Iterable

from app.domain.client import ClientId
from app.domain.results import CheckIn, Diary, SlotResult
from db import diary_models as models
from db.rows import Rows, Values, put, table_of

CHECK_INS = table_of(models.CheckInRow)
GIRTHS = table_of(models.GirthRow)
PICTURES = table_of(models.CheckInPictureRow)
RESULTS = table_of(models.ResultRow)
RESULT_SETS = table_of(models.ResultSetRow)


def diary_rows(client_id: ClientId, diary: Diary) -> Rows:
    """Every row of a diary."""
    return _rows(client_id, diary.check_ins, diary.results)


def changed_diary_rows(client_id: ClientId, before: Diary, after: Diary) -> tuple[Rows, Rows]:
    """The rows of the check-ins and results that differ, as they were and as they are to be."""
    days_before = {one.on: one for one in before.check_ins}
    days_after = {one.on: one for one in after.check_ins}
    done_before = {one.key: one for one in before.results}
    done_after = {one.key: one for one in after.results}
    old = _rows(
        client_id,
        [one for day, one in days_before.items() if days_after.get(day) != one],
        [one for key, one in done_before.items() if done_after.get(key) != one],
    )
    new = _rows(
        client_id,
        [one for day, one in days_after.items() if days_before.get(day) != one],
        [one for key, one in done_after.items() if done_before.get(key) != one],
    )
    return old, new


def _rows(client_id: ClientId, check_ins: Iterable[CheckIn], results: Iterable[SlotResult]) -> Rows:
    rows: Rows = {}
    for check_in in check_ins:
        _put_check_in(rows, client_id, check_in)
    for result in results:
        _put_result(rows, client_id, result)
    return rows


def _put_check_in(rows: Rows, client_id: ClientId, check_in: CheckIn) -> None:
    key: Values = {"client_id": client_id, "on_date": check_in.on}
    row: Values = {
        **key,
        "mass_kg": check_in.mass_kg,
        "kcal": check_in.kcal,
        "sleep": check_in.sleep,
        "soreness": check_in.soreness,
        "mood": check_in.mood,
        "stress": check_in.stress,
        "adherence": check_in.adherence,
        "note": check_in.note,
    }
    put(rows, CHECK_INS, [row])
    put(rows, GIRTHS, [{**key, "site": g.site.value, "cm": g.cm} for g in check_in.girths])
    put(
        rows,
        PICTURES,
        [
            {**key, "position": position, "name": name}
            for position, name in enumerate(check_in.pictures)
        ],
    )


def _put_result(rows: Rows, client_id: ClientId, result: SlotResult) -> None:
    key: Values = {
        "client_id": client_id,
        "on_date": result.on,
        "program_id": result.program,
        "slot_id": result.slot,
    }
    put(rows, RESULTS, [{**key, "exercise": result.exercise, "note": result.note}])
    put(
        rows,
        RESULT_SETS,
        [
            {**key, "position": p, "load_kg": done.load_kg, "reps": done.reps, "rir": done.rir}
            for p, done in enumerate(result.sets)
        ],
    )
