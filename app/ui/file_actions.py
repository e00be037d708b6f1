"""The commands on the file itself, and on all that is held on one client."""

from __future__ import annotations

from app.domain.wording import mark, tr
from app.ui.action import Action
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
