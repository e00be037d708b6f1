"""What everybody must be able to do with a window: name a control, hit it, read text as text."""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterator

from PySide6.QtCore import Qt
from PySide6.QtGui import QAccessible, QAccessibleInterface, QColor, QImage
from PySide6.QtTest import QTest
from PySide6.QtWidgets import (
    QAbstractButton,
    QAbstractItemView,
    QAbstractSpinBox,
    QApplication,
    QComboBox,
    QLabel,
    QLineEdit,
    QRadioButton,
    QScrollArea,
    QWidget,
)

CONTROLS = (QAbstractButton, QAbstractItemView, QAbstractSpinBox, QComboBox, QLineEdit)
TEXT_CONTRAST = 4.5
MARK_CONTRAST = 3.0
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


def silent(root: QWidget) -> list[str]:
    """Widgets that take the focus and do not say what kind of thing they are.

    Qt calls a scrolled pane `Client`, the inside of something, and nothing more fitting.
    """
    dumb = (QAccessible.Role.NoRole, QAccessible.Role.Client, QAccessible.Role.Window)
    found = []
    for widget in _ours(root):
        if widget.focusPolicy() is Qt.FocusPolicy.NoFocus or widget.focusProxy() is not None:
            continue
        if isinstance(widget, QScrollArea):
            continue
        interface = QAccessible.queryAccessibleInterface(widget)
        if not widget.isWindow() and (interface is None or interface.role() in dumb):
            found.append(f"{_shown(widget)} {told(widget)!r}")
    return found


def painted(widget: QWidget) -> Iterator[QAccessibleInterface]:
    """What a widget paints and speaks for, part by part."""
    interface = QAccessible.queryAccessibleInterface(widget)
    for number in range(interface.childCount()):
        child = interface.child(number)
        assert child is not None
        yield child


def luminance(colour: QColor) -> float:
    """Relative luminance (WCAG 2.2)."""
    parts = [
        part / 12.92 if part <= 0.04045 else ((part + 0.055) / 1.055) ** 2.4
        for part in (colour.redF(), colour.greenF(), colour.blueF())
    ]
    return 0.2126 * parts[0] + 0.7152 * parts[1] + 0.0722 * parts[2]


def contrast(one: QColor, other: QColor) -> float:
    """The ratio of two colours (WCAG 2.2)."""
    light, dark = sorted((luminance(one), luminance(other)), reverse=True)
    return (light + 0.05) / (dark + 0.05)


def ground(image: QImage, widget: QWidget, dialog: QWidget) -> QColor:
    """The colour that most of a widget's picture has."""
    corner = widget.mapTo(dialog, widget.rect().topLeft())
    found: Counter[int] = Counter()
    for x in range(corner.x() + 2, corner.x() + widget.width() - 2, 2):
        for y in range(corner.y() + 2, corner.y() + widget.height() - 2, 2):
            if image.rect().contains(x, y):
                found[image.pixel(x, y)] += 1
    return QColor(found.most_common(1)[0][0]) if found else QColor(Qt.GlobalColor.white)


def faint(dialog: QWidget) -> list[str]:
    """Texts of labels and buttons whose colour is too close to what they stand on."""
    image = dialog.grab().toImage()
    result = []
    for widget in dialog.findChildren(QWidget):
        if not isinstance(widget, QLabel | QAbstractButton) or not widget.text().strip():
            continue
        if not widget.isVisible() or not widget.isEnabled() or widget.visibleRegion().isEmpty():
            continue
        colour = widget.palette().color(widget.foregroundRole())
        ratio = contrast(colour, ground(image, widget, dialog))
        if ratio < TEXT_CONTRAST:
            result.append(f"{type(widget).__name__} {widget.text()[:40]!r} {ratio:.1f}")
    return result


def _of_a_group(widget: QWidget) -> bool:
    if isinstance(widget, QRadioButton):
        return True
    group = widget.group() if isinstance(widget, QAbstractButton) else None
    return group is not None and group.exclusive()


def out_of_reach(dialog: QWidget) -> list[str]:
    """Controls that pressing Tab round and round does not come to."""
    wanted = [
        widget
        for widget in dialog.findChildren(QWidget)
        if widget.isVisible()
        and widget.isEnabled()
        and widget.focusPolicy() & Qt.FocusPolicy.TabFocus
        and widget.focusProxy() is None
        and not _of_a_group(widget)  # Tab comes to one of them; arrows go on
        and widget.window() is dialog
    ]
    reached: set[QWidget] = set()
    for _ in range(2 * len(wanted) + 300):  # tables of fields are gone through first
        focus = QApplication.focusWidget()
        if reached.issuperset(wanted):
            break
        if focus is not None:
            reached.add(focus)
            QTest.keyClick(focus, Qt.Key.Key_Tab)
    return [f"{type(w).__name__} {w.accessibleName()}" for w in wanted if w not in reached]
