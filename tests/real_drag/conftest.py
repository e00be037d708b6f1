"""A virtual screen, a window in a process of its own, and a mouse that does one gesture at once."""

from __future__ import annotations

import json
import os
import select
import subprocess
import sys
from collections.abc import Iterator
from pathlib import Path
from typing import Any

import pytest

ROOT = Path(__file__).resolve().parents[2]
PATIENCE_S = 30.0
STEPS = 24


@pytest.fixture(scope="session")
def display() -> Iterator[str]:
    """The name of a virtual screen that is up."""
    read, write = os.pipe()
    xvfb = subprocess.Popen(
        ["Xvfb", "-displayfd", str(write), "-screen", "0", "1400x900x24", "-nolisten", "tcp"],
        pass_fds=(write,),
        stdout=subprocess.DEVNULL,
        stderr=subprocess.DEVNULL,
    )
    os.close(write)
    try:
        ready, _, _ = select.select([read], [], [], PATIENCE_S)
        assert ready, "the virtual screen did not come up"
        yield f":{os.read(read, 16).decode().strip()}"
    finally:
        os.close(read)
        xvfb.terminate()
        xvfb.wait(PATIENCE_S)


class RealWindow:
    """A window in its own process, and the one mouse and keyboard of its screen."""

    def __init__(self, display: str) -> None:
        self._environment = {**os.environ, "DISPLAY": display, "QT_QPA_PLATFORM": "xcb"}
        self._process = subprocess.Popen(
            [sys.executable, "-m", "tests.real_drag.window"],
            cwd=ROOT,
            env=self._environment,
            stdin=subprocess.PIPE,
            stdout=subprocess.PIPE,
            text=True,
            bufsize=1,
        )
        assert self._read() == "ready"

    def _read(self) -> Any:
        assert self._process.stdout is not None
        ready, _, _ = select.select([self._process.stdout], [], [], PATIENCE_S)
        if not ready:
            self._process.kill()
            pytest.fail("the window hung")
        line = self._process.stdout.readline()
        assert line, f"the window ended with {self._process.wait(PATIENCE_S)}"
        return json.loads(line)

    def ask(self, *command: object) -> Any:
        assert self._process.stdin is not None
        self._process.stdin.write(json.dumps(command) + "\n")
        self._process.stdin.flush()
        return self._read()

    def state(self) -> dict[str, object]:
        """The program, the undo labels and whether a preview shows."""
        return self.ask("state")

    def xdotool(self, *words: object) -> None:
        """One process for a whole gesture."""
        subprocess.run(
            ["xdotool", *map(str, words)], env=self._environment, check=True, timeout=PATIENCE_S
        )

    def drag(
        self,
        start: tuple[object, ...],
        end: tuple[object, ...] | tuple[int, int],
        *,
        ctrl: bool = False,
        escape: bool = False,
    ) -> None:
        """Press at `start`, pass the drag distance, go to `end`, let go.

        Both are asked of the window ('card', 0, 1), or a point of the screen (x, y). escape: Esc
        is pressed before the button comes up.
        """
        x, y = self._point(start)
        to_x, to_y = self._point(end)
        words: list[object] = ["mousemove", x, y, "sleep", 0.1, "mousedown", 1, "sleep", 0.1]
        for way in (4, 8, 12, 16):
            words += ["mousemove", x + way, y, "sleep", 0.03]
        for step in range(1, STEPS + 1):
            at_x = x + 16 + (to_x - x - 16) * step // STEPS
            at_y = y + (to_y - y) * step // STEPS
            words += ["mousemove", at_x, at_y, "sleep", 0.01]
        if ctrl:
            words += ["keydown", "ctrl", "sleep", 0.05]
        words += ["mousemove", to_x + 1, to_y, "sleep", 0.1, "mousemove", to_x, to_y, "sleep", 0.1]
        if escape:
            words += ["key", "Escape", "sleep", 0.1]
        words += ["mouseup", 1, "sleep", 0.1]
        if ctrl:
            words += ["keyup", "ctrl"]
        self.xdotool("windowfocus", self.ask("window"), "sleep", 0.05, *words)

    def _point(self, where: tuple[object, ...]) -> tuple[int, int]:
        if isinstance(where[0], int):
            return int(str(where[0])), int(str(where[1]))
        x, y = self.ask("point", *where)
        return x, y

    def close(self) -> None:
        if self._process.poll() is None:
            assert self._process.stdin is not None
            self._process.stdin.write('["quit"]\n')
            self._process.stdin.close()
            try:
                self._process.wait(PATIENCE_S)
            except subprocess.TimeoutExpired:
                self._process.kill()
                self._process.wait(PATIENCE_S)
        if self._process.stdout is not None:
            self._process.stdout.close()


@pytest.fixture
def window(display: str) -> Iterator[RealWindow]:
    """A fresh window on the virtual screen."""
    opened = RealWindow(display)
    try:
        yield opened
    finally:
        opened.close()
