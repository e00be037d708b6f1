"""The second page: which exercise each name of the table means."""

from __future__ import annotations

from collections.abc import Mapping

from PySide6.QtCore import Qt, Signal
from PySide6.QtWidgets import (
    QHBoxLayout,
    QHeaderView,
    QTreeWidget,
    QTreeWidgetItem,
    QVBoxLayout,
    QWidget,
)

from app.domain.exercise import Catalogue, ExerciseKey
from app.domain.folding import solid
from app.domain.wording import tr, trn
from app.exchange.coach_plan.names import Named
from app.table_plans import Matched
from app.ui.bench import Bench
from app.ui.forms import Wrapped, button
from app.ui.library.own_parts import DeafBox
from app.ui.words import tip

UNDECIDED, LEFT_OUT = "?", ""
"""What a choice holds that was not made yet, and one to leave the name out."""


class ExerciseBox(DeafBox):
    """The likeliest exercises for a name, then leaving it out, then all the others."""

    def __init__(self, named: Named, catalogue: Catalogue) -> None:
        super().__init__(tr("Exercise for {name}", name=named.text), ())
        self.catalogue = catalogue
        self._whole = False
        if named.meant is None:
            self.addItem(tr("Choose…"), UNDECIDED)
        for key in named.offered:
            self.addItem(catalogue[key].name, str(key))
        self.addItem(tr("Leave it out"), LEFT_OUT)

    def showPopup(self) -> None:
        """Offer every other exercise behind the likeliest, once somebody looks."""
        if not self._whole:
            self._whole = True
            there = {self.itemData(row) for row in range(self.count())}
            self.insertSeparator(self.count())
            for exercise in sorted(self.catalogue, key=lambda one: one.name.casefold()):
                if str(exercise.key) not in there:
                    self.addItem(exercise.name, str(exercise.key))
        super().showPopup()

    def answer(self) -> ExerciseKey | str | None:
        """The exercise; None for left out; UNDECIDED while nothing is chosen."""
        data = str(self.currentData())
        if data == UNDECIDED:
            return UNDECIDED
        return ExerciseKey(data) if data else None

    def take(self, key: ExerciseKey, name: str) -> None:
        """Choose an exercise that may not be listed yet."""
        if self.findData(str(key)) < 0:
            self.insertItem(0, name, str(key))
        self.choose(str(key))


class NamesPage(QWidget):
    """Names to ask about first, those that are sure below them."""

    changed = Signal()

    def __init__(self, bench: Bench) -> None:
        super().__init__()
        self.bench = bench
        self.boxes: dict[str, ExerciseBox] = {}
        self.tree = QTreeWidget()
        self.tree.setAccessibleName(tr("Names in the table"))
        self.tree.setHeaderLabels([tr("In the table"), tr("Times"), tr("Exercise")])
        self.tree.setRootIsDecorated(False)
        self.tree.setMinimumHeight(260)
        head = self.tree.header()
        head.setStretchLastSection(True)
        head.setSectionResizeMode(0, QHeaderView.ResizeMode.Interactive)
        head.resizeSection(0, 300)
        head.setSectionResizeMode(1, QHeaderView.ResizeMode.ResizeToContents)
        self.told = Wrapped()
        self.own_button = button(tr("Make it an exercise of my own…"), self.make_own)
        self.own_button.setEnabled(False)
        column = QVBoxLayout(self)
        column.setContentsMargins(0, 0, 0, 0)
        column.addWidget(self.told)
        column.addWidget(self.tree, 1)
        foot = QHBoxLayout()
        foot.addWidget(self.own_button)
        foot.addStretch(1)
        column.addLayout(foot)
        self.tree.currentItemChanged.connect(lambda *_: self._allow())

    def show_names(
        self, matched: Matched, catalogue: Catalogue, *, left_out: frozenset[str]
    ) -> None:
        """List the names; answers given before stay where the name is still there."""
        before = {text: box.answer() for text, box in self.boxes.items()}
        self.tree.clear()
        self.boxes = {}
        asked = set(matched.asked)
        order = sorted(matched.names, key=lambda text: text not in asked)
        for text in order:
            count, named = matched.names[text]
            item = QTreeWidgetItem([text, str(count), ""])
            item.setToolTip(0, tip(text))
            item.setTextAlignment(1, Qt.AlignmentFlag.AlignRight | Qt.AlignmentFlag.AlignVCenter)
            self.tree.addTopLevelItem(item)
            box = ExerciseBox(named, catalogue)
            self._answer_as_before(box, before.get(text), left=text in left_out)
            box.activated.connect(lambda _k: self._chosen())
            self.boxes[text] = box
            self.tree.setItemWidget(item, 2, box)
        first = self.tree.topLevelItem(0)
        if first is not None:
            self.tree.setCurrentItem(first)
        self._say()

    def _answer_as_before(
        self, box: ExerciseBox, answer: ExerciseKey | str | None, *, left: bool
    ) -> None:
        if answer is None:
            if left:
                box.choose(LEFT_OUT)
        elif answer != UNDECIDED and answer in box.catalogue:
            key = ExerciseKey(answer)
            box.take(key, box.catalogue[key].name)

    def _chosen(self) -> None:
        self._say()
        self.changed.emit()

    def open_names(self) -> tuple[str, ...]:
        """The names that are not decided yet."""
        return tuple(text for text, box in self.boxes.items() if box.answer() == UNDECIDED)

    def answers(self) -> dict[str, ExerciseKey | None]:
        """What each name means, None for left out; without those that are not decided."""
        return {
            text: None if answer is None else ExerciseKey(answer)
            for text, box in self.boxes.items()
            if (answer := box.answer()) != UNDECIDED
        }

    def meant(self) -> Mapping[str, ExerciseKey]:
        """The names that stand for an exercise."""
        return {text: key for text, key in self.answers().items() if key is not None}

    def _say(self) -> None:
        left = len(self.open_names())
        if left:
            sentence = trn(
                "{n} name could mean several exercises, or none that is known. Choose one.",
                "{n} names could mean several exercises, or none that is known. Choose for each.",
                left,
            )
        else:
            sentence = tr("Every name is decided. What is chosen here is remembered.")
        self.told.setText(sentence)

    def _allow(self) -> None:
        self.own_button.setEnabled(self.tree.currentItem() is not None)

    def make_own(self) -> None:
        """Ask for an own exercise of the current name, and choose it."""
        from app.ui.library.own_sheet import OwnSheet

        item = self.tree.currentItem()
        if item is None:
            return
        text = item.text(0)
        sheet = OwnSheet(self.bench, None, self)
        sheet.name.setText(text)
        sheet.touched = True
        sheet.check()
        if sheet.exec() == OwnSheet.DialogCode.Accepted:
            self.take_own(text, sheet.name.text())

    def take_own(self, text: str, name: str) -> None:
        """Choose the exercise of that name for a name of the table."""
        wanted = solid(name)
        made = next((e for e in self.bench.desk.catalogue if solid(e.name) == wanted), None)
        if made is None:
            return
        for box in self.boxes.values():
            box.catalogue = self.bench.desk.catalogue
        self.boxes[text].take(made.key, made.name)
        self._chosen()
