"""What everybody must be able to do with a window: name a control, hit it, read text as text."""

from __future__ import annotations

from PySide6.QtCore import Qt
from PySide6.QtGui import QAccessible
from PySide6.QtWidgets import (
    QAbstractButton,
    QAbstractItemView,
    QAbstractSpinBox,
    QComboBox,
    QLabel,
    QLineEdit,
    QWidget,
)

CONTROLS = (QAbstractButton, QAbstractItemView, QAbstractSpinBox, QComboBox, QLineEdit)
LEAST_PX = 24
"""The least width and height of what is hit (WCAG 2.2, 2.5.8)."""


def _ours(root: QWidget) -> list[QWidget]:
    """Every visible widget under `root` but the inner parts of stock controls."""
    found = []
    for widget in (root, *root.findChildren(QWidget)):
        if not widget.isVisible() or widget.objectName().startswith("qt_"):
            continue
        inner = widget.parent()
        if isinstance(inner, (QComboBox, QAbstractSpinBox, QLineEdit)):
            continue
        found.append(widget)
    return found


def told(widget: QWidget) -> str:
    """What assistive technology says of a widget."""
    interface = QAccessible.queryAccessibleInterface(widget)
    return "" if interface is None else interface.text(QAccessible.Text.Name).strip()


def _shown(widget: QWidget) -> str:
    return f"{type(widget).__name__} in {type(widget.parent()).__name__}"


def unnamed(root: QWidget) -> list[str]:
    """Widgets that take the focus and have no name, no buddy and no text."""
    return [
        _shown(widget)
        for widget in _ours(root)
        if widget.focusPolicy() is not Qt.FocusPolicy.NoFocus
        and widget.isEnabled()
        and not isinstance(widget, QLabel)
        and widget.focusProxy() is None
        and not widget.isWindow()
        and not told(widget)
    ]


def too_small(root: QWidget) -> list[str]:
    """Enabled controls that are hard to hit."""
    return [
        f"{_shown(widget)} {told(widget)!r}: {widget.width()} x {widget.height()}"
        for widget in _ours(root)
        if isinstance(widget, CONTROLS)
        and widget.isEnabled()
        and min(widget.width(), widget.height()) < LEAST_PX
    ]


def marked_up(root: QWidget) -> list[str]:
    """Labels that would take their text for markup."""
    return [
        f"{_shown(label)} {label.text()!r}"
        for label in root.findChildren(QLabel)
        if label.textFormat() is not Qt.TextFormat.PlainText
        and label.text()
        and label.pixmap().isNull()
    ]
