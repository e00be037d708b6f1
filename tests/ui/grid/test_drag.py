"""What a drag takes along: its ghost, and the actions it offers."""

from __future__ import annotations

from PySide6.QtCore import QMimeData, Qt
from PySide6.QtGui import QDrag
from PySide6.QtWidgets import QWidget

from app.domain.exercise import ExerciseKey
from app.ui.carry import Carried, from_mime
from app.ui.grid import drag
from tests.ui.grid import scene


def test_the_ghost_is_the_card_that_it_will_be(qapp):
    on = scene.bench()
    slot = drag.carried_slot(on, Carried(exercise=ExerciseKey("curl")))
    assert slot is not None
    assert (slot.exercise, slot.sets) == ("curl", 3)
    own = drag.carried_slot(on, Carried(slots=(scene.slot_id(on, 0, 0),), source=on.source))
    assert own is on.desk.program.weeks[0].days[0].sessions[0].slots[0]


def test_the_ghost_is_opaque_and_as_sharp_as_the_screen(qapp):
    on = scene.bench()
    carried = Carried(exercise=ExerciseKey("curl"))
    plain, fine = (drag.ghost_pixmap(on, carried, ratio=ratio) for ratio in (1.0, 2.0))
    assert fine.width() == 2 * plain.width()
    image = plain.toImage()
    assert image.pixelColor(image.width() // 2, 10).alpha() == 255


def test_what_is_not_known_has_no_ghost(qapp):
    on = scene.bench()
    assert drag.ghost_pixmap(on, Carried(exercise=ExerciseKey("nothing"))).isNull()
    assert drag.ghost_pixmap(on, Carried(slots=(), source=on.source)).isNull()


def test_a_drag_offers_to_copy_and_to_move_and_never_to_link(qtbot, monkeypatch):
    seen: list[tuple[Qt.DropAction, Qt.DropAction, QMimeData]] = []

    def run(self: QDrag, offered: Qt.DropAction, default: Qt.DropAction) -> Qt.DropAction:
        seen.append((offered, default, self.mimeData()))
        assert not self.pixmap().isNull()
        return Qt.DropAction.IgnoreAction

    monkeypatch.setattr(QDrag, "exec", run)
    on, source = scene.bench(), QWidget()
    qtbot.addWidget(source)
    carried = Carried(exercise=ExerciseKey("curl"), source=on.source)
    drag.start_drag(source, on, carried)
    offered, default, mime = seen[0]
    assert offered == Qt.DropAction.CopyAction | Qt.DropAction.MoveAction
    assert not offered & Qt.DropAction.LinkAction
    assert default == Qt.DropAction.MoveAction
    assert from_mime(mime) == carried
