"""The choices and their counts."""

from __future__ import annotations

from datetime import date

import pytest
from PySide6.QtCore import QPoint, QPointF, Qt
from PySide6.QtGui import QWheelEvent
from PySide6.QtWidgets import QApplication

from app import resources
from app.domain.exercise import Equipment, Muscle, Pattern
from app.ui.library.choices import COUNT, Choices
from app.ui.library.narrow import Facet, Shelves, Wish
from app.ui.library.order import Order
from app.ui.library.search import entries

NAMES = {muscle: name.trade for muscle, name in resources.muscle_names().items()}


@pytest.fixture
def choices(qtbot) -> Choices:
    made = Choices(NAMES)
    qtbot.addWidget(made)
    return made


def shelves() -> Shelves:
    made = Shelves(entries(resources.catalogue(), NAMES))
    made.show_client(None, date(2026, 11, 25))
    made.show_at_hand(())
    return made


def test_every_choice_becomes_a_wish(choices):
    choices.show_client("Runa", fits=True)
    choices.muscle.setCurrentIndex(choices.muscle.findData(Muscle.CALVES))
    choices.pattern.setCurrentIndex(choices.pattern.findData(Pattern.CALF_RAISE))
    choices.equipment.setCurrentIndex(choices.equipment.findData(Equipment.BAND))
    choices.demand.setCurrentIndex(1)
    choices.at_hand.setChecked(True)
    choices.own.setChecked(True)
    assert choices.wish("x") == Wish(
        text="x",
        muscle=Muscle.CALVES,
        pattern=Pattern.CALF_RAISE,
        equipment=Equipment.BAND,
        demand=1,
        fits=True,
        at_hand=True,
        own=True,
    )
    with_nothing = Choices(NAMES)
    assert with_nothing.wish("") == Wish()
    with_nothing.deleteLater()


def test_counts_stand_beside_choices_and_what_leaves_nothing_cannot_be_chosen(choices):
    shelf = shelves()
    wish = Wish(pattern=Pattern.CALF_RAISE)
    choices.muscle.show_counts(shelf.counts(wish, Facet.MUSCLE), 12)
    model = choices.muscle.model()
    for row in range(1, choices.muscle.count()):
        muscle = Muscle(choices.muscle.itemData(row))
        count = shelf.left(Wish(pattern=Pattern.CALF_RAISE, muscle=muscle)).bit_count()
        assert model.item(row).data(COUNT) == count
        assert model.item(row).isEnabled() is (count > 0)
        spoken = model.item(row).data(Qt.ItemDataRole.AccessibleTextRole)
        assert spoken == f"{NAMES[muscle]}, {count}"


def test_a_choice_counts_when_it_opens(qtbot, choices):
    with qtbot.waitSignal(choices.counts_wanted) as asked:
        choices.muscle.showPopup()
    choices.muscle.hidePopup()
    assert asked.args == [choices.muscle]


def test_the_wheel_changes_no_choice(choices):
    choices.show()
    for box in (choices.muscle, choices.order):
        event = QWheelEvent(
            QPointF(5, 5),
            QPointF(5, 5),
            QPoint(),
            QPoint(0, -120),
            Qt.MouseButton.NoButton,
            Qt.KeyboardModifier.NoModifier,
            Qt.ScrollPhase.NoScrollPhase,
            False,
        )
        QApplication.sendEvent(box, event)
        assert box.currentIndex() == 0


def test_ticks_tell_how_many_they_leave(choices):
    choices.show_client("Runa", fits=False)
    choices.show_counts(shelves(), Wish())
    assert choices.fits.text() == f"Fits Runa  {len(resources.catalogue())}"
    assert choices.own.text() == "Your own  0"


def test_without_a_client_nothing_can_be_asked_to_fit(choices):
    choices.show_client("", fits=True)
    assert not choices.fits.isEnabled()
    assert not choices.wish("").fits


def test_opening_all_says_so_once(qtbot, choices):
    choices.muscle.setCurrentIndex(3)
    choices.own.setChecked(True)
    heard = []
    choices.changed.connect(lambda: heard.append(choices.wish("")))
    choices.open_all()
    assert heard == [Wish()]


def test_the_order_is_chosen_among_three(choices):
    choices.order.setCurrentIndex(2)
    assert choices.order.chosen() is Order.NAME
