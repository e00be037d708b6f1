"""What can go wrong with the coach's file, as sentences: what, where, how to mend.

Only the troubles of the world are here (a full disk, a lock, a damaged file). Anything else that
SQLite reports is a bug of ours and keeps its traceback.
"""

from __future__ import annotations

import errno
import sqlite3
from collections.abc import Iterator
from contextlib import contextmanager
from enum import StrEnum

from app.domain.errors import StoreError
from app.domain.wording import mark, tr


class Cause(StrEnum):
    """Why the file could not be opened, read or written."""

    LOCKED = "locked"
    FULL = "full"
    READ_ONLY = "read-only"
    DAMAGED = "damaged"
    TOO_NEW = "too new"
    NOT_OURS = "not ours"
    MISSING = "missing"
    DEVICE = "device"
    CHANGED_OUTSIDE = "changed outside"
    TAKEN = "taken"
    TEXT = "text"
    GONE = "gone"
    NEEDS_PASSPHRASE = "needs a passphrase"  # noqa: S105  # a word, not one
    WRONG_PASSPHRASE = "wrong passphrase"  # noqa: S105
    NO_CIPHER = "no cipher"


SENTENCES: dict[Cause, tuple[str, str]] = {
    Cause.LOCKED: (
        mark("The file is in use by another program, and nothing was saved."),
        mark("Close the other window or wait for it to finish, then try again."),
    ),
    Cause.FULL: (
        mark("There is no room left to write, and nothing of this change was saved."),
        mark("Free some space on that disk, then try again."),
    ),
    Cause.READ_ONLY: (
        mark("The file or its folder cannot be written to, and nothing was saved."),
        mark("Ask for the right to write there, or copy the file to a folder of your own."),
    ),
    Cause.DAMAGED: (
        mark("The file is damaged, so it was left exactly as it is."),
        mark("Keep it, and restore the newest good copy from the backups."),
    ),
    Cause.TOO_NEW: (
        mark("The file was written by a newer Weekloom."),
        mark("Update Weekloom on this computer, then open it again."),
    ),
    Cause.NOT_OURS: (
        mark("This is not a Weekloom file, so it was left as it is."),
        mark("Choose a file that Weekloom made, or a new name for a new one."),
    ),
    Cause.MISSING: (
        mark("The file or its folder cannot be reached."),
        mark("Check that the folder exists and that you may open it."),
    ),
    Cause.DEVICE: (
        mark("The disk reported an error, and nothing of this change was saved."),
        mark("Check the disk or the connection to it, then try again."),
    ),
    Cause.CHANGED_OUTSIDE: (
        mark("The same plan was changed in another window, so this change was not saved."),
        mark("Read the file again (F5) to see the other change, then repeat yours."),
    ),
    Cause.TAKEN: (
        mark("The file already holds something else under the same id, so nothing was saved."),
        mark("Change what is there instead, or give the new one an id of its own."),
    ),
    Cause.TEXT: (
        mark("A text holds a character that cannot be stored, so nothing was saved."),
        mark("Type the text again instead of pasting it."),
    ),
    Cause.GONE: (
        mark(
            "The file is no longer where it was: it was moved, removed or replaced. Nothing of "
            "this change was saved."
        ),
        mark("Keep the plans at another place, or bring the file back."),
    ),
    Cause.NEEDS_PASSPHRASE: (
        mark("The file is locked with a passphrase."),
        mark("Open it with its passphrase."),
    ),
    Cause.WRONG_PASSPHRASE: (
        mark("The passphrase does not open the file, which is as it was."),
        mark("Type it again: mind capital letters and the keyboard's language."),
    ),
    Cause.NO_CIPHER: (
        mark("The file is locked, and the part of Weekloom that opens locked files is missing."),
        mark("Install Weekloom again with all its parts."),
    ),
}
"""What is said, and how to mend it, for each cause."""

STRANDED = frozenset({Cause.FULL, Cause.READ_ONLY, Cause.MISSING, Cause.DEVICE, Cause.GONE})
"""Causes that another place mends: the file cannot be written to where it is."""

_BY_CODE = {
    sqlite3.SQLITE_BUSY: Cause.LOCKED,
    sqlite3.SQLITE_LOCKED: Cause.LOCKED,
    sqlite3.SQLITE_FULL: Cause.FULL,
    sqlite3.SQLITE_READONLY: Cause.READ_ONLY,
    sqlite3.SQLITE_READONLY_DBMOVED: Cause.GONE,
    sqlite3.SQLITE_PERM: Cause.READ_ONLY,
    sqlite3.SQLITE_CORRUPT: Cause.DAMAGED,
    sqlite3.SQLITE_NOTADB: Cause.DAMAGED,
    sqlite3.SQLITE_CANTOPEN: Cause.MISSING,
    sqlite3.SQLITE_IOERR: Cause.DEVICE,
    # a full disk shows in two ways: as its own code, or as a write that fails
    sqlite3.SQLITE_IOERR_WRITE: Cause.FULL,
    # our own writes put parents first, so only another window can have taken one away
    sqlite3.SQLITE_CONSTRAINT_FOREIGNKEY: Cause.CHANGED_OUTSIDE,
}


_BY_ERRNO = {
    errno.ENOSPC: Cause.FULL,
    errno.EDQUOT: Cause.FULL,
    errno.EFBIG: Cause.FULL,
    errno.EROFS: Cause.READ_ONLY,
    errno.EACCES: Cause.READ_ONLY,
    errno.EPERM: Cause.READ_ONLY,
    errno.EIO: Cause.DEVICE,
}


class StoreFailure(StoreError):
    """A StoreError that knows its cause. reading: True where something was read, not written."""

    reading = False

    def __init__(self, cause: Cause, *, where: str = "", what: str = "", mend: str = "") -> None:
        self.cause = cause
        said, remedy = SENTENCES[cause]
        super().__init__(what or tr(said), where=where, mend=mend or tr(remedy))

    def at(self, where: str) -> StoreFailure:
        """The same failure with its place, if it does not name one yet."""
        if self.where:
            return self
        return StoreFailure(self.cause, where=where, what=self.what, mend=self.mend)


def missing(what: str, key: str) -> StoreFailure:
    """The refusal of something that is not in the file."""
    return StoreFailure(
        Cause.MISSING,
        what=tr("There is no {what} {key!r} in the file.", what=what, key=key),
        mend=tr("Choose another from the list; it may have been removed in another window."),
    )


def out_of_reach(failure: StoreFailure) -> StoreFailure | None:
    """The failure in words for reading, if the world and not what was asked for kept the file
    from being read; None for all else.
    """
    cause = failure.__cause__
    of_world = isinstance(cause, OSError) or (cause is not None and is_of_sqlite(cause))
    if failure.cause not in STRANDED or not of_world:
        return None
    lost = StoreFailure(
        failure.cause,
        where=failure.where,
        what=tr("The file cannot be read: its disk, or the connection to it, does not answer."),
        mend=tr("Bring the disk or the connection back, then try again."),
    )
    lost.reading = True
    return lost


def is_of_sqlite(error: BaseException) -> bool:
    """True for an error of SQLite, whichever driver raised it."""
    kinds = {(kind.__module__.partition(".")[0], kind.__name__) for kind in type(error).__mro__}
    return bool(kinds & {("sqlite3", "Error"), ("sqlcipher3", "Error")})


def code_of(error: BaseException) -> int | None:
    """SQLite's extended result code behind an error, if it has one."""
    code = getattr(getattr(error, "orig", error), "sqlite_errorcode", None)
    return code if isinstance(code, int) else None


def cause_of(error: BaseException) -> Cause | None:
    """The cause behind an error of SQLite or of the file system; None where it is a bug of ours."""
    original = getattr(error, "orig", error)  # SQLAlchemy wraps what the driver raised
    if isinstance(original, OSError):
        return _BY_ERRNO.get(original.errno or 0, Cause.MISSING)
    if isinstance(original, UnicodeDecodeError):  # a text, or SQLite's own words about it
        return Cause.DAMAGED
    if isinstance(original, UnicodeEncodeError):
        return Cause.TEXT
    code = code_of(original)
    if code is None:
        unreadable = str(original).startswith("Could not decode to UTF-8")
        return Cause.DAMAGED if is_of_sqlite(original) and unreadable else None
    return _BY_CODE.get(code) or _BY_CODE.get(code & 0xFF)


@contextmanager
def told(where: str) -> Iterator[None]:
    """Turns the troubles of the world inside the block into a StoreFailure about `where`."""
    try:
        yield
    except StoreFailure as failure:
        raise failure.at(where) from failure.__cause__
    except Exception as error:
        cause = cause_of(error)
        if cause is None:
            raise
        raise StoreFailure(cause, where=where) from error
