"""An open file: its link, its transactions, and what happens when its place is lost.

A write that the file cannot take where it is (full, read-only, gone), and a read from a place that
went away, are offered to whoever shows the window: if the file is kept elsewhere meanwhile, the
same is done again there. So no edit is lost, whichever dialog it came from.
"""

from __future__ import annotations

import logging
from collections.abc import Callable, Iterator
from contextlib import contextmanager, nullcontext, suppress
from datetime import UTC, datetime
from math import inf
from pathlib import Path
from threading import RLock, get_ident
from time import monotonic
from typing import TYPE_CHECKING, TypeVar

from db.engine import link_file, undo, writing
from db.engine import reading as one_moment
from db.errors import STRANDED, Cause, StoreFailure, out_of_reach, told
from db.passphrase import Passphrase

if TYPE_CHECKING:
    import sqlite3

    from sqlalchemy import Connection

    from db.elsewhere import Held
    from db.engine import Link
    from db.opening import Opened

log = logging.getLogger(__name__)

T = TypeVar("T")

Rescue = Callable[[StoreFailure], bool]
"""Asked when a write or a read failed for its place; True if it should be tried again."""

ASKED_AGAIN_S = 3.0
"""For so long after another place was declined no read asks for one again, s."""


def utc_now() -> datetime:
    """The time now, with its zone."""
    return datetime.now(UTC)


class OpenFile:
    """The file behind a store. Threads use it in turns: each has it for one transaction.

    path: where it is, None in memory; key: what it is locked with, None for no lock; read_only:
    True where it, or its folder, could not be written to when it was opened.
    """

    def __init__(self, opened: Opened, path: Path | None, *, now: Callable[[], datetime]) -> None:
        self.path = path
        self.where = "the file in memory" if path is None else str(path)
        self.read_only = not opened.writable
        self.key = opened.key
        self._now = now
        self._versions: dict[tuple[str, str], int] = {}
        self._versions_before: dict[tuple[str, str], int] = {}
        self._pending: list[Callable[[Connection], object]] | None = None
        self._rescue: tuple[Rescue, int] | None = None
        self._unasked_until = -inf
        self._turn = RLock()  # never held while somebody is asked for another place
        self._take(opened.link)

    def _take(self, link: Link) -> None:
        self._link = link
        self._raw: sqlite3.Connection = link.raw
        self._inode = None if self.path is None else self.path.stat().st_ino
        self._data_version = self._read_data_version()

    def close(self) -> None:
        """Lets go of the file. Closing twice is harmless."""
        self._link.close()

    @property
    def _connection(self) -> Connection:
        return self._link.sql

    @property
    def _inside(self) -> bool:
        return self._pending is not None

    def _read_data_version(self) -> int:
        with told(self.where):
            return int(self._raw.execute("PRAGMA data_version").fetchone()[0])

    def changed_outside(self) -> bool:
        """True if another window or program has written to the file since this was last asked."""
        earlier, self._data_version = self._data_version, self._read_data_version()
        return earlier != self._data_version

    # ------------------------------------------------------------------------ reading

    @contextmanager
    def _reading(self) -> Iterator[None]:
        with (
            self._turn,
            told(self.where),
            nullcontext() if self._inside else one_moment(self._raw),
        ):
            try:
                yield
            except StoreFailure:
                raise
            except (
                ValueError,
                TypeError,
                LookupError,
            ) as error:  # a row that breaks the laws of its value
                raise StoreFailure(Cause.DAMAGED, where=self.where) from error

    def _read(self, work: Callable[[], T]) -> T:
        """What `work` reads, of one moment of the file. Raises StoreFailure.

        Where the file is out of reach, another place is offered, and `work` is done again there.
        """

        def read() -> T:
            with self._reading():
                return work()

        return self._tried(read)

    @contextmanager
    def _link_apart(self) -> Iterator[sqlite3.Connection]:
        """A link of its own to read the file over; what is in memory has but the one."""
        if self.path is None:
            with self._turn:
                yield self._raw
            return
        link = link_file(self.path, writable=False, key=self.key)
        try:
            yield link.raw
        finally:
            link.close()

    def _tried(self, read: Callable[[], T]) -> T:
        while True:
            try:
                return read()
            except StoreFailure as failure:
                lost = out_of_reach(failure)
                if lost is None:
                    raise
                if self._inside or monotonic() < self._unasked_until or not self._rescued(lost):
                    # a window reads many things in a row: one question is enough for all of them
                    self._unasked_until = monotonic() + ASKED_AGAIN_S
                    raise lost from failure

    def reach_again(self) -> None:
        """Opens the file at its place anew: what was out of reach may be back.

        What was read before counts still, so that nothing newer is written over. Raises
        StoreFailure, with everything as it was.
        """
        if self.path is None or not self.path.is_file():
            raise StoreFailure(Cause.GONE, where=self.where)
        with told(self.where):
            link = link_file(self.path, key=self.key)
        self._go_on_with(link, self.path)

    # ------------------------------------------------------------------------ writing

    def _write(self, work: Callable[[Connection], T], *, offer: bool = True) -> T:
        """Does `work` in one transaction; what it gives.

        offer: where the file cannot take it, another place is offered, and `work` is done again
        there. Raises StoreFailure, with the file as it was.
        """
        with self._turn:  # what another thread does together has ended by then
            pending = self._pending
        if pending is not None:
            return self._write_inside(work, pending)
        while True:
            try:
                with self._turn:
                    return self._write_once(work)
            except StoreFailure as failure:
                if not (offer and self._rescued(failure)):
                    raise

    def _write_once(self, work: Callable[[Connection], T]) -> T:
        self._versions_before = dict(self._versions)
        try:
            self._refuse_read_only()
            with told(self.where), writing(self._connection):
                self._refuse_gone()
                return work(self._connection)
        except BaseException:
            self._versions = self._versions_before
            raise

    @contextmanager
    def together(self) -> Iterator[None]:
        """Makes everything that is kept inside the block one transaction: all of it or nothing."""
        self._turn.acquire()
        self._versions_before = dict(self._versions)
        self._pending = []
        try:
            self._begin(self._pending)
            yield
            self._commit(self._pending)
        except BaseException:
            with suppress(Exception):  # a file that is gone cannot be put right, and need not be
                undo(self._raw)
            self._versions = self._versions_before
            raise
        finally:
            self._pending = None
            self._turn.release()

    def _begin(self, pending: list[Callable[[Connection], object]]) -> None:
        """Starts a transaction, with all that was done in it before its place was lost."""
        while True:
            try:
                self._refuse_read_only()
                with told(self.where):
                    self._connection.exec_driver_sql("BEGIN IMMEDIATE")
                    self._refuse_gone()
                    for work in pending:
                        work(self._connection)
            except StoreFailure as failure:
                undo(self._raw)
                if not self._rescued_between(failure):
                    raise
            else:
                return

    def _write_inside(
        self, work: Callable[[Connection], T], pending: list[Callable[[Connection], object]]
    ) -> T:
        while True:
            try:
                with told(self.where):
                    done = work(self._connection)
            except StoreFailure as failure:
                self._start_again(failure, pending)
            else:
                pending.append(work)
                return done

    def _commit(self, pending: list[Callable[[Connection], object]]) -> None:
        while True:
            try:
                with told(self.where):
                    self._refuse_gone()
                    self._connection.exec_driver_sql("COMMIT")
            except StoreFailure as failure:
                self._start_again(failure, pending)
            else:
                return

    def _start_again(
        self, failure: StoreFailure, pending: list[Callable[[Connection], object]]
    ) -> None:
        """Begins the transaction again at another place; raises `failure` if there is none."""
        if failure.cause not in STRANDED:
            raise failure
        undo(self._raw)
        self._versions = dict(self._versions_before)
        if not self._rescued_between(failure):
            raise failure
        self._versions_before = dict(self._versions)  # the new place may have others
        self._begin(pending)

    def _refuse_read_only(self) -> None:
        if self.read_only:
            raise StoreFailure(Cause.READ_ONLY, where=self.where)

    def _refuse_gone(self) -> None:
        """A file that was removed or replaced still takes writes, and loses them."""
        if self.path is None:
            return
        try:
            inode = self.path.stat().st_ino
        except FileNotFoundError as error:
            raise StoreFailure(Cause.GONE, where=self.where) from error
        if inode != self._inode:
            raise StoreFailure(Cause.GONE, where=self.where)

    # ------------------------------------------------------------------------ another place

    def offer_rescue(self, rescue: Rescue | None) -> None:
        """Asks `rescue` from now on whenever this thread fails to write or read for the place."""
        self._rescue = None if rescue is None else (rescue, get_ident())

    def _rescued_between(self, failure: StoreFailure) -> bool:
        """As `_rescued`, within `together`: the rescue writes from a thread of its own."""
        self._turn.release()
        try:
            return self._rescued(failure)
        finally:
            self._turn.acquire()

    def _rescued(self, failure: StoreFailure) -> bool:
        if self._rescue is None or failure.cause not in STRANDED:
            return False
        rescue, thread = self._rescue
        if thread != get_ident():
            return False
        log.info("the file could not be used: %s", failure.cause)
        self._rescue = None  # what the rescue itself writes is not rescued
        try:
            return rescue(failure)
        finally:
            self._rescue = (rescue, thread)

    def keep_elsewhere(self, target: Path, held: Held) -> bool:
        """Writes the whole file to a new one at `target` and goes on with that.

        held: what is written instead where the old file can no longer be read. True if all of it
        could be. Raises StoreFailure, with nothing at `target` and everything as it was.
        """
        from db.elsewhere import write_elsewhere

        written = write_elsewhere(self._raw, target, held=held, key=self.key, at=self._now())
        with told(str(target)):
            link = link_file(target, key=self.key)
        self._go_on_with(link, target)
        if not written.whole:
            self._versions.clear()
            self._versions |= written.versions
        return written.whole

    def change_passphrase(self, new: Passphrase | None) -> None:
        """Locks the file with another passphrase, or with None takes the lock away.

        Raises StoreFailure, with the file as it was.
        """
        from db.relock import relock

        if self.path is None:
            raise StoreFailure(Cause.READ_ONLY, where=self.where)
        self._refuse_gone()
        relock(self.path, old=self.key, new=new)
        with told(self.where):
            link = link_file(self.path, key=new)
        self.key = new
        self._go_on_with(link, self.path)

    def open_again(self) -> None:
        """Takes up the file that stands at the place now, with the same passphrase."""
        if self.path is None:
            raise StoreFailure(Cause.GONE, where=self.where)
        with told(self.where):
            link = link_file(self.path, key=self.key)
        self._versions.clear()
        self._go_on_with(link, self.path)

    def _go_on_with(self, link: Link, path: Path) -> None:
        with self._turn:
            with suppress(Exception):  # a share that is gone cannot even be let go of properly
                self._link.close()
            self.path, self.where, self.read_only = path, str(path), False
            self._take(link)
            self._changed_all()

    def _changed_all(self) -> None:
        """The file behind the values is another one: what was remembered of it is dropped."""
