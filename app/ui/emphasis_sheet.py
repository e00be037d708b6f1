"""Choosing the emphasis: the muscles a program is for, in order of priority."""

from __future__ import annotations

from PySide6.QtCore import Qt
from PySide6.QtWidgets import QComboBox, QHBoxLayout, QWidget

from app.domain.edits.whole import set_emphasis
from app.domain.exercise import Muscle
from app.domain.findings import edit
from app.domain.wording import mark, tr
from app.ui.bench import Bench
from app.ui.forms import Sheet, plain

PLACES = (mark("first"), mark("second"), mark("third"))


class EmphasisChoice(QWidget):
    """Three muscles in order, or as many more as are chosen already."""

    def __init__(self, bench: Bench, chosen: tuple[Muscle, ...]) -> None:
        super().__init__()
        row = QHBoxLayout(self)
        row.setContentsMargins(0, 0, 0, 0)
        self.boxes: list[QComboBox] = []
        names = sorted(
            ((bench.shelf.muscles[m].trade, m) for m in Muscle), key=lambda pair: pair[0].lower()
        )
        more = tuple(
            tr("number {place}", place=number + 1) for number in range(len(PLACES), len(chosen))
        )
        for number, place in enumerate((*PLACES, *more)):
            box = QComboBox()
            box.setMinimumHeight(32)
            box.setAccessibleName(tr("Emphasis, {place}", place=tr(place)))
            box.addItem(tr("none"), None)
            for name, muscle in names:
                box.addItem(name, muscle)
            if number < len(chosen):
                box.setCurrentIndex(box.findData(chosen[number]))
            self.boxes.append(box)
            row.addWidget(box, 1)

    def chosen(self) -> tuple[Muscle, ...]:
        """The muscles chosen, in order, each once."""
        picked = (box.currentData(Qt.ItemDataRole.UserRole) for box in self.boxes)
        return tuple(dict.fromkeys(Muscle(m) for m in picked if m is not None))


class EmphasisSheet(Sheet):
    """Changes the emphasis of the open program."""

    def __init__(self, bench: Bench, parent: QWidget | None) -> None:
        super().__init__(
            parent,
            tr("Emphasis"),
            verb=tr("Change"),
            about=tr(
                "The muscles this program is for, in order. Their ranges are "
                "wider and their bars come first."
            ),
        )
        self.bench = bench
        self.choice = EmphasisChoice(bench, bench.desk.program.emphasis)
        self.body.addWidget(self.choice)
        self.body.addWidget(plain("", role="small"))
        self.setMinimumWidth(520)

    def keep(self) -> None:
        """Keep the emphasis as one edit."""
        self.bench.desk.keep(
            edit(tr("Change the emphasis"), set_emphasis, emphasis=self.choice.chosen())
        )
