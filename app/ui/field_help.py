"""Explains the fields of forms: a tip, a sentence on Shift+F1, and the same read aloud.

The sentences stand in `field_texts`, and a test holds every form to them. A field is found there by
its label, else by its accessible name, else by its own text.
"""

from __future__ import annotations

from collections.abc import Iterator, Mapping

from PySide6.QtCore import Qt
from PySide6.QtWidgets import (
    QAbstractItemView,
    QAbstractSpinBox,
    QCheckBox,
    QComboBox,
    QDialog,
    QFormLayout,
    QLabel,
    QLineEdit,
    QPlainTextEdit,
    QRadioButton,
    QWidget,
)

from app.domain.wording import tr
from app.ui.field_texts import ANY, FIELDS, PAGES

FIRST_PAGE = "first-client"

INPUTS = (QLineEdit, QComboBox, QCheckBox, QRadioButton, QPlainTextEdit, QAbstractSpinBox)


def page_for(widget: QWidget | None) -> str:
    """The page of the guide that fits a widget: that of the nearest form or pane around it."""
    at = widget
    while at is not None:
        for kind in type(at).__mro__:
            if kind.__name__ in PAGES:
                return PAGES[kind.__name__]
        at = at.parentWidget()
    return FIRST_PAGE


def inputs(form: QWidget) -> Iterator[tuple[QWidget, tuple[str, ...]]]:
    """Every field of a form with the names it goes by, the label's first."""
    labels = dict(_labelled(form))
    for field in form.findChildren(QWidget):
        if not isinstance(field, INPUTS) or field.window() is not form.window():
            continue
        parent = field.parentWidget()
        if isinstance(parent, QComboBox | QAbstractSpinBox | QAbstractItemView):
            continue  # a part of another field
        names = [labels[at] for at in _upwards(field, form) if at in labels]
        text = field.text() if isinstance(field, QCheckBox | QRadioButton) else ""
        yield field, tuple(name for name in (*names, field.accessibleName(), text) if name)


def _upwards(widget: QWidget, top: QWidget) -> Iterator[QWidget]:
    at: QWidget | None = widget
    while at is not None and at is not top:
        yield at
        at = at.parentWidget()


def _labelled(form: QWidget) -> Iterator[tuple[QWidget, str]]:
    for layout in form.findChildren(QFormLayout):
        for row in range(layout.rowCount()):
            label = layout.itemAt(row, QFormLayout.ItemRole.LabelRole)
            field = layout.itemAt(row, QFormLayout.ItemRole.FieldRole)
            text = None if label is None else label.widget()
            widget = None if field is None else field.widget()
            if widget is not None and isinstance(text, QLabel):
                yield widget, text.text()


def sentence_for(form: str, names: tuple[str, ...]) -> str:
    """The help of a field of that form; empty where there is none."""
    return _sentence(_sentences_of(form), names)


def _sentences_of(form: str) -> dict[str, str]:
    """The sentences of a form by the fields' names as they are shown."""
    return {tr(name): help_ for (kind, name), help_ in FIELDS.items() if kind == form}


def _sentence(own: Mapping[str, str], names: tuple[str, ...]) -> str:
    for name in names:
        for known, help_ in own.items():
            if name == known or name.startswith(f"{known},"):
                return tr(help_)
    any_help = own.get(tr(ANY))
    return tr(any_help) if any_help else ""


def explain(form: QDialog) -> None:
    """Give every field of a form its sentence: as a tip, on Shift+F1, and read aloud."""
    own = _sentences_of(type(form).__name__)
    for field, names in inputs(form):
        help_ = "" if field.whatsThis() else _sentence(own, names)
        if not help_:
            continue
        field.setWhatsThis(help_)
        if not field.toolTip():
            field.setToolTip(help_)
        if not field.accessibleDescription():
            field.setAccessibleDescription(help_)
        field.setAttribute(Qt.WidgetAttribute.WA_AlwaysShowToolTips)
