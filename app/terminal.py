"""Asking for the passphrase of a locked file on the terminal.

It is read from the terminal and from nowhere else: an argument or an environment variable would
be seen by other programs, and a file would be one more thing to lock.
"""

from __future__ import annotations

import getpass
import sys
from pathlib import Path

from app.domain.errors import CoachError
from app.domain.wording import tr
from db.errors import Cause, StoreFailure
from db.passphrase import Passphrase, fits, looks_locked

TRIES = 3


def passphrase_for(path: Path) -> Passphrase | None:
    """The passphrase that opens the file, asked for on the terminal; None for one without a lock.

    Raises StoreFailure after three wrong ones, and CoachError where nobody can be asked.
    """
    if not path.is_file() or not looks_locked(path):
        return None
    if not sys.stdin.isatty():
        raise CoachError(
            tr("The file is locked with a passphrase, and nobody is there to type it."),
            where=str(path),
            mend=tr("Run the command in a terminal: it asks there, and takes it no other way."),
        )
    for left in range(TRIES, 0, -1):
        typed = Passphrase(getpass.getpass(tr("Passphrase of {file}: ", file=path.name)))
        if fits(path, typed):
            return typed
        if left > 1:
            print(tr("That passphrase does not open it."), file=sys.stderr)  # noqa: T201
    raise StoreFailure(Cause.WRONG_PASSPHRASE, where=str(path))
