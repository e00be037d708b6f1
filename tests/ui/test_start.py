"""A window comes up on the file as it was left, and what can wait is brought in afterwards."""

from __future__ import annotations

import gc
import os
import subprocess
import sys
from collections.abc import Iterator
from contextlib import closing
from dataclasses import replace
from datetime import date
from importlib.util import find_spec
from pathlib import Path
from threading import Event
from types import SimpleNamespace

import pytest
from PySide6.QtCore import Qt, QTimer
from PySide6.QtWidgets import QApplication, QMessageBox

from app import resources
from app.domain.client import ClientId
from app.domain.errors import CoachError
from app.domain.exercise import ExerciseKey
from app.domain.ranges import Override, Range
from app.domain.results import CheckIn, Diary
from app.domain.work import Work
from app.picture_folder import PictureFolder
from app.ui import crash, start, theme
from app.ui.window import Window
from db.store import Store
from tests.db.test_passphrase import KEY
from tests.ui.desks import RUNA

ROOT = Path(__file__).resolve().parents[2]


@pytest.fixture
def path(tmp_path: Path) -> Path:
    return tmp_path / "coach.weekloom"


@pytest.fixture(autouse=True)
def quiet(monkeypatch: pytest.MonkeyPatch, dressed: QApplication) -> Iterator[None]:
    """No log in the user's folders, and the collector and the application as they were."""
    monkeypatch.setattr(crash, "install", lambda: SimpleNamespace(open_file=lambda: None))
    usual = gc.get_threshold()
    yield
    gc.set_threshold(*usual)
    gc.unfreeze()
    assert gc.isenabled()


def soon(act, delay_ms: int = 0) -> None:
    """Do that once the event loop runs."""
    QTimer.singleShot(delay_ms, act)


def close_all() -> None:
    QApplication.closeAllWindows()


def test_an_own_range_for_a_rule_that_is_gone_keeps_nobody_out(path, caplog):
    rule = next(iter(resources.range_book().ranges))
    with closing(Store.open(path)) as store:
        for name, low in ((rule, 3.0), ("no_rule_of_ours", 4.0)):
            own = Range(name, low, None, "sets", "common practice")
            store.add_range_override(Override(own, "Tavi Hellmark", date(2026, 11, 2), "small"))
        with caplog.at_level("WARNING"):
            book = start.desk_on(store).ranges
    assert [override.range.low for override in book.overrides] == [3.0]
    assert "no_rule_of_ours" in caplog.text


def test_the_demo_fills_an_empty_file_and_the_next_start_opens_what_was_open(path):
    soon(close_all)
    assert start.run(path, demo=True) == 0
    store = Store.open(path)
    assert len(store.clients()) == 6
    place = store.setting("open").split()
    window = start.window_on(store)
    assert window.bench.desk.client.id == ClientId(place[0])
    assert window.bench.desk.program.id == place[1]
    window.close()
    store.close()


def test_an_empty_file_shows_the_welcome(path):
    store = Store.open(path)
    window = start.window_on(store)
    assert window.bench.desk.work is None
    assert window.centre.currentWidget() is window.welcome
    window.close()
    store.close()


def test_a_file_that_is_not_ours_is_said_in_a_sentence(path, monkeypatch):
    path.write_bytes(b"something else, and long enough to be looked at" * 9)
    said = []
    monkeypatch.setattr(QMessageBox, "exec", lambda box: said.append(box.text()))
    assert start.run(path) == 1
    assert "not a Weekloom file" in said[0]
    assert path.read_bytes().startswith(b"something else")


def test_memory_is_tidied_again_after_the_start_and_after_a_start_that_failed(path, monkeypatch):
    gc.disable()
    soon(close_all)
    start.run(path)
    assert gc.isenabled()
    gc.disable()
    start.settle()
    assert gc.isenabled()
    assert gc.get_threshold() == start.PASSES


def test_all_of_memory_is_looked_through_from_time_to_time(path, monkeypatch, qtbot):
    passes = []

    def collect() -> None:
        passes.append(True)
        close_all()

    monkeypatch.setattr(start, "TIDIES_EVERY_MS", 20)
    monkeypatch.setattr(start, "_tidy", lambda _bench: collect())
    guard = QTimer(singleShot=True, interval=20_000)  # only if it is never done
    guard.timeout.connect(close_all)
    guard.start()
    start.run(path)
    guard.stop()
    assert passes
    passes.clear()
    qtbot.wait(100)
    assert passes == []  # it ends with the window


def test_memory_is_left_alone_while_something_is_in_hand(bench, monkeypatch):
    passes = []
    held = [Qt.MouseButton.NoButton]
    # of this module alone: a library that is still being imported may look through memory too
    monkeypatch.setattr(start, "gc", SimpleNamespace(collect=lambda: passes.append(True)))
    monkeypatch.setattr(start, "QApplication", SimpleNamespace(mouseButtons=lambda: held[0]))
    bench.try_edit(lambda program: replace(program, name="Peak"))
    start._tidy(bench)
    assert passes == []
    bench.clear_preview()
    held[0] = Qt.MouseButton.LeftButton
    start._tidy(bench)
    assert passes == []
    held[0] = Qt.MouseButton.NoButton
    start._tidy(bench)
    assert passes == [True]


def test_what_is_said_of_a_file_is_text_whatever_its_name(tmp_path, monkeypatch):
    path = tmp_path / "<b>plans<b>.weekloom"
    path.write_bytes(b"something else, and long enough to be looked at" * 9)
    boxes = []

    def note(box: QMessageBox) -> None:
        boxes.append((box.textFormat(), box.text()))

    monkeypatch.setattr(QMessageBox, "exec", note)
    start.run(path)
    ((form, text),) = boxes
    assert form is Qt.TextFormat.PlainText
    assert path.name in text


def test_the_application_is_named_and_dressed():
    app = start.application()
    assert app is QApplication.instance()
    assert (app.applicationName(), app.desktopFileName()) == ("weekloom", "weekloom")
    assert not app.windowIcon().isNull()
    assert theme.current().paper.name() in app.styleSheet()


def test_the_desk_works_with_the_shipped_exercises_and_the_coachs_own(path):
    store = Store.open(path)
    shipped = resources.catalogue()[ExerciseKey("back_squat")]
    mine = replace(shipped, key=ExerciseKey("hut_squat"), name="Hut squat", own=True)
    store.save_exercise(mine)
    desk = start.desk_on(store)
    assert desk.catalogue[mine.key] == mine
    assert desk.catalogue[shipped.key] == shipped
    store.close()


def test_a_picture_that_cannot_be_written_is_a_sentence(path, tmp_path):
    with pytest.raises(CoachError, match=r"could not be written\. Choose a folder"):
        start.picture(path, tmp_path / "no" / "window.png")
    assert not [
        w for w in QApplication.topLevelWidgets() if isinstance(w, Window) and w.isVisible()
    ]


def test_a_picture_is_written_in_the_size_and_shade_asked_for(path, tmp_path):
    out = tmp_path / "window.png"
    start.picture(path, out, dark=True, size=(1200, 700))
    assert out.read_bytes().startswith(b"\x89PNG")
    assert theme.current() is not theme.DARK


LATER = {
    "app.domain.energy.table",
    "app.domain.figure",
    "app.domain.handed_out",
    "app.domain.prescription_text",
    "app.domain.progress",
    "app.ui.accounts",
    "app.ui.field_texts",
    "app.ui.figure_paint",
    "app.ui.grid.acts",
    "app.ui.grid.hand",
    "app.ui.grid.inline",
    "app.ui.home",
    "app.ui.library.menu",
    "app.ui.private_log",
    "logging.handlers",
    "sqlalchemy",
    "uuid",
}
"""What the first picture of a window does not need, and a start must not wait for."""


def test_the_window_is_shown_before_what_no_first_picture_needs_is_imported(path):
    soon(close_all)
    start.run(path, demo=True)
    probe = (
        "import sys; from pathlib import Path; from app.ui import start, crash;"
        "from db.store import Store;"
        f"app = start.application(); store = Store.open(Path({str(path)!r}));"
        "window = start.window_on(store); window.show(); assert window.bench.desk.has_program;"
        f"print(*{LATER!r} & set(sys.modules));"
        "window.close(); store.close()"
    )
    said = subprocess.check_output([sys.executable, "-c", probe], cwd=ROOT, encoding="utf-8")
    assert said.strip() == ""


def test_closing_makes_a_copy_when_one_is_due_and_not_again_at_once(tmp_path: Path) -> None:
    path = tmp_path / "own.db"
    Store.open(path).close()
    copy = start.keep_copy(path)
    assert copy is not None
    assert copy.read_bytes()[:15] == b"SQLite format 3"
    assert start.keep_copy(path) is None


def test_a_copy_that_cannot_be_made_does_not_stop_the_window(
    tmp_path: Path, caplog: pytest.LogCaptureFixture
) -> None:
    with caplog.at_level("WARNING"):
        assert start.keep_copy(tmp_path / "nowhere" / "own.db") is None
    assert "no copy was made" in caplog.text


def test_pictures_that_no_check_in_names_go_when_the_window_is_closed(tmp_path: Path) -> None:
    store = Store.open(tmp_path / "own.db")
    folder = PictureFolder(tmp_path / "own.db")
    named, gone = folder.add(b"one"), folder.add(b"two")
    for name in (named, gone):
        os.utime(folder.path / name, (0, 0))
    check_in = CheckIn(date(2026, 11, 22), pictures=(named,))
    store.save(None, Work(RUNA, None, Diary((check_in,))), label="Add")
    assert start.sweep_pictures(store) == 1
    assert folder.names() == {named}
    store.close()
    assert start.sweep_pictures(Store.in_memory()) == 0


def test_forms_are_brought_in_until_the_window_is_closed(monkeypatch):
    brought: list[str] = []
    monkeypatch.setattr(start, "import_module", brought.append)
    monkeypatch.setattr(start, "_over", Event())
    start.prepare()
    assert brought == list(start.LARGE_FORMS)
    assert all(find_spec(name) is not None for name in brought)
    start._over.set()
    start.prepare()
    assert brought == list(start.LARGE_FORMS)


def test_pictures_that_lie_readable_beside_a_locked_file_are_locked_at_the_end(tmp_path):
    """An earlier Weekloom left them so."""
    file = tmp_path / "coach.weekloom"
    store = Store.open(file)
    name = PictureFolder(file).add(b"picture")
    check_in = CheckIn(date(2026, 11, 22), pictures=(name,))
    store.save(None, Work(RUNA, None, Diary((check_in,))), label="Add")
    store.change_passphrase(KEY)
    assert start.sweep_pictures(store) == 0
    assert PictureFolder(file).plain() == ()
    assert PictureFolder.of(store).read(name) == b"picture"
    store.close()
