"""What a refit changed, as a list: what, where and why in one line each."""

from __future__ import annotations

from PySide6.QtCore import QSize, Qt
from PySide6.QtWidgets import QAbstractItemView, QListWidget, QListWidgetItem

from app.domain.refit import Change
from app.domain.wording import mark, tr

NOTHING = mark("Nothing else would be different.")


class RefitLines(QListWidget):
    """One wrapped line for every change; a sentence of its own where there is none."""

    def __init__(self) -> None:
        super().__init__()
        self.setAccessibleName(tr("What would be different"))
        self.setWordWrap(True)
        self.setSpacing(1)
        self.setHorizontalScrollBarPolicy(Qt.ScrollBarPolicy.ScrollBarAlwaysOff)
        self.setVerticalScrollMode(QAbstractItemView.ScrollMode.ScrollPerPixel)
        self.setSelectionMode(QAbstractItemView.SelectionMode.NoSelection)
        self.setMinimumHeight(110)

    def sizeHint(self) -> QSize:
        """Tall enough for six lines."""
        return QSize(420, 150)

    def show_changes(self, changes: tuple[Change, ...]) -> None:
        """List the changes in their order."""
        self.say(*(change.sentence for change in changes) if changes else (tr(NOTHING),))

    def say(self, *sentences: str) -> None:
        """List these sentences in the place of what was there."""
        self.clear()
        for sentence in sentences:
            self.addItem(QListWidgetItem(sentence))

    def lines(self) -> list[str]:
        """What is listed now."""
        return [self.item(row).text() for row in range(self.count())]
