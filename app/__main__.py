"""`weekloom`: hands the arguments to the commands and, where one is wanted, opens the window."""

from __future__ import annotations

import gc
import os
import sys
from collections.abc import Sequence
from pathlib import Path

from app import cli


def main(arguments: Sequence[str] | None = None) -> int:
    """Runs what the arguments ask for; the exit code."""
    if os.environ.get("WEEKLOOM_LANGUAGE"):
        speak_pseudo()
    return cli.run(sys.argv[1:] if arguments is None else arguments, show=show, picture=picture)


def speak_pseudo() -> None:
    """Says everything in the pseudo-language: for looking at what is untranslated or does not fit.

    Whatever the variable holds: the window itself is shipped in English alone.
    """
    from app.domain.wording import use
    from app.resources.languages import PSEUDO, find_language

    use(find_language(PSEUDO))


def show(path: Path, *, demo: bool = False) -> int:
    """Shows the window on the coach's file until it is closed; the exit code."""
    if not has_screen():
        raise cli.NoScreen
    gc.disable()  # next to nothing made while starting is garbage; `start` turns it on again
    bring_in_what_knows_no_qt()
    from app.ui import start

    return start.run(path, demo=demo)


def bring_in_what_knows_no_qt() -> None:
    """Imports what the window rests on: Qt's binding reads the source of what comes after it."""
    import statistics

    import platformdirs

    from app import desk, moved, own_exercises, own_references, resources
    from app.domain import bullet, energy, mends, strength_tests
    from db import store

    _ = (statistics, platformdirs, desk, moved, own_exercises, own_references)
    _ = (resources, bullet, energy, mends, strength_tests, store)


def picture(path: Path, out: Path) -> None:
    """Writes a picture of the window on that file."""
    if not has_screen():
        os.environ["QT_QPA_PLATFORM"] = "offscreen"
    from app.ui import start

    start.picture(path, out)


def has_screen() -> bool:
    """True if there is something to show a window on."""
    named = ("DISPLAY", "WAYLAND_DISPLAY", "QT_QPA_PLATFORM")
    return not sys.platform.startswith("linux") or any(os.environ.get(name) for name in named)


if __name__ == "__main__":
    sys.exit(main())
