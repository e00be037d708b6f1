"""What the panes of one window share."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import replace

import pytest
from pytestqt.qtbot import QtBot

from app.domain.edits import place, weeks
from app.domain.edits.whole import rename
from app.domain.errors import EditError
from app.domain.findings import edit
from app.domain.program import SlotId, Span
from app.domain.results import SetDone, SlotResult
from app.ui.bench import Bench
from db.errors import Cause, StoreFailure
from db.store import Store
from tests.ui.desks import PROGRAM, RUNA, START, slot, slot_ids, without_program

GONE = edit("Remove", place.remove, slot_id=SlotId(9999))
NAMED = edit("Rename Ridge season", rename, name="Winter")


def test_an_edit_is_kept_and_every_pane_is_told(qtbot: QtBot, bench: Bench) -> None:
    was = bench.desk.work
    with qtbot.waitSignal(bench.changed, timeout=500) as told:
        assert bench.keep(NAMED)
    assert told.args == [was, bench.desk.work]
    assert bench.desk.program.name == "Winter"


def test_a_refused_edit_is_a_sentence_and_changes_nothing(qtbot: QtBot, bench: Bench) -> None:
    with (
        qtbot.waitSignal(bench.refused, timeout=500) as told,
        qtbot.assertNotEmitted(bench.changed),
    ):
        assert not bench.keep(GONE)
    assert told.args == [
        "That exercise is no longer in the program. Choose another, or undo the last edit."
    ]


@pytest.fixture
def no_room(monkeypatch: pytest.MonkeyPatch, store: Store) -> Callable[[], None]:
    """Call it, and the disk is full from then on."""

    def full(*_: object, **__: object) -> None:
        raise StoreFailure(Cause.FULL, where="plans.weekloom")

    return lambda: monkeypatch.setattr(store, "save", full)


def test_a_client_is_kept_the_same_way(qtbot: QtBot, bench: Bench, no_room) -> None:
    with qtbot.waitSignal(bench.changed, timeout=500):
        assert bench.keep_client("Change the profile", replace(RUNA, team="Lower valley"))
    no_room()
    with qtbot.waitSignal(bench.refused, timeout=500):
        assert not bench.keep_client("Change the profile", replace(RUNA, team="Upper valley"))
    assert bench.desk.client.team == "Lower valley"


def test_undo_and_redo_say_what_they_did(qtbot: QtBot, bench: Bench) -> None:
    bench.keep(NAMED)
    with qtbot.waitSignal(bench.said, timeout=500) as told:
        bench.undo()
    assert told.args == ["Undone: Rename Ridge season"]
    assert bench.desk.program == PROGRAM
    with qtbot.waitSignal(bench.said, timeout=500) as told:
        bench.redo()
    assert told.args == ["Done again: Rename Ridge season"]
    with qtbot.assertNotEmitted(bench.said):
        bench.redo()


def test_an_undo_that_cannot_be_kept_is_a_sentence(qtbot: QtBot, bench, no_room) -> None:
    bench.keep(NAMED)
    no_room()
    with qtbot.waitSignal(bench.refused, timeout=500) as told:
        bench.undo()
    assert "no room left to write" in told.args[0]
    assert bench.desk.program.name == "Winter"


@pytest.mark.parametrize(("asked", "shown"), [(3, 3), (99, 5), (-4, 0)])
def test_a_week_outside_shows_the_nearest(bench: Bench, asked: int, shown: int) -> None:
    bench.show_week(asked)
    assert bench.week == shown
    assert bench.open_week is bench.desk.program.weeks[shown]


def test_another_week_is_told_once_and_drops_the_selection(qtbot: QtBot, bench: Bench) -> None:
    bench.select(tuple(slot_ids(bench)[:2]))
    with qtbot.waitSignals([bench.selected, bench.week_shown], timeout=500):
        bench.show_week(2)
    assert bench.selection == ()
    with qtbot.assertNotEmitted(bench.week_shown):
        bench.show_week(2)


def test_span_and_selection_are_told_only_when_they_change(qtbot: QtBot, bench: Bench) -> None:
    assert bench.span is Span.FROM_HERE
    with qtbot.waitSignal(bench.span_chosen, timeout=500) as told:
        bench.choose_span(Span.THIS_WEEK)
    assert told.args == [Span.THIS_WEEK]
    one = (slot(bench).id,)
    with qtbot.waitSignal(bench.selected, timeout=500) as told:
        bench.select(one)
    assert told.args == [one]
    with qtbot.assertNotEmitted(bench.span_chosen), qtbot.assertNotEmitted(bench.selected):
        bench.choose_span(Span.THIS_WEEK)
        bench.select(one)


def test_what_is_removed_is_no_longer_selected(bench: Bench) -> None:
    first, second = slot_ids(bench)[:2]
    bench.select((first, second))
    bench.keep(edit("Remove", place.remove, slot_id=first))
    assert bench.selection == (second,)


def test_removing_the_last_week_shows_the_one_before(bench: Bench) -> None:
    bench.show_week(5)
    bench.keep(edit("Remove", weeks.remove_weeks, indices=(5,)))
    assert bench.week == 4


def test_trying_shows_a_preview_that_changes_nothing(qtbot: QtBot, bench: Bench) -> None:
    act = edit("Clear", weeks.clear_weeks, indices=(0,))
    with qtbot.waitSignal(bench.previewed, timeout=500) as told:
        preview = bench.try_edit(act)
    assert told.args == [preview]
    assert bench.preview is preview
    assert bench.desk.program == PROGRAM
    with qtbot.waitSignal(bench.previewed, timeout=500) as told:
        bench.clear_preview()
    assert told.args == [None]
    with qtbot.assertNotEmitted(bench.previewed):
        bench.clear_preview()


def test_trying_what_cannot_be_gives_the_error_and_clears_the_preview(bench: Bench) -> None:
    bench.try_edit(NAMED)
    assert isinstance(bench.try_edit(GONE), EditError)
    assert bench.preview is None


def test_keeping_ends_the_preview(qtbot: QtBot, bench: Bench) -> None:
    bench.try_edit(NAMED)
    with qtbot.waitSignal(bench.previewed, timeout=500) as told:
        bench.keep(NAMED)
    assert told.args == [None]
    assert bench.preview is None


def test_without_a_program_there_is_no_week(qtbot: QtBot, bench: Bench) -> None:
    bench.show_week(3)
    bench.select((slot(bench, 0, 3).id,))
    without_program(bench)
    assert bench.open_week is None
    assert (bench.week, bench.selection) == (0, ())
    with qtbot.assertNotEmitted(bench.week_shown):
        bench.show_week(3)


def test_each_window_has_a_source_of_its_own(bench: Bench) -> None:
    assert Bench(bench.desk).source != bench.source


def test_the_shelf_has_what_is_shipped(bench: Bench) -> None:
    assert bench.shelf.muscles
    assert bench.shelf.references
    assert bench.shelf.poses


def test_what_shows_the_plan_is_left_alone_by_results(bench: Bench, qtbot: QtBot) -> None:
    squat = slot(bench)
    done = SlotResult(bench.desk.program.id, squat.id, squat.exercise, START, (SetDone(60, 8),))
    diary = bench.desk.diary.with_results([done])
    with qtbot.waitSignal(bench.changed), qtbot.assertNotEmitted(bench.replanned):
        bench.desk.keep_diary("Results", diary)
    with qtbot.waitSignals([bench.changed, bench.replanned]):
        bench.keep(NAMED)
    with qtbot.waitSignals([bench.changed, bench.replanned]):
        bench.desk.use_ranges(bench.desk.ranges)
