"""How the coach's file is opened: made new, let in, upgraded, or refused by name.

What is refused keeps every byte. What is older is copied aside before it is upgraded.
"""

from __future__ import annotations

import logging
import os
import sqlite3
from contextlib import suppress
from dataclasses import dataclass
from pathlib import Path

from app.domain.wording import tr
from db.engine import WAIT_S, Link, is_writable, link_file, link_memory
from db.errors import Cause, StoreFailure, cause_of, is_of_sqlite, told
from db.header import admit, admit_inside, refuse_hidden, too_new
from db.passphrase import Passphrase
from db.private import make_private, make_private_folder
from db.schema import HEAD, REVISIONS, create, lacks, stored_revision

log = logging.getLogger(__name__)

QUICK_CHECK_BYTES = 16 * 1024 * 1024
"""Files up to this size are checked whole before they are let in; larger ones in the background
(`Store.check_integrity`), since that takes longer than a coach should wait for a window."""


@dataclass(frozen=True, slots=True)
class Opened:
    """An open file.

    upgraded_from: the revision it had, if it was older; backup_made: where its copy is; key: what
    it is locked with, if it is.
    """

    link: Link
    writable: bool = True
    upgraded_from: str | None = None
    backup_made: Path | None = None
    key: Passphrase | None = None


def open_file(path: Path, *, wait_s: float = WAIT_S, key: Passphrase | None = None) -> Opened:
    """Opens the file, making it if there is none; key: what it opens with if it is locked.

    Raises StoreFailure.
    """
    where = str(path)
    with told(where):
        if not path.exists():
            _make(path)
        if not path.is_file():
            raise StoreFailure(Cause.NOT_OURS, where=where)
        needed = admit(path, key)
        return _let_in(path, wait_s, key=needed)


def open_memory() -> Opened:
    """A new file that lives in memory only."""
    link = link_memory()
    create(link.sql)
    return Opened(link)


def _make(path: Path) -> None:
    """Makes a new file under another name and then gives it its own, so none is ever half made."""
    make_private_folder(path.parent)
    making = path.with_name(f".{path.name}.{os.getpid()}.new")
    make_private(making)
    try:
        link = link_file(making)
        try:
            create(link.sql)
        finally:
            link.close()
        give_name(making, path)
    finally:
        making.unlink(missing_ok=True)
        making.with_name(f"{making.name}-journal").unlink(missing_ok=True)
    log.info("made a new file")


def give_name(making: Path, path: Path) -> None:
    """Gives a file that was made under another name its own, unless somebody has it by now."""
    # another window may have made the file meanwhile: then that one stands
    with suppress(FileExistsError):
        try:
            os.link(making, path)
        except FileExistsError:
            raise
        except OSError:  # a file system without hard links
            if not path.exists():
                making.rename(path)


def _let_in(path: Path, wait_s: float, *, key: Passphrase | None) -> Opened:
    writable = is_writable(path)
    link = link_file(path, writable=writable, wait_s=wait_s, key=key)
    try:
        if key is not None:
            admit_inside(link.raw, str(path))
        refuse_hidden(link.raw, str(path))
        revision = _known_revision(link.raw, path)
        if path.stat().st_size <= QUICK_CHECK_BYTES:
            refuse_damaged(link.raw, str(path))
        if revision == HEAD and (missing := lacks(link.raw)):
            log.warning("the file lacks %s", ", ".join(missing))
            raise StoreFailure(Cause.DAMAGED, where=str(path))
    except BaseException:
        link.close()
        raise
    if writable and leftover(path).exists():
        drop_stale(path, link.raw)
    if revision == HEAD:
        log.info("opened a file of revision %s", revision)
        return Opened(link, writable, key=key)
    link.close()
    return _upgraded(path, revision, wait_s=wait_s, key=key)


def leftover(path: Path) -> Path:
    """Where the converted file stands until it is found whole."""
    return path.with_name(f".{path.name}.relock")


def drop_leftover(path: Path) -> None:
    """Removes what an interrupted conversion left; the file itself is whole."""
    making = leftover(path)
    making.unlink(missing_ok=True)
    making.with_name(f"{making.name}-journal").unlink(missing_ok=True)


def drop_stale(path: Path, raw: sqlite3.Connection) -> None:
    """The same, unless another window is converting the file at this moment."""
    if not leftover(path).exists():
        return
    # who converts holds the right to write
    with suppress(Exception):
        raw.execute("PRAGMA busy_timeout = 0")
        raw.execute("BEGIN IMMEDIATE")
        drop_leftover(path)
        raw.execute("ROLLBACK")
    raw.execute(f"PRAGMA busy_timeout = {int(WAIT_S * 1000)}")


def _known_revision(raw: sqlite3.Connection, path: Path) -> str:
    try:
        revision = stored_revision(raw)
    except Exception as error:
        if is_of_sqlite(error) and cause_of(error) is None:  # no such table
            raise StoreFailure(Cause.DAMAGED, where=str(path)) from error
        raise
    if not revision:
        raise StoreFailure(Cause.DAMAGED, where=str(path))
    if revision not in REVISIONS:
        raise too_new(str(path), revision)
    return revision


def refuse_damaged(raw: sqlite3.Connection, where: str) -> None:
    """Raises StoreFailure if SQLite's quick check finds anything wrong."""
    found = raw.execute("PRAGMA quick_check(1)").fetchone()
    if found != ("ok",):
        raise StoreFailure(Cause.DAMAGED, where=where)


def _upgraded(path: Path, revision: str, *, wait_s: float, key: Passphrase | None) -> Opened:
    if not is_writable(path):
        raise StoreFailure(
            Cause.READ_ONLY,
            where=str(path),
            what=tr(
                "The file is of an older Weekloom and must be upgraded, but it "
                "cannot be written to."
            ),
        )
    from db.backup import copy_aside
    from db.migrate import upgrade

    backup = copy_aside(path, reason=f"before-upgrade-from-{revision}", key=key)
    log.info("copied the file aside and upgrading it from revision %s", revision)
    upgrade(path, key=key)
    link = link_file(path, wait_s=wait_s, key=key)
    return Opened(link, upgraded_from=revision, backup_made=backup, key=key)
