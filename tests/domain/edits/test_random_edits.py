"""What every edit keeps, over random runs of all of them."""

from __future__ import annotations

import itertools

from hypothesis import given

from app.domain.client import Client, ClientId
from app.domain.program import Program, broken_laws
from app.domain.work import Work
from app.history import History, Step
from tests.domain.edits.random_edits import runs


@given(runs())
def test_edits_keep_the_laws_of_a_program(values: list[Program]) -> None:
    for program in values:
        assert broken_laws(program) == ()


@given(runs())
def test_unchanged_weeks_are_the_same_objects(values: list[Program]) -> None:
    for before, after in itertools.pairwise(values):
        old = {week.id: week for week in before.weeks}
        for week in after.weeks:
            if week.id in old and week == old[week.id]:
                assert week is old[week.id]


@given(runs())
def test_unchanged_sessions_are_the_same_objects(values: list[Program]) -> None:
    for before, after in itertools.pairwise(values):
        old = {s.id: s for week in before.weeks for _, s in week.sessions()}
        for week in after.weeks:
            for _, session in week.sessions():
                if session.id in old and session == old[session.id]:
                    assert session is old[session.id]


@given(runs())
def test_undo_all_gives_the_first_value_and_redo_all_the_last(values: list[Program]) -> None:
    client = Client(ClientId("c"), "Runa Estvik")
    history = History()
    for before, after in itertools.pairwise(values):
        history = history.pushed(Step("edit", Work(client, before), Work(client, after)))
    program: Program | None = values[-1]
    while (step := history.undoable) is not None:
        assert step.after.program is program
        program, history = step.before.program, history.undone()
    assert program is values[0]
    while (step := history.redoable) is not None:
        assert step.before.program is program
        program, history = step.after.program, history.redone()
    assert program is values[-1]
