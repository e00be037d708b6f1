"""The JSON fits its schema and gives the values back; the tables are safe to open."""

from __future__ import annotations

import csv
import io
import json
import zipfile
from dataclasses import replace
from typing import Any

from hypothesis import given
from jsonschema import Draft202012Validator
from referencing import Registry, Resource

from app import resources
from app.domain.client import Client
from app.domain.exercise import Exercise
from app.domain.holding import Holding
from app.domain.program import Program
from app.domain.results import CheckIn, Diary, SlotResult
from app.exchange.json_text import write_json
from app.exchange.person_file import pack_person, person_record, tables
from app.exchange.record import from_record
from app.exchange.tables.csv_file import write_csv
from tests import strategies
from tests.db.samples import COACH, DIARY, PLAN, RUNA
from tests.domain.test_holding import HOLDING


def validator() -> Draft202012Validator:
    """The published schema, with that of plan files at hand."""
    plan, person = (
        json.loads(resources.text(f"schema/{name}.schema.json")) for name in ("plan", "person")
    )
    registry: Registry[Any] = Registry().with_resource(plan["$id"], Resource.from_contents(plan))
    Draft202012Validator.check_schema(person)
    return Draft202012Validator(person, registry=registry)


VALIDATOR = validator()


def read(holding: Holding) -> Any:
    record = json.loads(write_json(person_record(holding)))
    VALIDATOR.validate(record)
    return record


def test_everything_fits_the_published_schema_and_comes_back_equal():
    record = read(HOLDING)
    assert from_record(Client, record["client"], where="client") == RUNA
    assert [from_record(Program, one, where="p") for one in record["programs"]] == [PLAN]
    assert [from_record(Exercise, one, where="e") for one in record["exercises"]] == [
        replace(one, own=True) for one in HOLDING.exercises
    ]
    diary = record["diary"]
    assert (
        Diary(
            tuple(from_record(CheckIn, one, where="c") for one in diary["check_ins"]),
            tuple(from_record(SlotResult, one, where="r") for one in diary["results"]),
        )
        == DIARY
    )
    (issue,) = record["issues"]
    assert from_record(Client, issue["client"], where="i") == HOLDING.issues[0].client
    assert [one["load_kg"] for one in issue["loads"]] == [
        one.load_kg for one in HOLDING.issues[0].loads
    ]
    assert record["edits"] == [{"at": "2026-01-02T20:00:00+00:00", "label": "Add client"}]


@given(strategies.clients, strategies.programs())
def test_any_client_and_program_fit_the_schema(client, program):
    read(Holding(HOLDING.on, COACH, client, (program,), Diary()))


def test_a_client_with_next_to_nothing_fits_too():
    bare = Client(RUNA.id, "Oda Vik")
    record = read(Holding(HOLDING.on, replace(COACH, name=""), bare, (), Diary()))
    assert record["programs"] == []


def test_the_tables_hold_every_set_check_in_and_test():
    made = tables(HOLDING, resources.catalogue())
    assert len(made["results"].rows) == sum(len(one.sets) for one in DIARY.results)
    assert len(made["check_ins"].rows) == len(DIARY.check_ins)
    assert len(made["strength_tests"].rows) == len(RUNA.tests)
    for table in made.values():
        assert {len(row) for row in table.rows} == {len(table.heads)}
    first = dict(zip(made["check_ins"].heads, made["check_ins"].rows[0], strict=True))
    assert (first["mass_kg"], first["waist_cm"], first["neck_cm"]) == (74.5, 78.5, None)


def test_what_was_left_out_has_a_row_of_its_own():
    left_out = replace(DIARY.results[0], sets=())
    holding = replace(HOLDING, diary=Diary((), (left_out,)))
    (row,) = tables(holding, resources.catalogue())["results"].rows
    assert row[5:9] == (None, None, None, None)


def test_a_note_that_looks_like_a_formula_is_kept_from_running():
    evil = replace(DIARY.check_ins[0], note="=HYPERLINK(1)")
    table = tables(replace(HOLDING, diary=Diary((evil,))), resources.catalogue())["check_ins"]
    text = write_csv(table).decode("utf-8-sig")
    assert list(csv.reader(io.StringIO(text, newline="")))[1][-1] == "'=HYPERLINK(1)"


def test_one_packed_file_holds_it_all_and_is_the_same_every_time():
    def packed() -> bytes:
        return pack_person(
            HOLDING,
            resources.catalogue(),
            printed=b"%PDF",
            schemas={"person.schema.json": "{}"},
            pictures=[("a.jpg", b"jpeg")],
        )

    assert packed() == packed()
    with zipfile.ZipFile(io.BytesIO(packed())) as found:
        assert set(found.namelist()) == {
            "README.txt",
            "person.json",
            "everything.pdf",
            "csv/results.csv",
            "csv/check_ins.csv",
            "csv/strength_tests.csv",
            "person.schema.json",
            "pictures/a.jpg",
        }
        readme = found.read("README.txt").decode()
    for field in ("client", "programs", "diary.check_ins", "diary.results", "issues", "edits"):
        assert field in readme
