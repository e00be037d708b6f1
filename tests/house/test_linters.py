"""Format, lint, types and layers, so that one command checks everything."""

from __future__ import annotations

import subprocess
import sys
from pathlib import Path

import pytest

ROOT = Path(__file__).resolve().parents[2]
LINTERS = {
    "ruff check": ["-m", "ruff", "check", "--no-cache", "."],
    "ruff format": ["-m", "ruff", "format", "--no-cache", "--check", "."],
    "mypy": ["-m", "mypy"],
    "mypy of the bootstrap": ["-m", "mypy", "packaging/bootstrap.py"],
    "import-linter": [
        "-c",
        "from importlinter.cli import lint_imports_command; lint_imports_command()",
        "--no-cache",
    ],
}


@pytest.mark.parametrize("name", LINTERS)
def test_the_linter_has_nothing_to_say(name: str) -> None:
    done = subprocess.run(
        [sys.executable, *LINTERS[name]],
        cwd=ROOT,
        stdout=subprocess.PIPE,
        stderr=subprocess.STDOUT,
        encoding="utf-8",
        check=False,
    )
    if done.returncode != 0:
        pytest.fail(f"{name}:\n{done.stdout}", pytrace=False)
