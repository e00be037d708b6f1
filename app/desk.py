"""What is open: client, program, history and findings. The only place with state.

Every edit goes the same way: the edit itself, then the disk, then memory, then the listeners. A
failure at any step leaves the three agreeing.
"""

from __future__ import annotations

import logging
from collections.abc import Callable, Hashable, Iterator, Mapping
from contextlib import AbstractContextManager
from dataclasses import dataclass, replace
from datetime import date, datetime
from typing import TYPE_CHECKING, Protocol

from app.domain import checks
from app.domain.client import Client, ClientId
from app.domain.exercise import Catalogue, Exercise, ExerciseKey
from app.domain.facts import WeekFacts
from app.domain.findings import Edit, Finding
from app.domain.loads import printed_loads
from app.domain.loads_memo import LoadsMemo
from app.domain.program import Program, ProgramId, Slot, Week, WeekId
from app.domain.ranges import RangeBook
from app.domain.strength import Load
from app.domain.wording import tr, trn
from app.domain.work import Coach, Issue, IssueId, Work
from app.history import History, Step
from db.lines import IssueLine

if TYPE_CHECKING:
    from pathlib import Path

    from app.domain.handed_out import HandedOut, PrintedWeek
    from app.domain.results import Diary
    from db.passphrase import Passphrase

log = logging.getLogger(__name__)

Listener = Callable[[Work | None, Work | None], None]


class Keeper(Protocol):
    """What the desk asks of a store. path: of its file, None in memory; key: its passphrase."""

    path: Path | None
    key: Passphrase | None

    def save(self, before: Work | None, after: Work, *, label: str) -> None:
        """Keep the difference in one durable transaction."""

    def load_client(self, client_id: ClientId) -> Client:
        """The client as last kept."""

    def load_program(self, program_id: ProgramId) -> Program:
        """The program as last kept."""

    def load_diary(self, client_id: ClientId) -> Diary:
        """The client's diary as last kept."""

    def add_issue(self, issue: Issue) -> None:
        """Keep what was handed out."""

    def issues(self, program_id: ProgramId) -> tuple[IssueLine, ...]:
        """The issues of a program, the last one first."""

    def printed_weeks(self, issue_id: IssueId) -> Mapping[WeekId, PrintedWeek]:
        """The weeks of an issue as printed."""

    def coach(self) -> Coach:
        """Who hands booklets out."""

    def own_exercises(self, *, retired: bool = False) -> tuple[Exercise, ...]:
        """The coach's own exercises; with `retired`, also those no longer offered."""

    def save_exercise(self, exercise: Exercise) -> None:
        """Keep an exercise of the coach's own."""

    def retire_exercise(self, key: ExerciseKey) -> None:
        """Offer an exercise no longer."""

    def together(self) -> AbstractContextManager[None]:
        """Make everything that is kept inside the block one transaction."""

    def setting(self, key: str) -> str:
        """The view state kept under `key`; empty if there is none."""

    def set_setting(self, key: str, value: str) -> None:
        """Keep view state that belongs in the file."""


@dataclass(frozen=True, slots=True)
class Preview:
    """An edit that nobody has kept: the program it would make, and the findings that change.

    findings: all of them, as they would stand.
    """

    edit: Edit
    before: Program
    after: Program
    gained: tuple[Finding, ...]
    lost: tuple[Finding, ...]
    findings: tuple[Finding, ...] = ()


class Desk:
    """The open client and program, with their history and findings."""

    def __init__(self, store: Keeper, catalogue: Catalogue, ranges: RangeBook) -> None:
        self.store = store
        self.catalogue = catalogue
        self.ranges = ranges
        self.work: Work | None = None
        self.kept_at: datetime | None = None
        self.kept_label = ""
        self._histories: dict[ClientId, History] = {}
        self._memo = checks.Memo()
        self._findings: tuple[Finding, ...] | None = None
        self._loads = LoadsMemo()
        self._handed_out: tuple[ProgramId, tuple[IssueLine, ...], HandedOut] | None = None
        self._listeners: list[Listener] = []

    # -- what is open ----------------------------------------------------------------------

    @property
    def client(self) -> Client:
        """The open client. Raises LookupError if none is open."""
        return self._open_work().client

    @property
    def program(self) -> Program:
        """The open program. Raises LookupError if none is open."""
        if self.work is None or self.work.program is None:
            raise LookupError("no program is open")
        return self.work.program

    @property
    def has_program(self) -> bool:
        """True if a program is open."""
        return self.work is not None and self.work.program is not None

    @property
    def diary(self) -> Diary:
        """The open client's diary, read the first time it is asked for.

        Raises LookupError if no client is open, and StoreError if it cannot be read.
        """
        work = self._open_work()
        if work.diary is not None:
            return work.diary
        diary = self.store.load_diary(work.client.id)
        self.work = replace(work, diary=diary)
        return diary

    def listen(self, listener: Listener) -> None:
        """Call `listener(before, after)` after every change of what is open."""
        self._listeners.append(listener)

    def open(self, client_id: ClientId, program_id: ProgramId | None = None) -> None:
        """Open a client, and one of the client's programs if one is named."""
        client = self.store.load_client(client_id)
        program = None if program_id is None else self.store.load_program(program_id)
        self._show(Work(client, program))

    def seen(self) -> Iterator[Work]:
        """What was open or edited in this session, as last kept: what is open comes first.

        Then what each client's history has: the newest state first, and all that undo and redo
        could bring back behind it.
        """
        if self.work is not None:
            yield self.work
        for history in self._histories.values():
            yield from (step.before for step in history.steps[history.done :][:1])
            yield from (step.after for step in reversed(history.steps[: history.done]))
            for step in history.steps:
                yield from (step.before, step.after)

    def read_again(self) -> None:
        """Take up what the file holds now; steps taken before can no longer be undone."""
        work = self._open_work()
        self.forget_steps(work.client.id)
        self.open(work.client.id, None if work.program is None else work.program.id)

    def close(self) -> None:
        """Open nothing."""
        self._show(None)

    def _show(self, work: Work | None) -> None:
        before, self.work = self.work, work
        if before is None or work is None or before.client is not work.client:
            self._loads.clear()
            self._findings = None
        elif before.program is not work.program:
            self._findings = None
        for listener in tuple(self._listeners):
            listener(before, work)

    def use_catalogue(self, catalogue: Catalogue) -> None:
        """Work with other exercises from now on; what was worked out of the old ones is dropped."""
        self.catalogue = catalogue
        self._memo = checks.Memo()
        self._loads.clear()
        self._findings = None
        self._show(self.work)

    def use_ranges(self, ranges: RangeBook) -> None:
        """Check by other ranges from now on; what was found by the old ones is dropped."""
        self.ranges = ranges
        self._memo = checks.Memo()
        self._findings = None
        self._show(self.work)

    # -- edits -----------------------------------------------------------------------------

    def keep(self, edit: Edit, *, key: Hashable = None, reason: str = "") -> Step | None:
        """Apply an edit of the program, keep it, and return its step; None if it changes nothing.

        reason: why it was made; it stands behind the label in the file's own log.
        Raises EditError if it cannot be applied and StoreError if it cannot be kept; in either
        case everything is as it was.
        """
        after = edit(self.program)
        work = replace(self._open_work(), program=after)
        return self._keep(edit.label, work, key=key, reason=reason)

    def keep_client(self, label: str, client: Client, *, key: Hashable = None) -> Step | None:
        """Keep the open client as changed; None if nothing did."""
        return self._keep(label, replace(self._open_work(), client=client), key=key)

    def keep_diary(self, label: str, diary: Diary, *, key: Hashable = None) -> Step | None:
        """Keep the open client's diary as changed; None if nothing did."""
        return self.keep_work(label, diary=diary, key=key)

    def keep_work(
        self,
        label: str,
        *,
        client: Client | None = None,
        program: Program | None = None,
        diary: Diary | None = None,
        key: Hashable = None,
    ) -> Step | None:
        """Keep several parts of what is open as one step; None if nothing changed.

        What is not given stays. Raises StoreError if it cannot be kept; everything is then as it
        was.
        """
        if diary is not None and diary == self.diary:  # and the one before is read by that
            diary = None
        work = self._open_work()
        after = Work(client or work.client, program or work.program, diary or work.diary)
        return self._keep(label, after, key=key)

    def _open_work(self) -> Work:
        if self.work is None:
            raise LookupError("no client is open")
        return self.work

    def _keep(
        self, label: str, after: Work, *, key: Hashable = None, reason: str = ""
    ) -> Step | None:
        before = self._open_work()
        if after == before:
            return None
        self.store.save(before, after, label=f"{label}. {reason}" if reason else label)
        step = Step(label, before, after, key)
        self._histories[after.client.id] = self.history.pushed(step)
        self._note_kept(label)
        self._show(after)
        return step

    def _note_kept(self, label: str) -> None:
        self.kept_at = datetime.now().astimezone()
        self.kept_label = label
        log.info("kept an edit")

    def add_client(self, client: Client) -> None:
        """Keep a new client and open it."""
        work, label = Work(client), tr("Add client")
        self.store.save(None, work, label=label)
        self._note_kept(label)
        self._show(work)

    def add_program(self, program: Program) -> None:
        """Keep a new program of the open client and open it."""
        before = replace(self._open_work(), program=None)
        after = replace(before, program=program)
        label = tr("Add {program}", program=program.name)
        self.store.save(before, after, label=label)
        self._note_kept(label)
        self._show(after)

    # -- undo and redo ---------------------------------------------------------------------

    @property
    def history(self) -> History:
        """The open client's history."""
        if self.work is None:
            return History()
        return self._histories.get(self.work.client.id, History())

    def undo(self) -> Step | None:
        """Take the last step back; None if there is none."""
        step = self.history.undoable
        if step is None:
            return None
        label = tr("Undo: {label}", label=step.label)
        return self._go(step, to=step.before, history=self.history.undone(), label=label)

    def redo(self) -> Step | None:
        """Do the step again that was taken back last; None if there is none."""
        step = self.history.redoable
        if step is None:
            return None
        label = tr("Redo: {label}", label=step.label)
        return self._go(step, to=step.after, history=self.history.redone(), label=label)

    def go_to(self, done: int) -> int:
        """Go back, or on, until `done` steps of the history are done; the number of steps gone.

        If it cannot be kept all the way, it stops where it was kept last, and raises StoreError.
        """
        history, gone = self.history, 0
        for leg in history.way(done):
            label = (
                trn("Undo {n} step", "Undo {n} steps", leg.steps)
                if done < history.done
                else trn("Redo {n} step", "Redo {n} steps", leg.steps)
            )
            self.store.save(leg.frm, leg.to, label=label)
            self._histories[leg.to.client.id] = replace(history, done=leg.done)
            self._note_kept(label)
            self._show(self._with_diary(leg.to))
            gone += leg.steps
        return gone

    def forget_steps(self, client_id: ClientId) -> None:
        """Drop the history of a client: something it speaks of is no longer in the file."""
        self._histories.pop(client_id, None)

    def forget_all_steps(self) -> None:
        """Drop every history: another file has taken the place of the open one."""
        self._histories.clear()

    def _go(self, step: Step, *, to: Work, history: History, label: str) -> Step:
        frm = step.after if to is step.before else step.before
        self.store.save(frm, to, label=label)
        self._histories[to.client.id] = history
        self._note_kept(label)
        self._show(self._with_diary(to))
        return step

    def _with_diary(self, work: Work) -> Work:
        """`work` with the open diary, where its step was made before one had been read."""
        if work.diary is not None or self.work is None or self.work.client.id != work.client.id:
            return work
        return replace(work, diary=self.work.diary)

    # -- checks and previews ---------------------------------------------------------------

    @property
    def findings(self) -> tuple[Finding, ...]:
        """All findings on the open program, accepted ones included."""
        if not self.has_program:
            return ()
        if self._findings is None:
            self._findings = self.check(self.program)
        return self._findings

    def check(self, program: Program) -> tuple[Finding, ...]:
        """All findings on `program` for the open client; unchanged weeks are not checked again."""
        return checks.check(program, self.client, self.catalogue, self.ranges, memo=self._memo)

    @property
    def context(self) -> checks.Context:
        """Whom and what the open program is checked for, with what was worked out of its weeks."""
        return self._memo.for_(
            self.program, self.client, catalogue=self.catalogue, ranges=self.ranges
        )

    def facts(self, week: Week) -> WeekFacts:
        """Sets, minutes and frequency of a week, worked out once."""
        return self.context.facts.week(week)

    def check_week(self, program: Program, index: int) -> tuple[Finding, ...]:
        """Findings on one week of `program`; they are remembered, so `check` is quick after it."""
        return checks.check_week(
            program,
            index,
            client=self.client,
            catalogue=self.catalogue,
            ranges=self.ranges,
            memo=self._memo,
        )

    def preview(self, edit: Edit) -> Preview:
        """What `edit` would do. Raises EditError if it cannot be applied."""
        return self.preview_of(edit, edit(self.program))

    def preview_of(self, edit: Edit, after: Program) -> Preview:
        """What `edit` would do, where the program it makes is known already."""
        before = self.program
        findings = self.check(after)
        change = checks.difference(self.findings, findings)
        return Preview(edit, before, after, change.gained, change.lost, findings)

    def load(self, slot: Slot) -> Load | None:
        """The load for a slot from the open client's tests; None where nothing was tested.

        It is rounded to what there is at the place of the day that the slot is kept on.
        """
        return self._loads.load(slot, self.program, client=self.client, catalogue=self.catalogue)

    # -- issues ----------------------------------------------------------------------------

    def draft_issue(self, on: date) -> Issue:
        """The booklet as it would be handed out on that day; nothing is kept."""
        from uuid import uuid4

        loads = printed_loads(self.program, self.client, self.catalogue)
        issue_id = IssueId(uuid4().hex)
        return Issue(issue_id, on, self.store.coach(), self.client, self.program, loads)

    def handed_out(self) -> HandedOut:
        """The booklets of the open program that were handed out. Raises StoreError."""
        from app.domain.handed_out import HandedOut

        program, lines = self.program.id, self.store.issues(self.program.id)
        if self._handed_out is None or self._handed_out[:2] != (program, lines):
            self._handed_out = (program, lines, HandedOut(lines, self.store.printed_weeks))
        return self._handed_out[2]

    def hand_out(self, issue: Issue) -> None:
        """Keep the issue as handed out."""
        self.store.add_issue(issue)
        log.info("kept an issue")
