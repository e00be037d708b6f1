"""The commands on the file itself, and on all that is held on one client."""

from __future__ import annotations

from app.domain.wording import mark, tr
from app.ui.action import Action, client_open
from app.ui.commands import Commands


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
        "erase",
        mark("Client"),
        mark("Erase this client…"),
        erase,
        enabled=client_open,
        apart=True,
        tip=mark("All that is held on the client, for good, with what the copies still hold"),
    ),
)

FILE_ACTIONS: tuple[Action, ...] = (
    Action(
        "lock",
        mark("File"),
        mark("Lock the file with a passphrase…"),
        lock,
        apart=True,
        tip=mark("Lock the whole file, change its passphrase, or take the lock away"),
    ),
)
