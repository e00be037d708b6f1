"""All that is held on one client, packed: JSON with a published schema, tables, a README, the PDF.

person.json         everything, as `resources/schema/person.schema.json` describes it
everything.pdf      the same to read
csv/*.csv           results, check-ins and strength tests for a spreadsheet
pictures/*          the pictures of check-ins
*.schema.json       the published schemas
README.txt          what the fields mean
"""

from __future__ import annotations

import io
import zipfile
from collections.abc import Iterable, Iterator, Mapping
from typing import Any

from app.domain.exercise import Catalogue, ExerciseKey
from app.domain.holding import Holding
from app.domain.results import Site, SlotResult
from app.exchange.json_text import write_json
from app.exchange.record import to_record
from app.exchange.tables.csv_file import write_csv
from app.exchange.tables.table import Row, Table

FORMAT = "weekloom person"
VERSION = 1
SUFFIX = ".held.zip"
_TIME = (2026, 1, 1, 0, 0, 0)


def person_record(holding: Holding) -> dict[str, Any]:
    """The record of everything, as the published schema describes it."""
    return {
        "format": FORMAT,
        "version": VERSION,
        "on": holding.on.isoformat(),
        "coach": to_record(holding.coach),
        "client": to_record(holding.client),
        "programs": to_record(holding.programs),
        "diary": {
            "check_ins": to_record(holding.diary.check_ins),
            "results": to_record(holding.diary.results),
        },
        "issues": to_record(holding.issues),
        "exercises": to_record(holding.exercises),
        "edits": to_record(holding.edits),
    }


def tables(holding: Holding, catalogue: Catalogue) -> dict[str, Table]:
    """Results, check-ins and strength tests as tables, by the names of their files.

    The heads are those of the JSON, so that one README explains both.
    """
    named = {exercise.key: exercise.name for exercise in holding.exercises}

    def name(key: ExerciseKey) -> str:
        return named.get(key) or (catalogue[key].name if key in catalogue else str(key))

    results = tuple(row for one in holding.diary.results for row in _sets(one, name(one.exercise)))
    check_ins = tuple(
        (
            *(c.on, c.mass_kg, c.kcal, c.sleep, c.soreness, c.mood, c.stress, c.adherence),
            *(next((g.cm for g in c.girths if g.site is site), None) for site in Site),
            " ".join(c.pictures),
            c.note,
        )
        for c in holding.diary.check_ins
    )
    tests = tuple(
        (t.on, t.exercise, name(t.exercise), t.load_kg, t.reps, t.rir, t.guessed_from, t.note)
        for t in holding.client.tests
    )
    measures = ("on", "mass_kg", "kcal", "sleep", "soreness", "mood", "stress", "adherence")
    girths = tuple(f"{site.value}_cm" for site in Site)
    placed = ("on", "program", "slot", "exercise", "exercise_name", "set")
    tested = ("on", "exercise", "exercise_name", "load_kg", "reps", "rir", "guessed_from", "note")
    return {
        "results": Table("results", (*placed, "load_kg", "reps", "rir", "note"), results),
        "check_ins": Table("check_ins", (*measures, *girths, "pictures", "note"), check_ins),
        "strength_tests": Table("strength_tests", tested, tests),
    }


def _sets(result: SlotResult, name: str) -> Iterator[Row]:
    """A row for each set; one without a set for what was left out."""
    start: Row = (result.on, result.program, result.slot, result.exercise, name)
    if not result.sets:
        yield (*start, None, None, None, None, result.note)
    for number, done in enumerate(result.sets, 1):
        yield (*start, number, done.load_kg, done.reps, done.rir, result.note)


def pack_person(
    holding: Holding,
    catalogue: Catalogue,
    *,
    printed: bytes,
    schemas: Mapping[str, str],
    pictures: Iterable[tuple[str, bytes]] = (),
) -> bytes:
    """The packed file; printed: the PDF; schemas: the published ones by the names of their files.

    The same holding gives the same bytes.
    """
    out = io.BytesIO()
    with zipfile.ZipFile(out, "w", zipfile.ZIP_DEFLATED, compresslevel=6) as packed:

        def add(name: str, data: bytes | str) -> None:
            entry = zipfile.ZipInfo(name, _TIME)
            entry.compress_type = zipfile.ZIP_DEFLATED
            entry.external_attr = 0o600 << 16
            packed.writestr(entry, data)

        add("README.txt", ABOUT)
        add("person.json", write_json(person_record(holding)))
        add("everything.pdf", printed)
        for name, table in tables(holding, catalogue).items():
            add(f"csv/{name}.csv", write_csv(table))
        for name, text in schemas.items():
            add(name, text)
        for name, picture in pictures:
            add(f"pictures/{name}", picture)
    return out.getvalue()


ABOUT = """All that is held on you
=======================

person.json       everything, for other programs (JSON). person.schema.json and plan.schema.json
                  describe it (JSON Schema, draft 2020-12).
everything.pdf    the same to read.
csv/              results, check-ins and strength tests for a spreadsheet. A text that a
                  spreadsheet would run as a formula has a quote in front.
pictures/         the pictures of check-ins, by the names that the check-ins give.

What the fields mean
--------------------
on                a day, as 2026-11-29
at                a moment, with its zone
client            the profile: what was asked, measured and agreed on. Left out: what was never said
  free            minutes for training by weekday
  limitations     joints and movements that are ruled out, with their days
  screenings      answers to the questions before training, and clearance
  tests           sets that loads rest on
  consent         when and how the client agreed, keep_until: how long records are kept
programs          the plans, week by week. Numbers of sessions and slots are unique in a program
diary.check_ins   mass_kg, kcal eaten that day, girths in cm; sleep, soreness, mood and stress from
                  1 (poor) to 5 (good); adherence from 0 to 1, as the client judged it
diary.results     what was done: program and slot say what was meant, exercise what was done;
                  sets with load_kg, reps (seconds for timed exercises) and rir (repetitions left).
                  No set: it was left out
issues            the booklets as handed out: client, program and loads as they were on that day
exercises         exercises of the coach's own that are named above
edits             the list of changes, as the coach's program noted them

Masses are in kg, lengths in cm, times in s, energy in kcal.
"""
