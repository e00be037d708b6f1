"""What the program never does: run what a file says, build queries of data, reach a network."""

from __future__ import annotations

import ast
import os
import shutil
import subprocess
import sys
from collections import Counter
from collections.abc import Iterator
from pathlib import Path

import pytest

ROOT = Path(__file__).resolve().parents[2]

RUNS_DATA = {"pickle", "cPickle", "shelve", "marshal", "yaml", "dill", "jsonpickle"}
"""Modules that make objects of whatever a file says."""

NETWORK = {"socket", "ssl", "http", "urllib.request", "urllib3", "requests", "httpx", "ftplib",
           "smtplib", "poplib", "imaplib", "telnetlib", "xmlrpc", "webbrowser", "asyncio",
           "PySide6.QtNetwork", "PySide6.QtWebEngineWidgets"}  # fmt: skip

RUNS_TEXT = {"eval", "exec", "compile", "__import__"}

QUERIES = {"execute", "executemany", "executescript", "exec_driver_sql"}

PRAGMAS_AND_NAMES = {
    "db/erasing.py": 2,
    "db/locked_pictures.py": 2,
    "db/migrate.py": 1,
    "db/opening.py": 1,
    "db/passphrase.py": 1,
    "db/relock.py": 5,
    "db/schema.py": 2,
    "db/whole.py": 3,
}
"""Queries that are put together in place: pragmas take no parameters, names come from the file's
own schema, which is refused where a name is anything but letters, figures and underlines."""


def sources(*folders: str) -> Iterator[tuple[str, ast.Module]]:
    for folder in folders:
        for path in sorted((ROOT / folder).rglob("*.py")):
            yield path.relative_to(ROOT).as_posix(), ast.parse(path.read_text(encoding="utf-8"))


def imported(tree: ast.Module) -> Iterator[str]:
    for node in ast.walk(tree):
        if isinstance(node, ast.Import):
            yield from (alias.name for alias in node.names)
        elif isinstance(node, ast.ImportFrom) and node.module and not node.level:
            yield node.module
            yield from (f"{node.module}.{alias.name}" for alias in node.names)


def called(tree: ast.Module) -> Iterator[tuple[str, ast.Call]]:
    for node in ast.walk(tree):
        if isinstance(node, ast.Call):
            name = node.func
            yield getattr(name, "attr", getattr(name, "id", "")), node


def test_nothing_that_a_file_says_is_run() -> None:
    found = [
        f"{where}: {name}"
        for where, tree in sources("app", "db")
        for name in imported(tree)
        if name.partition(".")[0] in RUNS_DATA
    ]
    found += [
        f"{where}: {name}"
        for where, tree in sources("app", "db")
        for name, call in called(tree)
        if name in RUNS_TEXT and isinstance(call.func, ast.Name)
    ]
    assert found == []


def test_no_query_is_put_together_of_data() -> None:
    found: Counter[str] = Counter()
    for where, tree in sources("app", "db"):
        for name, call in called(tree):
            asks = name in QUERIES or (name == "text" and isinstance(call.func, ast.Name))
            if asks and call.args and isinstance(call.args[0], ast.JoinedStr):
                found[where] += 1
    assert dict(found) == PRAGMAS_AND_NAMES


def test_no_module_knows_the_network() -> None:
    found = [
        f"{where}: {name}"
        for where, tree in sources("app", "db")
        for name in imported(tree)
        if any(name == one or name.startswith(f"{one}.") for one in NETWORK)
    ]
    assert found == []


DEMO = """
import sys
seen = set()
sys.addaudithook(lambda event, args: seen.add(event) if event.startswith("socket.") else None)
from app.__main__ import main
code = main(["demo", "--to", sys.argv[1]])
assert not seen, seen
sys.exit(code)
"""


def _without_network() -> list[str]:
    """The command that runs another where there is no network at all, if the system has one."""
    unshare = shutil.which("unshare")
    command = [unshare, "-r", "-n"] if unshare else []
    if command and subprocess.call([*command, "true"], stderr=subprocess.DEVNULL) == 0:
        return [part for part in command if part]
    return []


def test_the_whole_demo_is_made_without_a_network(tmp_path: Path) -> None:
    """Booklets, plan files and a picture of the window; no socket is as much as asked for."""
    environment = os.environ | {"QT_QPA_PLATFORM": "offscreen", "HOME": str(tmp_path / "home")}
    done = subprocess.run(  # our own interpreter
        [*_without_network(), sys.executable, "-c", DEMO, str(tmp_path / "out")],
        cwd=ROOT,
        env=environment,
        capture_output=True,
        encoding="utf-8",
        check=False,
        timeout=300,
    )
    if done.returncode == 0:
        made = {path.suffix for path in (tmp_path / "out").rglob("*")}
        assert {".pdf", ".json", ".png"} <= made
    else:
        pytest.fail(done.stderr)
