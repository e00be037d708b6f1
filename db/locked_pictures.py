"""The pictures of a locked file: together in one SQLCipher file, under the file's own passphrase.

It stands in the pictures folder under a name of chance, so that one for another passphrase can be
made beside it; which of them counts is told by the passphrase that fits. Whoever has no passphrase
sees neither the pictures nor their names, sizes or number.
"""

from __future__ import annotations

import os
import sqlite3
import time
from collections.abc import Iterable, Iterator
from contextlib import closing, contextmanager
from hashlib import sha256
from pathlib import Path
from secrets import token_hex

from app.domain.wording import tr
from db.engine import APPLICATION_ID, WAIT_S
from db.errors import Cause, StoreFailure, told
from db.passphrase import Passphrase, connect_cipher, fits, looks_locked
from db.private import make_private, make_private_folder
from db.relock import sync_folder

ENDING = ".locked"
PATTERN = f"pictures-*{ENDING}"
VERSION = 1

_TABLE = (
    "CREATE TABLE pictures (name TEXT PRIMARY KEY, picture BLOB NOT NULL, sha256 BLOB NOT NULL, "
    "added REAL NOT NULL)"
)
"""sha256: the library's own check sums let pages through that a cut file has no longer."""


def find(folder: Path, key: Passphrase) -> Path | None:
    """The file of pictures in the folder that the passphrase fits; None if there is none.

    Raises OSError.
    """
    return next(iter(all_for(folder, key)), None)


def all_for(folder: Path, key: Passphrase) -> Iterator[Path]:
    """Every file of pictures in the folder that the passphrase fits; one, but for odd histories."""
    return (path for path in all_in(folder) if looks_locked(path) and fits(path, key))


def all_in(folder: Path) -> tuple[Path, ...]:
    """Every file of locked pictures in the folder, whatever it is locked with."""
    return tuple(sorted(folder.glob(PATTERN)))


def make(folder: Path, key: Passphrase, pictures: Iterable[tuple[str, bytes]] = ()) -> Path:
    """A new file in the folder with those pictures, read again and compared; its path.

    Raises StoreFailure, and whatever `pictures` raises, with nothing left of it.
    """
    path = folder / f"pictures-{token_hex(4)}{ENDING}"
    with told(str(path)):
        make_private_folder(folder)
        making = path.with_name(f".{path.name}")
        try:
            make_private(making)
            sums = _fill(making, key, pictures)
            with _open(making, key) as raw:
                if _sums(raw) != sums or raw.execute("PRAGMA cipher_integrity_check").fetchone():
                    raise StoreFailure(Cause.DEVICE, where=str(path))
            making.rename(path)
            sync_folder(folder)
        finally:
            drop(making)
    return path


def _fill(path: Path, key: Passphrase, pictures: Iterable[tuple[str, bytes]]) -> dict[str, bytes]:
    sums = {}
    with _open(path, key) as raw:
        raw.execute("PRAGMA auto_vacuum = FULL")
        raw.execute("BEGIN IMMEDIATE")
        raw.execute(f"PRAGMA application_id = {APPLICATION_ID}")
        raw.execute(f"PRAGMA user_version = {VERSION}")
        raw.execute(_TABLE)
        for name, picture in pictures:
            _put(raw, name, picture)
            sums[name] = sha256(picture).digest()
        raw.execute("COMMIT")
    with path.open("rb+") as file:
        os.fsync(file.fileno())
    return sums


def _sums(raw: sqlite3.Connection) -> dict[str, bytes]:
    rows = raw.execute("SELECT name, picture FROM pictures")
    return {name: sha256(picture).digest() for name, picture in rows}


def _put(raw: sqlite3.Connection, name: str, picture: bytes) -> None:
    row = (name, picture, sha256(picture).digest(), time.time())
    raw.execute("INSERT OR REPLACE INTO pictures VALUES (?, ?, ?, ?)", row)


@contextmanager
def _open(path: Path, key: Passphrase) -> Iterator[sqlite3.Connection]:
    with closing(connect_cipher(path, wait_s=WAIT_S, key=key)) as raw:
        raw.execute("PRAGMA trusted_schema = OFF")
        raw.execute("PRAGMA secure_delete = ON")
        raw.execute("PRAGMA synchronous = EXTRA")
        raw.execute("PRAGMA temp_store = MEMORY")
        yield raw


def add(path: Path, key: Passphrase, name: str, picture: bytes) -> None:
    """Keeps a picture, in the place of one of its name. Raises StoreFailure."""
    with _told(path), _open(path, key) as raw:
        _put(raw, name, picture)


def read(path: Path, key: Passphrase, name: str) -> bytes | None:
    """The picture of that name; None if there is none. Raises StoreFailure."""
    with _told(path), _open(path, key) as raw:
        found = raw.execute("SELECT picture, sha256 FROM pictures WHERE name = ?", (name,))
        row = found.fetchone()
        if row is None:
            return None
        picture, told_sum = bytes(row[0]), bytes(row[1])
        if sha256(picture).digest() != told_sum:
            raise StoreFailure(Cause.DAMAGED)
        return picture


def remove(path: Path, key: Passphrase, names: Iterable[str]) -> None:
    """Removes pictures for good, their bytes too. Raises StoreFailure, with all of them there."""
    with _told(path), _open(path, key) as raw:
        raw.execute("BEGIN IMMEDIATE")
        raw.executemany("DELETE FROM pictures WHERE name = ?", [(name,) for name in names])
        raw.execute("COMMIT")


def added(path: Path, key: Passphrase) -> dict[str, float]:
    """The names of all pictures, with when each came, seconds since 1970. Raises StoreFailure."""
    with _told(path), _open(path, key) as raw:
        rows = raw.execute("SELECT name, added FROM pictures").fetchall()
        return {str(name): float(at) for name, at in rows}


def drop(path: Path) -> None:
    """Removes a whole file of locked pictures, if it is there. Raises OSError."""
    path.unlink(missing_ok=True)
    path.with_name(f"{path.name}-journal").unlink(missing_ok=True)


@contextmanager
def _told(path: Path) -> Iterator[None]:
    """As `told`, with words of its own for damage: copies of the coach's file hold no pictures."""
    try:
        with told(str(path)):
            yield
    except StoreFailure as failure:
        if failure.cause is not Cause.DAMAGED:
            raise
        raise StoreFailure(
            Cause.DAMAGED,
            where=str(path),
            what=tr("The file of locked pictures is damaged, so it was left exactly as it is."),
            mend=tr("Put a copy of it in its place, or move it out of its folder to do without."),
        ) from failure
