"""Whose a file is, read from its first bytes without touching it."""

from __future__ import annotations

import sqlite3
from contextlib import closing
from pathlib import Path

import pytest

from db.engine import APPLICATION_ID
from db.errors import Cause, StoreFailure
from db.header import admit, read_header
from db.schema import SCHEMA
from tests.db.samples import filled_file


@pytest.fixture
def file(tmp_path: Path) -> Path:
    return filled_file(tmp_path / "coach.weekloom")


def refusal(path: Path) -> StoreFailure:
    before = path.read_bytes()
    with pytest.raises(StoreFailure) as refused:
        admit(path)
    assert path.read_bytes() == before
    return refused.value


def test_a_file_of_ours_says_its_schema_size_and_owner(file):
    assert admit(file) is None
    header = read_header(file)
    assert header.application_id == APPLICATION_ID
    assert header.schema == SCHEMA
    assert header.size == file.stat().st_size


@pytest.mark.parametrize("page_size", [512, 4096, 65536])
def test_any_page_size_is_read(tmp_path, page_size):
    path = tmp_path / "any.db"
    with closing(sqlite3.connect(path)) as connection:
        connection.execute(f"PRAGMA page_size = {page_size}")
        connection.execute("CREATE TABLE t (x)")
    header = read_header(path)
    assert header.page_size == page_size
    assert header.size == path.stat().st_size


def test_a_newer_file_is_refused_with_both_schemas(file):
    with closing(sqlite3.connect(file)) as connection:
        connection.execute(f"PRAGMA user_version = {SCHEMA + 6}")
    refused = refusal(file)
    assert refused.cause is Cause.TOO_NEW
    assert f"schema {SCHEMA + 6}" in refused.what
    assert f"up to {SCHEMA}" in refused.what


def test_a_database_of_another_program_is_refused(tmp_path):
    path = tmp_path / "notes.db"
    with closing(sqlite3.connect(path)) as connection:
        connection.execute("CREATE TABLE clients (id TEXT)")
    assert refusal(path).cause is Cause.NOT_OURS


def test_a_text_file_is_refused(tmp_path):
    path = tmp_path / "letter.weekloom"
    path.write_text("Dear coach,\n" * 50, encoding="utf-8")
    assert refusal(path).cause is Cause.NOT_OURS


@pytest.mark.parametrize("length", [0, 7, 60, 99, 100, 4096])
def test_a_file_that_is_cut_short_is_refused_as_damaged(file, length):
    file.write_bytes(file.read_bytes()[:length])
    assert refusal(file).cause is Cause.DAMAGED


def test_a_file_in_mid_change_is_left_to_sqlite(file):
    content = file.read_bytes()
    file.write_bytes(content[:-4096])
    file.with_name("coach.weekloom-journal").write_bytes(b"\0" * 512)
    assert admit(file) is None
    assert read_header(file).schema == SCHEMA
