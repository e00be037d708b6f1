"""How a client's papers are printed unless somebody says otherwise: their language and size.

The client's own come first, then the coach's, which are kept in the file, then the locale's.
"""

from __future__ import annotations

from typing import TYPE_CHECKING, Protocol

from PySide6.QtCore import QLocale
from PySide6.QtWidgets import QComboBox

from app.domain.client import Client
from app.domain.wording import tr
from app.resources.languages import NAMES

if TYPE_CHECKING:
    from app.booklet import Paper  # the window opens before anything is printed

LANGUAGE = "papers language"
"""The setting that keeps the coach's language of papers: a code, or nothing for English."""

SIZE = "papers size"
"""The setting that keeps the coach's size of paper, by the name of its `Paper`."""

SIZES = ("A4", "Letter", "A5")
"""The sizes to choose from."""


class Settings(Protocol):
    """What keeps words under keys."""

    def setting(self, key: str) -> str:
        """What is kept under `key`; empty if nothing is."""


def language_of(client: Client, settings: Settings) -> str:
    """The code of the language of a client's papers."""
    return client.language or settings.setting(LANGUAGE)


def paper_of(client: Client | None, settings: Settings) -> Paper:
    """The size of a client's papers."""
    from app.booklet import Paper

    own = client.paper.upper() if client is not None else ""
    for name in (own, settings.setting(SIZE)):
        if name in Paper.__members__:
            return Paper[name]
    return Paper.LETTER if _imperial() else Paper.A4


def usual_units() -> str:
    """The unit of loads that a new client begins with, 'kg' or 'lb', as the locale measures."""
    return "lb" if _imperial() else "kg"


def _imperial() -> bool:
    return QLocale().measurementSystem() == QLocale.MeasurementSystem.ImperialUSSystem


def language_box(chosen: str, *, usual: str = "") -> QComboBox:
    """A box of the shipped languages, each by its own name.

    usual: what the empty choice is called; without it there is none, and English comes first.
    """
    box = QComboBox()
    box.setMinimumHeight(32)
    box.setAccessibleName(tr("Language of the papers"))
    if usual:
        box.addItem(usual, "")
    for code, name in NAMES.items():
        box.addItem(name, code)
    family = chosen.partition("-")[0]
    at = box.findData(chosen) if box.findData(chosen) >= 0 else box.findData(family)
    if chosen and at < 0:
        # kept as it is: a file may come from a Weekloom that has more languages
        box.addItem(chosen, chosen)
        at = box.count() - 1
    box.setCurrentIndex(max(at, 0))
    return box


def size_box(chosen: str, *, usual: str) -> QComboBox:
    """A box of paper sizes by the names that clients keep; the empty choice is called `usual`."""
    box = QComboBox()
    box.setMinimumHeight(32)
    box.setAccessibleName(tr("Size of paper"))
    box.addItem(usual, "")
    for size in SIZES:
        box.addItem(size, size)
    box.setCurrentIndex(max(box.findData(chosen), 0))
    return box
