"""What a window says in the pseudo-language: what of it is not translated, what of it is cut."""

from __future__ import annotations

import re
from collections.abc import Iterable, Iterator
from html import unescape

from PySide6.QtCore import (
    QAbstractItemModel,
    QAbstractListModel,
    QModelIndex,
    Qt,
)
from PySide6.QtWidgets import (
    QAbstractButton,
    QAbstractItemView,
    QCheckBox,
    QComboBox,
    QGroupBox,
    QLabel,
    QLineEdit,
    QMenu,
    QPushButton,
    QRadioButton,
    QTabBar,
    QTabWidget,
    QTextBrowser,
    QWidget,
)

from app import press, resources
from app.resources.languages import NAMES
from app.ui.forms import Elided
from app.ui.grid.face import day_tooltip, spoken_day, tooltip
from app.ui.grid.surface import WeekSurface
from app.ui.words import DOT
from tests.ui.desks import PROGRAM, RUNA
from tests.ui.painted import Painted

SHOWN = (
    Qt.ItemDataRole.DisplayRole,
    Qt.ItemDataRole.ToolTipRole,
    Qt.ItemDataRole.AccessibleTextRole,
)
MOST_ROWS = 200
KEPT = {"Add client", "<qt>Add client</qt>", "UTC"}
"""What stands in the file from before: the label of a step, a time zone."""

WORDS = """
kcal min kg lb RIR RM rpe Ctrl Shift Alt Del Esc Enter Space Home End PgUp PgDown Weekloom PDF
SQLite Python PySide Qt png jpg jpeg json csv xlsx toml txt ics www https doi org com Tab Ins none
Jan Feb Mar Apr May Jun Jul Aug Sep Oct Nov Dec January February March April June July August
September October November December Delete Letter MVIC GMT
"""
"""What reads the same in every language: units, keys, formats; months are the system's."""


CANNOT_CUT = (QPushButton, QCheckBox, QRadioButton, QLabel)


def data_words() -> set[str]:
    """The words of what is data: exercises, studies, names, what a coach wrote."""
    texts: list[str] = [WORDS, repr(RUNA), repr(PROGRAM), *NAMES.values()]
    texts += map(repr, resources.catalogue())
    for key, citation in press.citations().items():
        texts += [key, citation.text, citation.short]
    texts += map(repr, resources.muscle_names().values())
    texts.append(resources.text("layouts.toml"))
    return set(re.findall(r"[A-Za-z]+", " ".join(texts)))


KNOWN = data_words()


def plain_words(text: str) -> list[str]:
    """The words of a text that have a vowel and no accent, and are no data."""
    if text in KEPT or re.fullmatch(r"[A-Z]\w+(/[\w+-]+)+", text):
        return []  # a time zone
    text = re.sub(r"<[^>]+>|&[a-z]+;", " ", text).replace("&&", "\0").replace("&", "")
    words = re.findall(r"(?<![\w.])[A-Za-z]{3,}(?![\w])", text)
    return [w for w in words if re.search("[aeiouAEIOU]", w) and w not in KNOWN]


def model_texts(model: QAbstractItemModel) -> Iterator[str]:
    """What a model shows, its heads and its first rows."""
    columns = 1 if isinstance(model, QAbstractListModel) else model.columnCount(QModelIndex())
    for section in range(columns):
        yield str(model.headerData(section, Qt.Orientation.Horizontal) or "")

    def below(parent: QModelIndex) -> Iterator[str]:
        for row in range(min(model.rowCount(parent), MOST_ROWS)):
            for column in range(columns):
                index = model.index(row, column, parent)
                for role in SHOWN:
                    value = index.data(role)
                    if isinstance(value, str):
                        yield value
            yield from below(model.index(row, 0, parent))

    yield from below(QModelIndex())


def texts_of(widget: QWidget) -> Iterator[tuple[str, str]]:  # noqa: C901 - a table of widgets
    """Where and what: everything that can be read on a widget."""
    where = type(widget).__name__
    for kind, text in (
        ("name", widget.accessibleName()),
        ("description", widget.accessibleDescription()),
        ("tip", widget.toolTip()),
        ("title", widget.windowTitle() if widget.isWindow() else ""),
    ):
        yield f"{where} {kind}", text
    match widget:
        case QAbstractButton() | QLabel():
            yield where, widget.text()
        case QGroupBox():
            yield where, widget.title()
        case QLineEdit():
            yield f"{where} hint", widget.placeholderText()
        case QTabWidget():
            for at in range(widget.count()):
                yield where, widget.tabText(at)
        case QComboBox():
            for at in range(widget.count()):
                yield where, widget.itemText(at)
        case QAbstractItemView() if widget.model() is not None:
            for text in model_texts(widget.model()):
                yield where, text
        case QMenu():
            for action in widget.actions():
                yield "menu", action.text()
                yield "menu tip", action.toolTip()


def untold(window: QWidget) -> set[tuple[str, str]]:
    """The texts in a window that went past the translation."""
    found = set()
    for widget in (window, *window.findChildren(QWidget)):
        if isinstance(widget, QTextBrowser) or in_guide(widget) or qt_made(widget):
            continue  # the guide and the sources are texts of their own
        for where, text in texts_of(widget):
            if plain_words(text):
                found.add((where, text[:90]))
    return found


def qt_made(widget: QWidget) -> bool:
    """Whether a widget is made by Qt itself, which has its own translations."""
    return isinstance(widget.parent(), QTabBar)


def in_guide(widget: QWidget) -> bool:
    """Whether a widget belongs to the guide, whose pages are files."""
    return type(widget.window()).__name__.startswith("Guide")


def cut(window: QWidget) -> set[tuple[str, str]]:
    """The texts of labels and buttons in a window that need more room than they have."""
    found = set()
    for widget in window.findChildren(QWidget):
        if not widget.isVisible() or qt_made(widget) or not isinstance(widget, CANNOT_CUT):
            continue
        if isinstance(widget, Elided) or (isinstance(widget, QLabel) and widget.wordWrap()):
            continue
        needs = widget.minimumSizeHint()
        if widget.text() and needs.width() > widget.width() + 1:
            found.add((type(widget).__name__, widget.text()[:60]))
    return found


def spoken_of(window: QWidget) -> Iterator[str]:
    """Everything that a window says without paint: names, tips, models, cards."""
    for widget in (window, *window.findChildren(QWidget)):
        yield from (text for _, text in texts_of(widget))
        if isinstance(widget, WeekSurface):
            for day in widget.face.days:
                yield from (spoken_day(day), day_tooltip(day), *map(tooltip, day.cards))


def pieces(text: str) -> set[str]:
    """The plain runs of words in a text, between its accented words, figures and signs."""
    text = re.sub(r"\w*[^\W\d_a-zA-Z]\w*", "|", text)
    return {one.strip(" -'.").lower() for one in re.split(r"[^A-Za-z '.-]+", text)}


def data_phrases() -> set[str]:
    """The runs of words that data are painted with: whole names, never single words of them."""
    found: set[str] = set()
    for exercise in resources.catalogue().exercises:
        found |= pieces(exercise.name)
    for name in resources.muscle_names().values():
        found |= pieces(name.trade) | pieces(name.plain)
    for reference in resources.references().values():
        found |= pieces(reference.short) if hasattr(reference, "short") else set()
    for citation in press.citations().values():
        found |= pieces(citation.short)
    found |= pieces(RUNA.name) | pieces(RUNA.team) | pieces(PROGRAM.name)
    for free in RUNA.free:
        found |= pieces(free.note) | set(free.note.split())  # it wraps in a narrow day
    for block in PROGRAM.blocks:
        found |= pieces(block.name)
    for session in (one for day in PROGRAM.weeks[0].days for one in day.sessions):
        found |= pieces(session.title)
    return found | set(WORDS.lower().split())


PHRASES = data_phrases()


def unspoken(painted: Painted) -> set[tuple[str, str]]:
    """Painted texts that went past the translation: no accent, and no data."""
    return {
        ("painted", text[:90])
        for text in painted.texts
        if any(re.search("[aeiou]", one) and len(one) > 2 for one in pieces(text) - PHRASES)
    }


def said_in(windows: Iterable[QWidget]) -> str:
    """Everything that windows say beside what they paint."""
    return unescape("\n".join(text for window in windows for text in spoken_of(window)))


def lost(painted: Painted, said: str) -> set[tuple[str, str]]:
    """Painted texts that are cut and whose parts stand nowhere whole."""
    return {
        ("cut", text[:90])
        for text in painted.cut
        if not all(part.strip() in said for part in re.split(f"[{DOT};]", text))
    }


def faults(painted: Painted, windows: Iterable[QWidget], said: str = "") -> set[tuple[str, str]]:
    """What is wrong with windows that are shown: untranslated or cut, told or painted.

    said: what stood somewhere before, as a place where a cut text may have stood whole.
    """
    found = set()
    for window in windows:
        window.grab()
        found |= untold(window) | cut(window)
    return found | unspoken(painted) | lost(painted, said + said_in(windows))
