"""Frames of windows name nobody unless that was chosen, and say what is useful all the same."""

from __future__ import annotations

from dataclasses import replace
from datetime import datetime

import pytest
from PySide6.QtWidgets import QApplication, QDialog, QFileDialog, QWidget

from app.domain.wording import tr
from app.domain.work import Work
from app.ui.actions import ACTIONS
from app.ui.titles import (
    CHOICES,
    SETTING,
    Named,
    frame_title,
    initials,
    main_title,
    masked,
    mentions,
    named_as,
)
from app.ui.window import Window
from db.store import Store
from tests.ui.desks import PROGRAM, RUNA
from tests.ui.every_dialog import walk_dialogs

WORK = Work(RUNA, PROGRAM)
AT = datetime(2026, 11, 29, 14, 5)  # noqa: DTZ001  # as the desk tells it, by the wall clock


def test_nothing_is_named_unless_something_known_was_chosen():
    assert [named_as(text) for text in ("", "initials", "name", "nonsense")] == [
        Named.NOT,
        Named.INITIALS,
        Named.WHOLE,
        Named.NOT,
    ]
    assert set(CHOICES) == set(Named)


@pytest.mark.parametrize(
    ("name", "short"), [("Runa Estvik", "R. E."), ("  ömer  ", "Ö."), ("", "")]
)
def test_initials(name, short):
    assert initials(name) == short


def test_names_are_masked_as_whole_words_the_longer_first():
    names = ("Ann", "Ann Lee", "Bo", "")
    assert masked("Profile of Ann Lee", names, Named.NOT) == "Profile of the client"
    assert masked("Profile of Ann Lee", names, Named.INITIALS) == "Profile of A. L."
    assert masked("Profile of Ann Lee", names, Named.WHOLE) == "Profile of Ann Lee"
    assert masked("Annual plan, Books", names, Named.NOT) == "Annual plan, Books"
    assert masked("A.n (Bo)", ("A.n", "B."), Named.NOT) == "the client (Bo)"


def test_the_window_says_its_file_and_what_was_kept():
    kept = (AT, "Move Back squat to Thursday")
    title = main_title(WORK, file="coach.db", kept=kept, named=Named.NOT)
    assert title == "coach.db · kept 14:05: Move Back squat to Thursday · Weekloom"
    title = main_title(WORK, file="coach.db", kept=None, named=Named.INITIALS)
    assert title == "R. E. · coach.db · Weekloom"
    title = main_title(WORK, file="", kept=None, named=Named.WHOLE)
    assert title == f"{RUNA.name}, {PROGRAM.name} · Weekloom"
    assert main_title(None, file="", kept=None, named=Named.NOT) == "Weekloom"


def test_a_label_that_holds_a_part_of_the_name_is_left_out():
    assert mentions("Rename RUNA's winter", RUNA.name)
    assert not mentions("Move Back squat", RUNA.name)
    title = main_title(WORK, file="a.db", kept=(AT, "Rename Runa's winter"), named=Named.NOT)
    assert title == "a.db · kept 14:05 · Weekloom"


def test_what_belongs_to_no_window_keeps_its_title(qtbot):
    alone = QWidget()
    qtbot.addWidget(alone)
    assert frame_title(alone, "The file is locked") == "The file is locked"


def test_the_windows_title_follows_the_choice_and_names_nobody_at_first(
    window: Window, store: Store
):
    assert window.windowTitle() == "Weekloom"
    window.bench.desk.keep_client("Note on Runa", replace(window.bench.desk.client, note="new"))
    assert "Runa" not in window.windowTitle()
    assert "kept " in window.windowTitle()
    window.name_clients(Named.INITIALS)
    assert window.windowTitle().startswith("R. E. · ")
    window.name_clients(Named.WHOLE)
    assert window.windowTitle().startswith(f"{RUNA.name}, ")
    store.set_setting(SETTING, Named.INITIALS.value)
    again = Window(window.bench, store)
    assert again.named is Named.INITIALS
    again.deleteLater()


def test_what_changes_behind_the_curtain_does_not_retitle(window: Window):
    window.name_clients(Named.WHOLE)
    window.curtain.drop()
    window.bench.desk.keep_client("Note", replace(window.bench.desk.client, note="another"))
    assert window.windowTitle() == "Weekloom"
    window.curtain.lift()
    assert RUNA.name in window.windowTitle()


def test_no_dialog_names_a_client_in_its_frame_and_each_says_what_it_is(
    window: Window, monkeypatch: pytest.MonkeyPatch
):
    titles: dict[str, str] = {}
    files: list[str] = []

    def asked(_parent: object, title: str = "", *_rest: object, **_named: object):
        files.append(title)
        return "", ""

    def look(name: str, dialog: QDialog) -> None:
        titles[name] = dialog.windowTitle()
        for ask in ("getOpenFileName", "getSaveFileName"):
            monkeypatch.setattr(QFileDialog, ask, asked)

    walk_dialogs(window, monkeypatch, look)
    assert len(titles) > 25
    words = [
        *RUNA.name.split(),
        *(name for line in window.store.clients() for name in line.name.split()),
    ]
    assert {n: t for n, t in titles.items() if any(word in t for word in words)} == {}
    assert [title for title in files if any(word in title for word in words)] == []
    assert [name for name, title in titles.items() if not title] == []
    assert any(tr("the client") in title for title in titles.values())


def test_inside_a_dialog_the_client_is_named_still(window: Window, monkeypatch):
    seen: list[str] = []

    def look(dialog: QDialog) -> int:
        dialog.show()
        QApplication.processEvents()
        seen.append(dialog.windowTitle())
        assert any(
            RUNA.name in label.text()
            for label in dialog.findChildren(QWidget)
            if hasattr(label, "text") and callable(label.text)
        )
        dialog.reject()
        return 0

    monkeypatch.setattr(QDialog, "exec", look)
    window._run(next(action for action in ACTIONS if action.id == "profile"))
    assert seen == ["Profile of the client"]


def test_what_is_copied_names_no_client(window: Window):
    window.grid.setFocus()
    window.grid.walk(0, 1)
    window.actions_by_id["copy"].trigger()
    mime = QApplication.clipboard().mimeData()
    content = mime.text() + "".join(
        bytes(mime.data(kind).data()).decode() for kind in mime.formats()
    )
    assert "squat" in content.casefold()
    assert not [word for word in RUNA.name.split() if word in content]
    QApplication.clipboard().clear()
