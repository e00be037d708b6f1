"""Locking a file with a passphrase, changing the passphrase, taking the lock away.

The converted file is written beside, compared with the old one row by row, and only then takes its
place; until that moment the old file is whole. Nobody can write to the old one meanwhile. What
other windows have open is then no longer the file (`Store` notices and says so).
"""

from __future__ import annotations

import hashlib
import logging
import os
import sqlite3
from collections.abc import Callable
from contextlib import closing, suppress
from pathlib import Path

from app.domain.wording import tr
from db.backup import refuse_unsound, table_names
from db.engine import WAIT_S, is_writable
from db.errors import Cause, StoreFailure, told
from db.header import admit
from db.opening import drop_leftover, leftover
from db.passphrase import Passphrase, connect, connect_cipher
from db.private import make_private

log = logging.getLogger(__name__)

Contents = dict[str, str]
"""A check sum of all rows of each table."""


def relock(
    path: Path,
    *,
    old: Passphrase | None,
    new: Passphrase | None,
    cancelled: Callable[[], bool] = lambda: False,
) -> None:
    """Makes the file open with `new` instead of `old`; None is no lock.

    It may be open in this program, but must be opened again afterwards. cancelled: asked before
    the new file takes the place of the old one. Raises StoreFailure, with the file as it was.
    """
    where = str(path)
    with told(where):
        if not is_writable(path):
            raise StoreFailure(Cause.READ_ONLY, where=where)
        key = admit(path, old)
        # both by one library: what closes a file elsewhere in a process ends its locks
        with (
            closing(connect_cipher(path, wait_s=WAIT_S, key=key)) as source,
            closing(connect_cipher(path, wait_s=WAIT_S, key=key)) as guard,
        ):
            guard.execute("BEGIN IMMEDIATE")  # from here on nobody else writes
            making = leftover(path)
            try:
                make_private(making)
                _export(source, making, new=new)
                _refuse_difference(guard, making, key=new)
                if not cancelled():
                    making.replace(path)
                    sync_folder(path.parent)
                    log.info("the lock of the file was changed")
            finally:
                drop_leftover(path)


def _export(source: sqlite3.Connection, making: Path, *, new: Passphrase | None) -> None:
    secret = "''" if new is None else new.for_file(making)
    source.execute(f"ATTACH ? AS made KEY {secret}", (str(making.absolute()),))
    source.execute("SELECT sqlcipher_export('made')").fetchall()
    for name in ("user_version", "application_id"):  # the export leaves these out
        number = int(source.execute(f"PRAGMA main.{name}").fetchone()[0])
        source.execute(f"PRAGMA made.{name} = {number}")
    source.execute("DETACH made")


def _refuse_difference(guard: sqlite3.Connection, making: Path, *, key: Passphrase | None) -> None:
    with making.open("rb+") as file:
        os.fsync(file.fileno())
    needed = admit(making, key)
    with closing(connect(making, wait_s=WAIT_S, key=needed)) as made:
        refuse_unsound(made, str(making))
        if (needed is None) != (key is None) or contents(made) != contents(guard):
            raise StoreFailure(
                Cause.DEVICE,
                where=str(making),
                what=tr("The new file is not like the old one, so the old one stays."),
            )


def contents(raw: sqlite3.Connection) -> Contents:
    """A check sum of all rows of each table, in the order of their keys."""
    sums = {}
    for name in table_names(raw):
        digest = hashlib.sha256()
        columns = raw.execute(f'PRAGMA table_info("{name}")').fetchall()
        keys = sorted((key, column) for _, column, *_, key in columns if key)
        order = ", ".join(f'"{column}"' for _, column in keys) or "rowid"
        for row in raw.execute(f'SELECT * FROM "{name}" ORDER BY {order}'):  # noqa: S608  # ours
            digest.update(repr(tuple(row)).encode())
        sums[name] = digest.hexdigest()
    return sums


def sync_folder(folder: Path) -> None:
    """Makes a change of names in the folder outlast a power cut, where the system can."""
    with suppress(OSError):
        handle = os.open(folder, os.O_RDONLY)
        try:
            os.fsync(handle)
        finally:
            os.close(handle)
