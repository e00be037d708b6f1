"""A passphrase shows nowhere and is told from damage; plain files never need the cipher library."""

from __future__ import annotations

import logging
import os
import random
import subprocess
import sys
from contextlib import closing
from pathlib import Path

import pytest

from app.domain.errors import CoachError
from db import passphrase
from db.errors import Cause, StoreFailure
from db.passphrase import (
    PAGE_BYTES,
    Passphrase,
    cipher,
    connect,
    connect_cipher,
    fits,
    is_cipher,
    looks_locked,
    new_passphrase,
)
from db.private import make_private
from db.relock import relock
from tests.db.samples import filled_file

ROOT = Path(__file__).resolve().parents[2]
KEY = Passphrase("it's a ridge of Ömber")
OTHER = Passphrase("another ridge entirely")


@pytest.fixture
def locked(tmp_path: Path) -> Path:
    path = filled_file(tmp_path / "coach.weekloom")
    relock(path, old=None, new=KEY)
    return path


def test_a_passphrase_shows_in_no_text_of_its_own(caplog):
    for text in (repr(KEY), str(KEY), f"{KEY}", f"{(KEY,)!r}"):
        assert "ridge" not in text
    with caplog.at_level(logging.DEBUG):
        logging.getLogger("db").info("%s", KEY)
    assert "ridge" not in caplog.text


def test_the_same_letters_typed_in_two_ways_are_one_passphrase():
    assert Passphrase("\u00d6mber ridge") == Passphrase("O\u0308mber ridge")


@pytest.mark.parametrize(
    "text", ["", "short", "aaaaaaaaaaaa", "tab\there and more", "nul\0 and more"]
)
def test_a_passphrase_that_is_easily_guessed_or_cannot_be_typed_is_refused(text):
    with pytest.raises(CoachError) as refused:
        new_passphrase(text)
    assert refused.value.mend
    assert not text or text not in refused.value.sentence


def test_only_the_right_passphrase_fits(locked):
    assert looks_locked(locked)
    assert fits(locked, KEY)
    assert not fits(locked, OTHER)


def test_the_library_itself_opens_the_file_by_the_plain_passphrase(locked):
    """We hand over the worked-out key; the passphrase alone must do as well, elsewhere."""
    with closing(cipher().connect(str(locked))) as raw:
        raw.execute("PRAGMA key = '{}'".format(KEY.text.replace("'", "''")))
        assert raw.execute("SELECT count(*) FROM clients").fetchone() == (1,)


def test_a_plain_file_is_reached_without_the_cipher_library(tmp_path):
    path = filled_file(tmp_path / "plain.weekloom")
    script = (
        "import sys\n"
        "from pathlib import Path\n"
        "from db.store import Store\n"
        "from db.backup import back_up\n"
        f"store = Store.open(Path({str(path)!r}))\n"
        "store.set_setting('open', 'runa')\n"
        "store.close()\n"
        f"back_up(Path({str(path)!r}))\n"
        "assert not [name for name in sys.modules if 'sqlcipher3' in name]\n"
    )
    subprocess.run([sys.executable, "-c", script], cwd=ROOT, check=True)


def test_a_missing_library_is_said(monkeypatch, locked):
    monkeypatch.setitem(sys.modules, "sqlcipher3", None)
    with pytest.raises(StoreFailure) as refused:
        connect(locked, wait_s=1, key=KEY)
    assert refused.value.cause is Cause.NO_CIPHER


def test_the_cipher_library_opens_plain_files_too_and_says_nothing_on_its_own(tmp_path, capfd):
    path = filled_file(tmp_path / "plain.weekloom")
    with closing(connect_cipher(path, wait_s=1, key=None)) as raw:
        assert is_cipher(raw)
        assert raw.execute("SELECT count(*) FROM clients").fetchone() == (1,)
    wrong = cipher().DatabaseError
    with (
        closing(connect_cipher(path, wait_s=1, key=KEY)) as raw,
        pytest.raises(wrong, match="not a database"),
    ):
        raw.execute("SELECT count(*) FROM clients").fetchone()
    assert capfd.readouterr() == ("", "")


def test_a_new_file_may_be_locked_from_its_first_byte(tmp_path):
    path = tmp_path / "new.weekloom"
    make_private(path)
    with closing(connect(path, wait_s=1, key=KEY)) as raw:
        raw.execute("CREATE TABLE notes (text)")
        raw.execute("INSERT INTO notes VALUES ('Runa Estvik')")
    assert b"Runa" not in path.read_bytes()
    assert looks_locked(path)


def test_texts_packed_files_and_short_files_are_not_taken_for_locked_by_chance(tmp_path):
    for name, content in (
        ("text", b"Runa Estvik trains on Monday. " * 400),
        ("zeros", bytes(8192)),
        ("short", random.Random(1).randbytes(PAGE_BYTES - 1)),
        ("plain", filled_file(tmp_path / "plain.weekloom").read_bytes()),
    ):
        path = tmp_path / name
        path.write_bytes(content)
        assert not looks_locked(path), name


@pytest.mark.parametrize("page", [1, 2, 3])
def test_damage_to_one_page_does_not_make_the_passphrase_wrong(locked, page):
    content = bytearray(locked.read_bytes())
    content[(page - 1) * PAGE_BYTES + 100] ^= 0xFF
    locked.write_bytes(content)
    assert fits(locked, KEY)
    assert not fits(locked, OTHER)


def test_no_argument_and_no_environment_carries_the_passphrase(locked):
    with closing(connect(locked, wait_s=1, key=KEY)) as raw:
        raw.execute("SELECT * FROM clients").fetchall()
        assert all("ridge" not in value for value in (*os.environ.values(), *sys.argv))


def test_a_key_is_worked_out_once(locked, monkeypatch):
    passphrase._secret.cache_clear()
    connect(locked, wait_s=1, key=KEY).close()
    fits(locked, KEY)
    assert passphrase._secret.cache_info().misses == 1
