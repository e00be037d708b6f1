"""The bar above everything: menus, undo and redo, the open client and program, the booklet."""

from __future__ import annotations

from typing import Any

from PySide6.QtCore import (
    QAbstractListModel,
    QModelIndex,
    QPersistentModelIndex,
    QSize,
    Qt,
    Signal,
)
from PySide6.QtGui import QPaintEvent, QPalette, QResizeEvent
from PySide6.QtWidgets import (
    QComboBox,
    QHBoxLayout,
    QMenuBar,
    QPushButton,
    QSizePolicy,
    QStyle,
    QStyleOptionComboBox,
    QStylePainter,
    QToolButton,
    QWidget,
)

from app.domain.client import ClientId
from app.domain.program import ProgramId
from app.domain.wording import mark, tr, trn
from app.ui.bench import Bench
from app.ui.forms import Elided
from app.ui.icons import icon
from app.ui.words import tip
from db.lines import ClientLine, ProgramLine

Index = QModelIndex | QPersistentModelIndex
NOWHERE = QModelIndex()

NEW = mark("…new")

NARROW = 1200
"""Below this width, px, the menus stand closer."""

MOST_MEASURED = 500
"""Up to so many clients, the box is as wide as the longest name; measuring more takes too long."""

NAME_LENGTH = 16
"""How wide the box is for more clients than that, in letters."""


class ClientNames(QAbstractListModel):
    """The clients to choose from, and below them a new one: a list of thousands costs nothing."""

    def __init__(self) -> None:
        super().__init__()
        self.lines: tuple[ClientLine, ...] = ()

    def show_lines(self, lines: tuple[ClientLine, ...]) -> None:
        """List these."""
        self.beginResetModel()
        self.lines = lines
        self.endResetModel()

    def row_of(self, client_id: ClientId | None) -> int:
        """The row of that client; -1 where it is not listed."""
        return next((row for row, line in enumerate(self.lines) if line.id == client_id), -1)

    def rowCount(self, parent: Index = NOWHERE) -> int:
        return 0 if parent.isValid() else len(self.lines) + 1

    def data(self, index: Index, role: int = Qt.ItemDataRole.DisplayRole) -> Any:
        line = self.lines[index.row()] if index.row() < len(self.lines) else None
        if role in (Qt.ItemDataRole.DisplayRole, Qt.ItemDataRole.EditRole):
            return tr("New client…") if line is None else f"{line.name}{_archived(line)}"
        if role == Qt.ItemDataRole.UserRole:
            return None if line is None else line.id
        return None


class NameBox(QComboBox):
    """A box that ends the name it shows in an ellipsis where room is short."""

    def paintEvent(self, event: QPaintEvent) -> None:
        painter, option = QStylePainter(self), QStyleOptionComboBox()
        self.initStyleOption(option)
        painter.drawComplexControl(QStyle.ComplexControl.CC_ComboBox, option)
        palette, text = QPalette(self.palette()), self.currentText()
        if self.currentIndex() < 0:
            text = self.placeholderText()
            palette.setBrush(QPalette.ColorRole.ButtonText, palette.placeholderText())
        field = self.style().subControlRect(
            QStyle.ComplexControl.CC_ComboBox,
            option,
            QStyle.SubControl.SC_ComboBoxEditField,
            self,
        )
        cut = self.fontMetrics().elidedText(text, Qt.TextElideMode.ElideRight, field.width())
        option.currentText, option.palette = cut, palette
        painter.drawControl(QStyle.ControlElement.CE_ComboBoxLabel, option)
        self.setToolTip("" if cut == text else tip(text))


class TopBar(QWidget):
    """Menus left; client, program and the booklet right.

    client_chosen(id | None), program_chosen(id | None): None asks for a new one.
    """

    client_chosen = Signal(object)
    program_chosen = Signal(object)
    booklet_wanted = Signal()

    def __init__(self, bench: Bench, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self.bench = bench
        self.menus = QMenuBar()
        self.menus.setSizePolicy(QSizePolicy.Policy.Minimum, QSizePolicy.Policy.Preferred)
        self.undo_button = self._tool("undo", tr("Undo"), bench.undo)
        self.redo_button = self._tool("redo", tr("Redo"), bench.redo)
        self.undo_label = Elided(role="small")
        self.undo_label.setSizePolicy(QSizePolicy.Policy.Ignored, QSizePolicy.Policy.Preferred)
        self.names = ClientNames()
        self.clients = self._combo(tr("Client"), 120)
        self.clients.setModel(self.names)
        self.programs = self._combo(tr("Program"), 170)
        self.booklet = QPushButton(tr("Make booklet"))
        self.booklet.setProperty("primary", True)
        self.booklet.setToolTip(
            tr("Look at the client's booklet, print it or keep it as a PDF file")
        )
        self.booklet.clicked.connect(self.booklet_wanted)
        row = QHBoxLayout(self)
        row.setContentsMargins(4, 4, 10, 4)
        row.setSpacing(8)
        row.addWidget(self.menus, 0, Qt.AlignmentFlag.AlignVCenter)
        row.addWidget(self.undo_button)
        row.addWidget(self.redo_button)
        row.addWidget(self.undo_label, 1)
        row.addWidget(self.clients)
        row.addWidget(self.programs)
        row.addWidget(self.booklet)
        self.clients.activated.connect(lambda k: self.client_chosen.emit(self.clients.itemData(k)))
        self.programs.activated.connect(
            lambda k: self.program_chosen.emit(self.programs.itemData(k))
        )
        bench.changed.connect(lambda *_: self.refresh())
        self.refresh()

    def resizeEvent(self, event: QResizeEvent) -> None:
        super().resizeEvent(event)
        self._set_compact(self.width() < NARROW)

    def _set_compact(self, compact: bool) -> None:
        """Draw the menus closer where the bar is narrow, so that none of them is cut off."""
        if self.menus.property("compact") == compact:
            return
        self.menus.setProperty("compact", compact)
        self.menus.style().unpolish(self.menus)
        self.menus.style().polish(self.menus)
        self.clients.setMinimumWidth(96 if compact else 120)
        self.programs.setMinimumWidth(120 if compact else 170)

    def _tool(self, picture: str, name: str, run: object) -> QToolButton:
        button = QToolButton()
        button.setIcon(icon(picture))
        button.setIconSize(QSize(16, 16))
        button.setProperty("flat", True)
        button.setMinimumSize(28, 28)
        button.setAccessibleName(name)
        button.clicked.connect(run)
        return button

    def _combo(self, name: str, width: int) -> QComboBox:
        box = NameBox()
        box.setMinimumWidth(width)
        box.setMaximumWidth(300)
        box.setMinimumHeight(32)
        box.setAccessibleName(name)
        box.setSizeAdjustPolicy(QComboBox.SizeAdjustPolicy.AdjustToContents)
        return box

    def show_clients(self, lines: tuple[ClientLine, ...], current: ClientId | None) -> None:
        """List the clients with `current` chosen."""
        if lines != self.names.lines:
            self.names.show_lines(lines)
            few, policy = len(lines) <= MOST_MEASURED, QComboBox.SizeAdjustPolicy
            self.clients.setMinimumContentsLength(0 if few else NAME_LENGTH)
            self.clients.setSizeAdjustPolicy(
                policy.AdjustToContents if few else policy.AdjustToMinimumContentsLengthWithIcon
            )
        self.clients.setCurrentIndex(self.names.row_of(current))
        self.clients.setPlaceholderText(tr("Choose a client"))

    def show_programs(self, lines: tuple[ProgramLine, ...], current: ProgramId | None) -> None:
        """List the open client's programs with `current` chosen."""
        self.programs.clear()
        for line in lines:
            unit = trn("week", "weeks", line.weeks)
            self.programs.addItem(f"{line.name}, {line.weeks} {unit}{_archived(line)}", line.id)
        self.programs.addItem(tr("New program…"), None)
        index = -1 if current is None else self.programs.findData(current)
        self.programs.setCurrentIndex(index)
        self.programs.setPlaceholderText(tr("Choose a program"))

    def choose(self, client: ClientId | None, program: ProgramId | None) -> None:
        """Choose among the clients and programs that are listed."""
        self.clients.setCurrentIndex(self.names.row_of(client))
        self.programs.setCurrentIndex(-1 if program is None else self.programs.findData(program))

    def refresh(self) -> None:
        """Show what can be undone and whether a booklet can be made."""
        history = self.bench.desk.history
        back, on = history.undoable, history.redoable
        self.undo_button.setEnabled(back is not None)
        self.redo_button.setEnabled(on is not None)
        self.undo_button.setToolTip(
            tip(tr("Undo: {back} (Ctrl+Z)", back=back.label) if back else tr("Nothing to undo"))
        )
        self.redo_button.setToolTip(
            tip(tr("Redo: {on} (Ctrl+Y)", on=on.label) if on else tr("Nothing to redo"))
        )
        self.undo_label.setText(tr("Undo: {back}", back=back.label) if back else "")
        self.booklet.setEnabled(self.bench.desk.has_program)
        self.programs.setEnabled(self.bench.desk.work is not None)


def _archived(line: ClientLine | ProgramLine) -> str:
    """What is said behind the name of something in the archive that is open all the same."""
    return tr(", archived") if line.archived else ""
