"""Locking, changing and taking a lock away: all or nothing, and every row as it was."""

from __future__ import annotations

import os
import random
import signal
import sqlite3
import subprocess
import sys
import time
from contextlib import closing
from pathlib import Path

import pytest

from db import relock as module
from db.backup import back_up, restore, verify
from db.engine import WAIT_S
from db.errors import Cause, StoreFailure
from db.opening import leftover
from db.passphrase import PAGE_BYTES, Passphrase, connect, looks_locked
from db.relock import contents, relock
from db.store import Store
from tests.db.samples import PLAN, RUNA, filled_file
from tests.db.test_passphrase import KEY, OTHER

ROOT = Path(__file__).resolve().parents[2]


@pytest.fixture
def file(tmp_path: Path) -> Path:
    return filled_file(tmp_path / "coach.weekloom")


@pytest.fixture
def locked(file: Path) -> Path:
    relock(file, old=None, new=KEY)
    return file


def rows(path: Path, key: Passphrase | None = None) -> dict[str, str]:
    with closing(connect(path, wait_s=WAIT_S, key=key)) as raw:
        return contents(raw)


def refusal(path: Path, key: Passphrase | None = None) -> StoreFailure:
    before = path.read_bytes()
    with pytest.raises(StoreFailure) as refused:
        Store.open(path, wait_s=0.05, key=key)
    assert path.read_bytes() == before
    return refused.value


# ---------------------------------------------------------------------------- there and back


def test_a_file_is_locked_changed_and_unlocked_with_every_row_as_it_was(file):
    before = rows(file)
    for old, new in ((None, KEY), (KEY, OTHER), (OTHER, None)):
        relock(file, old=old, new=new)
        assert looks_locked(file) == (new is not None)
        assert rows(file, new) == before
        store = Store.open(file, key=new)
        assert store.load_program(PLAN.id) == PLAN
        assert store.check_integrity() == ()
        store.close()
    assert [path.name for path in file.parent.iterdir()] == [file.name]


def test_nothing_can_be_read_in_a_locked_file(locked):
    content = locked.read_bytes()
    for marker in (RUNA.name, RUNA.team, PLAN.name, "CREATE TABLE", "SQLite"):
        assert marker.encode() not in content


@pytest.mark.skipif(os.name == "nt", reason="Windows keeps rights elsewhere")
def test_a_converted_file_is_the_owners_alone(file):
    mask = os.umask(0)
    try:
        relock(file, old=None, new=KEY)
    finally:
        os.umask(mask)
    assert file.stat().st_mode & 0o777 == 0o600


def test_edits_in_a_locked_file_stay(locked):
    store = Store.open(locked, key=KEY)
    store.set_setting("open", "runa")
    store.close()
    store = Store.open(locked, key=KEY)
    assert store.setting("open") == "runa"
    assert store.load_client(RUNA.id) == RUNA
    store.close()


# ---------------------------------------------------------------------------- what is told apart


def test_no_passphrase_a_wrong_one_and_damage_are_three_things(locked):
    assert refusal(locked).cause is Cause.NEEDS_PASSPHRASE
    assert refusal(locked, OTHER).cause is Cause.WRONG_PASSPHRASE
    content = bytearray(locked.read_bytes())
    content[2 * PAGE_BYTES + 50] ^= 1
    locked.write_bytes(content)
    assert refusal(locked, OTHER).cause is Cause.WRONG_PASSPHRASE
    assert refusal(locked, KEY).cause is Cause.DAMAGED


def test_damage_of_the_first_page_is_damage(locked):
    content = bytearray(locked.read_bytes())
    content[600] ^= 1
    locked.write_bytes(content)
    assert refusal(locked, KEY).cause is Cause.DAMAGED


@pytest.mark.parametrize("less", [1, 100, PAGE_BYTES, 3 * PAGE_BYTES])
def test_a_locked_file_that_is_cut_short_is_damaged(locked, less):
    locked.write_bytes(locked.read_bytes()[:-less])
    assert refusal(locked, KEY).cause is Cause.DAMAGED


def test_no_word_of_a_refusal_holds_the_passphrase(locked):
    assert "ridge" not in refusal(locked, OTHER).sentence


def test_random_damage_never_crashes_or_opens_as_something_else(locked, tmp_path):
    chance = random.Random(20261129)
    whole = locked.read_bytes()
    before = rows(locked, KEY)
    for number in range(60):
        path = tmp_path / f"{number}.weekloom"
        content = bytearray(whole)
        for _ in range(chance.randint(1, 64)):
            content[chance.randrange(len(content))] ^= chance.randrange(1, 256)
        path.write_bytes(content)
        refused = refusal(path, KEY)
        assert refused.cause in {Cause.DAMAGED, Cause.WRONG_PASSPHRASE}
    assert rows(locked, KEY) == before


def test_a_key_for_a_file_without_a_lock_is_not_needed_and_does_no_harm(file):
    store = Store.open(file, key=KEY)
    assert store.load_program(PLAN.id) == PLAN
    store.close()
    assert not looks_locked(file)


# ---------------------------------------------------------------------------- copies


def test_copies_of_a_locked_file_are_locked_and_can_be_put_back(locked):
    before = rows(locked, KEY)
    copy = back_up(locked, key=KEY)
    assert looks_locked(copy)
    assert RUNA.name.encode() not in copy.read_bytes()
    verify(copy, key=KEY)
    with pytest.raises(StoreFailure) as refused:
        verify(copy, key=OTHER)
    assert refused.value.cause is Cause.WRONG_PASSPHRASE
    locked.write_bytes(b"")
    restore(copy, locked, key=KEY)
    assert rows(locked, KEY) == before


def test_a_locked_file_that_nobody_can_open_is_put_aside_as_it_is(file, tmp_path):
    copy = back_up(file)
    relock(file, old=None, new=OTHER)
    content = file.read_bytes()
    aside = restore(copy, file)
    assert aside.read_bytes() == content
    store = Store.open(file)
    assert store.load_program(PLAN.id) == PLAN
    store.close()


# ---------------------------------------------------------------------------- what goes wrong


def test_a_wrong_old_passphrase_changes_nothing(locked):
    before = locked.read_bytes()
    with pytest.raises(StoreFailure) as refused:
        relock(locked, old=OTHER, new=None)
    assert refused.value.cause is Cause.WRONG_PASSPHRASE
    assert locked.read_bytes() == before


HOLDING = """
import sqlite3, sys
other = sqlite3.connect(sys.argv[1], isolation_level=None)
other.execute("BEGIN IMMEDIATE")
print("held", flush=True)
sys.stdin.read()
"""


def test_another_window_that_writes_is_waited_for_or_said(file, monkeypatch):
    # in a process of its own: two libraries in one process do not see each other's locks
    other = subprocess.Popen(
        [sys.executable, "-c", HOLDING, str(file)],
        stdin=subprocess.PIPE,
        stdout=subprocess.PIPE,
        text=True,
    )
    assert other.stdout.readline() == "held\n"
    monkeypatch.setattr(module, "WAIT_S", 0.05)
    try:
        with pytest.raises(StoreFailure) as refused:
            relock(file, old=None, new=KEY)
    finally:
        other.communicate()
    assert refused.value.cause is Cause.LOCKED
    assert not looks_locked(file)


def test_a_copy_that_is_not_like_the_file_never_takes_its_place(file, monkeypatch):
    before = file.read_bytes()
    export = module._export

    def lose_a_row(source: sqlite3.Connection, making: Path, *, new: Passphrase) -> None:
        export(source, making, new=new)
        with closing(connect(making, wait_s=1, key=new)) as raw:
            raw.execute("UPDATE coach SET name = 'nobody'")

    monkeypatch.setattr(module, "_export", lose_a_row)
    with pytest.raises(StoreFailure):
        relock(file, old=None, new=KEY)
    assert file.read_bytes() == before
    assert [path.name for path in file.parent.iterdir()] == [file.name]


def test_a_conversion_that_is_called_off_leaves_the_old_file(file):
    before = file.read_bytes()
    relock(file, old=None, new=KEY, cancelled=lambda: True)
    assert file.read_bytes() == before
    assert [path.name for path in file.parent.iterdir()] == [file.name]


SLOW = """
import sys, time
from pathlib import Path
from db import relock
from db.passphrase import Passphrase
path = Path(sys.argv[1])
whole = relock._refuse_difference
def slow(*args, **keys):
    print("made", flush=True)
    time.sleep(float(sys.argv[2]))
    whole(*args, **keys)
relock._refuse_difference = slow
relock.relock(path, old=None, new=Passphrase(sys.stdin.read()))
"""


@pytest.mark.kill
@pytest.mark.skipif(os.name == "nt", reason="no such signal there")
def test_a_conversion_that_is_killed_leaves_the_old_file_and_no_trace_after_the_next_opening(file):
    before = rows(file)
    child = subprocess.Popen(
        [sys.executable, "-c", SLOW, str(file), "30"],
        cwd=ROOT,
        stdin=subprocess.PIPE,
        stdout=subprocess.PIPE,
        text=True,
    )
    child.stdin.write(KEY.text)
    child.stdin.close()
    assert child.stdout.readline() == "made\n"
    assert leftover(file).exists()
    store = Store.open(file, wait_s=0.05)  # while it runs its work is left alone
    store.close()
    assert leftover(file).exists()
    child.send_signal(signal.SIGKILL)
    child.wait()
    child.stdout.close()
    time.sleep(0.05)
    assert rows(file) == before
    Store.open(file).close()
    assert [path.name for path in file.parent.iterdir()] == [file.name]


def test_a_locked_file_left_in_mid_change_is_put_right_by_the_right_passphrase_only(locked):
    script = (
        "import os, sys\n"
        "from pathlib import Path\n"
        "from db.engine import link_file\n"
        "from db.passphrase import Passphrase\n"
        "link = link_file(Path(sys.argv[1]), key=Passphrase(sys.stdin.read()))\n"
        "link.raw.execute('PRAGMA cache_size = 1')\n"
        "link.raw.execute('BEGIN')\n"
        "link.raw.execute('CREATE TABLE junk (x)')\n"
        "for number in range(200):\n"
        "    link.raw.execute('INSERT INTO junk VALUES (hex(zeroblob(4000)))')\n"
        "link.raw.execute('UPDATE slots SET note = hex(zeroblob(4000))')\n"
        "os._exit(9)\n"
    )
    before = rows(locked, KEY)
    subprocess.run(
        [sys.executable, "-c", script, str(locked)],
        cwd=ROOT,
        input=KEY.text,
        text=True,
        check=False,
    )
    assert locked.with_name(f"{locked.name}-journal").stat().st_size > 0
    assert refusal(locked, OTHER).cause is Cause.WRONG_PASSPHRASE
    assert locked.with_name(f"{locked.name}-journal").exists()
    assert rows(locked, KEY) == before
