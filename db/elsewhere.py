"""Writing the whole file at another place, when the old one was lost in mid-edit.

Everything that can still be read goes over in one piece. Where the old file can no longer be read
(a share that went away), what the program holds in memory is written into a new file instead. The
new place never holds half a file, and nothing that stands there already is replaced.
"""

from __future__ import annotations

import logging
import os
import sqlite3
from contextlib import closing, suppress
from dataclasses import dataclass
from datetime import datetime
from pathlib import Path
from typing import TYPE_CHECKING

from app.domain.exercise import Exercise
from app.domain.wording import tr
from app.domain.work import Work
from db.backup import refuse_unsound
from db.engine import WAIT_S, link_file
from db.errors import Cause, StoreFailure, is_of_sqlite, told
from db.opening import give_name
from db.passphrase import Passphrase, connect, is_cipher
from db.private import make_private, make_private_folder
from db.schema import create

if TYPE_CHECKING:
    from db.saving import Versions

log = logging.getLogger(__name__)


@dataclass(frozen=True, slots=True)
class Held:
    """What the program has in memory: every client, program and diary it worked on, as last kept.

    exercises: the coach's own.
    """

    works: tuple[Work, ...] = ()
    exercises: tuple[Exercise, ...] = ()


@dataclass(frozen=True, slots=True)
class Written:
    """What stands at the new place. whole: all of the file; else only what was held in memory.

    versions: those of what was written anew.
    """

    whole: bool
    versions: Versions


def write_elsewhere(
    raw: sqlite3.Connection | None,
    target: Path,
    *,
    held: Held,
    key: Passphrase | None,
    at: datetime,
) -> Written:
    """Writes everything to a new file at `target`, checks it and gives it its name.

    raw: the connection to the old file, outside any transaction; None where there is none. key:
    what the new file is locked with. at: the time in the log of what is written anew. Raises
    StoreFailure, with nothing at `target`.
    """
    where = str(target)
    if os.path.lexists(target):
        raise _taken(where)
    source = raw if raw is not None and _reads(raw) else None
    part = target.with_name(f".{target.name}.{os.getpid()}.part")
    with told(where):
        try:
            make_private_folder(target.parent)
            make_private(part)
            if source is not None:
                versions: Versions = {}
                _copy(source, part, key=key)
            else:
                versions = _write_held(part, held, key=key, at=at)
            with closing(connect(part, wait_s=WAIT_S, key=key)) as made:
                refuse_unsound(made, where)
            made_as = part.stat().st_ino
            give_name(part, target)
            if target.stat().st_ino != made_as:
                raise _taken(where)
        finally:
            with suppress(OSError):
                part.unlink(missing_ok=True)
                part.with_name(f"{part.name}-journal").unlink(missing_ok=True)
    log.info("kept the file at another place, %s", "whole" if source else "from memory")
    return Written(source is not None, versions)


def _taken(where: str) -> StoreFailure:
    return StoreFailure(
        Cause.TAKEN,
        where=where,
        what=tr("There is something of that name already, and it was left as it is."),
        mend=tr("Choose a new name."),
    )


def _reads(raw: sqlite3.Connection) -> bool:
    """True if every page of the file can still be read, and fits."""
    try:
        return bool(raw.execute("PRAGMA quick_check(1)").fetchone() == ("ok",))
    except Exception as error:
        if not is_of_sqlite(error):
            raise
        return False


def _copy(source: sqlite3.Connection, target: Path, *, key: Passphrase | None) -> None:
    if is_cipher(source) != (key is not None):
        raise ValueError("a locked file stays locked, and a plain one plain")
    with closing(connect(target, wait_s=WAIT_S, key=key)) as copy:
        copy.execute("PRAGMA synchronous = EXTRA")
        source.backup(copy)


def _write_held(target: Path, held: Held, *, key: Passphrase | None, at: datetime) -> Versions:
    from db import saving
    from db.engine import writing
    from db.library import write_exercise

    versions: Versions = {}
    link = link_file(target, key=key)
    try:
        create(link.sql)
        with writing(link.sql):
            for exercise in held.exercises:
                write_exercise(link.sql, exercise)
            known: dict[str, Work] = {}
            for work in held.works:
                before = known.get(work.client.id)
                versions |= saving.save(
                    link.sql,
                    before,
                    after=work,
                    label="Keep elsewhere",
                    at=at,
                    seen=versions,
                )
                known[work.client.id] = Work(work.client)
    finally:
        link.close()
    return versions
