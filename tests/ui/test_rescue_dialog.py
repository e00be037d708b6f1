"""A file that is lost in mid-edit: the window stays, and everything goes to another place."""

from __future__ import annotations

from collections.abc import Iterator
from contextlib import ExitStack, closing
from pathlib import Path

import pytest
from PySide6.QtCore import QStandardPaths, Qt
from PySide6.QtWidgets import QDialog, QFileDialog, QLabel, QMessageBox
from pytestqt.qtbot import QtBot

from app import moved, resources
from app.desk import Desk
from app.domain.edits.whole import rename
from app.domain.findings import edit
from app.domain.work import Work
from app.ui.bench import Bench
from app.ui.rescue_dialog import RescueDialog, suggested
from app.ui.window import Window
from db.errors import Cause, StoreFailure
from db.store import Store
from tests.db.test_elsewhere import ODA
from tests.lost_share import on_linux, out_of_reach
from tests.ui.desks import PROGRAM, RUNA


@pytest.fixture(autouse=True)
def note(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Path:
    path = tmp_path / "state" / "kept-elsewhere.json"
    monkeypatch.setattr(moved, "note_path", lambda: path)
    return path


@pytest.fixture
def file(tmp_path: Path) -> Path:
    path = tmp_path / "plans" / "coach.db"
    with closing(Store.open(path)) as store:
        store.save(None, Work(RUNA, PROGRAM), label="Add client")
        store.save(None, Work(ODA), label="Add client")
    return path


@pytest.fixture
def window(qtbot: QtBot, dressed, file: Path) -> Iterator[Window]:
    """The window on a file on disk."""
    store = Store.open(file)
    desk = Desk(store, resources.catalogue(), resources.range_book())
    desk.open(RUNA.id, PROGRAM.id)
    made = Window(Bench(desk), store)
    qtbot.addWidget(made)
    made.show()
    qtbot.waitExposed(made)
    yield made
    store.close()


def answers(monkeypatch, qtbot: QtBot, act) -> list[RescueDialog]:
    """Lets `act` answer each rescue dialog; the dialogs that came up."""
    seen: list[RescueDialog] = []

    def run(dialog: RescueDialog) -> int:
        seen.append(dialog)
        qtbot.addWidget(dialog)
        dialog.show()
        qtbot.waitExposed(dialog)
        act(dialog)
        qtbot.waitUntil(lambda: not dialog.isVisible(), timeout=60_000)
        return dialog.result()

    monkeypatch.setattr(RescueDialog, "exec", run)
    return seen


def told(monkeypatch) -> list[str]:
    said: list[str] = []
    monkeypatch.setattr(QMessageBox, "exec", lambda box: said.append(box.text()))
    return said


def choose(monkeypatch, *paths: Path) -> None:
    """Answers the file dialogs, one path after the other."""
    left = [str(path) for path in paths]
    monkeypatch.setattr(QFileDialog, "getSaveFileName", lambda *_, **__: (left.pop(0), ""))


def kept_name(path: Path) -> str:
    with closing(Store.open(path)) as store:
        return store.load_program(PROGRAM.id).name


PEAK = edit("Rename", rename, name="Peak")


def test_the_edit_and_the_whole_file_go_to_the_place_that_is_chosen(
    window, file, tmp_path, monkeypatch, qtbot
):
    new = tmp_path / "new" / "kept.db"
    seen = answers(monkeypatch, qtbot, lambda dialog: dialog.keep_button.click())
    said = told(monkeypatch)
    choose(monkeypatch, new)
    file.unlink()
    assert window.bench.keep(PEAK)
    assert len(seen) == 1
    assert window.store.path == new
    assert window.bench.desk.program.name == "Peak"
    assert window.bench.desk.history.undoable.label == "Rename"
    assert kept_name(new) == "Peak"
    qtbot.waitUntil(lambda: bool(said), timeout=10_000)
    assert str(new) in said[0]
    assert moved.moved_to(file) == new
    window.bench.undo()
    assert kept_name(new) == PROGRAM.name


def test_what_happened_is_one_sentence_and_the_window_stays(window, file, monkeypatch, qtbot):
    shown: list[str] = []

    def look(dialog: RescueDialog) -> None:
        shown.extend(label.text() for label in dialog.findChildren(QLabel) if label.isVisible())
        assert window.isVisible()
        dialog.cancel_button.click()

    answers(monkeypatch, qtbot, look)
    file.unlink()
    assert not window.bench.keep(PEAK)
    assert any("no longer where it was" in text and str(file) in text for text in shown)
    assert any("Everything is still on the screen" in text for text in shown)
    assert window.bench.desk.program == PROGRAM
    assert "no longer where it was" in window.statusBar().currentMessage()


def test_by_keyboard_alone(window, file, tmp_path, monkeypatch, qtbot):
    new = tmp_path / "kept.db"
    seen = answers(
        monkeypatch, qtbot, lambda dialog: qtbot.keyClick(dialog.focusWidget(), Qt.Key.Key_Return)
    )
    said = told(monkeypatch)
    choose(monkeypatch, new)
    file.unlink()
    assert window.bench.keep(PEAK)
    assert len(seen) == 1
    assert kept_name(new) == "Peak"
    qtbot.waitUntil(lambda: bool(said), timeout=10_000)


def test_a_place_that_fails_too_is_said_and_another_can_be_chosen(
    window, file, tmp_path, monkeypatch, qtbot
):
    taken, new = tmp_path / "taken.db", tmp_path / "kept.db"
    taken.write_text("mine", encoding="utf-8")

    def twice(dialog: RescueDialog) -> None:
        dialog.keep_button.click()
        qtbot.waitUntil(lambda: bool(dialog.wrong.text()), timeout=60_000)
        assert "of that name already" in dialog.wrong.text()
        dialog.keep_button.click()

    answers(monkeypatch, qtbot, twice)
    said = told(monkeypatch)
    choose(monkeypatch, taken, new)
    file.unlink()
    assert window.bench.keep(PEAK)
    qtbot.waitUntil(lambda: bool(said), timeout=10_000)
    assert taken.read_text(encoding="utf-8") == "mine"
    assert kept_name(new) == "Peak"


def test_the_old_place_is_tried_again(window, file, monkeypatch, qtbot):
    away = file.with_name("away.db")

    def bring_back(dialog: RescueDialog) -> None:
        away.rename(file)
        dialog.again_button.click()

    seen = answers(monkeypatch, qtbot, bring_back)
    file.rename(away)
    assert window.bench.keep(PEAK)
    assert len(seen) == 1
    assert window.store.path == file
    assert kept_name(file) == "Peak"


def test_only_what_was_held_goes_over_where_the_old_file_is_out_of_reach(
    window, file, tmp_path, monkeypatch, qtbot
):
    new = tmp_path / "kept.db"
    answers(monkeypatch, qtbot, lambda dialog: dialog.keep_button.click())
    said = told(monkeypatch)
    choose(monkeypatch, new)
    file.unlink()
    monkeypatch.setattr("db.elsewhere._reads", lambda _raw: False)
    assert window.bench.keep(PEAK)
    assert kept_name(new) == "Peak"
    qtbot.waitUntil(lambda: bool(said), timeout=10_000)
    assert "could not be read any more" in said[0]


def test_leaving_the_window_asks_for_nothing(window, file, monkeypatch, qtbot):
    seen = answers(monkeypatch, qtbot, lambda dialog: dialog.reject())
    file.unlink()
    window.close()
    assert seen == []


def test_a_name_without_an_ending_gets_one_and_a_suggested_name_is_free(tmp_path, monkeypatch):
    monkeypatch.setattr(QStandardPaths, "writableLocation", lambda _place: str(tmp_path))
    assert suggested(Path("coach.db")) == tmp_path / "coach.db"
    (tmp_path / "coach.db").write_bytes(b"")
    assert suggested(Path("coach.db")) == tmp_path / "coach 2.db"
    assert suggested(None) == tmp_path / "weekloom.db"


def test_the_dialog_cannot_be_left_while_it_writes(qtbot, window, tmp_path):
    failure = StoreFailure(Cause.FULL, where="coach.db")
    from app.rescue import held_by

    dialog = RescueDialog(window.store, held_by(window.bench.desk), failure, None)
    qtbot.addWidget(dialog)
    dialog.show()
    dialog.write_to(tmp_path / "kept")
    dialog.reject()
    dialog.close()
    assert dialog.isVisible()
    with qtbot.waitSignal(dialog.accepted, timeout=60_000):
        pass
    assert dialog.written == tmp_path / "kept.db"
    assert dialog.result() == QDialog.DialogCode.Accepted


# ------------------------------------------------------------------------ lost while reading


def words_of(dialog: RescueDialog) -> str:
    return " ".join(label.text() for label in dialog.findChildren(QLabel) if label.isVisible())


@on_linux
def test_a_share_that_is_lost_while_reading_leaves_the_window_and_can_be_tried_again(
    window, file, monkeypatch, qtbot
):
    lost = ExitStack()
    shown: list[str] = []

    def bring_back(dialog: RescueDialog) -> None:
        shown.append(words_of(dialog))
        assert window.isVisible()
        lost.close()
        dialog.again_button.click()

    seen = answers(monkeypatch, qtbot, bring_back)
    with lost:
        lost.enter_context(out_of_reach(file))
        window.choose_client(ODA.id)
    assert len(seen) == 1
    assert "The file is out of reach" in shown[0]
    assert "cannot be read" in shown[0]
    assert str(file) in shown[0]
    assert "every edit is kept" in shown[0]
    assert window.bench.desk.client == ODA
    assert window.store.path == file


@on_linux
def test_not_now_keeps_what_is_open_and_says_why_nothing_else_is_shown(
    window, file, monkeypatch, qtbot
):
    seen = answers(monkeypatch, qtbot, lambda dialog: dialog.cancel_button.click())
    said = told(monkeypatch)
    with out_of_reach(file):
        window.choose_client(ODA.id)
        assert window.bench.desk.program == PROGRAM
        assert window.plan.isVisible()
        assert "cannot be read" in window.statusBar().currentMessage()
        assert window.top.clients.currentData() == RUNA.id
    assert len(seen) == 1
    assert said == []
    window.choose_client(ODA.id)
    assert window.bench.desk.client == ODA


@on_linux
def test_another_place_is_gone_on_with_after_a_read_too(window, file, tmp_path, monkeypatch, qtbot):
    new = tmp_path / "new" / "kept.db"
    answers(monkeypatch, qtbot, lambda dialog: dialog.keep_button.click())
    said = told(monkeypatch)
    choose(monkeypatch, new)
    with out_of_reach(file):
        window.read_again()
        assert window.store.path == new
        assert window.bench.desk.program == PROGRAM
        assert window.bench.keep(PEAK)
    assert kept_name(new) == "Peak"
    assert kept_name(file) == PROGRAM.name
    qtbot.waitUntil(lambda: bool(said), timeout=10_000)
    assert "could not be read any more" in said[0]


def press_every_way_to_read(window: Window) -> None:
    for action in ("home", "clients", "programs", "history"):
        made = window.actions_by_id.get(action)
        if made is not None:
            made.trigger()
    window.top.client_chosen.emit(ODA.id)
    window.top.program_chosen.emit(PROGRAM.id)


@on_linux
def test_no_way_to_read_ends_the_window(window, file, monkeypatch, qtbot):
    answers(monkeypatch, qtbot, lambda dialog: dialog.cancel_button.click())
    told(monkeypatch)
    monkeypatch.setattr(QDialog, "exec", lambda _dialog: 0)
    with out_of_reach(file):
        press_every_way_to_read(window)
        assert window.isVisible()
        assert window.bench.desk.program == PROGRAM
    assert window.bench.keep(PEAK)
    assert kept_name(file) == "Peak"
