"""The coach's file as values: open, load, save. The one door to it.

Every method is one transaction, unless `together` makes one of several. What a write method was
asked to keep is durable when it returns; if it raises StoreError, the file is as it was. A store
belongs to one thread at a time.
"""

from __future__ import annotations

from collections.abc import Callable, Iterator
from contextlib import contextmanager, nullcontext
from datetime import UTC, datetime
from pathlib import Path

from sqlalchemy import Table, delete, func, insert, select, update
from sqlalchemy.exc import OperationalError

from app.domain.client import Client, ClientId
from app.domain.exercise import Exercise, ExerciseKey
from app.domain.program import Program, ProgramId
from app.domain.ranges import Override
from app.domain.work import Coach, Issue, IssueId, Work
from db.client_rows import CLIENTS, client_rows, read_client
from db.engine import WAIT_S, disconnect, reading, writing
from db.errors import Cause, StoreFailure, told
from db.issues import list_issues, read_issue, write_issue
from db.library import read_exercises, read_overrides, retire, write_exercise, write_override
from db.lines import ClientLine, IssueLine, LogLine, ProgramLine
from db.models import EditRow
from db.opening import Opened, open_file, open_memory
from db.program_rows import BLOCKS, PROGRAMS, changed_rows, program_rows, read_program
from db.rows import table_of, write_difference
from db.settings import read_coach, read_setting, write_coach, write_setting

EDITS = table_of(EditRow)

_LINE = (CLIENTS.c.id, CLIENTS.c.name, CLIENTS.c.team, CLIENTS.c.archived)


def utc_now() -> datetime:
    """The time now, with its zone."""
    return datetime.now(UTC)


class Store:
    """An open file.

    upgraded_from and backup_made say what opening an older file did; read_only is True where the
    file or its folder cannot be written to: reading works, saving says why not.
    """

    def __init__(
        self, opened: Opened, where: str, *, now: Callable[[], datetime] = utc_now
    ) -> None:
        self.read_only = not opened.writable
        self.upgraded_from = opened.upgraded_from
        self.backup_made = opened.backup_made
        self.where = where
        self._connection = opened.connection
        self._now = now
        self._versions: dict[tuple[str, str], int] = {}
        self._inside = False
        self._data_version = self._read_data_version()

    # ------------------------------------------------------------------------ open and close

    @classmethod
    def open(cls, path: Path, *, wait_s: float = WAIT_S) -> Store:
        """The store on the file at `path`, which is made if there is none.

        An older file is copied aside and upgraded. Raises StoreFailure, with no byte changed, for
        a file that is newer, not ours or damaged. wait_s: how long a lock is waited for, s.
        """
        return cls(open_file(path, wait_s=wait_s), str(path))

    @classmethod
    def in_memory(cls) -> Store:
        """A store that is gone when it is closed."""
        return cls(open_memory(), "the file in memory")

    def close(self) -> None:
        """Lets go of the file. Closing twice is harmless."""
        disconnect(self._connection)

    @contextmanager
    def together(self) -> Iterator[None]:
        """Makes everything that is kept inside the block one transaction: all of it or nothing."""
        versions = dict(self._versions)
        with self._writing():
            self._inside = True
            try:
                yield
            except BaseException:
                self._versions = versions
                raise
            finally:
                self._inside = False

    @contextmanager
    def _reading(self) -> Iterator[None]:
        with told(self.where), nullcontext() if self._inside else reading(self._connection):
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

    @contextmanager
    def _writing(self) -> Iterator[None]:
        if self.read_only:
            raise StoreFailure(Cause.READ_ONLY, where=self.where)
        with told(self.where), nullcontext() if self._inside else writing(self._connection):
            yield

    # ------------------------------------------------------------------------ clients, programs

    def clients(self) -> tuple[ClientLine, ...]:
        """All clients by name, archived ones too."""
        query = (
            select(*_LINE, func.count(PROGRAMS.c.id).label("programs"))
            .outerjoin(PROGRAMS, PROGRAMS.c.client_id == CLIENTS.c.id)
            .group_by(CLIENTS.c.id)
            .order_by(CLIENTS.c.name, CLIENTS.c.id)
        )
        with self._reading():
            return tuple(
                ClientLine(ClientId(r.id), r.name, r.team, r.archived, r.programs)
                for r in self._connection.execute(query)
            )

    def programs(self, client_id: ClientId) -> tuple[ProgramLine, ...]:
        """The client's programs, the newest start first."""
        query = (
            select(PROGRAMS, func.coalesce(func.sum(BLOCKS.c.weeks), 0).label("weeks"))
            .outerjoin(BLOCKS, BLOCKS.c.program_id == PROGRAMS.c.id)
            .where(PROGRAMS.c.client_id == client_id)
            .group_by(PROGRAMS.c.id)
            .order_by(PROGRAMS.c.start.desc(), PROGRAMS.c.name, PROGRAMS.c.id)
        )
        with self._reading():
            return tuple(
                ProgramLine(ProgramId(r.id), r.name, r.start, r.weeks, r.archived)
                for r in self._connection.execute(query)
            )

    def load_client(self, client_id: ClientId) -> Client:
        """The client as stored. Raises StoreFailure if there is none of that id."""
        with self._reading():
            client, version = read_client(self._connection, client_id)
        self._versions[CLIENTS.name, client_id] = version
        return client

    def load_program(self, program_id: ProgramId) -> Program:
        """The program as stored. Raises StoreFailure if there is none of that id."""
        with self._reading():
            program, version = read_program(self._connection, program_id)
        self._versions[PROGRAMS.name, program_id] = version
        return program

    # ------------------------------------------------------------------------ saving

    def save(self, before: Work | None, after: Work, *, label: str) -> None:
        """Writes the difference between two values and notes `label` in the log.

        before: what the file holds, as it was loaded or last saved; None for a new client. Parts
        that are the same object in both are skipped. Raises StoreFailure, with the file as it
        was, also if another window changed the same client or program meanwhile.
        """
        versions: dict[tuple[str, str], int] = {}
        with self._writing():
            earlier = before.client if before and before.client.id == after.client.id else None
            if earlier is not after.client:
                versions |= self._write_client(earlier, after.client)
            program_id = None
            if after.program is not None:
                known = before.program if before and before.program else None
                if known is not None and known.id != after.program.id:
                    known = None
                if known is not after.program:
                    program_id = after.program.id
                    versions |= self._write_program(after.client.id, known, after.program)
            self._note(after.client.id, program_id, label=label)
        self._versions |= versions

    def _write_client(self, before: Client | None, after: Client) -> dict[tuple[str, str], int]:
        count = self._first_version if before is None else self._next_version
        version = count(CLIENTS, after.id)
        old = {} if before is None else client_rows(before)
        write_difference(self._connection, old, client_rows(after))
        return {(CLIENTS.name, after.id): version}

    def _write_program(
        self, client_id: ClientId, before: Program | None, after: Program
    ) -> dict[tuple[str, str], int]:
        if before is None:
            version = self._first_version(PROGRAMS, after.id)
            write_difference(self._connection, {}, program_rows(client_id, after))
            return {(PROGRAMS.name, after.id): version}
        version = self._next_version(PROGRAMS, after.id)
        write_difference(self._connection, *changed_rows(client_id, before, after))
        return {(PROGRAMS.name, after.id): version}

    def _first_version(self, table: Table, key: str) -> int:
        """The version of something new, which must not take the place of something else."""
        there = select(table.c.name).where(table.c.id == key)
        if (name := self._connection.execute(there).scalar()) is not None:
            raise StoreFailure(
                Cause.TAKEN,
                where=self.where,
                what=f"The file already holds {name!r} under the id {key}, so nothing was saved.",
            )
        return 1

    def _next_version(self, table: Table, key: str) -> int:
        """Counts one save more, and refuses if another window has counted one meanwhile."""
        seen = self._versions.get((table.name, key))
        if seen is None:
            found = select(table.c.version).where(table.c.id == key)
            seen = self._connection.execute(found).scalar()
        mine = (table.c.id == key) & (table.c.version == seen)
        counted = self._connection.execute(
            update(table).where(mine).values(version=(seen or 0) + 1)
        )
        if counted.rowcount != 1:
            raise StoreFailure(Cause.CHANGED_OUTSIDE, where=self.where)
        return (seen or 0) + 1

    def _note(self, client_id: ClientId, program_id: ProgramId | None, *, label: str) -> None:
        row = {
            "client_id": client_id,
            "program_id": program_id,
            "at": self._now().astimezone(UTC).isoformat(timespec="milliseconds"),
            "label": label,
        }
        self._connection.execute(insert(EDITS), row)

    def remove_program(self, program_id: ProgramId) -> None:
        """Removes a program with everything in it; its issues stay with the client."""
        self._remove(PROGRAMS, program_id)

    def remove_client(self, client_id: ClientId) -> None:
        """Removes a client with all programs, issues and notes."""
        self._remove(CLIENTS, client_id)

    def _remove(self, table: Table, key: str) -> None:
        with self._writing():
            self._connection.execute(delete(table).where(table.c.id == key))
        self._versions.pop((table.name, key), None)

    def log(self, program_id: ProgramId, limit: int = 100) -> tuple[LogLine, ...]:
        """The last edits of the program, newest first, in the order they were kept."""
        query = (
            select(EDITS.c.at, EDITS.c.label)
            .where(EDITS.c.program_id == program_id)
            .order_by(EDITS.c.id.desc())
            .limit(limit)
        )
        with self._reading():
            return tuple(
                LogLine(datetime.fromisoformat(r.at), r.label)
                for r in self._connection.execute(query)
            )

    # ------------------------------------------------------------------------ issues

    def add_issue(self, issue: Issue) -> None:
        """Keeps what a client was handed; it is never changed afterwards."""
        with self._writing():
            write_issue(self._connection, issue)

    def issues(self, program_id: ProgramId) -> tuple[IssueLine, ...]:
        """The issues of a program, the last one first."""
        with self._reading():
            return list_issues(self._connection, program_id)

    def load_issue(self, issue_id: IssueId) -> Issue:
        """The issue, equal to what was kept. Raises StoreFailure if there is none of that id."""
        with self._reading():
            return read_issue(self._connection, issue_id)

    # ------------------------------------------------------------------------ the coach's own

    def coach(self) -> Coach:
        """Who hands booklets out; with an empty name if nobody was entered."""
        with self._reading():
            return read_coach(self._connection)

    def set_coach(self, coach: Coach) -> None:
        """Keeps who hands booklets out."""
        with self._writing():
            write_coach(self._connection, coach)

    def own_exercises(self, *, retired: bool = False) -> tuple[Exercise, ...]:
        """The coach's own exercises by key; with `retired`, also those no longer offered."""
        with self._reading():
            return read_exercises(self._connection, retired=retired)

    def save_exercise(self, exercise: Exercise) -> None:
        """Keeps an exercise of the coach's own, in the place of an earlier one of its key."""
        with self._writing():
            write_exercise(self._connection, exercise)

    def retire_exercise(self, key: ExerciseKey) -> None:
        """Offers an exercise no longer. Raises StoreFailure if there is none of that key."""
        with self._writing():
            retire(self._connection, key)

    def range_overrides(self) -> tuple[Override, ...]:
        """The coach's own ranges, in the order they were made."""
        with self._reading():
            return read_overrides(self._connection)

    def add_range_override(self, override: Override) -> None:
        """Keeps one more range of the coach's own, with who, when and why."""
        with self._writing():
            write_override(self._connection, override)

    def setting(self, key: str) -> str:
        """The view state kept under `key`; empty if there is none."""
        with self._reading():
            return read_setting(self._connection, key)

    def set_setting(self, key: str, value: str) -> None:
        """Keeps view state that belongs in the file: last client, program, week."""
        with self._writing():
            write_setting(self._connection, key, value)

    # ------------------------------------------------------------------------ the file itself

    def _read_data_version(self) -> int:
        with told(self.where):
            return int(self._connection.exec_driver_sql("PRAGMA data_version").scalar_one())

    def changed_outside(self) -> bool:
        """True if another window or program has written to the file since this was last asked."""
        earlier, self._data_version = self._data_version, self._read_data_version()
        return earlier != self._data_version

    def check_integrity(self) -> tuple[str, ...]:
        """Sentences on everything that is wrong with the file; empty for a sound one."""
        try:
            with told(self.where):
                found = self._connection.exec_driver_sql("PRAGMA integrity_check").scalars().all()
                strays = self._connection.exec_driver_sql("PRAGMA foreign_key_check").all()
        except StoreFailure as failure:
            if failure.cause is not Cause.DAMAGED:
                raise
            return (failure.what,)
        except OperationalError as error:  # the tables no longer fit each other
            return (f"The tables cannot be checked: {error.orig}.",)
        damage = tuple(str(line) for line in found if line != "ok")
        return damage + tuple(f"A row of {r[0]} belongs to nothing." for r in strays)
