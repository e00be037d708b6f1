from __future__ import annotations

from PySide6.QtGui import QColor, QImage

from app.ui.charts.canvas import Canvas


def test_a_sentence_stands_where_no_picture_is(qtbot, dressed):
    canvas = Canvas()
    qtbot.addWidget(canvas)
    canvas.say("No body mass yet.", name="Body mass")
    assert canvas.image is None
    assert canvas.accessibleDescription() == "No body mass yet."
    canvas.resize(400, 300)
    assert not canvas.grab().isNull()


def test_a_picture_is_painted_and_named(qtbot, dressed):
    canvas = Canvas()
    qtbot.addWidget(canvas)
    canvas.resize(400, 300)
    image = QImage(400, 300, QImage.Format.Format_RGB32)
    image.fill(QColor("#123456"))
    canvas.show_image(image, name="Body mass", text="21 weighings")
    assert canvas.accessibleName() == "Body mass"
    assert QColor(canvas.grab().toImage().pixel(50, 50)) == QColor("#123456")


def test_being_sized_asks_for_another_picture(qtbot, dressed):
    canvas = Canvas()
    qtbot.addWidget(canvas)
    canvas.show()
    with qtbot.waitSignal(canvas.resized):
        canvas.resize(500, 400)
