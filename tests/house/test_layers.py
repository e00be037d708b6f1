"""The arrows that import-linter holds cover every module of the program."""

from __future__ import annotations

import re
import subprocess
import sys
import tomllib
from pathlib import Path

ROOT = Path(__file__).resolve().parents[2]
# Each costs 50 ms or more; together they would be most of the time to the first paint.
HEAVY = {
    "alembic",
    "citeproc",
    "jsonschema",
    "lxml",
    "matplotlib",
    "numpy",
    "rapidfuzz",
    "reportlab",
    "scipy",
}


def layered_modules() -> set[str]:
    """The names in the layers contract of pyproject.toml."""
    project = tomllib.loads((ROOT / "pyproject.toml").read_text(encoding="utf-8"))
    layers = next(
        contract["layers"]
        for contract in project["tool"]["importlinter"]["contracts"]
        if contract["type"] == "layers"
    )
    return {name for layer in layers for name in re.split(r"[\s|()]+", layer) if name}


def test_every_module_of_the_program_has_its_layer() -> None:
    modules = {
        f"app.{path.stem}"
        for path in (ROOT / "app").iterdir()
        if (path.suffix == ".py" or (path / "__init__.py").exists()) and path.stem != "__init__"
    }
    assert modules | {"db"} <= layered_modules()


def test_the_window_opens_without_the_heavy_libraries() -> None:
    probe = (
        "import sys, app.__main__, app.ui.window;"
        "print(*{name.partition('.')[0] for name in sys.modules})"
    )
    loaded = subprocess.run(
        [sys.executable, "-c", probe], cwd=ROOT, capture_output=True, encoding="utf-8", check=False
    )
    assert loaded.returncode == 0, loaded.stderr
    assert set(loaded.stdout.split()) & HEAVY == set()


def test_the_version_is_said_once() -> None:
    project = tomllib.loads((ROOT / "pyproject.toml").read_text(encoding="utf-8"))
    probe = [sys.executable, "-c", "import app; print(app.__version__)"]
    said = subprocess.check_output(probe, cwd=ROOT, encoding="utf-8").strip()
    assert said == project["project"]["version"]
