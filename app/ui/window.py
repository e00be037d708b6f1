"""The window: it assembles the panes and routes their wishes; it decides nothing itself."""

from __future__ import annotations

from typing import TYPE_CHECKING, cast

from PySide6.QtCore import QPoint, Qt, QTimer
from PySide6.QtGui import QAction, QCloseEvent, QKeySequence, QResizeEvent, QShowEvent
from PySide6.QtWidgets import (
    QApplication,
    QHBoxLayout,
    QMenu,
    QSplitter,
    QStackedWidget,
    QVBoxLayout,
    QWidget,
)

from app.domain.client import ClientId
from app.domain.errors import CoachError
from app.domain.program import ProgramId
from app.domain.wording import tr
from app.domain.work import Work
from app.ui import theme, titles
from app.ui.action import Action
from app.ui.actions import ACTIONS, CARD_MENU, MENUS
from app.ui.bench import Bench
from app.ui.client.pane import ClientPane
from app.ui.commands import Commands
from app.ui.curtain import MINUTES, Curtain, Idle
from app.ui.day_actions import DAY_MENU, ON_A_SESSION
from app.ui.findings_pane import FindingsPane
from app.ui.forms import plain
from app.ui.grid import WeekGrid
from app.ui.library.pane import LibraryPane
from app.ui.season import SeasonStrip
from app.ui.tally import TallyPane
from app.ui.top_bar import TopBar
from app.ui.week_head import WeekHead
from app.ui.welcome import Welcome
from app.ui.words import label_text
from db.lines import ClientLine
from db.store import Store

if TYPE_CHECKING:
    from app.ui.home import HomePage

SPAN_COMMANDS = ("span_week", "span_here", "span_block", "span_all")
"""Commands of the buttons above the week, in their order."""

MOST_AT_ONCE = 500
"""More clients than that are listed once the window has been painted."""

LISTS_AFTER_MS = 150

NARROW = 1400
"""Below this width, px, the client pane folds to a rail by itself."""


class Window(Commands):
    """The planning bench on one coach's file."""

    def __init__(self, bench: Bench, store: Store) -> None:
        super().__init__()
        self.bench = bench
        self.store = store
        self.setMinimumSize(1000, 640)
        self.top = TopBar(bench)
        self.library = LibraryPane(bench)
        self.season = SeasonStrip(bench)
        self.head = WeekHead(bench)
        self.grid = WeekGrid(bench)
        self.tally = TallyPane(bench)
        self.findings = FindingsPane(bench)
        self.client_pane = ClientPane(bench, foot_later=True)
        self.welcome = Welcome()
        self._home: HomePage | None = None
        self._at_home = False
        self._folded_by_hand: bool | None = None
        self.curtain = Curtain(self, self._lifted)
        self.idle = Idle(self, self.curtain.drop)
        self.named = titles.named_as(store.setting(titles.SETTING))
        self._assemble()
        self._build_menus()
        self._tell_keys()
        self._connect()
        self.setAcceptDrops(False)
        self._wait_for_idle()
        self._lists_later = QTimer(self, singleShot=True, interval=LISTS_AFTER_MS)
        self._lists_later.timeout.connect(self.refresh_lists)
        self._show_first_lists()
        self.retitle()
        self.grid.setFocus()

    # -- assembly --------------------------------------------------------------------------

    def _assemble(self) -> None:
        # from the outside in: each widget is dressed anew whenever what it stands in moves
        self.setMenuWidget(self.top)
        self.body = QWidget()
        self.setCentralWidget(self.body)
        row = QHBoxLayout(self.body)
        row.setContentsMargins(0, 0, 0, 0)
        row.setSpacing(0)
        self.centre = QStackedWidget()
        row.addWidget(self.library)
        row.addWidget(self.centre, 1)
        row.addWidget(self.client_pane)
        self.plan = QWidget()
        self.centre.addWidget(self.welcome)
        self.centre.addWidget(self.plan)
        column = QVBoxLayout(self.plan)
        column.setContentsMargins(0, 0, 0, 0)
        column.setSpacing(0)
        # a splitter undoes a fixed height of its own
        self.foot = QWidget()
        column.addWidget(self.season)
        column.addWidget(self.head)
        column.addWidget(self.grid, 1)
        column.addWidget(self.foot)
        inner = QHBoxLayout(self.foot)
        inner.setContentsMargins(0, 0, 0, 0)
        split = QSplitter(Qt.Orientation.Horizontal)
        inner.addWidget(split)
        split.addWidget(self.tally)
        split.addWidget(self.findings)
        split.setStretchFactor(0, 3)
        split.setStretchFactor(1, 2)
        split.setChildrenCollapsible(False)
        split.setSizes([620, 420])
        self._build_status()

    def _build_status(self) -> None:
        self.kept = plain("", role="small")
        bar = self.statusBar()
        bar.setSizeGripEnabled(False)
        bar.messageChanged.connect(self._fit_status)
        bar.setContentsMargins(10, 0, 10, 0)
        bar.addPermanentWidget(self.kept)
        self.hint = plain("", role="small")
        bar.addWidget(self.hint)
        self.centre.currentChanged.connect(lambda _: self._say_hint())
        self._say_hint()

    def _build_menus(self) -> None:
        self.actions_by_id: dict[str, QAction] = {}
        for name in MENUS:
            menu = self.top.menus.addMenu(tr(name))
            menu.setToolTipsVisible(True)
            menu.aboutToShow.connect(self._enable_actions)
            for action in (a for a in ACTIONS if a.menu == name):
                if action.apart:
                    menu.addSeparator()
                menu.addAction(self._qaction(action))
        self._enable_actions()

    def _tell_keys(self) -> None:
        """Buttons that stand for a command tell its keys in their tips."""
        spans = zip(self.head.buttons.values(), SPAN_COMMANDS, strict=True)
        for button, command in ((self.top.booklet, "booklet"), *spans):
            keys = self.actions_by_id[command].shortcut()
            text = keys.toString(QKeySequence.SequenceFormat.NativeText)
            button.setToolTip(f"{button.toolTip()} ({text})")

    def _qaction(self, action: Action) -> QAction:
        made = QAction(tr(action.text), self)
        made.setShortcuts([QKeySequence(keys) for keys in action.shortcuts])
        made.setShortcutContext(Qt.ShortcutContext.WindowShortcut)
        if action.tip:
            made.setToolTip(tr(action.tip))
            made.setStatusTip(tr(action.tip))
        made.triggered.connect(lambda: self._run(action))
        self.actions_by_id[action.id] = made
        return made

    def _run(self, action: Action) -> None:
        if not action.enabled(self.bench):
            return
        try:
            action.run(self)
        except CoachError as error:
            self.say(error.sentence)

    def _enable_actions(self) -> None:
        for action in ACTIONS:
            made = self.actions_by_id[action.id]
            made.setEnabled(action.enabled(self.bench))
        history = self.bench.desk.history
        for key, step in (("undo", history.undoable), ("redo", history.redoable)):
            word = tr("Undo") if key == "undo" else tr("Redo")
            self.actions_by_id[key].setText(label_text(f"{word}: {step.label}") if step else word)

    def _connect(self) -> None:
        bench = self.bench
        self.store.offer_rescue(self.rescue)
        bench.changed.connect(self._changed)
        bench.selected.connect(lambda _: self._enable_actions())
        self.season.weeks_chosen.connect(lambda _run: self._enable_actions())
        bench.said.connect(self.say)
        bench.refused.connect(self.say)
        self.top.client_chosen.connect(self.choose_client)
        self.top.program_chosen.connect(self.choose_program)
        self.top.booklet_wanted.connect(self.make_booklet)
        self.grid.context_wanted.connect(self._context_menu)
        self.grid.insert_wanted.connect(lambda _day: self.library.start_search())
        self.grid.cursor_moved.connect(lambda: self.library.show_day(self.grid.cursor_day))
        self.library.place_wanted.connect(self.grid.place_exercise)
        self.library.pick_wanted.connect(self.grid.pick_up_exercise)
        self.findings.range_wanted.connect(self.show_ranges)
        self.findings.day_wanted.connect(self.grid.point_out)
        self.client_pane.opened.connect(self._opened_by_hand)
        self.welcome.client_wanted.connect(self.new_client)
        self.welcome.program_wanted.connect(self.new_program)
        self.welcome.demo_wanted.connect(self.open_demo)
        QApplication.styleHints().colorSchemeChanged.connect(lambda _: self.dress())

    @property
    def home(self) -> HomePage:
        """The start page; made when it is first wanted."""
        if self._home is None:
            from app.ui.home import HomePage, serve

            self._home = home = HomePage()
            home.need_chosen.connect(lambda who, need: serve(self, who, need))
            home.clients_wanted.connect(self.show_clients)
            home.client_wanted.connect(self.new_client)
            home.back_wanted.connect(self.leave_home)
            self.centre.addWidget(home)
        return self._home

    # -- what is shown ---------------------------------------------------------------------

    def refresh_lists(self) -> None:
        """Read the lists of clients and programs again."""
        self._lists_later.stop()
        self._show_lists(self.store.clients())

    def _show_first_lists(self) -> None:
        """Show the lists; of very many clients only the open one, until there is a picture."""
        work = self.bench.desk.work
        line = None if work is None else self.store.client_line(work.client.id)
        if line is None or self.store.count_clients() <= MOST_AT_ONCE:
            self.refresh_lists()
        else:
            self._show_lists((line,))
            self._lists_later.start()

    def _show_lists(self, every: tuple[ClientLine, ...]) -> None:
        work = self.bench.desk.work
        client_id = None if work is None else work.client.id
        clients = tuple(c for c in every if not c.archived or c.id == client_id)
        self.top.show_clients(clients, client_id)
        programs = () if work is None else self.store.programs(work.client.id)
        program = None if work is None or work.program is None else work.program
        program_id = None if program is None else program.id
        self.top.show_programs(
            tuple(p for p in programs if not p.archived or p.id == program_id), program_id
        )
        name = "" if work is None else work.client.name
        self.welcome.show_state(clients=len(clients), client=name)
        self._show_centre(anybody=bool(every))

    def show_open(self) -> None:
        work = self.bench.desk.work
        program = None if work is None else work.program
        self.top.choose(
            None if work is None else work.client.id, None if program is None else program.id
        )

    def _show_centre(self, *, anybody: bool) -> None:
        """Show the plan, or what leads to one; who needs what while nobody is open."""
        desk = self.bench.desk
        home = self._at_home or (desk.work is None and anybody)
        for pane in (self.library, self.client_pane):
            pane.setVisible(not home)
        if home:
            name = "" if desk.work is None else desk.work.client.name
            self.home.read(self.store, open_name=name)
            self.centre.setCurrentWidget(self.home)
        else:
            self.centre.setCurrentWidget(self.plan if desk.has_program else self.welcome)
        focus = cast("QWidget | None", self.focusWidget())
        if focus is None or (self.isVisible() and not focus.isVisible()):
            self._give_focus()

    def _give_focus(self) -> None:
        """Put the focus where one goes on from, after what had it is shown no more."""
        firsts: dict[QWidget, QWidget] = {self.plan: self.grid, self.welcome: self.welcome.act}
        if self._home is not None:
            firsts[self._home] = self._home.table
        for page, first in firsts.items():
            if page is self.centre.currentWidget() and first.isVisible():
                first.setFocus()

    def show_home(self) -> None:
        """Show who needs what today, whatever is open."""
        self._at_home = True
        self.refresh_lists()
        self.home.table.setFocus()

    def leave_home(self) -> None:
        """Show again what is open."""
        self._at_home = False
        self.refresh_lists()
        self.grid.setFocus()

    def open(self, client_id: ClientId, program_id: ProgramId | None) -> None:
        self._at_home = False
        super().open(client_id, program_id)

    def _changed(self, before: Work | None, after: Work | None) -> None:
        if _opened(before) != _opened(after):
            self._at_home = False  # whoever is opened, by whatever way, is what is wanted now
        with self.saying():
            self.refresh_lists()
        self._enable_actions()
        self.retitle()

    def name_clients(self, named: titles.Named) -> None:
        """Name clients in the frames of windows so from now on."""
        self.named = named
        self.retitle()

    def retitle(self) -> None:
        """Say in the window's frame what file this is, what was kept last, and whom it is about
        if that was chosen.
        """
        work = self.bench.desk.work
        self.kept.setText(tr("All edits kept") if work is not None else "")
        if self.curtain.is_down:
            return
        desk, path = self.bench.desk, self.store.path
        kept = None if desk.kept_at is None else (desk.kept_at, self.frame_title(desk.kept_label))
        file = "" if path is None else path.name
        self.setWindowTitle(titles.main_title(work, file=file, kept=kept, named=self.named))

    def frame_title(self, title: str) -> str:
        """A title of this window or one of its dialogs, with clients named as chosen only."""
        work = self.bench.desk.work
        names = [line.name for line in self._clients_known()]
        if work is not None:
            names.append(work.client.name)
        return titles.masked(title, names, self.named)

    def _clients_known(self) -> tuple[ClientLine, ...]:
        try:
            return self.store.clients()
        except CoachError:  # a title is no reason to say so
            return ()

    def _lifted(self) -> None:
        self._enable_actions()
        self.retitle()

    def _say_hint(self) -> None:
        """What keys do on the page that is shown."""
        self.hint.setText(
            tr(
                "Space picks a card up, arrows choose its place, Enter puts it down, "
                "Esc puts it back. F1 opens the guide."
            )
            if self.centre.currentWidget() is self.plan
            else tr("F1 opens the guide.")
        )

    def _context_menu(self, slots: object, where: QPoint) -> None:
        """The menu of the cards, or of the day where there are none."""
        self._enable_actions()
        menu = QMenu(self)
        menu.setAttribute(Qt.WidgetAttribute.WA_DeleteOnClose)
        menu.setToolTipsVisible(True)
        for group in CARD_MENU if slots else self._day_menu():
            if not menu.isEmpty():
                menu.addSeparator()
            menu.addActions([self.actions_by_id[name] for name in group])
        menu.popup(where)

    def _day_menu(self) -> tuple[tuple[str, ...], ...]:
        """Without what needs a session on a day that has none."""
        has_session = self.grid.session_in_focus() is not None
        return tuple(group for group in DAY_MENU if has_session or group is not ON_A_SESSION)

    # -- shape -----------------------------------------------------------------------------

    def toggle_client_pane(self) -> None:
        """Fold the client pane to a rail, or open it."""
        self._folded_by_hand = not self.client_pane.folded
        self.client_pane.fold(self._folded_by_hand)

    def _opened_by_hand(self) -> None:
        self._folded_by_hand = False

    def dress(self) -> None:
        """Take on the platform's colours after they changed."""
        app = QApplication.instance()
        assert isinstance(app, QApplication)
        theme.apply(app)
        for widget in self.findChildren(QWidget):
            widget.update()

    def showEvent(self, event: QShowEvent) -> None:
        super().showEvent(event)
        self.client_pane.follow(self.findings.list)

    def resizeEvent(self, event: QResizeEvent) -> None:
        super().resizeEvent(event)
        small = self.width() < NARROW
        if self._folded_by_hand is None:
            self.client_pane.fold(small)
        self.library.set_compact(small)
        self.season.set_compact(small)
        self.tally.set_compact(small)
        self.findings.set_compact(small)
        self.foot.setFixedHeight(
            150 if self.height() < 800 else max(220, self.height() * 22 // 100)
        )
        self._fit_status(self.statusBar().currentMessage())

    def _fit_status(self, told: str) -> None:
        """In a small window the status line is there only while it has something to say.

        Behind the curtain it is never there: it may name somebody.
        """
        roomy = self.height() >= 760 or self.width() >= NARROW
        self.statusBar().setVisible(not self.curtain.is_down and (roomy or bool(told)))

    def closeEvent(self, event: QCloseEvent) -> None:
        work = self.bench.desk.work
        if work is not None:
            program = "" if work.program is None else work.program.id
            place = f"{work.client.id} {program} {self.bench.week}"
            try:
                self.store.set_setting("open", place)
            except CoachError:
                self.say(tr("Where you were could not be kept; every edit is."))
        event.accept()

    def _wait_for_idle(self) -> None:
        minutes = self.store.setting(MINUTES)
        self.idle.set_minutes(int(minutes) if minutes.isdecimal() else 0)


def _opened(work: Work | None) -> tuple[str, str]:
    """Ids of the client and program that are open."""
    if work is None:
        return "", ""
    return work.client.id, "" if work.program is None else work.program.id
