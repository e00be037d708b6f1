"""The commands on the file itself, and on all that is held on one client."""

from __future__ import annotations

from collections.abc import Callable
from datetime import datetime
from pathlib import Path

from app.domain.wording import mark, tr
from app.ui.action import Action, client_open
from app.ui.commands import Commands
from app.ui.curtain import KEY


def lock(window: Commands) -> None:
    """Ask for a passphrase and lock the file with it, change it, or take the lock away."""
    from app.ui.forms import tell
    from app.ui.lock_sheet import LockSheet

    if window.store.path is None:
        window.say(tr("The file lives in memory only, so there is nothing to lock."))
        return
    sheet = LockSheet(window.store, window)
    sheet.exec()
    if sheet.said:
        tell(window, sheet.windowTitle(), sheet.said)


def save_held(window: Commands) -> Path | None:
    """Ask where to, and write all that is held on the open client; the path, None if cancelled."""
    from PySide6.QtWidgets import QFileDialog

    from app.exchange.person_file import SUFFIX
    from app.person_export import export_person, file_name, held_on
    from app.ui.export_sheet import ExportSheet, with_ending

    desk, store = window.bench.desk, window.store
    client = desk.client
    today = datetime.now().astimezone().date()
    suggested = file_name(client.name, today)
    kinds = tr("Packed folders (*.zip);;All files (*)")
    title = tr("Save all that is held on the client")
    chosen, _ = QFileDialog.getSaveFileName(window, title, suggested, kinds)
    if not chosen:
        return None
    path = with_ending(chosen, SUFFIX)

    def work(_cancelled: Callable[[], bool]) -> Path:
        holding = held_on(store, client.id, desk.catalogue, on=today)
        export_person(store, holding, desk.catalogue, path)
        return path

    sheet = ExportSheet(title, str(path), work, window)
    sheet.exec()
    if sheet.given is None:
        return None
    window.say(tr("Saved: {file}. It can be read by whoever gets hold of it.", file=path.name))
    return path


def save_whole(window: Commands) -> Path | None:
    """Ask where to, and write everything in the file in open formats; None if cancelled."""
    from PySide6.QtWidgets import QFileDialog

    from app.exchange.whole_file import SUFFIX
    from app.ui.export_sheet import ExportSheet, with_ending
    from app.whole import export_whole, file_name

    kinds = tr("Packed folders (*.zip);;All files (*)")
    title = tr("Export everything")
    chosen, _ = QFileDialog.getSaveFileName(window, title, file_name(), kinds)
    if not chosen:
        return None
    path = with_ending(chosen, SUFFIX)
    store = window.store
    sheet = ExportSheet(
        title,
        str(path),
        lambda cancelled: export_whole(store, path, cancelled=cancelled),
        window,
    )
    sheet.exec()
    if sheet.given is None:
        return None
    window.say(tr("Saved: {file}. It can be read by whoever gets hold of it.", file=path.name))
    return path


def take_in_whole(window: Commands) -> bool:
    """Ask for a whole export and put it in the place of the open file; False if it stays out."""
    from PySide6.QtWidgets import QFileDialog

    from app.ui.forms import tell
    from app.ui.take_in_sheet import TakeInSheet

    if window.store.path is None:
        window.say(tr("The file lives in memory only, so nothing can take its place."))
        return False
    kinds = tr("Packed folders (*.zip);;All files (*)")
    chosen, _ = QFileDialog.getOpenFileName(window, tr("Take in a whole export"), "", kinds)
    if not chosen:
        return False
    sheet = TakeInSheet(window.bench.desk, window.store, Path(chosen), window)
    sheet.exec()
    if not sheet.said:
        return False
    window.refresh_lists()
    tell(window, tr("Export taken in"), sheet.said)
    return True


def erase(window: Commands) -> None:
    """Erase the open client, after two steps that say what goes and what stays."""
    from app.ui.erase_dialog import EraseDialog
    from app.ui.forms import tell

    desk = window.bench.desk
    dialog = EraseDialog(desk, window.store, desk.client.id, window)
    dialog.exec()
    if dialog.said:
        window.refresh_lists()
        tell(window, tr("Client erased"), dialog.said)


PERSON_ACTIONS: tuple[Action, ...] = (
    Action(
        "save_held",
        mark("Client"),
        mark("Save all that is held on the client…"),
        save_held,
        enabled=client_open,
        apart=True,
        tip=mark("Everything as JSON, PDF and tables in one packed folder, for the client"),
    ),
    Action(
        "erase",
        mark("Client"),
        mark("Erase this client…"),
        erase,
        enabled=client_open,
        tip=mark("All that is held on the client, for good, with what the copies still hold"),
    ),
)


def ask_what_is_seen(window: Commands) -> None:
    """Ask when what is personal hides by itself, and whom the frames of windows name."""
    from PySide6.QtWidgets import QDialog

    from app.ui.curtain_sheet import CurtainSheet

    sheet = CurtainSheet(window.store, window.idle, window)
    if sheet.exec() == QDialog.DialogCode.Accepted:
        window.name_clients(sheet.chosen)


VIEW_ACTIONS: tuple[Action, ...] = (
    Action(
        "curtain",
        mark("View"),
        mark("Hide what is personal"),
        lambda w: w.curtain.drop(),
        (KEY,),
        apart=True,
        tip=mark("For a look at the screen by somebody else; the same key shows all again"),
    ),
    Action(
        "curtain_minutes",
        mark("View"),
        mark("What others may see…"),
        ask_what_is_seen,
        tip=mark("Hide what is personal after some minutes, and whom the frames of windows name"),
    ),
)

FILE_ACTIONS: tuple[Action, ...] = (
    Action(
        "save_whole",
        mark("File"),
        mark("Export everything…"),
        save_whole,
        apart=True,
        tip=mark("The whole file in open formats, to keep or to move to other programs"),
    ),
    Action(
        "take_in_whole",
        mark("File"),
        mark("Take in a whole export…"),
        take_in_whole,
        tip=mark("In the place of this file, which is put aside as a copy first"),
    ),
    Action(
        "lock",
        mark("File"),
        mark("Lock the file with a passphrase…"),
        lock,
        tip=mark("Lock the whole file, change its passphrase, or take the lock away"),
    ),
)
