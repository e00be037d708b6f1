"""One file with all that is held, and nothing of anybody else."""

from __future__ import annotations

import json
import os
import zipfile
from collections.abc import Iterator
from dataclasses import replace
from datetime import date
from pathlib import Path

import pytest
from jsonschema import Draft202012Validator
from referencing import Registry, Resource

from app import resources
from app.domain.exercise import Catalogue
from app.locking import change_lock
from app.person_export import SCHEMAS, export_person, file_name, held_on
from app.picture_folder import PictureFolder
from db.store import Store
from tests.booklet.reading_pdf import Printed
from tests.db.samples import DIARY, ISSUE, PLAN, RUNA, STEP_OVER, fill
from tests.db.test_passphrase import KEY
from tests.marked import MARKERS, PICTURE, add_marked, marked_client

TODAY = date(2026, 11, 29)
MARKED = marked_client()


@pytest.fixture
def store(tmp_path: Path) -> Iterator[Store]:
    made = Store.open(tmp_path / "coach.db")
    fill(made)
    add_marked(made)
    PictureFolder(made.path).take_in(PICTURE, b"jpeg")
    yield made
    made.close()


def catalogue(store: Store) -> Catalogue:
    return resources.catalogue().with_own(store.own_exercises(retired=True))


def test_everything_of_the_client_is_gathered(store):
    holding = held_on(store, RUNA.id, catalogue(store), on=TODAY)
    assert (holding.client, holding.programs, holding.diary) == (RUNA, (PLAN,), DIARY)
    assert holding.issues == (ISSUE,)
    assert [edit.label for edit in holding.edits] == ["Add the program"]
    assert all(exercise == STEP_OVER for exercise in holding.exercises)


def test_every_marker_is_in_it_and_nothing_of_another_client(store, tmp_path):
    known = catalogue(store)
    target = tmp_path / file_name(MARKED.name, TODAY)
    export_person(store, held_on(store, MARKED.id, known, on=TODAY), known, target)
    with zipfile.ZipFile(target) as packed:
        text = packed.read("person.json").decode()
        assert packed.read(f"pictures/{PICTURE}") == b"jpeg"
        everything = b"".join(packed.read(name) for name in packed.namelist())
    # a setting of the window is nothing held on the person, but the rest is
    lacking = [marker for word, marker in MARKERS.items() if marker not in text]
    assert lacking == [MARKERS["setting"]]
    assert RUNA.name.encode() not in everything


@pytest.mark.skipif(os.name == "nt", reason="Windows keeps rights elsewhere")
def test_the_file_is_the_owners_alone(store, tmp_path):
    known = catalogue(store)
    mask = os.umask(0)
    try:
        export_person(store, held_on(store, RUNA.id, known, on=TODAY), known, tmp_path / "runa.zip")
    finally:
        os.umask(mask)
    assert (tmp_path / "runa.zip").stat().st_mode & 0o777 == 0o600


def test_a_picture_that_is_gone_and_a_file_in_memory_are_no_hindrance(tmp_path):
    store = Store.in_memory()
    fill(store)
    known = catalogue(store)
    export_person(store, held_on(store, RUNA.id, known, on=TODAY), known, tmp_path / "runa.zip")
    with zipfile.ZipFile(tmp_path / "runa.zip") as packed:
        assert not [name for name in packed.namelist() if name.startswith("pictures/")]
    store.close()


def test_its_pages_are_in_the_clients_language(store, tmp_path):
    known = catalogue(store)
    holding = held_on(store, RUNA.id, known, on=TODAY)
    spoken = replace(holding, client=replace(holding.client, language="es"))
    export_person(store, spoken, known, tmp_path / "runa.zip")
    with zipfile.ZipFile(tmp_path / "runa.zip") as packed:
        text = Printed(packed.read("everything.pdf")).whole
    assert "Todo lo que se guarda sobre usted" in text
    assert "Sentadilla con barra" in text
    assert "Back squat" not in text


def test_what_is_packed_is_whole_explained_and_fits_the_published_schemas(store, tmp_path):
    """JSON, tables, PDF, pictures and what the fields mean, also where the file is locked."""
    change_lock(store, KEY, copies=False)
    known = catalogue(store)
    target = tmp_path / file_name(MARKED.name, TODAY)
    export_person(store, held_on(store, MARKED.id, known, on=TODAY), known, target)
    with zipfile.ZipFile(target) as packed:
        assert set(packed.namelist()) == {
            "README.txt",
            "person.json",
            "everything.pdf",
            "csv/results.csv",
            "csv/check_ins.csv",
            "csv/strength_tests.csv",
            "person.schema.json",
            "plan.schema.json",
            f"pictures/{PICTURE}",
        }
        record = json.loads(packed.read("person.json"))
        schemas = [json.loads(packed.read(name)) for name in SCHEMAS]
        told = packed.read("README.txt").decode()
        assert packed.read(f"pictures/{PICTURE}") == b"jpeg"
    registry = Registry().with_resources(
        (schema["$id"], Resource.from_contents(schema)) for schema in schemas
    )
    Draft202012Validator(schemas[0], registry=registry).validate(record)
    for field in record.keys() - {"format", "version", "coach", "diary"}:
        assert field in told, f"the README does not explain {field}"
