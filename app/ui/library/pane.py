"""The library pane: search, choices, and the list that exercises are dragged from."""

from __future__ import annotations

from datetime import date, datetime
from typing import TYPE_CHECKING

from PySide6.QtCore import QPoint, Qt, QTimer, Signal
from PySide6.QtGui import QKeyEvent
from PySide6.QtWidgets import (
    QHBoxLayout,
    QLineEdit,
    QStackedWidget,
    QVBoxLayout,
    QWidget,
)

from app.domain.exercise import Exercise, Muscle
from app.domain.program import day_name
from app.domain.wording import tr
from app.ui.bench import Bench
from app.ui.forms import Wrapped, button, plain
from app.ui.icons import icon
from app.ui.library import rows
from app.ui.library.acts import LibraryActs
from app.ui.library.choices import ChoiceBox, Choices
from app.ui.library.delegate import RowDelegate
from app.ui.library.listing import ExerciseList
from app.ui.library.model import EXERCISE, ExerciseModel
from app.ui.library.narrow import Shelves, Wish
from app.ui.library.order import Order, activation_of, ordered
from app.ui.library.search import Entry, Finder, Found, entries

WIDE, NARROW = 256, 214

INDEXED_AFTER_MS = 300
"""How long after the catalogue was read the search gets its vocabulary, ms, if nobody types."""

if TYPE_CHECKING:
    from app.ui.library.empty import Way


class SearchField(QLineEdit):
    """The search; the arrow down goes to the list, Escape clears."""

    down_pressed = Signal()

    def __init__(self) -> None:
        super().__init__()
        self.setPlaceholderText(tr("Name, muscle, equipment"))
        self.setAccessibleName(tr("Search exercises"))
        self.setClearButtonEnabled(True)
        self.setMinimumHeight(32)
        self.addAction(icon("search"), QLineEdit.ActionPosition.LeadingPosition)

    def keyPressEvent(self, event: QKeyEvent) -> None:
        match event.key():
            case Qt.Key.Key_Down:
                self.down_pressed.emit()
            case Qt.Key.Key_Escape if self.text():
                self.clear()
            case _:
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
        self.acts = LibraryActs(bench, self)
        self._build()
        self._lay_out()
        self.model = ExerciseModel(bench, self)
        self.list.setModel(self.model)
        self.delegate = RowDelegate(bench, self.list)
        self.list.setItemDelegate(self.delegate)
        self._later = QTimer(self)
        self._later.setSingleShot(True)
        self._later.timeout.connect(self.refresh)
        self._settled = QTimer(self, singleShot=True, interval=INDEXED_AFTER_MS)
        self._settled.timeout.connect(lambda: self.finder)
        self._read_catalogue()
        self._connect()
        self._client_changed()
        self._week_shown()
        self.refresh()

    def _build(self) -> None:
        self.title = plain(tr("Exercises"), step="head")
        self.count = plain("", role="small")
        self.search = SearchField()
        self.choices = Choices(self.names)
        self.order_text = plain("", role="small")
        self.caution = Wrapped(
            tr("Figures compare only within one study, and amplitude is not growth."),
            step="small",
            role="small",
        )
        self.list = ExerciseList(self.bench)
        self.empty = Wrapped()
        self.way_out = button("", self._leave_empty)
        self._way: Way | None = None
        # Two pages of a stack: showing and hiding widgets would lay out the whole window anew.
        self.nothing = QWidget()
        says = QVBoxLayout(self.nothing)
        says.setContentsMargins(0, 0, 0, 0)
        says.addWidget(self.empty)
        says.addWidget(self.way_out)
        says.addStretch(1)
        self.pages = QStackedWidget()
        self.pages.addWidget(self.list)
        self.pages.addWidget(self.nothing)
        self.caution.hide()

    def _lay_out(self) -> None:
        head = QHBoxLayout()
        head.addWidget(self.title)
        head.addWidget(self.count)
        head.addStretch(1)
        column = QVBoxLayout(self)
        column.setContentsMargins(12, 8, 6, 4)
        column.setSpacing(6)
        column.addLayout(head)
        column.addWidget(self.search)
        column.addWidget(self.choices)
        column.addWidget(self.order_text)
        column.addWidget(self.caution)
        column.addWidget(self.pages, 1)
        QWidget.setTabOrder(self.search, self.choices.stops[0])
        QWidget.setTabOrder(self.choices.stops[-1], self.list)
        self.setFixedWidth(WIDE)

    def _connect(self) -> None:
        self.search.textChanged.connect(lambda _text: self._later.start(0))
        self.search.returnPressed.connect(self._take_first)
        self.search.down_pressed.connect(self._take_first)
        self.choices.changed.connect(self.refresh)
        self.choices.counts_wanted.connect(self._count)
        self.list.place_wanted.connect(self.place_wanted)
        self.list.pick_wanted.connect(self.pick_wanted)
        self.list.detail_wanted.connect(self.acts.show_detail)
        self.list.compare_wanted.connect(self.acts.compare)
        self.list.star_wanted.connect(self.acts.turn_star)
        self.list.menu_wanted.connect(self._show_menu)
        self.list.doubleClicked.connect(lambda index: self.acts.show_detail(index.data(EXERCISE)))
        self.acts.place_wanted.connect(self.place_wanted)
        self.acts.at_hand_changed.connect(self._at_hand_changed)
        self.bench.replanned.connect(self._work_changed)
        self.bench.week_shown.connect(lambda _week: self._week_shown())

    # -- what there is ---------------------------------------------------------------------

    def _read_catalogue(self) -> None:
        self.catalogue = self.bench.desk.catalogue
        self.entries = entries(self.catalogue, self.names)
        self.shelves = Shelves(self.entries)
        self._finder: Finder | None = None
        self._settled.start()
        self._orders: dict[tuple[object, ...], tuple[int, ...]] = {}
        self._left: tuple[tuple[object, ...], list[Entry]] | None = None
        self._asked: tuple[object, ...] = ()
        self.weekday: int | None = None
        self._emphasis = self.emphasis
        self.model.forget_words()
        self._read_at_hand()

    @property
    def finder(self) -> Finder:
        """The search; its vocabulary is built in a quiet moment, or for the first word typed."""
        if self._finder is None:
            self._finder = Finder(self.entries)
        return self._finder

    def _read_at_hand(self) -> None:
        self.shelves.show_at_hand(self.acts.at_hand)
        self.model.show_at_hand(self.acts.at_hand)
        self._left = None

    @property
    def emphasis(self) -> tuple[Muscle, ...]:
        """What the open program or client is for."""
        desk = self.bench.desk
        if desk.work is None:
            return ()
        return (desk.program.emphasis if desk.has_program else ()) or desk.client.emphasis

    @property
    def day(self) -> date:
        """The day that exercises must fit: the open week's first, or today."""
        desk = self.bench.desk
        if desk.has_program:
            return desk.program.week_start(self.bench.week)
        return datetime.now().astimezone().date()

    # -- what is listed --------------------------------------------------------------------

    def set_compact(self, compact: bool) -> None:
        """Take less width and two lines a row."""
        self.setFixedWidth(NARROW if compact else WIDE)
        self.choices.set_compact(compact)
        self.delegate.compact = compact
        self.list.doItemsLayout()

    def _work_changed(self, before: object, after: object) -> None:
        anew = self.catalogue is not self.bench.desk.catalogue
        if anew:
            self._read_catalogue()
        if anew or getattr(before, "client", None) is not getattr(after, "client", None):
            self._client_changed()
            self.refresh()
        elif self.emphasis != self._emphasis:
            self.refresh()
        self._week_shown()

    def _client_changed(self) -> None:
        self.weekday = None
        self._name_fits()
        self._sort_out_fits()

    def _name_fits(self) -> None:
        """Say whom the tick is about, and the day where its place is gone by."""
        work = self.bench.desk.work
        client = None if work is None else work.client
        known = client is not None and len(client.equipment) > 1
        name = "" if client is None else client.name.split()[0]
        if self.weekday is not None:
            name = tr("{name}, {day}", name=name, day=day_name(self.weekday)[:3])
        self.choices.show_client(name, fits=known)

    def show_day(self, day: int) -> None:
        """Go by the place of that weekday, where the client trains at more than one."""
        work = self.bench.desk.work
        if work is None or not work.client.places or day == self.weekday:
            return
        self.weekday = day
        self._name_fits()
        if self._sort_out_fits():
            self.refresh()

    def _sort_out_fits(self) -> bool:
        """Sort out what fits anew if client or limitations in force are others; True if so."""
        work = self.bench.desk.work
        client, day = None if work is None else work.client, self.day
        in_force = (
            ()
            if client is None
            else tuple(one for one in client.limitations if one.applies_on(day))
        )
        weekday = self.weekday
        place = None if client is None or weekday is None else client.free[weekday].place
        asked = (id(client), id(self.catalogue), in_force, place)
        if asked == self._asked:
            return False
        self._asked = asked
        self.shelves.show_client(client, day, weekday)
        return True

    def _week_shown(self) -> None:
        self.model.show_used(rows.days_used(self.bench.open_week))
        if self._sort_out_fits():
            self.refresh()

    def wish(self) -> Wish:
        """What the list is narrowed to."""
        return self.choices.wish(self.search.text().strip())

    def _entries_left(self, wish: Wish) -> list[Entry]:
        """What the choices leave, in the chosen order; remembered from keystroke to keystroke."""
        self._emphasis = self.emphasis
        order = self.choices.order.chosen()
        order_key = (order, self._emphasis, wish.muscle)
        if order_key not in self._orders:
            self._orders[order_key] = ordered(
                self.entries, order, emphasis=self._emphasis, muscle=wish.muscle
            )
        numbers = self.shelves.left(wish)
        key = (order_key, numbers)
        if self._left is None or self._left[0] != key:
            self._left = (key, self.shelves.entries_in(numbers, self._orders[order_key]))
        return self._left[1]

    def refresh(self) -> None:
        """List anew."""
        wish = self.wish()
        left = self._entries_left(wish)
        found = self.finder.find(left, wish.text) if wish.text else Found(tuple(left))
        about = None
        if self.choices.order.chosen() is Order.ACTIVATION:
            about = activation_of(wish.muscle, self._emphasis)
        self.model.show_exercises([entry.exercise for entry in found.entries], about=about)
        self.count.setText(
            tr("{entries} of {entries_2}", entries=len(found.entries), entries_2=len(self.entries))
        )
        self._say_order(wish, alike=found.alike, about=about)
        self.choices.show_counts(self.shelves, wish)
        self._say_empty(wish, listed=len(found.entries), left=len(left))

    def _say_order(self, wish: Wish, *, alike: bool, about: Muscle | None) -> None:
        order = self.choices.order.chosen()
        text = tr(order.value)
        if order is Order.ACTIVATION:
            text = (
                tr("By activation of the {names}", names=self.names[about].lower())
                if about
                else tr(Order.NAME.value)
            )
        elif order is Order.EMPHASIS and not self._emphasis:
            text = tr(Order.NAME.value)
        if wish.text:
            text = tr("Names like what you typed") if alike else tr("Closest name first")
        self.order_text.setText(text)
        self.caution.setVisible(about is not None)

    def _count(self, box: ChoiceBox) -> None:
        wish = self.wish()
        counts = self.shelves.counts(wish, box.facet)
        box.show_counts(counts, self.shelves.left(wish, but=box.facet).bit_count())

    def _say_empty(self, wish: Wish, *, listed: int, left: int) -> None:
        self.pages.setCurrentWidget(self.list if listed else self.nothing)
        if listed:
            return
        from app.ui.library.empty import Shelf, nothing

        narrowed = left < len(self.entries)
        elsewhere = len(self.finder.find(self.entries, wish.text).entries) if narrowed else 0
        work = self.bench.desk.work
        says = nothing(
            wish,
            who="" if work is None else work.client.name.split()[0],
            shelf=Shelf(
                len(self.entries),
                left,
                self.shelves.left(Wish(at_hand=True)).bit_count(),
                self.shelves.left(Wish(own=True)).bit_count(),
            ),
            elsewhere=elsewhere,
        )
        self.empty.setText(says.text)
        self.way_out.setText(says.verb)
        self._way = says.way

    def _leave_empty(self) -> None:
        from app.ui.library.empty import Way

        match self._way:
            case Way.OPEN_ALL:
                self.choices.open_all()
            case Way.CLEAR_TEXT:
                self.search.clear()
            case Way.MAKE_OWN:
                self.acts.make_own()
        self.search.setFocus()

    def finish_figures(self) -> None:
        """Paint every figure that is in sight now, as for a picture of the window."""
        self.list.viewport().grab()  # whatever is painted asks for its figure
        self.delegate.figures.finish()

    def start_search(self) -> None:
        """Put the cursor into the search field."""
        self.search.setFocus()
        self.search.selectAll()

    def _take_first(self) -> None:
        if self._later.isActive():
            self._later.stop()
            self.refresh()
        if self.model.rowCount():
            self.list.setFocus()
            self.list.setCurrentIndex(self.model.index(0))

    # -- what is done with an exercise -----------------------------------------------------

    def _at_hand_changed(self) -> None:
        self._read_at_hand()
        if self.wish().at_hand:
            self.refresh()
        else:
            self.choices.show_counts(self.shelves, self.wish())

    def show_at_hand(self) -> None:
        """List what is kept at hand."""
        self.search.clear()
        self.choices.show_at_hand()
        self.list.setFocus()

    def compare(self) -> None:
        """Compare the marked exercise with another."""
        self.acts.compare(self.list.exercise())

    def _show_menu(self, exercise: Exercise, where: QPoint) -> None:
        from app.ui.library.menu import exercise_menu

        menu = exercise_menu(
            self.acts, exercise, place=self.place_wanted.emit, pick=self.pick_wanted.emit
        )
        menu.aboutToHide.connect(menu.deleteLater)
        menu.popup(where)
