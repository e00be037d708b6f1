"""Who hands booklets out: the coach's name, contact, team and mark, as printed on the cover."""

from __future__ import annotations

import base64
import binascii
from pathlib import Path
from typing import Protocol

from PySide6.QtCore import Qt
from PySide6.QtGui import QPixmap
from PySide6.QtWidgets import QFileDialog, QHBoxLayout, QWidget

from app.domain.errors import CoachError
from app.domain.program import require_name
from app.domain.wording import tr
from app.domain.work import Coach
from app.exchange.files import read_file
from app.ui.forms import Sheet, button, plain, text_field
from app.ui.paper_habits import LANGUAGE, SIZE, language_box, size_box
from db.store import Store

MARK = "coach mark"
"""The setting that keeps the mark, as base64 of a small PNG."""

_SHOWN = 64


class Settings(Protocol):
    """What keeps words under keys."""

    def setting(self, key: str) -> str:
        """What is kept under `key`; empty if nothing is."""


def kept_mark(store: Settings) -> bytes:
    """The coach's mark as PNG; nothing if there is none, or if it cannot be read."""
    try:
        return base64.b64decode(store.setting(MARK), validate=True)
    except (binascii.Error, ValueError):
        return b""


class CoachSheet(Sheet):
    """Changes the coach's name, contact, team and mark in the file."""

    def __init__(self, store: Store, parent: QWidget | None) -> None:
        super().__init__(
            parent,
            tr("Your name on booklets"),
            verb=tr("Keep"),
            about=tr(
                "Printed on the cover and at the foot of every booklet from now on. The mark is a "
                "small picture for the cover, PNG or JPEG."
            ),
        )
        self.store = store
        coach = store.coach()
        self.name = text_field(coach.name)
        self.contact = text_field(coach.contact, hint=tr("Where the client can ask"))
        self.team = text_field(coach.team)
        self.row(tr("Name"), self.name)
        self.row(tr("Contact"), self.contact)
        self.row(tr("Team"), self.team)
        self.language = language_box(store.setting(LANGUAGE))
        self.size_of_paper = size_box(
            store.setting(SIZE).title(), usual=tr("As this computer has it")
        )
        self.row(tr("Language of papers"), self.language)
        self.row(tr("Paper"), self.size_of_paper)
        self.mark = kept_mark(store)
        self.picture = plain()
        self.picture.setAccessibleName(tr("Mark"))
        self.picture.setMinimumHeight(_SHOWN)
        self.choose_button = button(tr("Choose a picture…"), self.choose_mark)
        self.remove_button = button(tr("Remove"), self.remove_mark)
        marks = QHBoxLayout()
        marks.addWidget(self.picture, 1)
        marks.addWidget(self.choose_button)
        marks.addWidget(self.remove_button)
        holder = QWidget()
        marks.setContentsMargins(0, 0, 0, 0)
        holder.setLayout(marks)
        self.row(tr("Mark"), holder)
        self._show_mark()
        self.setMinimumWidth(max(460, self.sizeHint().width()))

    def choose_mark(self) -> None:
        """Ask for a picture; what is none is said, and the mark stays as it was."""
        path, _ = QFileDialog.getOpenFileName(
            self, tr("Choose a picture"), "", "PNG, JPEG (*.png *.jpg *.jpeg)"
        )
        if path:
            self.take_mark(Path(path))

    def take_mark(self, path: Path) -> None:
        """Read the picture and show it; nothing is kept yet."""
        from app.booklet.mark import MOST_BYTES, read_mark

        self.show_error("")
        try:
            self.mark = read_mark(read_file(path, most=MOST_BYTES))
        except CoachError as error:
            self.show_error(error.sentence)
        self._show_mark()

    def remove_mark(self) -> None:
        """Take the picture away; nothing is kept yet."""
        self.mark = b""
        self._show_mark()

    def _show_mark(self) -> None:
        pixmap = QPixmap()
        if self.mark and pixmap.loadFromData(self.mark, "PNG"):
            pixmap = pixmap.scaled(
                3 * _SHOWN,
                _SHOWN,
                Qt.AspectRatioMode.KeepAspectRatio,
                Qt.TransformationMode.SmoothTransformation,
            )
            self.picture.setPixmap(pixmap)
        else:
            self.picture.setText(tr("No picture"))
        self.remove_button.setEnabled(bool(self.mark))

    def keep(self) -> None:
        """Keep what was entered. Raises CoachError for an empty name."""
        name = require_name(self.name.text(), "coach")
        contact, team = self.contact.text().strip(), self.team.text().strip()
        self.store.set_coach(Coach(name, contact=contact, team=team))
        language = str(self.language.currentData())
        self.store.set_setting(LANGUAGE, "" if language == "en" else language)
        self.store.set_setting(SIZE, str(self.size_of_paper.currentData()).upper())
        text = base64.b64encode(self.mark).decode()
        if text != self.store.setting(MARK):
            self.store.set_setting(MARK, text)
