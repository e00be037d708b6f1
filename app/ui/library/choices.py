"""The choices that narrow the list, each with the number of exercises it would leave."""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from itertools import pairwise

from PySide6.QtCore import QModelIndex, QPersistentModelIndex, QSize, Qt, Signal
from PySide6.QtGui import QPainter, QStandardItemModel, QWheelEvent
from PySide6.QtWidgets import (
    QCheckBox,
    QComboBox,
    QGridLayout,
    QHBoxLayout,
    QPushButton,
    QSizePolicy,
    QStyledItemDelegate,
    QStyleOptionViewItem,
    QVBoxLayout,
    QWidget,
)

from app.domain.exercise import Equipment, Muscle, Pattern
from app.domain.wording import mark, tr
from app.ui.library.narrow import SKILLS, Facet, Shelves, Value, Wish
from app.ui.library.order import Order
from app.ui.theme import current, font

COUNT = Qt.ItemDataRole.UserRole + 1
POPUP_WIDTH = 230
ROW_HEIGHT = 24
NAME_ROOM = {False: 90, True: 40}
"""What the client's name may take beside a tick, px; in a compact pane."""
ORDER_NAMES = {
    Order.EMPHASIS: mark("Order: emphasis"),
    Order.ACTIVATION: mark("Order: activation"),
    Order.NAME: mark("Order: name"),
}


class CountDelegate(QStyledItemDelegate):
    """Paints the number of exercises at the right of a choice."""

    def paint(
        self,
        painter: QPainter,
        option: QStyleOptionViewItem,
        index: QModelIndex | QPersistentModelIndex,
    ) -> None:
        super().paint(painter, option, index)
        count = index.data(COUNT)
        if count is not None:
            painter.save()
            painter.setFont(font("small"))
            painter.setPen(current().ink2)
            flags = int(Qt.AlignmentFlag.AlignRight | Qt.AlignmentFlag.AlignVCenter)
            painter.drawText(option.rect.adjusted(0, 0, -8, 0), flags, str(count))
            painter.restore()

    def sizeHint(
        self, option: QStyleOptionViewItem, index: QModelIndex | QPersistentModelIndex
    ) -> QSize:
        hint = super().sizeHint(option, index)
        return hint.expandedTo(QSize(0, ROW_HEIGHT))


class ChoiceBox(QComboBox):
    """One choice of many; it counts when it opens and is deaf to the wheel."""

    counts_wanted = Signal()

    def __init__(self, facet: Facet, title: str, values: Iterable[tuple[str, Value]]) -> None:
        super().__init__()
        self.facet = facet
        self.setAccessibleName(title)
        self.addItem(title, None)
        for name, value in values:
            self.addItem(name, value)
        self.setItemDelegate(CountDelegate(self))
        self.setFocusPolicy(Qt.FocusPolicy.StrongFocus)
        self.setMaxVisibleItems(24)
        self.setMinimumHeight(30)
        self.setSizePolicy(QSizePolicy.Policy.Ignored, QSizePolicy.Policy.Fixed)
        self.view().setMinimumWidth(POPUP_WIDTH)

    def show_counts(self, counts: Mapping[Value, int], everything: int) -> None:
        """Write the numbers beside the choices; what would leave nothing cannot be chosen."""
        model = self.model()
        assert isinstance(model, QStandardItemModel)
        for row in range(self.count()):
            value = self.itemData(row)
            count = everything if value is None else counts.get(value, 0)
            item = model.item(row)
            item.setData(count, COUNT)
            item.setData(f"{self.itemText(row)}, {count}", Qt.ItemDataRole.AccessibleTextRole)
            item.setEnabled(count > 0 or row in (0, self.currentIndex()))

    def showPopup(self) -> None:
        self.counts_wanted.emit()
        super().showPopup()

    def wheelEvent(self, event: QWheelEvent) -> None:
        event.ignore()


class OrderBox(QComboBox):
    """In what order the list stands; deaf to the wheel."""

    def __init__(self) -> None:
        super().__init__()
        self.setAccessibleName(tr("Order"))
        for order in Order:
            self.addItem(tr(ORDER_NAMES[order]), order)
        self.setFocusPolicy(Qt.FocusPolicy.StrongFocus)
        self.setMinimumHeight(30)
        self.setSizePolicy(QSizePolicy.Policy.Ignored, QSizePolicy.Policy.Fixed)

    def chosen(self) -> Order:
        """The order that is chosen."""
        return tuple(Order)[self.currentIndex()]

    def wheelEvent(self, event: QWheelEvent) -> None:
        event.ignore()


class Choices(QWidget):
    """Everything the list is narrowed by but its text. changed: another choice was made."""

    changed = Signal()
    counts_wanted = Signal(object)

    def __init__(self, muscles: Mapping[Muscle, str]) -> None:
        super().__init__()
        self.muscle = ChoiceBox(
            Facet.MUSCLE, tr("Muscle"), sorted((n, m) for m, n in muscles.items())
        )
        self.pattern = ChoiceBox(Facet.PATTERN, tr("Pattern"), ((_words(p), p) for p in Pattern))
        self.equipment = ChoiceBox(
            Facet.EQUIPMENT,
            tr("Equipment"),
            ((_words(e) if e is not Equipment.BODY else tr("Own weight"), e) for e in Equipment),
        )
        self.demand = ChoiceBox(
            Facet.DEMAND, tr("Demand"), ((tr(name), level) for level, name in SKILLS.items())
        )
        self.fits = _tick(tr("Fits the client"))
        self.at_hand = _tick(tr("At hand"))
        self.own = _tick(tr("Your own"))
        self.order = OrderBox()
        self.more = QPushButton()
        self.more.setProperty("link", True)
        self.more.setMinimumHeight(24)
        self._who = tr("the client")
        self.unfolded = False
        self.compact = False
        self._lay_out()
        for box in self.boxes:
            box.currentIndexChanged.connect(lambda _row: self.changed.emit())
            box.counts_wanted.connect(lambda b=box: self.counts_wanted.emit(b))
        for tick in (self.fits, self.at_hand, self.own):
            tick.toggled.connect(lambda _on: self.changed.emit())
        self.order.currentIndexChanged.connect(lambda _row: self.changed.emit())
        self.more.clicked.connect(lambda _on: self.unfold(not self.unfolded))
        self.unfold(False)

    @property
    def boxes(self) -> tuple[ChoiceBox, ...]:
        """The four choices of many."""
        return (self.muscle, self.pattern, self.equipment, self.demand)

    @property
    def stops(self) -> tuple[QWidget, ...]:
        """Everything that Tab goes to, in the order it is seen."""
        return (
            *(self.muscle, self.pattern, self.fits, self.more),
            *(self.equipment, self.demand, self.order, self.at_hand, self.own),
        )

    def _lay_out(self) -> None:
        column = QVBoxLayout(self)
        column.setContentsMargins(0, 0, 0, 0)
        column.setSpacing(4)
        first = QHBoxLayout()
        first.setSpacing(6)
        first.addWidget(self.muscle, 1)
        first.addWidget(self.pattern, 1)
        second = QHBoxLayout()
        second.addWidget(self.fits, 1)
        second.addWidget(self.more)
        self.folded = QWidget()
        grid = QGridLayout(self.folded)
        grid.setContentsMargins(0, 0, 0, 0)
        grid.setHorizontalSpacing(6)
        grid.setVerticalSpacing(4)
        grid.addWidget(self.equipment, 0, 0, 1, 2)
        grid.addWidget(self.demand, 1, 0, 1, 2)
        grid.addWidget(self.order, 2, 0, 1, 2)
        grid.addWidget(self.at_hand, 3, 0)
        grid.addWidget(self.own, 3, 1)
        grid.setColumnStretch(0, 1)
        grid.setColumnStretch(1, 1)
        column.addLayout(first)
        column.addLayout(second)
        column.addWidget(self.folded)
        for before, after in pairwise(self.stops):
            QWidget.setTabOrder(before, after)

    def unfold(self, on: bool) -> None:
        """Show the further choices, or fold them away."""
        self.unfolded = on
        self.folded.setVisible(on)
        self._name_more()

    def set_compact(self, compact: bool) -> None:
        """Take less width."""
        self.compact = compact
        self._name_more()

    def _name_more(self) -> None:
        """Folded choices that leave something out are counted on the button."""
        hidden = sum(
            (
                self.equipment.currentIndex() > 0,
                self.demand.currentIndex() > 0,
                self.at_hand.isChecked(),
                self.own.isChecked(),
            )
        )
        word = tr("Fewer") if self.unfolded else tr("More")
        made = f" ({hidden})" if hidden and not self.unfolded else ""
        self.more.setText(
            f"{word}{made}" if self.compact else tr("{word} choices{made}", word=word, made=made)
        )
        self.more.setAccessibleName(tr("{word} choices{made}", word=word, made=made))

    def wish(self, text: str) -> Wish:
        """What the list is narrowed to."""
        muscle, pattern = self.muscle.currentData(), self.pattern.currentData()
        thing = self.equipment.currentData()
        return Wish(
            text=text,
            # Qt hands words of an enumeration back as plain text
            muscle=None if muscle is None else Muscle(muscle),
            pattern=None if pattern is None else Pattern(pattern),
            equipment=None if thing is None else Equipment(thing),
            demand=self.demand.currentData(),
            fits=self.fits.isEnabled() and self.fits.isChecked(),
            at_hand=self.at_hand.isChecked(),
            own=self.own.isChecked(),
        )

    def show_client(self, name: str, *, fits: bool) -> None:
        """Name the client that exercises must fit; without one nothing is asked of them."""
        self._who = name or tr("the client")
        self.fits.setEnabled(bool(name))
        self._set(self.fits, bool(name) and fits)

    def show_counts(self, shelves: Shelves, wish: Wish) -> None:
        """Write beside each tick how many exercises it would leave."""
        self._name_more()
        room = NAME_ROOM[self.compact]
        who = self.fits.fontMetrics().elidedText(self._who, Qt.TextElideMode.ElideRight, room)
        for tick, facet, name in (
            (self.fits, Facet.FITS, tr("Fits {who}", who=who)),
            (self.at_hand, Facet.AT_HAND, tr("At hand")),
            (self.own, Facet.OWN, tr("Your own")),
        ):
            count = shelves.counts(wish, facet).get(True, 0)
            known = facet is not Facet.FITS or tick.isEnabled()
            tick.setText(f"{name}  {count}" if known else name)

    def open_all(self) -> None:
        """Leave every choice open."""
        for box in self.boxes:
            box.blockSignals(True)
            box.setCurrentIndex(0)
            box.blockSignals(False)
        for tick in (self.fits, self.at_hand, self.own):
            self._set(tick, False)
        self.changed.emit()

    def show_at_hand(self) -> None:
        """Narrow the list to what is kept at hand."""
        self.unfold(True)
        self.at_hand.setChecked(True)

    def _set(self, tick: QCheckBox, on: bool) -> None:
        tick.blockSignals(True)
        tick.setChecked(on)
        tick.blockSignals(False)


def _words(value: Pattern | Equipment) -> str:
    return tr(value.value.replace("_", " ").capitalize())


def _tick(name: str) -> QCheckBox:
    tick = QCheckBox(name)
    tick.setMinimumHeight(24)
    return tick
