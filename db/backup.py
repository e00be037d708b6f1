"""Dated copies of the coach's file: made, checked, kept for a while, put back.

A file that is open is never copied byte by byte: SQLite's own backup makes a copy of one moment.
A copy counts only when it has been opened and found whole, with as many rows in every table; only
then may an older one go.
"""

from __future__ import annotations

import logging
import os
import sqlite3
from collections.abc import Iterable
from contextlib import closing
from datetime import UTC, datetime, timedelta
from pathlib import Path

from db.engine import WAIT_S, is_writable
from db.errors import Cause, StoreFailure, told
from db.header import admit

log = logging.getLogger(__name__)

STAMP = "%Y%m%d-%H%M%S"
"""How the time of a copy, UTC, stands in its name."""

TIERS: tuple[tuple[str, int], ...] = (("%Y%m%d%H", 24), ("%Y%m%d", 14), ("%G%V", 8), ("%Y%m", 6))
"""Copies kept: one for each of the last 24 hours, 14 days, 8 weeks and 6 months that have one."""

EVERY = timedelta(minutes=30)
"""How long a file that is being worked on goes without a copy."""

Counts = dict[str, int]


def backup_folder(path: Path) -> Path:
    """The folder beside the file that its copies are kept in."""
    return path.with_name(f"{path.stem}-backups")


def back_up(path: Path, folder: Path | None = None, *, at: datetime | None = None) -> Path:
    """Makes a checked copy and drops those that no tier keeps; the path of the copy.

    folder: the backup folder unless another is named; at: the time in the name, now if none.
    Raises StoreFailure, and leaves no half copy.
    """
    folder = folder or backup_folder(path)
    at = at or datetime.now(UTC)
    made = _copy(path, _free_name(folder, f"{path.stem}-{at:{STAMP}}", path.suffix))
    drop_old(folder, path)
    return made


def is_due(path: Path, at: datetime, *, every: timedelta = EVERY) -> bool:
    """True if the file was written to since its newest copy, and that is `every` old or more."""
    found = copies(backup_folder(path), path)
    if not found:
        return True
    newest, copy = found[0]
    return at - newest >= every and path.stat().st_mtime > copy.stat().st_mtime


def copy_aside(path: Path, reason: str) -> Path:
    """Makes a checked copy that is never dropped, with the reason in its name."""
    name = f"{path.stem}-{datetime.now(UTC):{STAMP}}-{reason}"
    return _copy(path, _free_name(backup_folder(path), name, path.suffix))


def copies(folder: Path, path: Path) -> tuple[tuple[datetime, Path], ...]:
    """The copies of the file that the tiers look after, with their times, newest first."""
    found = []
    for copy in folder.glob(f"{path.stem}-*{path.suffix}"):
        stamp = copy.stem.removeprefix(f"{path.stem}-")
        try:
            found.append((datetime.strptime(stamp[:15], STAMP).replace(tzinfo=UTC), copy))
        except ValueError:
            continue
    # a copy with a reason after its stamp was put aside on purpose
    kept = [(at, copy) for at, copy in found if _is_plain(copy, path)]
    return tuple(sorted(kept, reverse=True))


def _is_plain(copy: Path, path: Path) -> bool:
    rest = copy.stem.removeprefix(f"{path.stem}-")[15:]
    return rest == "" or rest.lstrip("~").isdigit()


def to_drop(stamps: Iterable[datetime]) -> frozenset[datetime]:
    """The times of copies that no tier keeps.

    Tiers count the hours, days, weeks and months that have a copy, not those of the clock: a
    clock that runs wrong for a day costs no copy.
    """
    newest_first = sorted(set(stamps), reverse=True)
    kept: set[datetime] = set()
    for form, number in TIERS:
        first_of: dict[str, datetime] = {}
        for stamp in newest_first:
            first_of.setdefault(stamp.strftime(form), stamp)
        kept.update(list(first_of.values())[:number])
    return frozenset(newest_first) - kept


def drop_old(folder: Path, path: Path) -> tuple[Path, ...]:
    """Deletes the copies that no tier keeps; which they were."""
    found = copies(folder, path)
    dropped = to_drop(at for at, _ in found)
    gone = tuple(copy for at, copy in found if at in dropped)
    for copy in gone:
        copy.unlink(missing_ok=True)
    return gone


def restore(copy: Path, path: Path) -> Path | None:
    """Puts a copy in the place of the file; where the file it replaced is now, if there was one.

    The copy is checked first; the file is copied aside, or if it is too damaged for that, moved
    aside as it is. The file must not be open.
    """
    with told(str(copy)):
        admit(copy)
        _check(copy)
    aside = _put_aside(path) if path.exists() else None
    making = path.with_name(f".{path.name}.{os.getpid()}.restored")
    with told(str(path)):
        try:
            _copy(copy, making)
            making.replace(path)
        finally:
            making.unlink(missing_ok=True)
    log.info("restored a copy")
    return aside


def verify(path: Path) -> None:
    """Raises StoreFailure unless the file is ours, readable by us and whole."""
    with told(str(path)):
        admit(path)
        _check(path)


def _put_aside(path: Path) -> Path:
    try:
        return copy_aside(path, reason="before-restore")
    except StoreFailure as failure:
        if failure.cause not in {Cause.DAMAGED, Cause.NOT_OURS}:
            raise
    aside = path.with_name(f"{path.stem}-{datetime.now(UTC):{STAMP}}-damaged{path.suffix}")
    path.rename(aside)
    journal = path.with_name(f"{path.name}-journal")
    if journal.exists():  # it belongs to the damaged file and must not meet another
        journal.rename(aside.with_name(f"{aside.name}-journal"))
    return aside


def _free_name(folder: Path, stem: str, suffix: str) -> Path:
    """A path nobody has yet: two copies within a second get a number."""
    path = folder / f"{stem}{suffix}"
    number = 2
    while path.exists():
        path = folder / f"{stem}~{number}{suffix}"
        number += 1
    return path


def _copy(path: Path, target: Path) -> Path:
    with told(str(path)):
        admit(path)
    with told(str(target)):
        part = target.with_name(f"{target.name}.part")
        try:
            target.parent.mkdir(mode=0o700, parents=True, exist_ok=True)
            part.unlink(missing_ok=True)
            os.close(os.open(part, os.O_CREAT | os.O_EXCL | os.O_RDWR, 0o600))
            counts = _copy_rows(path, part)
            if _check(part) != counts:
                raise StoreFailure(Cause.DEVICE, where=str(target))
            part.replace(target)
        finally:
            part.unlink(missing_ok=True)
            part.with_name(f"{part.name}-journal").unlink(missing_ok=True)
    return target


def _copy_rows(path: Path, target: Path) -> Counts:
    """Copies one moment of the file; the rows each table had then."""
    with closing(_open(path)) as source, closing(_open(target)) as copy:
        source.execute("BEGIN")  # nobody can write between counting and copying
        counts = _counts(source)
        source.backup(copy)
        source.rollback()
        return counts


def _check(path: Path) -> Counts:
    """The rows of each table of a file that is whole. Raises StoreFailure for one that is not."""
    with closing(_open(path)) as connection:
        if connection.execute("PRAGMA quick_check(1)").fetchone()[0] != "ok":
            raise StoreFailure(Cause.DAMAGED, where=str(path))
        if connection.execute("PRAGMA foreign_key_check").fetchone() is not None:
            raise StoreFailure(Cause.DAMAGED, where=str(path))
        return _counts(connection)


def _counts(connection: sqlite3.Connection) -> Counts:
    names = connection.execute("SELECT name FROM sqlite_master WHERE type = 'table'").fetchall()
    counts = {}
    for (name,) in names:
        count = f'SELECT count(*) FROM "{name}"'  # noqa: S608  # the names are our own tables'
        counts[name] = int(connection.execute(count).fetchone()[0])
    return counts


def _open(path: Path) -> sqlite3.Connection:
    # after a crash SQLite has to write to put the file right, so reading alone is the last resort
    mode = "rw" if is_writable(path) else "ro"
    connection = sqlite3.connect(
        f"{path.absolute().as_uri()}?mode={mode}", uri=True, timeout=WAIT_S, isolation_level=None
    )
    connection.execute("PRAGMA synchronous = EXTRA")
    connection.execute("PRAGMA trusted_schema = OFF")
    return connection
