"""Full disks, read-only folders, locks: each is a sentence, and nothing is lost."""

from __future__ import annotations

import hashlib
import os
import sqlite3
import subprocess
import sys
import threading
from collections.abc import Iterator
from contextlib import closing
from dataclasses import replace
from pathlib import Path

import pytest

from app.domain.program import Program
from app.domain.work import Work
from db.backup import back_up
from db.errors import Cause, StoreFailure
from db.migrate import upgrade
from db.store import Store
from tests.builders import program
from tests.db.samples import PLAN, RUNA, filled_file
from tests.db.test_migrate import later_scripts

ROOT = Path(__file__).resolve().parents[2]
IS_ROOT = hasattr(os, "geteuid") and os.geteuid() == 0


def sha256(path: Path) -> str:
    return hashlib.sha256(path.read_bytes()).hexdigest()


def renamed(name: str) -> Work:
    return Work(RUNA, replace(PLAN, name=name))


def large() -> Program:
    """A program of some 300 KiB."""
    made = program("Mon: " + ", ".join(["back_squat 3x5", "leg_curl 3x8"] * 4), times=52)
    return replace(made, id=PLAN.id, weeks=tuple(replace(w, note="x" * 5000) for w in made.weeks))


@pytest.fixture
def file(tmp_path: Path) -> Path:
    return filled_file(tmp_path / "coach.weekloom")


# ---------------------------------------------------------------------------- locks


@pytest.fixture
def held(file: Path) -> Iterator[sqlite3.Connection]:
    """Another program that holds the file for itself."""
    with closing(sqlite3.connect(file, isolation_level=None, check_same_thread=False)) as other:
        yield other


def test_a_lock_that_stays_is_said_and_the_edit_can_be_repeated(file, held):
    store = Store.open(file, wait_s=0.02)
    held.execute("BEGIN EXCLUSIVE")
    with pytest.raises(StoreFailure) as refused:
        store.save(Work(RUNA, PLAN), renamed("Peak"), label="Rename")
    assert refused.value.cause is Cause.LOCKED
    with pytest.raises(StoreFailure) as refused:
        store.load_program(PLAN.id)
    assert refused.value.cause is Cause.LOCKED
    held.execute("ROLLBACK")
    assert store.load_program(PLAN.id) == PLAN
    store.save(Work(RUNA, PLAN), renamed("Peak"), label="Rename")
    assert store.load_program(PLAN.id).name == "Peak"
    store.close()


def test_a_file_that_is_locked_cannot_be_opened_and_says_so(file, held):
    held.execute("BEGIN EXCLUSIVE")
    with pytest.raises(StoreFailure) as refused:
        Store.open(file, wait_s=0.02)
    assert refused.value.cause is Cause.LOCKED


def test_a_reader_elsewhere_delays_the_edit_and_loses_nothing(file, held):
    store = Store.open(file, wait_s=0.02)
    held.execute("BEGIN")
    held.execute("SELECT * FROM clients").fetchall()
    with pytest.raises(StoreFailure) as refused:
        store.save(Work(RUNA, PLAN), renamed("Peak"), label="Rename")
    assert refused.value.cause is Cause.LOCKED
    held.execute("COMMIT")
    store.save(Work(RUNA, PLAN), renamed("Peak"), label="Rename")
    assert [line.label for line in store.log(PLAN.id)] == ["Rename", "Add the program"]
    store.close()


def test_a_lock_that_ends_in_time_is_waited_for(file, held):
    store = Store.open(file)
    held.execute("BEGIN EXCLUSIVE")
    release = threading.Timer(0.2, lambda: held.execute("ROLLBACK"))
    release.start()
    store.save(Work(RUNA, PLAN), renamed("Peak"), label="Rename")
    release.join()
    assert store.load_program(PLAN.id).name == "Peak"
    store.close()


# ---------------------------------------------------------------------------- a disk of its own


def mounted(folder: Path, options: str) -> bool:
    command = ["mount", "-t", "tmpfs", "-o", options, "tmpfs", str(folder)]
    return subprocess.run(command, check=False, capture_output=True).returncode == 0


@pytest.fixture
def small_disk(tmp_path: Path) -> Iterator[Path]:
    """A disk of one mebibyte."""
    folder = tmp_path / "disk"
    folder.mkdir()
    if not (IS_ROOT and sys.platform == "linux" and mounted(folder, "size=1m")):
        pytest.skip("mounting a disk needs root on Linux")
    yield folder
    subprocess.run(["umount", "-l", str(folder)], check=True)


def fill_up(folder: Path, leave: int = 0) -> Path:
    """Fills the disk but for `leave` bytes."""
    filler = folder / "filler"
    with filler.open("wb", buffering=0) as file:
        try:
            while True:
                file.write(b"x" * 4096)
        except OSError:
            pass
    os.truncate(filler, max(0, filler.stat().st_size - leave))
    return filler


@pytest.mark.parametrize("leave", [0, 4096, 16384, 65536])
def test_a_full_disk_keeps_the_file_and_the_edit_can_be_repeated(small_disk, leave):
    path = filled_file(small_disk / "coach.weekloom")
    before = sha256(path)
    store = Store.open(path)
    filler = fill_up(small_disk, leave)
    with pytest.raises(StoreFailure) as refused:
        store.save(Work(RUNA, PLAN), Work(RUNA, large()), label="Replace everything")
    assert refused.value.cause is Cause.FULL
    assert store.load_program(PLAN.id) == PLAN
    assert sha256(path) == before
    filler.unlink()
    store.save(Work(RUNA, PLAN), Work(RUNA, large()), label="Replace everything")
    assert store.load_program(PLAN.id) == large()
    assert store.check_integrity() == ()
    store.close()


def test_a_full_disk_leaves_no_half_copy_and_no_half_file(small_disk):
    path = filled_file(small_disk / "coach.weekloom")
    filler = fill_up(small_disk, leave=8192)
    with pytest.raises(StoreFailure) as refused:
        back_up(path)
    assert refused.value.cause is Cause.FULL
    assert list((small_disk / "coach-backups").iterdir()) == []
    with pytest.raises(StoreFailure) as refused:
        Store.open(small_disk / "another.weekloom")
    assert refused.value.cause is Cause.FULL
    assert sorted(p.name for p in small_disk.iterdir()) == [
        "coach-backups",
        "coach.weekloom",
        "filler",
    ]
    filler.unlink()
    assert back_up(path).exists()


def test_a_full_disk_stops_an_upgrade_and_keeps_the_file(small_disk, tmp_path):
    path = filled_file(small_disk / "coach.weekloom")
    before = sha256(path)
    fill_up(small_disk, leave=4096)
    grow = 'op.execute("UPDATE slots SET note = hex(zeroblob(100000))")'
    with pytest.raises(StoreFailure) as refused:
        upgrade(path, "later", scripts=later_scripts(tmp_path / "scripts", grow))
    assert refused.value.cause is Cause.FULL
    assert sha256(path) == before


def test_a_disk_that_may_only_be_read_opens_for_reading(small_disk):
    path = filled_file(small_disk / "coach.weekloom")
    before = sha256(path)
    subprocess.run(["mount", "-o", "remount,ro", str(small_disk)], check=True)
    store = Store.open(path)
    assert store.read_only
    assert store.load_program(PLAN.id) == PLAN
    assert store.check_integrity() == ()
    for write in (
        lambda: store.save(Work(RUNA, PLAN), renamed("Peak"), label="Rename"),
        lambda: store.set_setting("open", "runa"),
        lambda: store.remove_client(RUNA.id),
        lambda: back_up(path),
        lambda: Store.open(small_disk / "new.weekloom"),
        lambda: Store.open(small_disk / "folder" / "new.weekloom"),
    ):
        with pytest.raises(StoreFailure) as refused:
            write()
        assert refused.value.cause is Cause.READ_ONLY
    store.close()
    assert sha256(path) == before


def test_a_disk_that_became_read_only_after_opening_is_said(small_disk):
    path = filled_file(small_disk / "coach.weekloom")
    subprocess.run(["mount", "-o", "remount,ro", str(small_disk)], check=True)
    store = Store.open(path)
    store.read_only = False  # as it was when the file was opened
    with pytest.raises(StoreFailure) as refused:
        store.save(Work(RUNA, PLAN), renamed("Peak"), label="Rename")
    assert refused.value.cause is Cause.READ_ONLY
    assert store.load_program(PLAN.id) == PLAN
    store.close()


@pytest.mark.skipif(IS_ROOT or os.name == "nt", reason="rights do not bind root")
def test_a_folder_without_the_right_to_write_opens_for_reading(file):
    file.parent.chmod(0o500)
    try:
        store = Store.open(file)
        assert store.read_only
        assert store.load_program(PLAN.id) == PLAN
        store.close()
    finally:
        file.parent.chmod(0o700)


# ---------------------------------------------------------------------------- a limit on files

LIMITED = """
import resource, signal, sys
from pathlib import Path
from app.domain.work import Work
from db.errors import StoreFailure
from db.store import Store
from tests.db.samples import PLAN, RUNA
from tests.db.test_faults import large
path = Path(sys.argv[1])
store = Store.open(path)
signal.signal(signal.SIGXFSZ, signal.SIG_IGN)
resource.setrlimit(resource.RLIMIT_FSIZE, (int(sys.argv[2]), resource.RLIM_INFINITY))
try:
    store.save(Work(RUNA, PLAN), Work(RUNA, large()), label="Replace everything")
except StoreFailure as failure:
    print(failure.cause.value)
assert store.load_program(PLAN.id) == PLAN
resource.setrlimit(resource.RLIMIT_FSIZE, (resource.RLIM_INFINITY, resource.RLIM_INFINITY))
store.save(Work(RUNA, PLAN), Work(RUNA, large()), label="Replace everything")
assert store.load_program(PLAN.id) == large()
assert store.check_integrity() == ()
"""


@pytest.mark.skipif(not sys.platform.startswith("linux"), reason="a limit of Linux")
@pytest.mark.parametrize("more", [-300_000, 0, 4096, 100_000])
def test_a_file_that_may_not_grow_keeps_what_it_has(file, more):
    limit = max(1024, file.stat().st_size + more)
    ran = subprocess.run(
        [sys.executable, "-c", LIMITED, str(file), str(limit)],
        cwd=ROOT,
        check=False,
        capture_output=True,
        text=True,
    )
    assert (ran.stderr, ran.stdout) == ("", "full\n")
