from __future__ import annotations

from pathlib import Path

import pytest
from PySide6.QtGui import QColor, QImage
from PySide6.QtWidgets import QFileDialog, QPushButton

from app.picture_folder import PictureFolder
from app.ui.client import picture_view
from app.ui.client.check_in_pictures import MOST, Pictures
from tests.kept import KeptFile


def picture(folder: Path, name: str) -> Path:
    image = QImage(60, 40, QImage.Format.Format_RGB32)
    image.fill(QColor("#7A2558"))
    assert image.save(str(folder / name))
    return folder / name


@pytest.fixture
def file(tmp_path):
    path = tmp_path / "coach.weekloom"
    path.write_bytes(b"file")
    return path


@pytest.fixture
def shown(qtbot, dressed, file):
    told: list[str] = []
    made = Pictures(KeptFile(file), (), told.append)
    made.told = told  # type: ignore[attr-defined]
    qtbot.addWidget(made)
    made.show()
    yield made
    made.let_go()


def faces(shown):
    return [b for b in shown.findChildren(QPushButton) if b.accessibleName().endswith("large")]


def test_pictures_are_copied_beside_the_file(qtbot, shown, file, tmp_path, monkeypatch):
    path = picture(tmp_path, "one.png")
    monkeypatch.setattr(QFileDialog, "getOpenFileNames", lambda *_: ([str(path)], ""))
    shown.add_button.click()
    assert shown.busy
    qtbot.waitUntil(lambda: len(shown.names) == 1)
    folder = PictureFolder(file)
    assert folder.names() == set(shown.names)
    qtbot.waitUntil(lambda: any(not face.icon().isNull() for face in faces(shown)))


def test_what_cannot_be_read_is_said_and_none_is_kept(qtbot, shown, file, tmp_path):
    bad = tmp_path / "bad.jpg"
    bad.write_bytes(b"no picture")
    shown.add((picture(tmp_path, "one.png"), bad))
    qtbot.waitUntil(lambda: bool(shown.told))
    assert "bad.jpg" in shown.told[0]
    assert shown.names == ()
    assert PictureFolder(file).names() == frozenset()
    assert shown.add_button.isEnabled()


def test_a_removed_picture_stays_in_the_folder_so_that_undo_has_it(qtbot, shown, file, tmp_path):
    shown.add((picture(tmp_path, "one.png"),))
    qtbot.waitUntil(lambda: len(shown.names) == 1)
    name = shown.names[0]
    shown.remove(name)
    assert shown.names == ()
    assert PictureFolder(file).has(name)


def test_no_more_are_taken_than_there_is_room_for(qtbot, shown, tmp_path):
    path = picture(tmp_path, "one.png")
    shown.add((path,) * (MOST + 1))
    assert "at most 8 pictures" in shown.told[0]
    qtbot.waitUntil(lambda: len(shown.names) == MOST)
    assert not shown.add_button.isEnabled()


def test_a_picture_that_is_gone_is_said_to_be(qtbot, shown):
    shown.show_names(("gone.jpg",))
    qtbot.waitUntil(lambda: shown._showing is None)
    assert "gone" in [face.text() for face in faces(shown)]


def test_a_press_shows_a_picture_large(qtbot, shown, monkeypatch):
    looked = []

    class View:
        def __init__(self, where, names, _parent, *, first):
            looked.append((names, first))

        def exec(self):
            return 0

        def deleteLater(self):
            pass

    monkeypatch.setattr(picture_view, "PictureView", View)
    shown.show_names(("a.jpg", "b.jpg"))
    faces(shown)[1].click()
    assert looked == [(("a.jpg", "b.jpg"), 1)]


def test_without_a_file_on_disk_pictures_are_refused(qtbot, dressed, tmp_path):
    told: list[str] = []
    made = Pictures(KeptFile(None), (), told.append)
    qtbot.addWidget(made)
    made.add((picture(tmp_path, "one.png"),))
    qtbot.waitUntil(lambda: bool(told))
    assert "beside the coach's file" in told[0]
    made.let_go()
