from __future__ import annotations

import pytest
from PySide6.QtCore import Qt
from PySide6.QtGui import QColor, QImage

from app.picture_folder import PictureFolder
from app.ui.client.picture_files import prepared
from app.ui.client.picture_view import PictureView
from tests.kept import KeptFile


@pytest.fixture
def view(qtbot, dressed, tmp_path):
    file = tmp_path / "coach.weekloom"
    file.write_bytes(b"file")
    names = []
    for number, colour in enumerate(("#7A2558", "#39424C")):
        image = QImage(300, 200, QImage.Format.Format_RGB32)
        image.fill(QColor(colour))
        path = tmp_path / f"{number}.png"
        assert image.save(str(path))
        names.append(PictureFolder(file).add(prepared(path)))
    made = PictureView(KeptFile(file), (*names, "gone.jpg"), None)
    qtbot.addWidget(made)
    made.show()
    qtbot.waitUntil(lambda: made._job is None)
    return made


def colour(view):
    return view.image.pixelColor(view.image.width() // 2, view.image.height() // 2).name()


def test_it_shows_one_and_turns_to_the_others(qtbot, view):
    first = colour(view)
    assert not view.face.pixmap().isNull()
    assert not view.before.isEnabled()
    qtbot.keyClick(view, Qt.Key.Key_Right)
    qtbot.waitUntil(lambda: view._job is None)
    assert colour(view) != first
    assert view.place.text() == "Picture 2 of 3"
    view.before.click()
    qtbot.waitUntil(lambda: view._job is None)
    assert colour(view) == first
    view.show_picture(-1)
    assert view.number == 0


def test_a_picture_that_is_gone_says_so(qtbot, view):
    view.show_picture(2)
    qtbot.waitUntil(lambda: view._job is None)
    assert "gone.jpg" in view.face.text()


def test_the_title_names_nobody(view):
    assert view.windowTitle() == "Pictures"
