"""Files of every released revision open, keep their rows, and are never half upgraded."""

from __future__ import annotations

import hashlib
import signal
import sqlite3
import subprocess
import sys
from contextlib import closing
from pathlib import Path

import pytest

from app.domain.client import Client
from app.domain.program import Program
from app.domain.results import Diary
from db import header, migrate, opening, schema
from db.backup import verify
from db.canonical import decode
from db.errors import Cause, StoreFailure
from db.migrate import SCRIPTS, upgrade
from db.passphrase import Passphrase, looks_locked
from db.relock import relock
from db.schema import HEAD, REVISIONS
from db.store import Store
from tests.db.samples import PLAN, RUNA, filled_file
from tests.db.test_passphrase import KEY

ROOT = Path(__file__).resolve().parents[2]
SCHEMAS = Path(__file__).parent / "schemas"

REBUILD = '''
"""Rebuild the table that the others point to, and say so in a new column."""
import sqlalchemy as sa
from alembic import op

revision, down_revision = "{revision}", "{before}"


def upgrade():
    with op.batch_alter_table("clients", recreate="always") as clients:
        clients.add_column(sa.Column("pronoun", sa.Text(), server_default="", nullable=False))
    {then}
'''
"""A later revision that does what is dangerous on SQLite: rebuild a parent."""


def counts(path: Path) -> dict[str, int]:
    with closing(sqlite3.connect(path)) as connection:
        names = [
            name
            for (name,) in connection.execute("SELECT name FROM sqlite_master WHERE type='table'")
        ]
        return {n: connection.execute(f"SELECT count(*) FROM {n}").fetchone()[0] for n in names}


def thaw(revision: str, path: Path) -> Path:
    """The frozen file of a revision."""
    script = (SCHEMAS / f"{revision}.sql").read_text(encoding="utf-8")
    with closing(sqlite3.connect(path)) as connection:
        connection.executescript(script)
    return path


def later_scripts(folder: Path, then: str = "") -> Path:
    """Our scripts and one more that rebuilds `clients` and then does `then`."""
    versions = folder / "versions"
    versions.mkdir(parents=True)
    for script in SCRIPTS.glob("versions/*.py"):
        (versions / script.name).write_text(script.read_text("utf-8"), "utf-8")
    (folder / "env.py").write_text((SCRIPTS / "env.py").read_text("utf-8"), "utf-8")
    text = REBUILD.format(revision="later", before=HEAD, then=then)
    (versions / "later.py").write_text(text, "utf-8")
    return folder


@pytest.fixture
def file(tmp_path: Path) -> Path:
    return filled_file(tmp_path / "coach.weekloom")


@pytest.mark.parametrize("revision", REVISIONS)
def test_every_revision_is_frozen_with_rows_in_every_table(tmp_path, revision):
    path = thaw(revision, tmp_path / "coach.weekloom")
    assert min(counts(path).values()) > 0
    with closing(sqlite3.connect(path)) as connection:
        stored = connection.execute("SELECT version_num FROM alembic_version").fetchone()
        assert stored == (revision,)
        assert connection.execute("PRAGMA user_version").fetchone() == (
            REVISIONS.index(revision) + 1,
        )


@pytest.mark.parametrize("revision", REVISIONS)
def test_a_frozen_file_opens_with_all_its_rows_and_values(tmp_path, revision):
    path = thaw(revision, tmp_path / "coach.weekloom")
    before = counts(path)
    store = Store.open(path)
    client = decode(Client, (SCHEMAS / f"{revision}.client.json").read_text("utf-8"))
    program = decode(Program, (SCHEMAS / f"{revision}.program.json").read_text("utf-8"))
    assert store.load_client(client.id) == client
    assert store.load_program(program.id) == program
    diary = SCHEMAS / f"{revision}.diary.json"  # older revisions had none
    kept = decode(Diary, diary.read_text("utf-8")) if diary.exists() else Diary()
    assert store.load_diary(client.id) == kept
    assert [line.programs for line in store.clients()] == [1]
    assert store.load_issue(store.issues(program.id)[0].id).program == program
    assert store.check_integrity() == ()
    store.close()
    after = counts(path)
    assert {name: after[name] for name in before} == before


def test_rebuilding_a_parent_keeps_every_row_that_points_to_it(file, tmp_path):
    before = counts(file)
    upgrade(file, "later", scripts=later_scripts(tmp_path / "scripts"))
    assert counts(file) == before
    with closing(sqlite3.connect(file)) as connection:
        assert connection.execute("SELECT pronoun FROM clients").fetchall() == [("",)]
        assert connection.execute("PRAGMA integrity_check").fetchone() == ("ok",)
        assert connection.execute("PRAGMA foreign_key_check").fetchall() == []


@pytest.mark.parametrize(
    ("then", "error"),
    [
        ("op.execute('INSERT INTO nowhere VALUES (1)')", "no such table"),
        ("raise RuntimeError('half-way')", "half-way"),
        ("""op.execute("DELETE FROM weeks")""", "rows of .*sessions.* belong to nothing"),
    ],
)
def test_an_upgrade_that_fails_leaves_the_file_as_it_was(file, tmp_path, then, error):
    before = hashlib.sha256(file.read_bytes()).hexdigest()
    with pytest.raises(Exception, match=error):
        upgrade(file, "later", scripts=later_scripts(tmp_path / "scripts", then))
    assert hashlib.sha256(file.read_bytes()).hexdigest() == before
    assert not file.with_name("coach.weekloom-journal").exists()


@pytest.mark.skipif(not hasattr(signal, "SIGKILL"), reason="needs SIGKILL")
def test_an_upgrade_that_is_killed_half_way_leaves_the_file_as_it_was(file, tmp_path):
    before = counts(file)
    # the journal goes to disk first, so what is killed has already written to the file
    then = (
        "op.execute('PRAGMA cache_size = 1'); op.execute('PRAGMA cache_spill = 1');"
        'op.execute("UPDATE slots SET note = hex(zeroblob(200000))");'
        "import os, signal; os.kill(os.getpid(), signal.SIGKILL)"
    )
    scripts = later_scripts(tmp_path / "scripts", then)
    program = (
        "from pathlib import Path; from db.migrate import upgrade; "
        f"upgrade(Path({str(file)!r}), 'later', scripts=Path({str(scripts)!r}))"
    )
    killed = subprocess.run([sys.executable, "-c", program], cwd=ROOT, check=False)
    assert killed.returncode == -signal.SIGKILL
    assert file.with_name("coach.weekloom-journal").stat().st_size > 0
    store = Store.open(file)
    assert store.load_program(PLAN.id) == PLAN
    assert store.load_client(RUNA.id) == RUNA
    assert store.check_integrity() == ()
    store.close()
    assert counts(file) == before
    assert [p.name for p in file.parent.iterdir() if "journal" in p.name] == []


@pytest.fixture
def a_later_program(file, tmp_path, monkeypatch) -> None:
    """Weekloom as it will be one revision on, with `file` from before."""
    scripts = later_scripts(tmp_path / "scripts")
    for module in (schema, opening, migrate):
        monkeypatch.setattr(module, "REVISIONS", (*REVISIONS, "later"))
        monkeypatch.setattr(module, "HEAD", "later")
    monkeypatch.setattr(header, "SCHEMA", len(REVISIONS) + 1)

    def to_later(path: Path, *, key: Passphrase | None) -> None:
        upgrade(path, "later", scripts=scripts, key=key)

    monkeypatch.setattr(migrate, "upgrade", to_later)


@pytest.mark.usefixtures("a_later_program")
def test_a_locked_older_file_is_upgraded_and_its_copy_is_locked(file):
    relock(file, old=None, new=KEY)
    store = Store.open(file, key=KEY)
    assert store.upgraded_from == REVISIONS[-1]
    assert store.load_client(RUNA.id) == RUNA
    store.close()
    assert looks_locked(file)
    assert looks_locked(store.backup_made)
    verify(store.backup_made, key=KEY)


@pytest.mark.usefixtures("a_later_program")
def test_an_older_file_is_copied_aside_then_upgraded_and_says_so(file):
    store = Store.open(file)
    assert store.upgraded_from == REVISIONS[-1]
    assert store.backup_made is not None
    assert f"before-upgrade-from-{REVISIONS[-1]}" in store.backup_made.name
    assert store.load_client(RUNA.id) == RUNA
    assert store._connection.exec_driver_sql("PRAGMA foreign_keys").scalar() == 1
    store.close()
    with closing(sqlite3.connect(store.backup_made)) as copy:
        stored = copy.execute("SELECT version_num FROM alembic_version").fetchone()
        assert stored == (REVISIONS[-1],)
        assert copy.execute("SELECT name FROM clients").fetchall() == [(RUNA.name,)]
    again = Store.open(file)
    assert (again.upgraded_from, again.backup_made) == (None, None)
    again.close()


@pytest.mark.usefixtures("a_later_program")
def test_an_older_file_that_cannot_be_written_to_says_so(file, monkeypatch):
    monkeypatch.setattr(opening, "is_writable", lambda _path: False)
    before = file.read_bytes()
    with pytest.raises(StoreFailure, match="must be upgraded") as refused:
        Store.open(file)
    assert refused.value.cause is Cause.READ_ONLY
    assert file.read_bytes() == before


def test_revisions_never_import_the_models():
    for script in SCRIPTS.glob("versions/*.py"):
        text = script.read_text("utf-8")
        assert "db." not in text.replace("the db.", "")
        assert "Why:" in text


def test_drafting_finds_nothing_when_models_and_scripts_agree(tmp_path):
    scripts = tmp_path / "scripts"
    later_scripts(scripts)
    (scripts / "versions" / "later.py").unlink()
    (scripts / "script.py.mako").write_text((SCRIPTS / "script.py.mako").read_text("utf-8"))
    migrate.draft("Nothing new", scripts=scripts)
    (drafted,) = scripts.glob("versions/*nothing_new.py")
    assert "op." not in drafted.read_text("utf-8")
