"""A field for a passphrase: dots unless the coach wants to see the letters."""

from __future__ import annotations

from PySide6.QtCore import Qt
from PySide6.QtWidgets import QCheckBox, QLineEdit, QVBoxLayout, QWidget

from app.domain.wording import tr
from db.passphrase import Passphrase


class PassphraseField(QWidget):
    """One or more lines for a passphrase, with one box that shows them all.

    What is typed is kept out of the undo list, of word guessing and of the selection clipboard.
    """

    def __init__(self, name: str, *, follow: PassphraseField | None = None) -> None:
        super().__init__()
        self.edit = QLineEdit()
        self.edit.setAccessibleName(name)
        self.edit.setMinimumHeight(32)
        self.edit.setEchoMode(QLineEdit.EchoMode.Password)
        self.edit.setInputMethodHints(
            Qt.InputMethodHint.ImhSensitiveData
            | Qt.InputMethodHint.ImhNoPredictiveText
            | Qt.InputMethodHint.ImhNoAutoUppercase
        )
        column = QVBoxLayout(self)
        column.setContentsMargins(0, 0, 0, 0)
        column.setSpacing(4)
        column.addWidget(self.edit)
        self.shown: QCheckBox | None = None
        if follow is None:
            self.shown = QCheckBox(tr("Show the letters"))
            self.shown.setMinimumHeight(24)
            self.shown.toggled.connect(self.show_letters)
            column.addWidget(self.shown)
        elif follow.shown is not None:
            follow.shown.toggled.connect(self.show_letters)
        self.setFocusProxy(self.edit)

    def show_letters(self, shown: bool) -> None:
        """Show what is typed, or dots."""
        mode = QLineEdit.EchoMode.Normal if shown else QLineEdit.EchoMode.Password
        self.edit.setEchoMode(mode)

    @property
    def text(self) -> str:
        """What is typed, as it is: blanks at the ends count too."""
        return self.edit.text()

    @property
    def passphrase(self) -> Passphrase:
        """The passphrase that is typed."""
        return Passphrase(self.text)

    def clear(self) -> None:
        """Empty the field."""
        self.edit.clear()
