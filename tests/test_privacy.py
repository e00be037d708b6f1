"""Nothing that names a client leaves the file by the back door: logs, settings, names, rights.

The window is driven along the paths that a coach takes, on a client of whom everything is a
marker; then everything the program wrote outside the file is searched.
"""

from __future__ import annotations

import logging
import os
import tempfile
from collections.abc import Iterator
from dataclasses import replace
from datetime import date
from pathlib import Path

import pypdfium2
import pytest
from PySide6.QtWidgets import QMessageBox
from pytestqt.qtbot import QtBot

from app import papers, resources
from app.booklet.record_book import make_record_book
from app.desk import Desk
from app.domain.client import Client, ClientId
from app.domain.edits.whole import rename
from app.domain.errors import CoachError
from app.domain.findings import edit
from app.domain.results import CheckIn
from app.domain.work import Coach, Work
from app.erasure import erase
from app.person_export import export_person, held_on
from app.picture_folder import PictureFolder
from app.ui import crash
from app.ui.bench import Bench
from app.ui.private_log import PrivateLog
from app.ui.window import Window
from app.whole import export_whole
from db.backup import all_copies, back_up
from db.errors import StoreFailure
from db.passphrase import Passphrase
from db.store import Store
from tests.marked import MARKERS, PICTURE, add_marked, found_in, marked_client, marked_program

MARKED = marked_client()
PLAIN = replace(marked_program(), name="Winter")
KEY = Passphrase("zqpassphraseqz of four words")

pytestmark = pytest.mark.skipif(os.name == "nt", reason="Windows keeps rights elsewhere")


@pytest.fixture
def home(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Iterator[Path]:
    """A home folder of its own, under a mask that lets everybody read."""
    for name, folder in (
        ("HOME", ""),
        ("XDG_STATE_HOME", "state"),
        ("XDG_CONFIG_HOME", "config"),
        ("XDG_CACHE_HOME", "cache"),
        ("XDG_DATA_HOME", "data"),
    ):
        monkeypatch.setenv(name, str(tmp_path / "home" / folder))
    monkeypatch.setattr(tempfile, "tempdir", str(tmp_path / "home" / "temp"))
    monkeypatch.setenv("TMPDIR", str(tmp_path / "home" / "temp"))
    (tmp_path / "home" / "temp").mkdir(parents=True, mode=0o700)
    mask = os.umask(0)
    yield tmp_path / "home"
    os.umask(mask)


@pytest.fixture
def log(home: Path) -> Iterator[Path]:
    """The log that the window writes, of everything from DEBUG up."""
    path = home / "state" / "weekloom" / "weekloom.log"
    path.parent.mkdir(parents=True, mode=0o700)
    handler = PrivateLog(path, maxBytes=10**7, encoding="utf-8")
    root = logging.getLogger()
    level = root.level
    root.addHandler(handler)
    root.setLevel(logging.DEBUG)
    yield path
    root.setLevel(level)
    root.removeHandler(handler)
    handler.close()


@pytest.fixture
def store(home: Path) -> Iterator[Store]:
    made = Store.open(home / "data" / "weekloom" / "weekloom.db")
    add_marked(made)
    PictureFolder(made.path).take_in(PICTURE, b"zqpixelsqz")
    yield made
    made.close()


def drive(qtbot: QtBot, store: Store, monkeypatch: pytest.MonkeyPatch) -> None:
    """A working evening: open, edit, undo, fail, hand out, save, lock, copy, close."""
    monkeypatch.setattr(QMessageBox, "exec", lambda _box: 0)
    desk = Desk(store, resources.catalogue(), resources.range_book())
    window = Window(Bench(desk), store)
    qtbot.addWidget(window)
    window.show()
    window.choose_client(MARKED.id)
    bench = window.bench
    bench.keep(edit("Rename", rename, name=f"{MARKERS['program']} two"))
    bench.keep_client("Note", replace(desk.client, note=f"{MARKERS['note']} two"))
    check_in = CheckIn(desk.diary.check_ins[0].on, mass_kg=75, note=f"{MARKERS['check-in']} two")
    desk.keep_diary("Check-in", desk.diary.with_check_in(check_in))
    bench.undo()
    bench.redo()
    window.read_again()
    desk.hand_out(desk.draft_issue(check_in.on))
    with pytest.raises(CoachError):
        store.load_client(ClientId(MARKERS["name"]))
    with pytest.raises(StoreFailure):
        store.save(None, desk.work, label=MARKERS["label"])  # it is there already
    try:
        raise ValueError(f"no card for {MARKED.name}") from KeyError(MARKED.note)
    except ValueError as error:
        crash.caught(type(error), error, error.__traceback__)
    back_up(store.path)
    store.change_passphrase(KEY)
    back_up(store.path, key=KEY)
    with pytest.raises(StoreFailure):
        Store.open(store.path, key=Passphrase("another of four words"))
    store.change_passphrase(None)
    window.close()


def test_log_and_settings_name_no_client_and_no_passphrase(home, log, store, qtbot, monkeypatch):
    drive(qtbot, store, monkeypatch)
    assert log.stat().st_size > 200
    texts = [
        path.read_bytes()
        for folder in ("state", "config", "cache", "temp")
        for path in (home / folder).rglob("*")
        if path.is_file()
    ]
    assert texts
    words = [*MARKERS.values(), PICTURE, KEY.text, "1991", "74.5"]
    words.remove(MARKERS["client-id"])  # an id is a number of ours, and stands in no log either
    words.append(MARKERS["client-id"])
    for text in texts:
        assert [word for word in words if word.encode() in text] == []


def test_fifty_clients_leave_no_name_note_or_birth_date_outside_the_file(
    home, log, store, qtbot, monkeypatch
):
    """Each is made, noted on, weighed, handed a paper, undone and shown; their days differ too."""
    desk = Desk(store, resources.catalogue(), resources.range_book())
    window = Window(Bench(desk), store)
    qtbot.addWidget(window)
    window.show()
    words = []
    for number in range(50):
        name, note = f"zqperson{number}qz", f"zqhealth{number}qz"
        born = date(1950 + number, 1 + number % 12, 1 + number % 28)
        words += [name, note, born.isoformat(), f"{born:%d.%m.%Y}"]
        desk.add_client(Client(ClientId(f"seeded-{number}"), name, born=born))
        window.bench.keep_client(f"Note on {name}", replace(desk.client, note=note))
        report = CheckIn(born.replace(year=2026), mass_kg=70, note=note)
        desk.keep_diary("Check-in", desk.diary.with_check_in(report))
        window.bench.undo()
        window.bench.redo()
        assert not [word for word in words if word in window.windowTitle()]
    window.show_home()
    window.say(f"About {words[0]}")
    window.close()
    outside = [
        path
        for folder in ("state", "config", "cache", "temp")
        for path in (home / folder).rglob("*")
        if path.is_file()
    ]
    assert log in outside
    for path in outside:
        assert [word for word in words if word.encode() in path.read_bytes()] == [], path.name


def test_a_name_that_looks_like_a_query_is_a_name(store):
    hostile = "Runa'; DROP TABLE clients; --"
    person = replace(MARKED, id=ClientId("'; --"), name=hostile, note='" OR 1=1')
    store.save(None, Work(person), label=hostile)
    store.set_setting(hostile, hostile)
    assert store.load_client(person.id) == person
    assert store.setting(hostile) == hostile
    assert store.load_client(MARKED.id) == MARKED
    erase(store, person.id)
    assert [line.id for line in store.clients()] == [MARKED.id]


def test_no_paper_says_in_its_metadata_whom_it_is_for(store):
    known = resources.catalogue().with_own(store.own_exercises(retired=True))
    issue = store.load_issue(store.all_issues()[0])
    issue = replace(issue, client=MARKED, coach=Coach("Ada"), program=PLAIN)
    order = papers.Order(issue.coach, MARKED.name, issue, known, resources.range_book())
    made = [kind.make(order, papers.Look()) for kind in papers.KINDS]
    made.append(
        make_record_book(
            held_on(store, MARKED.id, known, on=desk_day()), known, fonts=resources.path_of("fonts")
        )
    )
    for data in made:
        document = pypdfium2.PdfDocument(data)
        told = " ".join(document.get_metadata_dict().values())
        document.close()
        assert "Weekloom" in told
        assert [word for word in MARKERS.values() if word in told] == []
        for word in (b"/JavaScript", b"/Launch", b"/EmbeddedFile", b"/URI", b"/OpenAction"):
            assert word not in data


def test_all_that_is_made_is_the_owners_alone(home, log, store, qtbot, monkeypatch):
    drive(qtbot, store, monkeypatch)
    known = resources.catalogue().with_own(store.own_exercises(retired=True))
    out = home / "data" / "weekloom" / "out"
    out.mkdir(mode=0o700)
    export_whole(store, out / "all.zip")
    holding = held_on(store, MARKED.id, known, on=desk_day())
    export_person(store, holding, known, out / "held.zip")
    wrong = [
        f"{path.relative_to(home)}: {path.stat().st_mode & 0o777:o}"
        for path in [*(home / "data" / "weekloom").rglob("*"), log, log.parent]
        if path.stat().st_mode & 0o777 != (0o700 if path.is_dir() else 0o600)
    ]
    assert wrong == []
    assert all_copies(store.path)


def test_no_trace_is_left_anywhere_after_erasing(home, log, store, qtbot, monkeypatch):
    drive(qtbot, store, monkeypatch)
    from app.erasure import Wish, copies_with

    copies = copies_with(store, MARKED.id)
    done = erase(store, MARKED.id, copies=copies, wish=Wish.DELETE)
    assert done.left == ()
    store.close()
    assert found_in(home) == {}


def desk_day():
    return marked_program().start
