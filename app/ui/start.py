"""Opening the window on a file: the application, the store, the desk, and what holds them."""

from __future__ import annotations

import gc
import logging
import os
import sys
import time
from datetime import UTC, datetime
from importlib import import_module
from pathlib import Path
from threading import Event, Thread

from PySide6.QtCore import QLocale, Qt, QTimer
from PySide6.QtGui import QIcon
from PySide6.QtWidgets import QApplication

from app import resources
from app.desk import Desk
from app.domain.client import ClientId
from app.domain.errors import CoachError, ResourceError
from app.domain.program import ProgramId
from app.domain.wording import tr
from app.own_exercises import catalogue_of
from app.ui import crash, theme
from app.ui.bench import Bench
from app.ui.open_store import open_store
from app.ui.window import Window
from db.passphrase import Passphrase
from db.store import Store

log = logging.getLogger(__name__)

SIZE = (1440, 900)

WATCHED = "WEEKLOOM_WATCHDOG"
"""The environment variable that has the window watch how long it is held, and log it at the end."""

SWITCH_S = 0.0005
"""How long a worker may keep Python to itself, s. Every call of Qt lets go of Python, and with the
usual 5 ms the window would wait that long, hundreds of times, to get it back from a booklet."""

LARGE_FORMS = (
    "app.ui.client.interview",
    "app.ui.results.dialog",
    "app.ui.charts.window",
    "app.ui.substitutes",
    "app.ui.library.own_sheet",
    "app.ui.booklet_dialog",
    "app.ui.exchange.table_import.dialog",
    "app.ui.exchange.calendar_dialog",
)
"""Forms whose modules alone would hold the window when one of them is opened."""

_over = Event()
"""Set once the window is closed: what is still to be brought in is wanted no more."""

PASSES = (700, 10, 1000)
"""When memory is looked through by itself, for `gc.set_threshold`.

A pass over all of it takes near a tenth of a second and would come in the middle of other work, so
that is left to a timer."""

TIDIES_EVERY_MS = 60_000
"""How often all of memory is looked through, as a piece of work of its own."""

SETTLES_MS = 200
"""How long after showing the window what it does not need yet is brought in, ms."""


def application() -> QApplication:
    """The one application object, dressed in the theme."""
    app = QApplication.instance() or _fresh_application()
    assert isinstance(app, QApplication)
    sys.setswitchinterval(SWITCH_S)
    app.setApplicationName("weekloom")
    app.setApplicationDisplayName("")
    app.setDesktopFileName("weekloom")
    picture = resources.path_of("icons/weekloom.svg")
    if picture.exists():
        app.setWindowIcon(QIcon(str(picture)))
    theme.apply(app)
    return app


def _fresh_application() -> QApplication:
    """A new application; one that watches how long it is held where the environment asks."""
    if os.environ.get(WATCHED):
        from app.ui.watchdog import WatchedApplication

        return WatchedApplication(sys.argv[:1])
    return QApplication(sys.argv[:1])


def _tell_what_was_seen(app: QApplication) -> None:
    if os.environ.get(WATCHED):
        from app.ui.watchdog import tell

        tell(app)


def desk_on(store: Store) -> Desk:
    """A desk on that store with the shipped and the coach's own exercises and ranges."""
    book = resources.range_book()
    for override in store.range_overrides():
        try:
            book = book.with_own(override)
        except ResourceError as error:
            # a rule of another version must not keep the coach out of the file
            log.warning("An own range is left out: %s", error.what)
    return Desk(store, catalogue_of(store), book)


def window_on(store: Store) -> Window:
    """A window on that store, on what was open when it was last closed."""
    bench = Bench(desk_on(store))
    trouble = reopen(bench, store)  # before the panes are made, so that each is filled once
    window = Window(bench, store)
    window.resize(*SIZE)
    if trouble is not None:
        window.say(trouble.sentence)
    return window


def reopen(bench: Bench, store: Store) -> CoachError | None:
    """Open what was open when the window was last closed; what kept it from being opened.

    Nothing is opened where nothing was, or where it is no longer there.
    """
    place = (store.setting("open") or "").split()
    client_id = ClientId(place[0]) if place else ClientId("")
    if store.client_line(client_id) is None:
        return None
    programs = {str(p.id) for p in store.programs(client_id)}
    program = ProgramId(place[1]) if len(place) > 1 and place[1] in programs else None
    try:
        bench.desk.open(client_id, program)
    except CoachError as error:
        return error
    if place[-1].isdigit():
        bench.show_week(int(place[-1]))
    else:
        bench.show_present_week()
    return None


def run(path: Path, *, demo: bool = False) -> int:
    """Show the window on the coach's file until it is closed; the exit code.

    demo: fill the file with the demo's team if it is empty, and open its first member.
    """
    _over.clear()
    app = application()
    QLocale.setDefault(QLocale.system())
    late_log = crash.install()
    store = open_store(path)
    if store is None:
        return 1
    tidying = QTimer(interval=TIDIES_EVERY_MS)
    try:
        window = window_on(store)
        if demo:
            open_demo(window)
        window.show()
        QTimer.singleShot(SETTLES_MS, settle)
        tidying.timeout.connect(lambda: _tidy(window.bench))
        tidying.start()
        QTimer.singleShot(SETTLES_MS, late_log.open_file)
        if store.backup_made is not None:
            window.say(
                tr(
                    "The file was brought up to date. A copy as it was: {backup_made}",
                    backup_made=store.backup_made,
                )
            )
        return app.exec()
    finally:
        tidying.stop()
        _over.set()
        late_log.open_file()
        _tell_what_was_seen(app)
        gc.enable()
        if not store.read_only:
            sweep_pictures(store)
        store.close()
        if not (demo or store.read_only):
            keep_copy(store.path or path, key=store.key)


def sweep_pictures(store: Store) -> int:
    """Remove pictures of check-ins that no check-in names any more; how many.

    Until now undo could have brought them back. What cannot be removed is noted in the log.
    """
    if store.path is None:
        return 0
    from app.picture_folder import PictureFolder

    try:
        folder = PictureFolder.of(store)
        folder.lock_in()
        return folder.sweep(store.picture_names(), now=time.time())
    except (CoachError, OSError) as error:
        log.warning("pictures were not swept: %s", type(error).__name__)
        return 0


def keep_copy(path: Path, *, key: Passphrase | None = None) -> Path | None:
    """Make a checked copy of the closed file if one is due; its path.

    A copy that cannot be made is noted in the log: it must not keep the window from closing.
    """
    from db import backup

    try:
        if backup.is_due(path, datetime.now(UTC)):
            return backup.back_up(path, key=key)
    except (CoachError, OSError) as error:
        log.warning("no copy was made: %s", type(error).__name__)
    return None


def settle() -> None:
    """Let memory be tidied again, and bring in what the first edit needs, beside the window.

    What the start has made stays for good, so tidying need not look at it again.
    """
    gc.freeze()
    gc.set_threshold(*PASSES)
    gc.enable()
    Thread(target=prepare, name="prepare").start()


def _tidy(bench: Bench) -> None:
    """Look through all of memory, unless the coach has something in hand."""
    if bench.preview is None and QApplication.mouseButtons() == Qt.MouseButton.NoButton:
        gc.collect()


def prepare() -> None:
    """Bring in what no first picture shows but gestures and forms need; safe in another thread."""
    from app.ui import accounts, field_help, working_popup
    from app.ui.client import check_in_cells
    from app.ui.grid import acts, drag, feet, hand, inline, session_acts
    from app.ui.library import empty, menu

    _ = (accounts, field_help, working_popup, check_in_cells)
    _ = (acts, drag, feet, hand, inline, session_acts, empty, menu)
    Store.prepare()
    for name in LARGE_FORMS:
        if _over.is_set():
            return
        import_module(name)


def open_demo(window: Window) -> None:
    """Fill an empty file with the demo's team and open the first member at the present week."""
    if not window.store.clients():
        window.open_demo()
    elif window.bench.desk.work is None:
        window.choose_client(window.store.clients()[0].id)


def picture(
    path: Path, out: Path, *, dark: bool = False, size: tuple[int, int] = (1600, 1000)
) -> None:
    """Write a picture of the window on a file as PNG, without a screen if need be."""
    app = application()
    theme.force(theme.DARK if dark else theme.LIGHT)
    try:
        theme.apply(app)
        store = Store.open(path)
        try:
            window = window_on(store)
            try:
                _picture_of(window, out, size=size)
            finally:
                window.close()
        finally:
            store.close()
    finally:
        theme.force(None)


def _picture_of(window: Window, out: Path, *, size: tuple[int, int]) -> None:
    open_demo(window)
    window.bench.show_week(6)
    window.resize(*size)
    window.show()
    QApplication.processEvents()
    window.library.finish_figures()
    if not window.grab().save(str(out)):
        raise CoachError(
            tr("The picture {out} could not be written.", out=out), mend=tr("Choose a folder.")
        )
