"""Every program that edits can reach is stored and read back equal, over any course of events."""

from __future__ import annotations

import itertools
import sqlite3
import tempfile
from contextlib import closing
from dataclasses import replace
from pathlib import Path

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from hypothesis.stateful import (
    RuleBasedStateMachine,
    invariant,
    rule,
    run_state_machine_as_test,
)

from app.domain.errors import EditError
from app.domain.program import Program
from app.domain.work import Work
from db.errors import Cause, StoreFailure
from db.store import Store
from tests.db.samples import RUNA
from tests.domain.edits.random_edits import edits_of, runs, start
from tests.strategies import clients


@given(runs())
def test_a_run_of_edits_and_its_undoing_are_stored_step_by_step(values: list[Program]) -> None:
    store = Store.in_memory()
    store.save(None, Work(RUNA, values[0]), label="Add the program")
    there_and_back = [*values, *reversed(values[:-1])]
    for before, after in itertools.pairwise(there_and_back):
        store.save(Work(RUNA, before), Work(RUNA, after), label="edit")
        assert store.load_program(after.id) == after
    assert store.check_integrity() == ()
    store.close()


class Desk(RuleBasedStateMachine):
    """A coach at work on a real file: edits, undoes, closes, is locked out, opens again."""

    def __init__(self) -> None:
        super().__init__()
        self.folder = tempfile.TemporaryDirectory()
        self.path = Path(self.folder.name, "coach.weekloom")
        self.store = Store.open(self.path, wait_s=0.0)
        self.values = [Work(RUNA, start())]
        self.at = 0
        self.kept = 1
        self.store.save(None, self.now, label="Add the program")

    @property
    def now(self) -> Work:
        return self.values[self.at]

    @property
    def program(self) -> Program:
        assert self.now.program is not None
        return self.now.program

    def keep(self, after: Work) -> None:
        self.store.save(self.now, after, label="step")
        self.kept += after.program is not self.now.program

    @rule(data=st.data())
    def edit(self, data: st.DataObject) -> None:
        try:
            after = data.draw(edits_of(self.program))(self.program)
        except EditError:
            return
        self.keep(replace(self.now, program=after))
        self.values[self.at + 1 :] = [replace(self.now, program=after)]
        self.at += 1

    @rule(client=clients)
    def change_the_client(self, client) -> None:
        after = replace(self.now, client=replace(client, id=RUNA.id))
        self.keep(after)
        self.values[self.at + 1 :] = [after]
        self.at += 1

    @rule()
    def undo(self) -> None:
        if self.at:
            self.keep(self.values[self.at - 1])
            self.at -= 1

    @rule()
    def redo(self) -> None:
        if self.at + 1 < len(self.values):
            self.keep(self.values[self.at + 1])
            self.at += 1

    @rule()
    def close_and_open(self) -> None:
        self.store.close()
        self.store = Store.open(self.path, wait_s=0.0)

    @rule()
    def be_locked_out(self) -> None:
        after = replace(self.now, program=replace(self.program, name="Locked out"))
        with closing(sqlite3.connect(self.path, isolation_level=None)) as other:
            other.execute("BEGIN EXCLUSIVE")
            with pytest.raises(StoreFailure) as refused:
                self.keep(after)
        assert refused.value.cause is Cause.LOCKED

    @invariant()
    def file_and_memory_agree(self) -> None:
        assert self.store.load_client(RUNA.id) == self.now.client
        assert self.store.load_program(self.program.id) == self.program
        assert len(self.store.log(self.program.id, limit=1000)) == self.kept

    def teardown(self) -> None:
        assert self.store.check_integrity() == ()
        self.store.close()
        self.folder.cleanup()


def test_any_course_of_events_leaves_file_and_memory_agreeing() -> None:
    run_state_machine_as_test(
        Desk, settings=settings(max_examples=25, stateful_step_count=30, deadline=None)
    )
