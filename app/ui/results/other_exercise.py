"""Asking which exercise was done instead of the one that was meant."""

from __future__ import annotations

from collections.abc import Sequence

from PySide6.QtCore import Qt
from PySide6.QtWidgets import QComboBox, QCompleter, QDialog, QWidget

from app.domain.errors import CoachError
from app.domain.exercise import Catalogue, Exercise, ExerciseKey
from app.domain.wording import tr
from app.ui.forms import Sheet


class OtherExerciseSheet(Sheet):
    """A field that finds exercises as they are typed; those at hand come first."""

    def __init__(
        self,
        parent: QWidget | None,
        meant: Exercise,
        *,
        catalogue: Catalogue,
        first: Sequence[ExerciseKey],
    ) -> None:
        super().__init__(
            parent,
            tr("Done instead of {meant}", meant=meant.name),
            verb=tr("That was done"),
            about=tr("Its results count for the exercise that was done."),
        )
        self.found: Exercise | None = None
        self.catalogue = catalogue
        self.field = QComboBox()
        self.field.setEditable(True)
        self.field.setMinimumHeight(32)
        self.field.setInsertPolicy(QComboBox.InsertPolicy.NoInsert)
        order = [meant.key, *first]
        for one in sorted(
            catalogue,
            key=lambda e: (order.index(e.key) if e.key in order else len(order), e.name),
        ):
            self.field.addItem(one.name, one.key)
        completer = QCompleter(self.field.model(), self.field)
        completer.setCaseSensitivity(Qt.CaseSensitivity.CaseInsensitive)
        completer.setFilterMode(Qt.MatchFlag.MatchContains)
        self.field.setCompleter(completer)
        self.row(tr("Exercise"), self.field)
        self.setMinimumWidth(440)
        self.field.setFocus()
        line = self.field.lineEdit()
        assert line is not None
        line.selectAll()

    def keep(self) -> None:
        """Take the exercise that is named. Raises CoachError for one that there is not."""
        text = self.field.currentText().strip()
        at = self.field.findText(text, Qt.MatchFlag.MatchFixedString)
        if at < 0:
            raise CoachError(
                tr("There is no exercise '{text}'.", text=text),
                mend=tr("Choose one from the list."),
            )
        self.found = self.catalogue[ExerciseKey(self.field.itemData(at))]


def ask_exercise(
    parent: QWidget,
    meant: Exercise,
    *,
    catalogue: Catalogue,
    first: Sequence[ExerciseKey],
) -> Exercise | None:
    """The exercise that was done; None if it was cancelled."""
    sheet = OtherExerciseSheet(parent, meant, catalogue=catalogue, first=first)
    return sheet.found if sheet.exec() == QDialog.DialogCode.Accepted else None
