"""Draw every screen of the window, to look at: light, dark, at 200 %, small and very large.

    .venv/bin/python packaging/pictures/screens.py FOLDER [light dark double small huge]

Every dialog of the menus is opened on the demo, drawn and left again. Nothing judges the pictures
but the eye: look for what is cut, out of line, or hard to read.
"""

from __future__ import annotations

import os
import subprocess
import sys
import time
from collections.abc import Callable, Iterator
from pathlib import Path

ROOT = Path(__file__).resolve().parents[2]
sys.path.insert(0, str(ROOT))
os.environ.setdefault("QT_QPA_PLATFORM", "offscreen")

from PySide6.QtCore import QThreadPool  # noqa: E402
from PySide6.QtWidgets import (  # noqa: E402
    QApplication,
    QDialog,
    QFileDialog,
    QMessageBox,
    QTabWidget,
    QWidget,
)

from app.domain.exercise import ExerciseKey  # noqa: E402
from app.ui import start, theme  # noqa: E402
from app.ui.actions import ACTIONS  # noqa: E402
from app.ui.window import Window  # noqa: E402
from db.store import Store  # noqa: E402

WEEK = 6
WAYS = {
    "light": (theme.LIGHT, (1600, 1000), "1"),
    "dark": (theme.DARK, (1600, 1000), "1"),
    "double": (theme.LIGHT, (1366, 768), "2"),
    "small": (theme.LIGHT, (1280, 720), "1"),
    "huge": (theme.LIGHT, (3840, 2160), "1"),
}
"""Theme, size in px at scale 1, and scale."""

LONGEST_S = 20.0


def settle(seconds: float = 0.3) -> None:
    """Let workers, timers and paints catch up."""
    end = time.monotonic() + seconds
    pool = QThreadPool.globalInstance()
    limit = time.monotonic() + LONGEST_S
    while time.monotonic() < end or (pool.activeThreadCount() and time.monotonic() < limit):
        QApplication.processEvents()
        time.sleep(0.005)


def open_window(size: tuple[int, int]) -> Window:
    """A window on a fresh demo, at week 7."""
    window = start.window_on(Store.in_memory())
    start.open_demo(window)
    window.resize(*size)
    window.show()
    window.bench.show_week(WEEK)
    window.library.finish_figures()
    settle()
    return window


class Camera:
    """Draws widgets into a folder; stands in for whoever closes a dialog."""

    def __init__(self, folder: Path, way: str) -> None:
        self.folder, self.way = folder, way
        self.name = ""

    def shot(self, widget: QWidget, name: str) -> None:
        """Write a picture of the widget."""
        widget.grab().save(str(self.folder / f"{self.way}-{name}.png"))
        sys.stdout.write(f"{self.way}-{name}\n")

    def look_and_leave(self, dialog: QDialog) -> int:
        """Stands for `exec`: every page of a dialog, then away with it."""
        dialog.show()
        settle()
        self.shot(dialog, self.name)
        for tabs in dialog.findChildren(QTabWidget):
            for number in range(1, tabs.count()):
                tabs.setCurrentIndex(number)
                settle(0.1)
                self.shot(dialog, f"{self.name}-{number + 1}")
        dialog.reject()
        return int(QDialog.DialogCode.Rejected)


def windows(camera: Camera, size: tuple[int, int]) -> Window:
    """The window as it looks in its several states; the last one stays open."""
    first = start.window_on(Store.in_memory())
    first.resize(*size)
    first.show()
    settle()
    camera.shot(first, "window-first-run")
    first.close()
    window = open_window(size)
    camera.shot(window, "window")
    for at, line in enumerate(window.store.clients()):
        window.choose_client(line.id)
        settle(0.2)
        camera.shot(window, f"window-client-{at + 1}")
    window.choose_client(window.store.clients()[0].id)
    start.open_demo(window)
    window.bench.show_week(WEEK)
    window.season.show_heat(True)
    settle()
    camera.shot(window, "window-heat")
    window.season.show_heat(False)
    window.grid.setFocus()
    window.grid.walk(0, 1)
    window.grid.pick_up_exercise(ExerciseKey("leg_extension"))
    settle(0.9)
    camera.shot(window, "window-carrying")
    window.grid.carrier.put_back()
    window.grid.edit_card()
    settle()
    camera.shot(window, "window-editing")
    window.grid.setFocus()
    return window


def dialogs(camera: Camera, window: Window) -> None:
    """Every dialog of the menus, and the menus."""
    QFileDialog.getOpenFileName = QFileDialog.getSaveFileName = lambda *_, **__: ("", "")  # type: ignore[assignment]
    QFileDialog.getExistingDirectory = lambda *_, **__: ""  # type: ignore[assignment]
    for kind in (QDialog, QMessageBox):
        kind.exec = lambda one: Camera.look_and_leave(camera, one)  # type: ignore[assignment]
    for action in ACTIONS:
        window.grid.setFocus()
        window.grid.walk(0, 1)
        if action.text.endswith("…"):
            camera.name = f"dialog-{action.id}"
            if action.enabled(window.bench):
                _run(camera, lambda action=action: action.run(window))
    for name, opening in _others(window):
        camera.name = f"dialog-{name}"
        _run(camera, opening)
    for action in window.top.menus.actions():
        menu = action.menu()
        if menu is not None:
            menu.popup(window.mapToGlobal(window.rect().topLeft()))
            settle(0.1)
            camera.shot(menu, f"menu-{action.text().replace('&', '').lower()}")
            menu.close()


def _others(window: Window) -> Iterator[tuple[str, Callable[[], object]]]:
    yield "guide", window.show_guide
    yield "about", window.show_about
    yield "card", window.grid.edit_fields
    yield "account", window.show_account


def _run(camera: Camera, opening: Callable[[], object]) -> None:
    before = set(QApplication.topLevelWidgets())
    opening()
    settle(0.2)
    for other in QApplication.topLevelWidgets():
        if other not in before and other.isVisible() and other.isWindow():
            camera.shot(other, camera.name)
            for tabs in other.findChildren(QTabWidget):
                for number in range(1, tabs.count()):
                    tabs.setCurrentIndex(number)
                    settle(0.1)
                    camera.shot(other, f"{camera.name}-{number + 1}")
            other.close()


def draw(folder: Path, way: str) -> None:
    """Everything, one way."""
    colours, size, _ = WAYS[way]
    theme.force(colours)
    start.application()
    camera = Camera(folder, way)
    window = windows(camera, size)
    if way in ("light", "dark", "double"):
        dialogs(camera, window)
    window.close()


def main() -> int:
    """Draw the ways named, or all of them, each in a process of its own."""
    folder = Path(sys.argv[1])
    folder.mkdir(parents=True, exist_ok=True)
    if len(sys.argv) == 4 and sys.argv[2] == "--only":
        draw(folder, sys.argv[3])
        return 0
    for way in sys.argv[2:] or WAYS:
        env = os.environ | {"QT_SCALE_FACTOR": WAYS[way][2]}
        command = [sys.executable, __file__, str(folder), "--only", way]
        subprocess.run(command, env=env, check=True)  # noqa: S603 - ourselves
    return 0


if __name__ == "__main__":
    sys.exit(main())
