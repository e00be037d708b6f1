"""What tests of the client pane share: its texts and its buttons."""

from __future__ import annotations

from PySide6.QtWidgets import QLabel, QPushButton, QWidget


def texts(pane: QWidget) -> list[str]:
    """Every text that stands in the pane, or in a section of it, from the top down."""
    return [
        label.text()
        for label in pane.findChildren(QLabel)
        if label.isVisibleTo(pane) and label.text()
    ]


def button(pane: QWidget, text: str) -> QPushButton:
    """The button of that text."""
    return next(b for b in buttons(pane) if b.text() == text)


def buttons(pane: QWidget) -> list[QPushButton]:
    """The buttons that are shown; those of a part just filled again go a moment later."""
    return [b for b in pane.findChildren(QPushButton) if b.isVisibleTo(pane)]
