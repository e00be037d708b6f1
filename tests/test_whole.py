"""Everything out and back: the same tables, the same values, the same pictures, or nothing."""

from __future__ import annotations

import json
import os
import sqlite3
import zipfile
from collections.abc import Iterator
from contextlib import closing
from pathlib import Path

import pytest
from jsonschema import Draft202012Validator

from app.domain.errors import CoachError
from app.exchange.whole_file import WholeFileError
from app.locking import change_lock
from app.picture_folder import PictureFolder
from app.whole import TakenIn, export_whole, file_name, import_whole, published
from db.backup import all_copies
from db.engine import WAIT_S
from db.errors import Cause, StoreFailure
from db.passphrase import connect, looks_locked
from db.relock import contents
from db.store import Store
from tests import whole_schema
from tests.db.samples import DIARY, ISSUE, PLAN, RUNA, fill
from tests.db.test_passphrase import KEY
from tests.marked import add_marked

PICTURE = "2026-01-11-front.jpg"


@pytest.fixture
def store(tmp_path: Path) -> Iterator[Store]:
    made = Store.open(tmp_path / "mine" / "coach.db")
    fill(made)
    add_marked(made)
    PictureFolder(made.path).take_in(PICTURE, b"jpeg")
    yield made
    made.close()


@pytest.fixture
def out(store: Store, tmp_path: Path) -> Path:
    path = tmp_path / file_name()
    export_whole(store, path)
    return path


def sums(path: Path, key=None) -> dict[str, str]:
    with closing(connect(path, wait_s=WAIT_S, key=key)) as raw:
        return contents(raw)


def test_an_import_equals_the_file_that_was_exported(store, out, tmp_path):
    target = tmp_path / "new" / "coach.db"
    assert import_whole(out, target) == TakenIn(2)
    assert sums(target) == sums(store.path)
    again = Store.open(target)
    assert again.load_client(RUNA.id) == RUNA
    assert again.load_diary(RUNA.id) == DIARY
    assert again.load_program(PLAN.id) == PLAN
    assert again.load_issue(ISSUE.id) == ISSUE
    assert again.check_integrity() == ()
    again.close()
    assert PictureFolder(target).read(PICTURE) == b"jpeg"
    assert sorted(p.name for p in target.parent.iterdir()) == ["coach.db", "coach.db-pictures"]


def test_a_second_export_of_the_import_is_the_same_to_the_byte(out, tmp_path):
    target = tmp_path / "new" / "coach.db"
    import_whole(out, target)
    with closing(Store.open(target)) as again:
        export_whole(again, tmp_path / "again.zip")
    assert (tmp_path / "again.zip").read_bytes() == out.read_bytes()


def test_every_line_fits_the_published_schema(out):
    schema = published()
    with zipfile.ZipFile(out) as packed:
        assert json.loads(packed.read("whole.schema.json")) == schema
        Draft202012Validator(schema).validate(json.loads(packed.read("weekloom.json")))
        for table, form in schema["$defs"].items():
            lines = packed.read(f"tables/{table}.jsonl").decode().splitlines()
            assert lines, table
            for line in lines:
                Draft202012Validator(form).validate(json.loads(line))


def test_the_published_schema_is_that_of_the_newest_tables():
    assert whole_schema.PLACE.read_text(encoding="utf-8") == whole_schema.text(), (
        "run `python -m tests.whole_schema` after a migration"
    )


def test_a_locked_file_goes_out_in_the_open_and_comes_back_locked(store, tmp_path):
    change_lock(store, KEY, copies=False)
    export_whole(store, tmp_path / "all.zip")
    lying = PictureFolder(tmp_path / "new.db")
    lying.take_in(PICTURE, b"zqoldpixelsqz")
    import_whole(tmp_path / "all.zip", tmp_path / "new.db", key=KEY)
    assert looks_locked(tmp_path / "new.db")
    assert sums(tmp_path / "new.db", KEY) == sums(store.path, KEY)
    assert PictureFolder(tmp_path / "new.db", KEY).read(PICTURE) == b"jpeg"
    assert lying.plain() == ()


def test_a_file_that_is_there_is_replaced_only_when_asked_and_is_put_aside(store, out):
    store.set_setting("open", "changed since")
    before = sums(store.path)
    path = store.path
    store.close()
    with pytest.raises(CoachError):
        import_whole(out, path)
    assert sums(path) == before
    done = import_whole(out, path, replacing=True)
    assert done.aside in all_copies(path)
    assert sums(done.aside) == before
    assert sums(path) != before


@pytest.mark.skipif(os.name == "nt", reason="Windows keeps rights elsewhere")
def test_an_export_is_the_owners_alone(store, tmp_path):
    mask = os.umask(0)
    try:
        export_whole(store, tmp_path / "all.zip")
    finally:
        os.umask(mask)
    assert (tmp_path / "all.zip").stat().st_mode & 0o777 == 0o600


def repacked(source: Path, target: Path, table: str, old: str, new: str) -> Path:
    """The export with one text of a table replaced, and its check sum mended."""
    import hashlib

    with zipfile.ZipFile(source) as packed:
        entries = {name: packed.read(name) for name in packed.namelist()}
    name = f"tables/{table}.jsonl"
    assert old.encode() in entries[name]
    entries[name] = entries[name].replace(old.encode(), new.encode())
    manifest = json.loads(entries["weekloom.json"])
    manifest["tables"][table]["sha256"] = hashlib.sha256(entries[name]).hexdigest()
    entries["weekloom.json"] = json.dumps(manifest).encode()
    with zipfile.ZipFile(target, "w", zipfile.ZIP_DEFLATED) as made:
        for entry, content in entries.items():
            made.writestr(entry, content)
    return target


@pytest.mark.parametrize(
    ("table", "old", "new"),
    [
        ("clients", '"height_cm": 181.5', '"height_cm": 1815'),
        ("clients", '"name": "Runa Estvik"', '"name": ""'),
        ("issues", '\\"on\\":\\"2026-02-02\\"', '\\"on\\":\\"2026-02-31\\"'),
        ("programs", '"client_id": "runa"', '"client_id": "nobody"'),
        ("clients", '"units"', '"unites"'),
    ],
)
def test_rows_that_break_a_law_are_refused_and_nothing_is_half_imported(
    out, tmp_path, table, old, new
):
    bad = repacked(out, tmp_path / "bad.zip", table, old, new)
    target = tmp_path / "new" / "coach.db"
    with pytest.raises(StoreFailure) as refused:
        import_whole(bad, target)
    assert refused.value.cause is Cause.DAMAGED
    assert not target.parent.exists() or list(target.parent.iterdir()) == []


def test_an_evil_trigger_has_no_way_in(out, tmp_path):
    target = tmp_path / "new.db"
    import_whole(out, target)
    with closing(sqlite3.connect(target)) as raw:
        kinds = {kind for (kind,) in raw.execute("SELECT DISTINCT type FROM sqlite_master")}
    assert kinds <= {"table", "index"}


def test_a_foreign_file_changes_nothing_of_what_is_there(store, tmp_path):
    (tmp_path / "letter.zip").write_text("Dear Runa", encoding="utf-8")
    path, before = store.path, sums(store.path)
    store.close()
    with pytest.raises(WholeFileError):
        import_whole(tmp_path / "letter.zip", path, replacing=True)
    assert sums(path) == before
    assert all_copies(path) == ()


def test_a_failure_while_writing_leaves_no_half_export(store, tmp_path, monkeypatch):
    def full(_handle: int) -> None:
        raise OSError(28, "No space left on device")

    target = tmp_path / "exports" / "all.zip"
    target.parent.mkdir()
    target.write_bytes(b"older")
    monkeypatch.setattr(os, "fsync", full)
    with pytest.raises(CoachError, match="No space left"):
        export_whole(store, target)
    assert target.read_bytes() == b"older"
    assert list(target.parent.iterdir()) == [target]


def test_what_is_called_off_leaves_no_file(store, tmp_path):
    export_whole(store, tmp_path / "all.zip", cancelled=lambda: True)
    assert not (tmp_path / "all.zip").exists()
