"""An exercise's words in further languages: one at a time, each kept while another shows."""

from __future__ import annotations

from collections.abc import Iterable

from PySide6.QtCore import Signal
from PySide6.QtWidgets import QComboBox, QFormLayout, QWidget

from app.domain.exercise import ExerciseText
from app.domain.wording import tr
from app.resources.languages import NAMES
from app.ui.forms import plain, text_field
from app.ui.library import own_values
from app.ui.library.own_parts import LinesField

LINES = ("set_up", "cues", "faults")


class TextsField(QWidget):
    """A language and the words in it; a language without a name has none."""

    changed = Signal()

    def __init__(self) -> None:
        super().__init__()
        self._typed: dict[str, tuple[str, str, str, str]] = {}
        self.language = QComboBox()
        self.language.setMinimumHeight(32)
        for code, name in NAMES.items():
            if code != "en":
                self.language.addItem(name, code)
        self.name = text_field(hint=tr("Empty: the words above are printed"))
        self.lines = {
            "set_up": LinesField(tr("Set up, in that language"), lines=3),
            "cues": LinesField(tr("Do it, in that language"), lines=3),
            "faults": LinesField(tr("If you notice, in that language"), lines=3),
        }
        form = QFormLayout(self)
        form.setContentsMargins(0, 0, 0, 0)
        for label, field in (
            (tr("Language"), self.language),
            (tr("Name"), self.name),
            (tr("Set up"), self.lines["set_up"]),
            (tr("Do it"), self.lines["cues"]),
            (tr("If you notice"), self.lines["faults"]),
        ):
            said = plain(label)
            said.setBuddy(field)
            form.addRow(said, field)
        self.language.setAccessibleName(tr("Language"))
        self.name.setAccessibleName(tr("Name, in that language"))
        self._shown = str(self.language.currentData())
        self.language.currentIndexChanged.connect(self._turn)
        self.name.textEdited.connect(lambda _text: self.changed.emit())

    def _turn(self, _index: int) -> None:
        self._keep_shown()
        self._shown = str(self.language.currentData())
        self._show()

    def _keep_shown(self) -> None:
        lines = (self.lines[name].toPlainText() for name in LINES)
        self._typed[self._shown] = (self.name.text(), *lines)  # type: ignore[assignment]

    def _show(self) -> None:
        name, *texts = self._typed.get(self._shown, ("", "", "", ""))
        self.name.setText(name)
        for field, text in zip(LINES, texts, strict=True):
            self.lines[field].setPlainText(text)

    def show_values(self, texts: Iterable[ExerciseText]) -> None:
        """Show the words of an exercise."""
        self._typed = {
            one.language: (
                one.name,
                "\n".join(one.set_up),
                "\n".join(one.cues),
                own_values.faults_text(one.faults),
            )
            for one in texts
        }
        self._show()

    def values(self) -> dict[str, object]:
        """What was typed, by language, as the shared rules read it.

        Raises CoachError for a line that cannot be read.
        """
        self._keep_shown()
        return {
            code: {
                "name": name.strip(),
                "set_up": own_values.lines_of(set_up),
                "cues": own_values.lines_of(cues),
                "faults": own_values.faults_of(faults),
            }
            for code, (name, set_up, cues, faults) in self._typed.items()
            if name.strip() or set_up.strip() or cues.strip() or faults.strip()
        }
