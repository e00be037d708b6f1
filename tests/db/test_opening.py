"""A file is made new, let in, or refused by name with every byte as it was."""

from __future__ import annotations

import hashlib
import os
import random
import sqlite3
import subprocess
import sys
from contextlib import closing, suppress
from pathlib import Path

import pytest

from app.domain.work import Work
from db import opening
from db.backup import restore
from db.erasing import rewrite
from db.errors import Cause, StoreFailure
from db.passphrase import SALT_BYTES, connect
from db.relock import relock
from db.schema import SCHEMA
from db.store import Store
from tests.db.samples import PLAN, RUNA, filled_file
from tests.db.test_passphrase import KEY

ROOT = Path(__file__).resolve().parents[2]


def sha256(path: Path) -> str:
    return hashlib.sha256(path.read_bytes()).hexdigest()


def refusal(path: Path, wait_s: float = 0.05) -> StoreFailure:
    """How opening the file is refused; nothing in its folder may change."""
    before = {p: sha256(p) for p in path.parent.iterdir() if p.is_file()}
    with pytest.raises(StoreFailure) as refused:
        Store.open(path, wait_s=wait_s)
    after = {p: sha256(p) for p in path.parent.iterdir() if p.is_file()}
    assert after == before
    assert str(path) in refused.value.sentence
    assert refused.value.mend
    return refused.value


@pytest.fixture
def file(tmp_path: Path) -> Path:
    return filled_file(tmp_path / "coach.weekloom")


@pytest.mark.skipif(os.name == "nt", reason="Windows keeps rights elsewhere")
def test_a_new_file_and_its_folders_are_the_coachs_alone(tmp_path):
    path = tmp_path / "plans" / "coach.weekloom"
    Store.open(path).close()
    assert path.stat().st_mode & 0o777 == 0o600
    assert path.parent.stat().st_mode & 0o777 == 0o700
    assert list(path.parent.iterdir()) == [path]


def test_opening_and_reading_change_no_byte(file):
    before = sha256(file)
    store = Store.open(file)
    store.load_program(PLAN.id)
    store.check_integrity()
    store.close()
    assert sha256(file) == before
    assert list(file.parent.iterdir()) == [file]


@pytest.mark.parametrize("name", ["Über Plan #1?.weekloom", "100 %.weekloom", "a&b=c;d.weekloom"])
def test_any_file_name_will_do(tmp_path, name):
    filled_file(tmp_path / name)
    store = Store.open(tmp_path / name)
    assert store.load_program(PLAN.id) == PLAN
    store.close()
    assert [p.name for p in tmp_path.iterdir()] == [name]


def test_a_relative_path_will_do(tmp_path, monkeypatch):
    monkeypatch.chdir(tmp_path)
    filled_file(Path("coach.weekloom"))
    assert (tmp_path / "coach.weekloom").is_file()


def test_a_file_that_another_window_makes_meanwhile_stands(tmp_path, monkeypatch):
    path = tmp_path / "coach.weekloom"
    other = filled_file(tmp_path / "other" / "coach.weekloom")

    def make_after_the_other(making: Path, target: Path) -> None:
        other.rename(target)
        give_name(making, target)

    give_name = opening.give_name
    monkeypatch.setattr(opening, "give_name", make_after_the_other)
    store = Store.open(path)
    assert store.load_program(PLAN.id) == PLAN
    store.close()


def test_a_file_system_without_links_gets_its_file_too(tmp_path, monkeypatch):
    def no_links(*_paths: object) -> None:
        raise OSError("no links here")

    monkeypatch.setattr(os, "link", no_links)
    filled_file(tmp_path / "coach.weekloom")
    assert [p.name for p in tmp_path.iterdir()] == ["coach.weekloom"]


def test_a_newer_file_is_refused_unopened(file):
    with closing(sqlite3.connect(file)) as connection:
        connection.execute(f"PRAGMA user_version = {SCHEMA + 1}")
    assert refusal(file).cause is Cause.TOO_NEW


def test_a_revision_nobody_here_knows_is_refused_as_newer(file):
    with closing(sqlite3.connect(file)) as connection, connection:
        connection.execute("UPDATE alembic_version SET version_num = '0999'")
    refused = refusal(file)
    assert refused.cause is Cause.TOO_NEW
    assert "0999" in refused.what


WOUNDS = (
    "DELETE FROM alembic_version",
    "DROP TABLE alembic_version",
    "ALTER TABLE slots RENAME COLUMN tempo TO temno",
    "DROP TABLE warmups",
)


@pytest.mark.parametrize("wound", WOUNDS)
def test_a_file_that_lacks_a_revision_or_a_column_is_refused_as_damaged(file, wound):
    with closing(sqlite3.connect(file)) as connection, connection:
        connection.execute(wound)
    assert refusal(file).cause is Cause.DAMAGED


HIDDEN = (
    "CREATE TRIGGER watcher AFTER UPDATE ON clients BEGIN DELETE FROM issues; END",
    "CREATE TRIGGER watcher AFTER INSERT ON edits BEGIN UPDATE clients SET note = 'seen'; END",
    "CREATE VIEW watcher AS SELECT * FROM clients",
    "CREATE VIRTUAL TABLE watcher USING fts5(text)",
    'CREATE TABLE "watcher"" WHERE 1" (id TEXT)',
    'ALTER TABLE clients ADD COLUMN "watcher"", name) --" TEXT',
)


@pytest.mark.parametrize("hidden", HIDDEN)
def test_a_file_that_would_act_by_itself_is_refused_and_stays_as_it_is(file, hidden):
    with closing(sqlite3.connect(file)) as connection, connection:
        connection.execute(hidden)
    refused = refusal(file)
    assert refused.cause is Cause.NOT_OURS
    assert "watcher" in refused.what


def test_a_locked_file_that_would_act_by_itself_is_refused_too(file):
    relock(file, old=None, new=KEY)
    with closing(connect(file, wait_s=1, key=KEY)) as raw:
        raw.execute(HIDDEN[0])
    before = sha256(file)
    with pytest.raises(StoreFailure) as refused:
        Store.open(file, key=KEY)
    assert refused.value.cause is Cause.NOT_OURS
    assert sha256(file) == before


def test_a_copy_that_would_act_by_itself_is_neither_put_back_nor_rewritten(file, tmp_path):
    copy = tmp_path / "copy.weekloom"
    copy.write_bytes(file.read_bytes())
    with closing(sqlite3.connect(copy)) as connection, connection:
        connection.execute(HIDDEN[0])
    before = sha256(copy), sha256(file)
    for act in (lambda: restore(copy, file), lambda: rewrite(copy, RUNA.id, key=None)):
        with pytest.raises(StoreFailure) as refused:
            act()
        assert refused.value.cause is Cause.NOT_OURS
    assert (sha256(copy), sha256(file)) == before


def test_a_changed_locked_file_is_refused_or_reads_as_before(file, tmp_path):
    """500 mutations: flipped bits and cut ends. A wrong byte never becomes a wrong plan."""
    relock(file, old=None, new=KEY)
    content = file.read_bytes()
    with closing(Store.open(file, key=KEY)) as store:
        meant = store.load_client(RUNA.id), store.load_program(PLAN.id)
    refused = 0
    path = tmp_path / "changed.weekloom"
    for seed in range(500):
        dice = random.Random(seed)
        mutated = bytearray(content)
        if seed % 5 == 0:
            mutated = mutated[: dice.randrange(SALT_BYTES, len(content))]
        else:
            for _ in range(dice.choice((1, 8, 64))):
                mutated[dice.randrange(SALT_BYTES, len(mutated))] ^= 1 << dice.randrange(8)
        path.write_bytes(mutated)
        try:
            store = Store.open(path, key=KEY)
        except StoreFailure:
            refused += 1
            continue
        with closing(store):
            assert (store.load_client(RUNA.id), store.load_program(PLAN.id)) == meant
    assert refused > 450


def test_a_folder_in_the_place_of_a_file_is_refused(tmp_path):
    (tmp_path / "coach.weekloom").mkdir()
    assert refusal(tmp_path / "coach.weekloom").cause is Cause.NOT_OURS


def test_a_file_in_the_place_of_a_folder_is_refused(tmp_path):
    (tmp_path / "plans").write_text("not a folder", encoding="utf-8")
    with pytest.raises(StoreFailure) as refused:
        Store.open(tmp_path / "plans" / "coach.weekloom")
    assert refused.value.cause is Cause.MISSING


@pytest.mark.parametrize("tenth", range(10))
def test_a_file_cut_short_anywhere_is_refused(file, tenth):
    content = file.read_bytes()
    file.write_bytes(content[: len(content) * tenth // 10])
    assert refusal(file).cause is Cause.DAMAGED


def test_a_file_with_flipped_bytes_is_refused_or_sound_and_never_written_to(file, tmp_path):
    """60 mutations: 1 to 64 random bytes each. What is let in must still read or say why not."""
    content = file.read_bytes()
    refused = 0
    for seed in range(60):
        dice = random.Random(seed)
        mutated = bytearray(content)
        for _ in range(dice.randint(1, 64)):
            mutated[dice.randrange(len(mutated))] = dice.randrange(256)
        path = tmp_path / f"{seed}.weekloom"
        path.write_bytes(mutated)
        before = sha256(path)
        try:
            store = Store.open(path)
        except StoreFailure:
            refused += 1
        else:
            read_all(store)
            store.close()
        assert sha256(path) == before
    assert refused > 30


def read_all(store: Store) -> None:
    """Reads what the store has; only a sentence may come of it."""
    with suppress(StoreFailure):
        for client in store.clients():
            store.load_client(client.id)
            for line in store.programs(client.id):
                store.load_program(line.id)
                store.issues(line.id)
        store.own_exercises()
        store.range_overrides()
        store.check_integrity()


def test_alembic_stays_out_of_an_ordinary_start(file):
    program = (
        "import sys, pathlib; from db.store import Store; "
        f"Store.open(pathlib.Path({str(file)!r})).close(); "
        "sys.exit('alembic' in sys.modules or 'mako' in sys.modules)"
    )
    assert subprocess.run([sys.executable, "-c", program], cwd=ROOT, check=False).returncode == 0


def test_a_large_file_is_checked_later_and_not_while_opening(file, monkeypatch):
    asked = []
    monkeypatch.setattr(opening, "refuse_damaged", lambda *_: asked.append(True))
    Store.open(file).close()
    monkeypatch.setattr(opening, "QUICK_CHECK_BYTES", 0)
    Store.open(file).close()
    assert asked == [True]


def test_a_copy_in_a_folder_that_may_only_be_read_opens_for_reading(file, monkeypatch):
    monkeypatch.setattr(opening, "is_writable", lambda _path: False)
    store = Store.open(file)
    assert store.read_only
    work = Work(store.load_client(RUNA.id), store.load_program(PLAN.id))
    assert work.program == PLAN
    with pytest.raises(StoreFailure) as refused:
        store.save(None, Work(RUNA), label="Add")
    assert refused.value.cause is Cause.READ_ONLY
    store.close()
