"""The steps of this session and the log of the file."""

from __future__ import annotations

from dataclasses import replace
from datetime import UTC, datetime

import pytest
from PySide6.QtWidgets import QTreeWidget
from pytestqt.qtbot import QtBot

from app.domain.edits import place, whole
from app.domain.findings import edit
from app.domain.results import CheckIn, Diary
from app.domain.work import Work
from app.history import Step
from app.ui.bench import Bench
from app.ui.history_dialog import HistoryDialog, program_name, verb, when
from app.ui.lines_table import choose
from db.errors import Cause, StoreFailure
from db.lines import LogLine
from db.store import Store
from tests.ui.access import marked_up, too_small, unnamed
from tests.ui.desks import PROGRAM, RUNA, START, slot_ids, without_program


@pytest.fixture
def dialog(qtbot: QtBot, dressed, bench: Bench, store: Store) -> HistoryDialog:
    """Three steps, the last of them undone."""
    bench.keep(edit("Rename Ridge season", whole.rename, name="Spring"))
    bench.keep_client("Profile", replace(bench.desk.client, note="told"))
    bench.keep(edit("Remove Back squat", place.remove, slot_id=slot_ids(bench)[0]))
    bench.undo()
    made = HistoryDialog(bench, store, None)
    qtbot.addWidget(made)
    made.show()
    return made


def rows(table: QTreeWidget, columns: int = 3) -> list[tuple[str, ...]]:
    items = [table.topLevelItem(k) for k in range(table.topLevelItemCount())]
    return [tuple(item.text(column) for column in range(columns)) for item in items]


def test_every_step_is_named_with_its_program_and_state(dialog: HistoryDialog) -> None:
    assert rows(dialog.steps) == [
        ("Remove Back squat", "Spring", "undone"),
        ("Profile", "profile", "now"),
        ("Rename Ridge season", "Spring", "done"),
        ("As it was opened", "", "done"),
    ]
    assert dialog.wanted == 2
    assert not dialog.keep_button.isEnabled()


@pytest.mark.parametrize(("done", "text"), [(0, "Go back 2 steps"), (3, "Go on 1 step")])
def test_the_verb_says_how_far_it_is(dialog: HistoryDialog, done: int, text: str) -> None:
    choose(dialog.steps, done)
    assert dialog.keep_button.text() == text
    assert dialog.keep_button.isEnabled()
    assert verb(-1) == "Go back 1 step"


def test_going_back_takes_program_file_and_client_along(
    dialog: HistoryDialog, bench: Bench, store: Store, qtbot: QtBot
) -> None:
    choose(dialog.steps, 0)
    with qtbot.waitSignal(bench.said) as said:
        dialog.try_keep()
    assert said.args == ["Undone: 2 steps"]
    assert bench.desk.program == PROGRAM == store.load_program(PROGRAM.id)
    assert bench.desk.client.note == "" == store.load_client(bench.desk.client.id).note
    assert bench.desk.history.done == 0


def test_going_on_does_again_what_was_undone(dialog: HistoryDialog, bench: Bench) -> None:
    choose(dialog.steps, 3)
    dialog.try_keep()
    assert bench.desk.history.done == 3
    assert len(slot_ids(bench)) == len(list(PROGRAM.weeks[0].slots())) - 1


def test_where_the_file_refuses_it_stays_and_says_so(
    dialog: HistoryDialog, bench: Bench, store: Store, monkeypatch
) -> None:
    def full(*_: object, **__: object) -> None:
        raise StoreFailure(Cause.FULL, where=store.where)

    monkeypatch.setattr(store, "save", full)
    choose(dialog.steps, 0)
    dialog.try_keep()
    assert dialog.isVisible()
    assert dialog.wrong.text()
    assert bench.desk.history.done == 2
    assert rows(dialog.steps)[1][2] == "now"


def test_the_log_says_what_was_kept_and_when(dialog: HistoryDialog, store: Store) -> None:
    lines = store.log(PROGRAM.id)
    assert rows(dialog.log, 2) == [(line.label, when(line)) for line in lines]
    assert rows(dialog.log, 1)[0] == ("Undo: Remove Back squat",)
    assert rows(dialog.log, 1)[-1] == ("Add client",)


def test_the_time_is_the_places_own() -> None:
    at = datetime(2026, 11, 25, 12, 5, tzinfo=UTC)
    here = at.astimezone()
    assert when(LogLine(at, "x")) == f"{here.day} Nov 2026, {here:%H:%M}"


def test_without_a_program_the_log_says_so(
    qtbot: QtBot, dressed, bench: Bench, store: Store
) -> None:
    made = HistoryDialog(without_program(bench), store, None)
    qtbot.addWidget(made)
    assert rows(made.log, 1) == [("Nothing has been kept of a program yet.",)]
    assert rows(made.steps) == [("As it was opened", "", "now")]


def test_everybody_can_use_it(dialog: HistoryDialog) -> None:
    assert unnamed(dialog) == []
    assert too_small(dialog) == []
    assert marked_up(dialog) == []


def test_a_step_of_results_is_one_of_the_diary() -> None:
    noted = Diary((CheckIn(START),))
    assert program_name(Step("Check-in", Work(RUNA), Work(RUNA, diary=noted))) == "diary"
    assert program_name(Step("Team", Work(RUNA), Work(replace(RUNA, team="x")))) == "profile"
