"""What the menu commands do: each is one edit, or opens what asks."""

from __future__ import annotations

from dataclasses import replace
from datetime import date, datetime, timedelta

import pytest
from PySide6.QtGui import QAccessible, QAccessibleAnnouncementEvent, QAccessibleEvent
from PySide6.QtWidgets import QDialog
from pytestqt.qtbot import QtBot

from app.domain.client import ClientId
from app.domain.exercise import ExerciseKey
from app.domain.program import ProgramId, Span
from app.domain.work import Work
from app.ui import bench, commands
from app.ui.carry import Carried
from app.ui.forms import Sheet
from app.ui.grid import access
from app.ui.window import Window
from app.ui.working_popup import WorkingPopup
from db.errors import Cause, StoreFailure
from db.store import Store
from tests.ui.desks import PROGRAM, RUNA, slot_ids
from tests.ui.grid.gestures import Drag

JORUNN = replace(RUNA, id=ClientId("jorunn"), name="Jorunn Aske")


@pytest.fixture
def asked(monkeypatch: pytest.MonkeyPatch) -> list[QDialog]:
    """Dialogs that were opened; each is cancelled at once."""
    opened: list[QDialog] = []

    def cancel(dialog: QDialog) -> int:
        opened.append(dialog)
        dialog.reject()
        return 0

    monkeypatch.setattr(QDialog, "exec", cancel)
    return opened


def labels(window: Window) -> list[str]:
    return [step.label for step in window.bench.desk.history.steps]


@pytest.mark.parametrize(
    ("command", "label"),
    [
        ("add_week", "Add a week after week 2"),
        ("duplicate_week", "Copy week 2"),
        ("fill_on", "Copy week 2 over all later weeks"),
        ("toggle_light", "Make week 2 light"),
        ("insert_light", "Insert a light week after week 2"),
        ("clear_week", "Clear week 2"),
        ("remove_week", "Remove week 2"),
    ],
)
def test_a_command_on_a_week_is_one_named_step(window: Window, command: str, label: str) -> None:
    window.bench.show_week(1)
    getattr(window, command)()
    assert labels(window) == [label]
    assert window.bench.desk.program != PROGRAM
    window.bench.undo()
    assert window.bench.desk.program == PROGRAM


def test_a_light_week_is_made_ordinary_again(window: Window) -> None:
    window.bench.show_week(3)
    window.toggle_light()
    assert labels(window) == ["Make week 4 ordinary"]
    assert not window.bench.open_week.light


def test_a_week_copied_over_all_later_ones_is_alike(window: Window) -> None:
    window.bench.show_week(3)
    window.fill_on()
    weeks = window.bench.desk.program.weeks
    assert [w.light for w in weeks] == [False, False, False, True, True, True]


def test_joining_the_first_block_is_refused_with_a_sentence(window: Window) -> None:
    window.join_block()
    assert "no block before this one" in window.statusBar().currentMessage()
    window.bench.show_week(5)
    window.join_block()
    assert len(window.bench.desk.program.blocks) == 1


@pytest.mark.parametrize(("typed", "names"), [("Peak", ["Block 1", "Peak", "Build"]), (None, None)])
def test_a_block_is_started_with_the_name_that_is_typed(window, monkeypatch, typed, names) -> None:
    monkeypatch.setattr(commands, "ask_text", lambda *_, **__: typed)
    window.bench.show_week(2)
    window.start_block()
    blocks = [b.name for b in window.bench.desk.program.blocks]
    assert blocks == (names or [b.name for b in PROGRAM.blocks])


def test_the_block_of_the_open_week_is_renamed(window: Window, monkeypatch) -> None:
    asked: list[str] = []

    def ask(*_: object, text: str, **__: object) -> str:
        asked.append(text)
        return "Peak"

    monkeypatch.setattr(commands, "ask_text", ask)
    window.bench.show_week(4)
    window.rename_block()
    assert asked == ["Build"]
    assert [b.name for b in window.bench.desk.program.blocks] == ["Block 1", "Peak"]
    assert labels(window) == ["Rename Build"]


def test_renaming_takes_the_name_that_is_typed(window: Window, monkeypatch) -> None:
    monkeypatch.setattr(commands, "ask_text", lambda *_, **__: "Winter")
    window.rename_program()
    assert labels(window) == ["Rename Ridge season"]
    assert window.top.programs.currentText() == "Winter, 6 weeks"
    monkeypatch.setattr(commands, "ask_text", lambda *_, **__: " ")
    window.rename_program()
    assert "has no name" in window.statusBar().currentMessage()


def test_the_span_is_chosen_by_its_number(window: Window) -> None:
    for number, span in enumerate(Span):
        window.choose_span(number)
        assert window.bench.span is span


@pytest.mark.parametrize(
    ("command", "title"),
    [
        ("edit_emphasis", "Emphasis"),
        ("show_progression", "Progression"),
        ("show_split", "Change the split"),
        ("show_layouts", "Start from a layout"),
        ("show_substitutes", "In place of Back squat"),
        ("show_warmup", None),
        ("make_booklet", "Booklet for the client"),
        ("new_client", "New client"),
        ("new_program", "New program for the client"),
        ("rename_program", "Rename the program"),
        ("start_block", "Start a block"),
        ("rename_block", "Rename the block"),
        ("edit_coach", None),
    ],
)
def test_a_cancelled_dialog_changes_nothing(window: Window, asked, command, title) -> None:
    window.bench.select((slot_ids(window.bench)[0],))
    getattr(window, command)()
    assert len(asked) == 1
    assert isinstance(asked[0], Sheet)
    assert asked[0].windowTitle() == (title or asked[0].windowTitle())
    assert window.bench.desk.work is not None
    # the diary is read when somebody first looks at it
    assert replace(window.bench.desk.work, diary=None) == Work(RUNA, PROGRAM)
    assert window.bench.desk.history.undoable is None
    assert window.bench.preview is None


# ---------------------------------------------------------------------------- switching


def test_a_client_is_opened_with_the_newest_program(window: Window, store: Store) -> None:
    store.save(None, Work(JORUNN, replace(PROGRAM, id=ProgramId("a"), name="Old")), label="x")
    newer = replace(PROGRAM, id=ProgramId("b"), name="New", start=PROGRAM.start + timedelta(7))
    store.save(Work(JORUNN), Work(JORUNN, newer), label="x")
    gone = replace(newer, id=ProgramId("c"), start=PROGRAM.start + timedelta(70), archived=True)
    store.save(Work(JORUNN), Work(JORUNN, gone), label="x")
    window.choose_client(JORUNN.id)
    assert window.bench.desk.program.name == "New"
    window.choose_program(ProgramId("a"))
    assert window.bench.desk.program.name == "Old"


def test_a_client_without_programs_is_opened_to_the_first_page(window: Window, store) -> None:
    store.save(None, Work(JORUNN), label="x")
    window.choose_client(JORUNN.id)
    assert window.centre.currentWidget() is window.welcome
    assert window.welcome.title.text() == "No program for Jorunn Aske yet"


def test_who_is_gone_from_the_file_is_a_sentence(window: Window) -> None:
    window.open(ClientId("nobody"), None)
    assert window.statusBar().currentMessage()
    assert window.bench.desk.client == RUNA


@pytest.mark.parametrize(("days", "week"), [(-30, 0), (0, 0), (15, 2), (400, 5)])
def test_the_week_of_today_is_shown(window: Window, monkeypatch, days: int, week: int) -> None:
    class Clock(datetime):
        @classmethod
        def now(cls, tz=None):
            at = PROGRAM.start + timedelta(days)
            return datetime(at.year, at.month, at.day, 12, tzinfo=tz)

    monkeypatch.setattr(bench, "datetime", Clock)
    window.bench.show_week(3)
    window.show_present_week()
    assert window.bench.week == week


def test_a_new_client_that_cannot_be_kept_is_a_sentence(window, store, monkeypatch) -> None:
    from app.ui.client import profile

    def full(*_: object, **__: object) -> None:
        raise StoreFailure(Cause.FULL, where="plans.weekloom")

    monkeypatch.setattr(profile, "ask_new_client", lambda _: JORUNN)
    monkeypatch.setattr(store, "save", full)
    window.choose_client(None)
    assert "no room left" in window.statusBar().currentMessage()
    assert window.bench.desk.client == RUNA


def test_a_new_client_and_program_are_kept_and_shown(window, store, monkeypatch) -> None:
    from app.ui import new_program
    from app.ui.client import profile

    monkeypatch.setattr(profile, "ask_new_client", lambda _: JORUNN)
    window.choose_client(None)
    assert window.top.clients.currentText() == "Jorunn Aske"
    made = replace(PROGRAM, id=ProgramId("hill"), name="Hill season")
    monkeypatch.setattr(new_program, "ask_new_program", lambda *_: made)
    window.choose_program(None)
    assert window.top.programs.currentText() == "Hill season, 6 weeks"
    assert store.load_program(made.id) == made


def test_what_another_window_kept_can_be_read_again(qtbot: QtBot, window: Window) -> None:
    window.bench.show_week(2)
    window.read_again()
    assert window.bench.week == 2
    assert "Read again" in window.statusBar().currentMessage()


def open_accounts(window: Window) -> list[str]:
    """Titles of the accounts that show, which are closed again."""
    popups = [p for p in window.findChildren(WorkingPopup) if p.isVisible()]
    titles = [popup.accessibleName() for popup in popups]
    for popup in popups:
        popup.close()
    return titles


def test_one_key_tells_how_the_number_in_focus_came_about(qtbot, window: Window) -> None:
    first = next(window.bench.open_week.slots()).id
    window.grid.go_to(first)
    for pane, told in (
        (window.grid, "kg"),
        (window.season, "Week 1"),
        (window.tally.bars, "sets"),
        (window.findings.list, ""),
        (window.library.list, "kg"),  # has no number of its own: the card in focus
    ):
        pane.setFocus()
        window.actions_by_id["working"].trigger()
        (title,) = open_accounts(window)
        assert told in title


def test_without_a_card_the_key_tells_of_the_day(window: Window) -> None:
    window.grid.setFocus()
    window.grid.go_to_day(0)
    window.bench.select(())
    window.show_account()
    (title,) = open_accounts(window)
    assert "min on Monday" in title


def test_dates_of_the_program_here_begin_on_a_monday() -> None:
    assert PROGRAM.start == date(2026, 11, 23)


@pytest.mark.parametrize(
    ("command", "label"),
    [
        ("clear_chosen", "Clear weeks 3 to 4"),
        ("remove_chosen", "Remove weeks 3 to 4"),
        ("fill_chosen", "Copy week 1 into weeks 3 to 4"),
    ],
)
def test_a_command_on_chosen_weeks_is_one_named_step(window, command: str, label: str) -> None:
    window.season.choose(range(2, 4))
    window.actions_by_id[command].trigger()
    assert window.bench.desk.history.undoable.label == label
    window.bench.undo()
    assert window.bench.desk.program == PROGRAM


def test_removed_weeks_are_no_longer_chosen(window: Window) -> None:
    window.season.choose(range(2, 4))
    window.remove_chosen()
    assert window.season.chosen == range(0)
    assert len(window.bench.desk.program.weeks) == 4


def test_all_weeks_cannot_be_removed_and_stay_chosen(window: Window) -> None:
    window.season.choose(range(6))
    window.remove_chosen()
    assert "keeps at least one week" in window.statusBar().currentMessage()
    assert window.season.chosen == range(6)


def test_chosen_weeks_take_the_open_week(window: Window) -> None:
    window.season.choose(range(4, 5))
    window.fill_chosen()
    first, fifth = (window.bench.desk.program.weeks[k] for k in (0, 4))
    assert [slot.exercise for slot in fifth.slots()] == [slot.exercise for slot in first.slots()]
    assert window.bench.desk.history.undoable.label == "Copy week 1 into week 5"


def test_commands_on_chosen_weeks_wait_for_a_choice(window: Window) -> None:
    ids = ("clear_chosen", "remove_chosen", "fill_chosen")
    window._enable_actions()
    assert not any(window.actions_by_id[key].isEnabled() for key in ids)
    window.season.choose(range(1, 3))
    window._enable_actions()
    assert all(window.actions_by_id[key].isEnabled() for key in ids)


def test_the_view_menu_shows_the_season_as_a_heat_strip_and_back(window: Window) -> None:
    window.actions_by_id["heat"].trigger()
    assert window.season.heat
    window.actions_by_id["heat"].trigger()
    assert not window.season.heat


def test_the_menu_moves_the_open_week(window: Window) -> None:
    window.actions_by_id["week_later"].trigger()
    assert window.bench.week == 1
    assert window.bench.desk.program.weeks[1].id == PROGRAM.weeks[0].id
    window.actions_by_id["week_earlier"].trigger()
    assert window.bench.desk.program.weeks == PROGRAM.weeks


def test_a_screen_reader_hears_what_putting_down_would_do(window, monkeypatch) -> None:
    heard: list[str] = []

    class Listening(QAccessible):
        @staticmethod
        def isActive() -> bool:
            return True

        @staticmethod
        def updateAccessibility(event: QAccessibleEvent) -> None:
            if isinstance(event, QAccessibleAnnouncementEvent):
                heard.append(event.message())

    monkeypatch.setattr(access, "QAccessible", Listening)
    grid = window.grid
    grid.go_to(next(window.bench.open_week.slots()).id)
    grid.pick_up_by_keys()
    grid.carrier.step(1, 0)
    assert heard[-1] == grid.carrier.hand.sentence()
    assert "Tuesday" in heard[-1]
    assert "Enter to do so" in heard[-1]
    grid.carrier.put_back()
    assert heard[-1].endswith("put back.")
    # and the same while a mouse drags
    drag = Drag(grid, Carried(exercise=ExerciseKey("leg_press"), source="library"))
    drag.enter(grid.layout_now.days[4].column.center())
    drag.move(grid.layout_now.days[4].column.center())
    assert "Friday" in heard[-1]
    drag.leave()
