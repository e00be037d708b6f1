"""Troubles of the world become sentences with a cause; bugs keep their traceback."""

from __future__ import annotations

import errno
import sqlite3

import pytest
from sqlalchemy import create_engine
from sqlalchemy.exc import IntegrityError

from app.domain.errors import StoreError
from db.errors import SENTENCES, Cause, StoreFailure, cause_of, missing, told


def sqlite_error(code: int) -> sqlite3.OperationalError:
    error = sqlite3.OperationalError("said by the driver")
    error.sqlite_errorcode = code
    return error


@pytest.mark.parametrize("cause", Cause)
def test_every_cause_says_what_is_wrong_and_how_to_mend_it(cause):
    what, mend = SENTENCES[cause]
    failure = StoreFailure(cause, where="coach.weekloom")
    assert failure.sentence == f"coach.weekloom: {what} {mend}"
    assert what.endswith(".")
    assert mend.endswith(".")
    assert isinstance(failure, StoreError)


@pytest.mark.parametrize(
    ("code", "cause"),
    [
        (sqlite3.SQLITE_BUSY, Cause.LOCKED),
        (sqlite3.SQLITE_BUSY_SNAPSHOT, Cause.LOCKED),
        (sqlite3.SQLITE_FULL, Cause.FULL),
        (sqlite3.SQLITE_IOERR_WRITE, Cause.FULL),
        (sqlite3.SQLITE_IOERR_READ, Cause.DEVICE),
        (sqlite3.SQLITE_READONLY_DIRECTORY, Cause.READ_ONLY),
        (sqlite3.SQLITE_CORRUPT_INDEX, Cause.DAMAGED),
        (sqlite3.SQLITE_NOTADB, Cause.DAMAGED),
        (sqlite3.SQLITE_CANTOPEN, Cause.MISSING),
        (sqlite3.SQLITE_CONSTRAINT_CHECK, None),
        (sqlite3.SQLITE_ERROR, None),
    ],
)
def test_a_code_of_sqlite_has_its_cause(code, cause):
    assert cause_of(sqlite_error(code)) is cause


@pytest.mark.parametrize(
    ("number", "cause"),
    [
        (errno.ENOSPC, Cause.FULL),
        (errno.EROFS, Cause.READ_ONLY),
        (errno.EACCES, Cause.READ_ONLY),
        (errno.EIO, Cause.DEVICE),
        (errno.ENOENT, Cause.MISSING),
    ],
)
def test_an_error_of_the_file_system_has_its_cause(number, cause):
    with pytest.raises(StoreFailure) as failed, told("coach.weekloom"):
        raise OSError(number, "said by the system")
    assert failed.value.cause is cause
    assert failed.value.where == "coach.weekloom"


def test_a_bug_keeps_its_traceback():
    with create_engine("sqlite://").connect() as connection:
        connection.exec_driver_sql("CREATE TABLE t (x INTEGER CHECK (x > 0))")
        with pytest.raises(IntegrityError), told("coach.weekloom"):
            connection.exec_driver_sql("INSERT INTO t VALUES (0)")
    with pytest.raises(ZeroDivisionError), told("coach.weekloom"):
        _ = 1 / 0


def test_a_failure_without_a_place_is_given_one_and_keeps_its_own_otherwise():
    with pytest.raises(StoreFailure) as failed, told("coach.weekloom"):
        raise missing("client", "nobody")
    assert failed.value.sentence.startswith("coach.weekloom: There is no client 'nobody'")
    with pytest.raises(StoreFailure) as failed, told("coach.weekloom"):
        raise StoreFailure(Cause.FULL, where="the backup")
    assert failed.value.where == "the backup"
