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
from db.header import admit, admit_inside, refuse_hidden
from db.passphrase import Passphrase, connect, is_cipher
from db.private import make_private, make_private_folder

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


def back_up(
    path: Path,
    folder: Path | None = None,
    *,
    at: datetime | None = None,
    key: Passphrase | None = None,
) -> Path:
    """Makes a checked copy and drops those that no tier keeps; the path of the copy.

    folder: the backup folder unless another is named; at: the time in the name, now if none; key:
    what the file is locked with, and then the copy as well.
    Raises StoreFailure, and leaves no half copy.
    """
    folder = folder or backup_folder(path)
    at = at or datetime.now(UTC)
    made = _copy(path, _free_name(folder, f"{path.stem}-{at:{STAMP}}", path.suffix), key)
    drop_old(folder, path)
    return made


def is_due(path: Path, at: datetime, *, every: timedelta = EVERY) -> bool:
    """True if the file was written to since its newest copy, and that is `every` old or more."""
    found = copies(backup_folder(path), path)
    if not found:
        return True
    newest, copy = found[0]
    return at - newest >= every and path.stat().st_mtime > copy.stat().st_mtime


def copy_aside(path: Path, reason: str, *, key: Passphrase | None = None) -> Path:
    """Makes a checked copy that is never dropped, with the reason in its name."""
    name = f"{path.stem}-{datetime.now(UTC):{STAMP}}-{reason}"
    return _copy(path, _free_name(backup_folder(path), name, path.suffix), key)


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


def all_copies(path: Path) -> tuple[Path, ...]:
    """Every copy in the folder beside the file, those that were put aside too; by name."""
    return tuple(sorted(backup_folder(path).glob(f"{path.stem}-*{path.suffix}")))


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


def restore(copy: Path, path: Path, *, key: Passphrase | None = None) -> Path | None:
    """Puts a copy in the place of the file; where the file it replaced is now, if there was one.

    key: what the copy is locked with, if it is; the file then is, too. The copy is checked first;
    the file is copied aside, or if it is too damaged for that, moved aside as it is. The file must
    not be open.
    """
    with told(str(copy)):
        _check(copy, admit(copy, key))
    aside = _put_aside(path, key) if path.exists() else None
    making = path.with_name(f".{path.name}.{os.getpid()}.restored")
    with told(str(path)):
        try:
            _copy(copy, making, key)
            making.replace(path)
        finally:
            making.unlink(missing_ok=True)
    log.info("restored a copy")
    return aside


def verify(path: Path, *, key: Passphrase | None = None) -> None:
    """Raises StoreFailure unless the file is ours, readable by us and whole."""
    with told(str(path)):
        _check(path, admit(path, key))


MOVED_AS_THEY_ARE = frozenset(
    {Cause.DAMAGED, Cause.NOT_OURS, Cause.NEEDS_PASSPHRASE, Cause.WRONG_PASSPHRASE}
)
"""Files that cannot be copied row by row, and are put aside byte by byte."""


def _put_aside(path: Path, key: Passphrase | None) -> Path:
    try:
        return copy_aside(path, reason="before-restore", key=key)
    except StoreFailure as failure:
        if failure.cause not in MOVED_AS_THEY_ARE:
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


def _copy(path: Path, target: Path, key: Passphrase | None) -> Path:
    with told(str(path)):
        key = admit(path, key)
    with told(str(target)):
        part = target.with_name(f"{target.name}.part")
        try:
            make_private_folder(target.parent)
            make_private(part)
            counts = _copy_rows(path, part, key)
            if _check(part, key) != counts:
                raise StoreFailure(Cause.DEVICE, where=str(target))
            part.replace(target)
        finally:
            part.unlink(missing_ok=True)
            part.with_name(f"{part.name}-journal").unlink(missing_ok=True)
    return target


def _copy_rows(path: Path, target: Path, key: Passphrase | None) -> Counts:
    """Copies one moment of the file; the rows each table had then."""
    with closing(_open(path, key)) as source, closing(_open(target, key)) as copy:
        source.execute("BEGIN")  # nobody can write between counting and copying
        counts = count_rows(source)
        source.backup(copy)
        source.rollback()
        return counts


def _check(path: Path, key: Passphrase | None) -> Counts:
    """The rows of each table of a file that is whole. Raises StoreFailure for one that is not."""
    with closing(_open(path, key)) as connection:
        if key is not None:
            admit_inside(connection, str(path))
        refuse_hidden(connection, str(path))
        refuse_unsound(connection, str(path))
        return count_rows(connection)


def refuse_unsound(raw: sqlite3.Connection, where: str) -> None:
    """Raises StoreFailure if pages, or rows that belong together, do not fit."""
    if raw.execute("PRAGMA quick_check(1)").fetchone()[0] != "ok":
        raise StoreFailure(Cause.DAMAGED, where=where)
    if raw.execute("PRAGMA foreign_key_check").fetchone() is not None:
        raise StoreFailure(Cause.DAMAGED, where=where)
    if is_cipher(raw) and raw.execute("PRAGMA cipher_integrity_check").fetchone() is not None:
        raise StoreFailure(Cause.DAMAGED, where=where)


def table_names(raw: sqlite3.Connection) -> tuple[str, ...]:
    """The tables of the file, by name."""
    found = raw.execute("SELECT name FROM sqlite_master WHERE type = 'table' ORDER BY name")
    return tuple(str(name) for (name,) in found.fetchall())


def count_rows(raw: sqlite3.Connection) -> Counts:
    """How many rows each table has."""
    counts = {}
    for name in table_names(raw):
        count = f'SELECT count(*) FROM "{name}"'  # noqa: S608  # the names are our own tables'
        counts[name] = int(raw.execute(count).fetchone()[0])
    return counts


def _open(path: Path, key: Passphrase | None) -> sqlite3.Connection:
    # after a crash SQLite has to write to put the file right, so reading alone is the last resort
    connection = connect(path, writable=is_writable(path), wait_s=WAIT_S, key=key)
    connection.execute("PRAGMA synchronous = EXTRA")
    connection.execute("PRAGMA trusted_schema = OFF")
    return connection
