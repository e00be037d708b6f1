"""The coach's file as values: open, load, save. The one door to it.

Every method is one transaction, unless `together` makes one of several. What a write method was
asked to keep is durable when it returns; if it raises StoreError, the file is as it was. A store
is used by threads in turns. What writes is imported with the first write: it needs
SQLAlchemy, and a window that only shows does not wait for that.
"""

from __future__ import annotations

from collections.abc import Callable, Iterator, Mapping
from contextlib import contextmanager, suppress
from datetime import datetime
from pathlib import Path
from typing import TYPE_CHECKING

from app.domain.client import Client, ClientId
from app.domain.exercise import Exercise, ExerciseKey
from app.domain.program import Program, ProgramId
from app.domain.ranges import Override, Who
from app.domain.wording import tr
from app.domain.work import Coach, Issue, IssueId, Work
from db import reading
from db.client_reading import read_client
from db.engine import WAIT_S
from db.errors import Cause, StoreFailure, is_of_sqlite, missing, told
from db.lines import ClientLine, IssueLine, LogLine, ProgramLine
from db.open_file import OpenFile, utc_now
from db.opening import Opened, open_file, open_memory
from db.passphrase import Passphrase
from db.program_reading import read_program

if TYPE_CHECKING:
    from sqlalchemy import Connection

    from app.domain.handed_out import PrintedWeek
    from app.domain.program import WeekId
    from app.domain.results import Diary
    from db.across import NewestLine, PlanLine
    from db.erasing import Footprint
    from db.roster import RosterLine
    from db.whole import Table


class Store(OpenFile):
    """The values in an open file.

    upgraded_from and backup_made say what opening an older file did; read_only is True where the
    file or its folder cannot be written to: reading works, saving says why not.
    """

    def __init__(
        self, opened: Opened, path: Path | None, *, now: Callable[[], datetime] = utc_now
    ) -> None:
        super().__init__(opened, path, now=now)
        self.upgraded_from = opened.upgraded_from
        self.backup_made = opened.backup_made
        self._listed: tuple[int, tuple[ClientLine, ...]] | None = None

    # ------------------------------------------------------------------------ open and close

    @classmethod
    def open(cls, path: Path, *, wait_s: float = WAIT_S, key: Passphrase | None = None) -> Store:
        """The store on the file at `path`, which is made if there is none.

        An older file is copied aside and upgraded. Raises StoreFailure, with no byte changed, for
        a file that is newer, not ours or damaged. wait_s: how long a lock is waited for, s.
        key: the passphrase of a locked file.
        """
        return cls(open_file(path, wait_s=wait_s, key=key), path)

    @classmethod
    def in_memory(cls) -> Store:
        """A store that is gone when it is closed."""
        return cls(open_memory(), None)

    @staticmethod
    def prepare() -> None:
        """Imports what the first write needs, in a quiet moment; safe in another thread."""
        from db import issues, library, saving, settings

        _ = (issues, library, saving, settings)

    def _changed_all(self) -> None:
        self._listed = None

    @contextmanager
    def together(self) -> Iterator[None]:
        """Makes everything that is kept inside the block one transaction: all of it or nothing."""
        try:
            with super().together():
                yield
        finally:
            self._listed = None

    # ------------------------------------------------------------------------ clients, programs

    def clients(self) -> tuple[ClientLine, ...]:
        """All clients by name, archived ones too; read again only if that list has changed."""
        return self._tried(self._list_clients)

    def _list_clients(self) -> tuple[ClientLine, ...]:
        version = self._read_data_version()
        if self._listed is None or self._listed[0] != version or self._inside:
            with self._reading():
                self._listed = version, reading.list_clients(self._raw)
        return self._listed[1]

    def client_line(self, client_id: ClientId) -> ClientLine | None:
        """The line of one client among `clients`; None where there is none of that id."""
        with self._reading():
            return reading.client_line(self._raw, client_id)

    def count_clients(self) -> int:
        """How many clients there are, archived ones too."""
        with self._reading():
            return reading.count_clients(self._raw)

    def roster(self, ids: tuple[ClientId, ...] | None = None) -> tuple[RosterLine, ...]:
        """Clients by name, with where each stands, always read anew: `ids` (a piece), or all."""
        from db.roster import list_roster

        return self._read(lambda: list_roster(self._raw, ids))

    def programs(self, client_id: ClientId) -> tuple[ProgramLine, ...]:
        """The client's programs, the newest start first."""
        return self._read(lambda: reading.list_programs(self._raw, client_id))

    def newest_programs(self) -> tuple[NewestLine, ...]:
        """The newest program of every client by the client's name; nothing archived counts."""
        from db.across import list_newest

        with self._reading():
            return list_newest(self._raw)

    def plans(self) -> tuple[PlanLine, ...]:
        """A line for each program of each client, archived ones too, and for whoever has none."""
        from db.across import list_plans

        with self._reading():
            return list_plans(self._raw)

    def load_client(self, client_id: ClientId) -> Client:
        """The client as stored. Raises StoreFailure if there is none of that id."""
        client, version = self._read(lambda: read_client(self._raw, client_id))
        self._versions["clients", client_id] = version
        return client

    def load_program(self, program_id: ProgramId) -> Program:
        """The program as stored. Raises StoreFailure if there is none of that id."""
        program, version = self._read(lambda: read_program(self._raw, program_id))
        self._versions["programs", program_id] = version
        return program

    def load_diary(self, client_id: ClientId) -> Diary:
        """All that the client did and reported. Raises StoreFailure if there is no such client."""
        from db.diary_reading import read_diary

        diary, version = self._read(lambda: read_diary(self._raw, client_id))
        self._versions["diaries", client_id] = version
        return diary

    # ------------------------------------------------------------------------ saving

    def save(self, before: Work | None, after: Work, *, label: str) -> None:
        """Writes the difference between two values and notes `label` in the log.

        before: what the file holds, as it was loaded or last saved; None for a new client. Parts
        that are the same object in both are skipped, and a diary of None stays as it is stored.
        Raises StoreFailure, with the file as it was, also if another window changed the same
        client, diary or program meanwhile.
        """
        from db import saving

        def work(connection: Connection) -> saving.Versions:
            changed = saving.save(
                connection,
                before,
                after=after,
                label=label,
                at=self._now(),
                seen=self._versions,
            )
            self._versions |= changed
            return changed

        versions = self._write(work)
        # an edit of a program that was there leaves the list of clients as it was
        if ("clients", after.client.id) in versions or 1 in versions.values():
            self._listed = None

    def remove_program(self, program_id: ProgramId) -> None:
        """Removes a program with everything in it; its issues stay with the client."""
        from db import saving

        self._write(lambda connection: saving.remove_program(connection, program_id))
        self._versions.pop(("programs", program_id), None)
        self._listed = None

    def remove_client(self, client_id: ClientId) -> None:
        """Removes a client with all programs, issues and notes."""
        from db import saving

        self._write(lambda connection: saving.remove_client(connection, client_id))
        for kind in ("clients", "diaries"):
            self._versions.pop((kind, client_id), None)
        self._listed = None

    def merge_clients(self, before: Work, after: Work, other: ClientId, *, label: str) -> None:
        """Keeps `after` in the place of `before`, and gives it all that the client `other` holds.

        Programs, issues with their ids, and the log go over; the record of `other` is removed.
        All of it is one transaction. Raises StoreFailure, with the file as it was.
        """
        from db.moving import hand_over

        with self.together():
            self.save(before, after, label=label)
            self._write(lambda connection: hand_over(connection, of=other, to=after.client.id))
        for kind in ("clients", "diaries"):
            self._versions.pop((kind, other), None)
        self._listed = None

    def footprint(self, client_id: ClientId) -> Footprint:
        """How much is held on the client. Raises StoreFailure if there is none of that id."""
        from db.erasing import footprint

        def found() -> Footprint:
            try:
                return footprint(self._raw, client_id)
            except LookupError:
                raise missing("client", client_id) from None

        return self._read(found)

    def erase_client(self, client_id: ClientId) -> None:
        """Removes the client as `remove_client` does, and every byte of it from the file.

        Raises StoreFailure, with the file as it was.
        """
        from db import erasing

        name = self.footprint(client_id).name
        self._write(lambda connection: erasing.remove_rows(connection, client_id, name))
        for kind in ("clients", "diaries"):
            self._versions.pop((kind, client_id), None)
        self._changed_all()
        # the bytes are written over by now; this only gives their room back, and may fail
        with suppress(StoreFailure), self._turn, told(self.where):
            erasing.build_anew(self._raw)

    def mentions(self, name: str) -> int:
        """How many rows have the name in one of their texts."""
        from db.erasing import mentions

        return self._read(lambda: mentions(self._raw, name))

    def picture_names(self) -> frozenset[str]:
        """The pictures that any check-in names."""
        from db.erasing import picture_names

        return self._read(lambda: picture_names(self._raw))

    def log(self, program_id: ProgramId, limit: int = 100) -> tuple[LogLine, ...]:
        """The last edits of the program, newest first, in the order they were kept."""
        return self._read(lambda: reading.list_edits(self._raw, program_id, limit=limit))

    # ------------------------------------------------------------------------ issues

    def add_issue(self, issue: Issue) -> None:
        """Keeps what a client was handed; it is never changed afterwards."""
        from db.issues import write_issue

        self._write(lambda connection: write_issue(connection, issue))

    def issues(self, program_id: ProgramId) -> tuple[IssueLine, ...]:
        """The issues of a program, the last one first."""
        return self._read(lambda: reading.list_issues(self._raw, program_id))

    def issues_of(self, client_id: ClientId) -> tuple[IssueId, ...]:
        """The ids of everything that the client was handed, in that order."""
        return self._read(lambda: reading.list_issues_of(self._raw, client_id))

    def edits_of(self, client_id: ClientId) -> tuple[LogLine, ...]:
        """All edits of the client and the client's programs, the oldest first."""
        return self._read(lambda: reading.list_edits_of(self._raw, client_id))

    def all_issues(self) -> tuple[IssueId, ...]:
        """The ids of everything that was handed out, in that order."""
        return self._read(lambda: reading.list_all_issues(self._raw))

    @contextmanager
    def whole(self) -> Iterator[tuple[str, Iterator[Table]]]:
        """The schema of the file and all its tables, of one moment, while the block lasts.

        A file is read over a link of its own, so that the window need not wait for the end of it.
        """
        from db.whole import whole

        try:
            with self._link_apart() as raw, whole(raw) as found:
                yield found
        except Exception as error:
            if not is_of_sqlite(error):  # what the block itself runs into is its own matter
                raise
            with told(self.where):
                raise

    def printed_weeks(self, issue_id: IssueId) -> Mapping[WeekId, PrintedWeek]:
        """The weeks of an issue as printed. Raises StoreFailure if there is none of that id."""
        from db.printed import read_printed

        return self._read(lambda: read_printed(self._raw, issue_id))

    def load_issue(self, issue_id: IssueId) -> Issue:
        """The issue, equal to what was kept. Raises StoreFailure if there is none of that id."""
        return self._read(lambda: reading.read_issue(self._raw, issue_id))

    # ------------------------------------------------------------------------ the coach's own

    def coach(self) -> Coach:
        """Who hands booklets out; with an empty name if nobody was entered."""
        return self._read(lambda: reading.read_coach(self._raw))

    def set_coach(self, coach: Coach) -> None:
        """Keeps who hands booklets out."""
        from db.settings import write_coach

        self._write(lambda connection: write_coach(connection, coach))

    def own_exercises(self, *, retired: bool = False) -> tuple[Exercise, ...]:
        """The coach's own exercises by key; with `retired`, also those no longer offered."""
        return self._read(lambda: reading.read_exercises(self._raw, retired=retired))

    def save_exercise(self, exercise: Exercise) -> None:
        """Keeps an exercise of the coach's own, in the place of an earlier one of its key."""
        from db.library import write_exercise

        self._write(lambda connection: write_exercise(connection, exercise))

    def retire_exercise(self, key: ExerciseKey) -> None:
        """Offers an exercise no longer. Raises StoreFailure if there is none of that key."""
        from db.library import retire

        self._write(lambda connection: retire(connection, key))

    def range_overrides(self) -> tuple[Override, ...]:
        """The coach's own ranges, in the order they were made."""
        return self._read(lambda: reading.read_overrides(self._raw))

    def add_range_override(self, override: Override) -> None:
        """Keeps one more range of the coach's own, with who, when and why."""
        from db.library import write_override

        self._write(lambda connection: write_override(connection, override))

    def remove_range_overrides(self, rule: str, who: Who) -> None:
        """Takes back the coach's own ranges of that rule for those people."""
        from db.library import remove_overrides

        self._write(lambda connection: remove_overrides(connection, rule, who))

    def setting(self, key: str) -> str:
        """The view state kept under `key`; empty if there is none."""
        return self._read(lambda: reading.read_setting(self._raw, key))

    def set_setting(self, key: str, value: str) -> None:
        """Keeps view state that belongs in the file: last client, program, week."""
        from db.settings import write_setting

        self._write(lambda connection: write_setting(connection, key, value), offer=False)

    # ------------------------------------------------------------------------ the file itself

    def check_integrity(self) -> tuple[str, ...]:
        """Sentences on everything that is wrong with the file; empty for a sound one."""
        try:
            with told(self.where):
                found = self._raw.execute("PRAGMA integrity_check").fetchall()
                strays = self._raw.execute("PRAGMA foreign_key_check").fetchall()
        except StoreFailure as failure:
            if failure.cause is not Cause.DAMAGED:
                raise
            return (failure.what,)
        except Exception as error:
            if not is_of_sqlite(error):
                raise
            # the tables no longer fit each other
            return (tr("The tables cannot be checked: {error}.", error=error),)
        damage = tuple(str(line) for (line,) in found if line != "ok")
        return damage + tuple(
            tr("A row of {first} belongs to nothing.", first=r[0]) for r in strays
        )
