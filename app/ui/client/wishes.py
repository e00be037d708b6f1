"""What the client likes and does not want, exercise by exercise."""

from __future__ import annotations

from dataclasses import replace

from PySide6.QtCore import Qt
from PySide6.QtWidgets import QCheckBox, QTreeWidget, QTreeWidgetItem, QWidget

from app.domain.exercise import ExerciseKey
from app.domain.folding import fold
from app.domain.wording import tr, trn
from app.ui.bench import Bench
from app.ui.client.profile import keep_client
from app.ui.forms import Sheet, plain, text_field
from app.ui.lines_table import KEY, add_line, lines_table

LIKES, DISLIKES = 1, 2
WORDS = Qt.ItemDataRole.UserRole + 1


class WishesSheet(Sheet):
    """Every exercise with two boxes; nobody likes what is not wanted."""

    def __init__(self, bench: Bench, parent: QWidget | None) -> None:
        client = bench.desk.client
        super().__init__(
            parent,
            tr("Wishes of {client}", client=client.name),
            verb=tr("Keep"),
            about=tr(
                "What is not wanted is left out of choices for this client, and a plan that has it "
                "says so. What is liked is kept here for you."
            ),
        )
        self.bench = bench
        self.search = text_field(hint=tr("Name of an exercise"))
        self.search.setAccessibleName(tr("Search exercises"))
        self.only = QCheckBox(tr("Ticked ones alone"))
        self.table: QTreeWidget = lines_table(
            tr("Exercises"), (tr("Exercise"), tr("Likes it"), tr("Does not want it"))
        )
        self.told = plain("", role="small")
        for exercise in sorted(bench.desk.catalogue, key=lambda e: e.name):
            item = add_line(self.table, (exercise.name, "", ""), exercise.key)
            item.setData(0, WORDS, " ".join(fold(n) for n in (exercise.name, *exercise.aliases)))
            item.setCheckState(LIKES, _state(exercise.key in client.likes))
            item.setCheckState(DISLIKES, _state(exercise.key in client.dislikes))
        self.body.addWidget(self.search)
        self.body.addWidget(self.only)
        self.body.addWidget(self.table, 1)
        self.body.addWidget(self.told)
        self.search.textChanged.connect(lambda _text: self.look())
        self.only.toggled.connect(lambda _on: self.look())
        self.table.itemChanged.connect(self._ticked)
        self.setMinimumSize(520, 460)
        self._tell()

    def items(self) -> list[QTreeWidgetItem]:
        """Every line, shown or not."""
        found = [self.table.topLevelItem(row) for row in range(self.table.topLevelItemCount())]
        return [item for item in found if item is not None]

    def look(self) -> None:
        """Show the exercises that hold what is typed; their boxes stay as they are."""
        words = fold(self.search.text()).split()
        for item in self.items():
            held = all(word in item.data(0, WORDS) for word in words)
            item.setHidden(not held or (self.only.isChecked() and not _is_ticked(item)))

    def _ticked(self, item: QTreeWidgetItem, column: int) -> None:
        """Take the other box of a line away; a name can be one of the two alone."""
        if column in (LIKES, DISLIKES) and item.checkState(column) is Qt.CheckState.Checked:
            item.setCheckState(LIKES + DISLIKES - column, Qt.CheckState.Unchecked)
        self._tell()

    def _tell(self) -> None:
        likes, dislikes = len(self._those(LIKES)), len(self._those(DISLIKES))
        self.told.setText(
            tr(
                "{likes}, {dislikes}",
                likes=trn("likes {n}", "likes {n}", likes),
                dislikes=trn("does not want {n}", "does not want {n}", dislikes),
            )
        )

    def _those(self, column: int) -> frozenset[ExerciseKey]:
        ticked = Qt.CheckState.Checked
        return frozenset(
            ExerciseKey(item.data(0, KEY))
            for item in self.items()
            if item.checkState(column) is ticked
        )

    @property
    def wishes(self) -> tuple[frozenset[ExerciseKey], frozenset[ExerciseKey]]:
        """What is ticked: liked, and not wanted."""
        return self._those(LIKES), self._those(DISLIKES)

    def keep(self) -> None:
        """Keep the wishes; those on exercises that are no longer offered stay."""
        client, offered = self.bench.desk.client, {e.key for e in self.bench.desk.catalogue}
        changed = replace(
            client,
            likes=self._those(LIKES) | (client.likes - offered),
            dislikes=self._those(DISLIKES) | (client.dislikes - offered),
        )
        keep_client(self.bench, tr("Change the wishes"), changed)


def _state(ticked: bool) -> Qt.CheckState:
    return Qt.CheckState.Checked if ticked else Qt.CheckState.Unchecked


def _is_ticked(item: QTreeWidgetItem) -> bool:
    return any(item.checkState(column) is Qt.CheckState.Checked for column in (LIKES, DISLIKES))
