"""The library pane: search, narrowing, and the list that exercises are dragged from."""

from __future__ import annotations

from PySide6.QtCore import (
    QAbstractListModel,
    QMimeData,
    QModelIndex,
    QPersistentModelIndex,
    Qt,
    QTimer,
    Signal,
)
from PySide6.QtGui import QKeyEvent
from PySide6.QtWidgets import (
    QAbstractItemView,
    QCheckBox,
    QComboBox,
    QHBoxLayout,
    QLabel,
    QLineEdit,
    QListView,
    QSizePolicy,
    QVBoxLayout,
    QWidget,
)

from app.domain.exercise import Exercise, ExerciseKey, Muscle, Pattern
from app.ui.bench import Bench
from app.ui.carry import Carried, to_mime
from app.ui.forms import button, plain
from app.ui.grid.drag import start_drag
from app.ui.icons import icon
from app.ui.library import rows
from app.ui.library.delegate import RowDelegate

EXERCISE = Qt.ItemDataRole.UserRole
USED = Qt.ItemDataRole.UserRole + 1
WIDE, NARROW = 256, 214

Index = QModelIndex | QPersistentModelIndex


class ExerciseModel(QAbstractListModel):
    """The listed exercises, in order."""

    def __init__(self, bench: Bench, parent: QWidget) -> None:
        super().__init__(parent)
        self.bench = bench
        self.exercises: tuple[Exercise, ...] = ()
        self.used: dict[ExerciseKey, str] = {}

    def show_exercises(self, exercises: tuple[Exercise, ...]) -> None:
        """List these."""
        self.beginResetModel()
        self.exercises = exercises
        self.endResetModel()

    def show_used(self, used: dict[ExerciseKey, str]) -> None:
        """Say where each stands in the open week."""
        self.used = used
        if self.exercises:
            self.dataChanged.emit(self.index(0), self.index(len(self.exercises) - 1), [USED])

    def rowCount(self, parent: Index | None = None) -> int:
        return 0 if parent is not None and parent.isValid() else len(self.exercises)

    def data(self, index: Index, role: int = Qt.ItemDataRole.DisplayRole) -> object:
        if not index.isValid() or index.row() >= len(self.exercises):
            return None
        exercise = self.exercises[index.row()]
        match role:
            case Qt.ItemDataRole.DisplayRole:
                return exercise.name
            case Qt.ItemDataRole.AccessibleTextRole:
                return self._spoken(exercise)
            case _ if role == EXERCISE:
                return exercise
            case _ if role == USED:
                return self.used.get(exercise.key, "")
        return None

    def _spoken(self, exercise: Exercise) -> str:
        names = {m: n.trade for m, n in self.bench.shelf.muscles.items()}
        parts = [
            exercise.name,
            rows.muscles_text(exercise, names),
            rows.equipment_text(exercise),
            self.used.get(exercise.key, ""),
        ]
        return ", ".join(part for part in parts if part)

    def flags(self, index: Index) -> Qt.ItemFlag:
        return (
            Qt.ItemFlag.ItemIsEnabled | Qt.ItemFlag.ItemIsSelectable | Qt.ItemFlag.ItemIsDragEnabled
        )

    def carried(self, index: Index) -> Carried:
        """What a drag of that row carries."""
        return Carried(exercise=self.exercises[index.row()].key, source=self.bench.source)

    def mimeData(self, indexes: object) -> QMimeData:
        first: Index = list(indexes)[0]  # type: ignore[call-overload]  # noqa: RUF015 - a Qt list
        return to_mime(self.carried(first))

    def mimeTypes(self) -> list[str]:
        from app.ui.carry import MIME

        return [MIME]


class ExerciseList(QListView):
    """The list; Enter places the exercise on the grid's day, Space picks it up."""

    place_wanted = Signal(object)
    pick_wanted = Signal(object)
    detail_wanted = Signal(object)

    def __init__(self, bench: Bench) -> None:
        super().__init__()
        self.bench = bench
        self.setUniformItemSizes(True)
        self.setDragEnabled(True)
        self.setMouseTracking(True)
        self.setVerticalScrollMode(QAbstractItemView.ScrollMode.ScrollPerPixel)
        self.setHorizontalScrollBarPolicy(Qt.ScrollBarPolicy.ScrollBarAlwaysOff)
        self.setSelectionMode(QAbstractItemView.SelectionMode.SingleSelection)
        self.setAccessibleName("Exercises")

    def startDrag(self, supported: Qt.DropAction) -> None:
        index = self.currentIndex()
        model = self.model()
        if index.isValid() and isinstance(model, ExerciseModel):
            start_drag(self, self.bench, model.carried(index))

    def keyPressEvent(self, event: QKeyEvent) -> None:
        exercise = self.currentIndex().data(EXERCISE)
        if isinstance(exercise, Exercise):
            match event.key():
                case Qt.Key.Key_Return | Qt.Key.Key_Enter:
                    self.place_wanted.emit(exercise.key)
                    return
                case Qt.Key.Key_Space:
                    self.pick_wanted.emit(exercise.key)
                    return
                case Qt.Key.Key_F2:
                    self.detail_wanted.emit(exercise)
                    return
        super().keyPressEvent(event)


class LibraryPane(QWidget):
    """The pane.

    place_wanted(key): the exercise is to be put on the grid's day; pick_wanted(key): it is to be
    carried by keys.
    """

    place_wanted = Signal(object)
    pick_wanted = Signal(object)

    def __init__(self, bench: Bench, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self.bench = bench
        self.names = {m: n.trade for m, n in bench.shelf.muscles.items()}
        self.entries = rows.entries(bench.desk.catalogue, self.names)
        self._build()
        self._lay_out()
        self.model = ExerciseModel(bench, self)
        self.list.setModel(self.model)
        self.delegate = RowDelegate(bench, self.names, self.list)
        self.list.setItemDelegate(self.delegate)
        self._later = QTimer(self)
        self._later.setSingleShot(True)
        self._later.timeout.connect(self.refresh)
        self._connect()
        self._client_changed()
        self.refresh()

    def _build(self) -> None:
        self.title = plain("Exercises", step="head")
        self.count = plain("", role="small")
        self.search = QLineEdit()
        self.search.setPlaceholderText("Name, muscle, equipment")
        self.search.setAccessibleName("Search exercises")
        self.search.setClearButtonEnabled(True)
        self.search.setMinimumHeight(32)
        self.search.addAction(icon("search"), QLineEdit.ActionPosition.LeadingPosition)
        self.muscle = QComboBox()
        self.muscle.setAccessibleName("Muscle")
        self.muscle.addItem("Muscle", None)
        for muscle, name in sorted(self.names.items(), key=lambda pair: pair[1]):
            self.muscle.addItem(name, muscle)
        self.pattern = QComboBox()
        self.pattern.setAccessibleName("Movement pattern")
        self.pattern.addItem("Pattern", None)
        for pattern in Pattern:
            self.pattern.addItem(pattern.value.replace("_", " ").capitalize(), pattern)
        for box in (self.muscle, self.pattern):
            box.setMinimumHeight(30)
            box.setSizePolicy(QSizePolicy.Policy.Ignored, QSizePolicy.Policy.Fixed)
        self.fits = QCheckBox("Fits the client")
        self.fits.setMinimumHeight(24)
        self.order = plain("", role="small")
        self.list = ExerciseList(self.bench)
        self.empty = QLabel()
        self.empty.setTextFormat(Qt.TextFormat.PlainText)
        self.empty.setWordWrap(True)
        self.empty.hide()
        self.search_all = button("Search all", self._search_all)
        self.search_all.hide()

    def _lay_out(self) -> None:
        head = QHBoxLayout()
        head.addWidget(self.title)
        head.addWidget(self.count)
        head.addStretch(1)
        choices = QHBoxLayout()
        choices.setSpacing(6)
        choices.addWidget(self.muscle, 1)
        choices.addWidget(self.pattern, 1)
        column = QVBoxLayout(self)
        column.setContentsMargins(12, 8, 6, 4)
        column.setSpacing(6)
        column.addLayout(head)
        column.addWidget(self.search)
        column.addLayout(choices)
        column.addWidget(self.fits)
        column.addWidget(self.order)
        column.addWidget(self.empty)
        column.addWidget(self.search_all)
        column.addWidget(self.list, 1)
        self.setFixedWidth(WIDE)

    def _connect(self) -> None:
        self.search.textChanged.connect(lambda _text: self._later.start(0))
        self.search.returnPressed.connect(self._take_first)
        self.muscle.currentIndexChanged.connect(lambda _k: self.refresh())
        self.pattern.currentIndexChanged.connect(lambda _k: self.refresh())
        self.fits.toggled.connect(lambda _on: self.refresh())
        self.list.place_wanted.connect(self.place_wanted)
        self.list.pick_wanted.connect(self.pick_wanted)
        self.list.detail_wanted.connect(self.show_detail)
        self.list.doubleClicked.connect(lambda index: self.show_detail(index.data(EXERCISE)))
        self.bench.changed.connect(self._work_changed)
        self.bench.week_shown.connect(lambda _week: self._week_shown())

    # -- what is listed --------------------------------------------------------------------

    def set_compact(self, compact: bool) -> None:
        """Take less width and two lines a row."""
        self.setFixedWidth(NARROW if compact else WIDE)
        self.delegate.compact = compact
        self.list.doItemsLayout()

    def _work_changed(self, before: object, after: object) -> None:
        old = getattr(before, "client", None)
        new = getattr(after, "client", None)
        emphasis = (
            getattr(getattr(before, "program", None), "emphasis", ()),
            getattr(getattr(after, "program", None), "emphasis", ()),
        )
        if old is not new or emphasis[0] != emphasis[1]:
            self._client_changed()
            self.refresh()
        self._week_shown()

    def _client_changed(self) -> None:
        work = self.bench.desk.work
        first = "" if work is None else work.client.name.split()[0]
        self.fits.setText(f"Fits {first}" if first else "Fits the client")
        self.fits.setEnabled(work is not None)
        known = work is not None and len(work.client.equipment) > 1
        self.fits.blockSignals(True)
        self.fits.setChecked(known)
        self.fits.blockSignals(False)

    def _week_shown(self) -> None:
        self.model.show_used(rows.days_used(self.bench.open_week))

    def wish(self) -> rows.Wish:
        """What the list is narrowed to."""
        desk = self.bench.desk
        client = desk.client if desk.work is not None and self.fits.isChecked() else None
        on = None
        if client is not None:
            from datetime import datetime

            on = (
                desk.program.week_start(self.bench.week)
                if desk.has_program
                else datetime.now().astimezone().date()
            )
        muscle, pattern = self.muscle.currentData(), self.pattern.currentData()
        return rows.Wish(
            text=self.search.text(),
            muscle=None if muscle is None else Muscle(muscle),
            pattern=None if pattern is None else Pattern(pattern),
            client=client,
            on=on,
        )

    def refresh(self) -> None:
        """List anew."""
        wish = self.wish()
        left = rows.narrowed(self.entries, wish)
        hits = rows.found(left, wish.text)
        desk = self.bench.desk
        emphasis = (desk.program.emphasis if desk.has_program else ()) or (
            desk.client.emphasis if desk.work is not None else ()
        )
        exact = not wish.text or any(wish.text.casefold().split()[0] in e.words for e in hits)
        shown = rows.by_emphasis(hits, emphasis) if exact else hits
        self.model.show_exercises(tuple(entry.exercise for entry in shown))
        self.count.setText(f"{len(shown)} of {len(self.entries)}")
        if not exact:
            self.order.setText("Names like what you typed")
        else:
            self.order.setText("Closest to the emphasis first" if emphasis else "By name")
        self._say_empty(wish, shown, left)

    def _say_empty(self, wish: rows.Wish, shown: object, left: tuple[rows.Entry, ...]) -> None:
        nothing = not shown
        self.empty.setVisible(nothing)
        self.search_all.setVisible(nothing)
        if nothing:
            out = len(self.entries) - len(left)
            who = f" fits {wish.client.name}" if wish.client is not None else ""
            what = f"No '{wish.text}'{who}." if wish.text else f"No exercise{who} here."
            self.empty.setText(
                f"{what} The choices above leave out {out} of the {len(self.entries)} exercises."
            )
            self.search_all.setText(f"Search all {len(self.entries)}")

    def _search_all(self) -> None:
        self.muscle.setCurrentIndex(0)
        self.pattern.setCurrentIndex(0)
        self.fits.setChecked(False)

    def start_search(self) -> None:
        """Put the cursor into the search field."""
        self.search.setFocus()
        self.search.selectAll()

    def _take_first(self) -> None:
        if self.model.rowCount():
            self.list.setFocus()
            self.list.setCurrentIndex(self.model.index(0))

    def show_detail(self, exercise: Exercise) -> None:
        """Show everything on an exercise."""
        from app.ui.library.detail import DetailDialog

        dialog = DetailDialog(self.bench, exercise, self.window())
        dialog.place_wanted.connect(self.place_wanted)
        dialog.exec()
