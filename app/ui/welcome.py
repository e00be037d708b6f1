"""What stands in the middle while there is no program: what to do next, in one click."""

from __future__ import annotations

from PySide6.QtCore import Qt, Signal
from PySide6.QtWidgets import QHBoxLayout, QLabel, QPushButton, QVBoxLayout, QWidget

from app.domain.wording import mark, tr
from app.ui import theme

CAUTION = mark(
    "Weekloom works with published ranges. It does not diagnose or treat: screen "
    "every client, send anyone with symptoms, disease or pregnancy to a licensed "
    "practitioner first, and keep to the rules of your place."
)


class Welcome(QWidget):
    """A first page that leads to the first client, the first program or the demo."""

    client_wanted = Signal()
    program_wanted = Signal()
    demo_wanted = Signal()

    def __init__(self, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self.title = _text("title")
        self.about = _text("body")
        self.about.setWordWrap(True)
        self.about.setFixedWidth(500)
        self.act = QPushButton()
        self.act.setProperty("primary", True)
        self.act.setMinimumHeight(32)
        self.demo = QPushButton(tr("Look at the demo"))
        self.demo.setMinimumHeight(32)
        self.demo.setToolTip(tr("A mountain-rescue team with finished plans, in a file of its own"))
        caution = _text("small")
        caution.setText(tr(CAUTION))
        caution.setWordWrap(True)
        caution.setFixedWidth(500)
        caution.setProperty("role", "small")
        self.act.clicked.connect(self._act)
        self.demo.clicked.connect(self.demo_wanted)
        buttons = QHBoxLayout()
        buttons.addWidget(self.act)
        buttons.addWidget(self.demo)
        buttons.addStretch(1)
        inner = QVBoxLayout()
        inner.setSpacing(12)
        inner.addStretch(2)
        for widget in (self.title, self.about):
            inner.addWidget(widget)
        inner.addLayout(buttons)
        inner.addSpacing(24)
        inner.addWidget(caution)
        inner.addStretch(3)
        outer = QHBoxLayout(self)
        outer.addStretch(1)
        outer.addLayout(inner)
        outer.addStretch(1)
        self._has_client = False
        self.show_state(clients=0, client="")

    def show_state(self, *, clients: int, client: str) -> None:
        """Say what is missing: a client, an open client, or a program."""
        self._has_client = bool(client)
        self.demo.setVisible(clients == 0)
        if client:
            self.title.setText(tr("No program for {client} yet", client=client))
            self.about.setText(
                tr(
                    "Choose how many weeks and a layout to begin with, or an empty "
                    "week. Then drag exercises from the left onto the days."
                )
            )
            self.act.setText(tr("New program…"))
        elif clients:
            self.title.setText(tr("No client is open"))
            self.about.setText(tr("Choose a client at the top right, or add a new one."))
            self.act.setText(tr("New client…"))
        else:
            self.title.setText(tr("Your first client"))
            self.about.setText(
                tr(
                    "A name is enough to begin. What you add later (days, equipment, "
                    "limitations, strength tests) makes the checks and the loads fit."
                )
            )
            self.act.setText(tr("New client…"))

    def _act(self) -> None:
        (self.program_wanted if self._has_client else self.client_wanted).emit()


def _text(step: theme.Step) -> QLabel:
    label = QLabel()
    label.setFont(theme.font(step))
    label.setTextFormat(Qt.TextFormat.PlainText)
    return label
