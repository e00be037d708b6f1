"""What mending a finding would do, shown in every pane before it is done, and taken away again.

The list itself keeps its rows meanwhile: what one is about to press must not move.
"""

from __future__ import annotations

from collections.abc import Callable

from PySide6.QtCore import QObject, QTimer

from app.desk import Preview
from app.domain.edits.place import replace_exercise
from app.domain.errors import CoachError
from app.domain.exercise import Catalogue, ExerciseKey
from app.domain.findings import Edit, Finding
from app.domain.program import Program
from app.domain.wording import tr, trn
from app.ui.bench import Bench
from app.ui.words import list_of

REST_MS = 200
"""How long the pointer rests on a button before its edit is tried: a passing one tries nothing."""

MOST_NAMES = 3
"""Exercises that are named with what would be done to them."""


class MendTrial(QObject):
    """Tries the mend of one finding while it is pointed at, or from one key to the next."""

    def __init__(
        self, bench: Bench, mend_of: Callable[[Finding], Edit | None], parent: QObject
    ) -> None:
        super().__init__(parent)
        self._bench = bench
        self._mend_of = mend_of
        self._finding: Finding | None = None
        self.is_on = False
        self._rest = QTimer(self)
        self._rest.setSingleShot(True)
        self._rest.setInterval(REST_MS)
        self._rest.timeout.connect(self._show)

    def point_at(self, finding: Finding | None) -> None:
        """Try that finding's mend soon; None ends what is tried."""
        if finding is self._finding:
            return
        self.stop()
        self._finding = finding
        if finding is not None:
            self._rest.start()

    def toggle(self, finding: Finding) -> None:
        """Try that finding's mend at once; end it if it is the one that is tried."""
        tried = self.is_on and finding is self._finding
        self.stop()
        if not tried:
            self._finding = finding
            self._show()

    def stop(self) -> None:
        """Show again what is kept."""
        self._rest.stop()
        self._finding = None
        if self.is_on:
            self._bench.clear_preview()
            self.is_on = False

    def _show(self) -> None:
        finding = self._finding
        if finding is None or self._bench.preview is not None:
            return
        mend = self._mend_of(finding)
        if mend is None:
            return
        try:
            preview = self._bench.desk.preview(mend)
        except CoachError:
            return  # pressing the button says why
        self.is_on = True
        self._bench.show_preview(preview)
        self._bench.said.emit(self._told(preview))

    def _told(self, preview: Preview) -> str:
        """'Add 1 set (Hip thrust): 1 finding would go, 0 would appear.'"""
        return tr(
            "{mend}: {gone} would go, {come} would appear.",
            mend=full_label(
                preview.edit, preview.before, preview.after, self._bench.desk.catalogue
            ),
            gone=trn("{n} finding", "{n} findings", len(preview.lost)),
            come=len(preview.gained),
        )


def full_label(mend: Edit, before: Program, after: Program, catalogue: Catalogue) -> str:
    """The mend as the undo menu says it: with the exercises that its short button leaves out."""
    values = dict(mend.arguments)
    if mend.function is replace_exercise:
        names = {"exercise": values["exercise"].name, "old": values["old"].name}
        return tr("Substitute {exercise} for {old}", **names)
    names_of = [catalogue[key].name for key in touched(before, after)]
    said = mend.label.casefold()
    if 0 < len(names_of) <= MOST_NAMES and not any(name.casefold() in said for name in names_of):
        return f"{mend.label} ({list_of(names_of)})"
    return mend.label


def touched(before: Program, after: Program) -> tuple[ExerciseKey, ...]:
    """The exercises whose prescription is another in the program after, each once."""
    found: list[ExerciseKey] = []
    for old, new in zip(before.weeks, after.weeks, strict=False):
        if old is not new:
            known = set(old.slots())
            found += [slot.exercise for slot in new.slots() if slot not in known]
    return tuple(dict.fromkeys(found))
