"""All dialogs by the same rules: named, large enough, legible, in reach of Tab, explained."""

from __future__ import annotations

from collections import Counter, defaultdict

import pytest
from PySide6.QtCore import Qt
from PySide6.QtGui import QColor, QImage
from PySide6.QtTest import QTest
from PySide6.QtWidgets import (
    QAbstractButton,
    QApplication,
    QDialog,
    QLabel,
    QRadioButton,
    QWidget,
)

from app.ui import theme
from app.ui.field_help import inputs, page_for
from app.ui.field_texts import PAGES
from app.ui.guide_text import find_page
from app.ui.window import Window
from tests.ui.access import marked_up, too_small, unnamed
from tests.ui.every_dialog import walk_dialogs

TEXT_CONTRAST = 4.5


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


def out_of_reach(dialog: QWidget) -> list[str]:
    """Controls that pressing Tab round and round does not come to."""
    wanted = [
        widget
        for widget in dialog.findChildren(QWidget)
        if widget.isVisible()
        and widget.isEnabled()
        and widget.focusPolicy() & Qt.FocusPolicy.TabFocus
        and widget.focusProxy() is None
        and not isinstance(widget, QRadioButton)  # one of a group; arrows go on
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


@pytest.mark.parametrize("colours", [theme.LIGHT, theme.DARK], ids=["light", "dark"])
def test_every_dialog_can_be_used_by_everybody(
    window: Window, monkeypatch: pytest.MonkeyPatch, colours: theme.Theme
) -> None:
    theme.force(colours)
    window.dress()
    found: dict[str, list[str]] = defaultdict(list)

    def look(name: str, dialog: QDialog) -> None:
        for rule in (unnamed, too_small, marked_up, faint):
            found[name] += [f"{rule.__name__}: {one}" for one in rule(dialog)]

    seen = walk_dialogs(window, monkeypatch, look)
    assert len(seen) > 25
    assert {name: faults for name, faults in found.items() if faults} == {}


def test_every_control_of_a_dialog_is_in_reach_of_the_tab_key(
    window: Window, monkeypatch: pytest.MonkeyPatch
) -> None:
    found: dict[str, list[str]] = {}

    def look(name: str, dialog: QDialog) -> None:
        dialog.activateWindow()
        QApplication.processEvents()
        found[name] = out_of_reach(dialog)

    walk_dialogs(window, monkeypatch, look)
    assert {name: faults for name, faults in found.items() if faults} == {}


def test_every_field_is_explained_in_a_sentence(
    window: Window, monkeypatch: pytest.MonkeyPatch
) -> None:
    missing: dict[str, list[str]] = {}

    def look(name: str, dialog: QDialog) -> None:
        if not hasattr(dialog, "show_help"):
            return  # a window of its own
        nameless = [names for field, names in inputs(dialog) if not field.whatsThis()]
        missing[name] = [str(names) for names in nameless]
        for field, _ in inputs(dialog):
            help_ = field.whatsThis()
            assert not help_ or help_.rstrip(")").endswith("."), help_
            assert (field.toolTip() and field.accessibleDescription()) or not help_

    walk_dialogs(window, monkeypatch, look)
    assert {name: fields for name, fields in missing.items() if fields} == {}


def test_every_form_has_a_page_of_the_guide(
    window: Window, monkeypatch: pytest.MonkeyPatch
) -> None:
    without: set[str] = set()

    def look(_name: str, dialog: QDialog) -> None:
        kinds = {kind.__name__ for kind in type(dialog).__mro__}
        if hasattr(dialog, "show_help") and not kinds & set(PAGES) and "TextSheet" not in kinds:
            without.add(type(dialog).__name__)
        find_page(page_for(dialog))

    walk_dialogs(window, monkeypatch, look)
    assert without == set()
