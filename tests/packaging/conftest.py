"""The bootstrap script as a module, and small checkouts for it to work on."""

from __future__ import annotations

import importlib.util
import shutil
from pathlib import Path
from types import ModuleType

import pytest

ROOT = Path(__file__).resolve().parents[2]


@pytest.fixture
def bootstrap() -> ModuleType:
    """The script as a fresh module."""
    spec = importlib.util.spec_from_file_location("bootstrap", ROOT / "packaging" / "bootstrap.py")
    assert spec is not None
    assert spec.loader is not None
    module = importlib.util.module_from_spec(spec)
    spec.loader.exec_module(module)
    return module


@pytest.fixture
def checkout(tmp_path: Path) -> Path:
    """A checkout that needs no packages and whose program repeats its arguments."""
    root = tmp_path / "ein Verzeichnis für Pläne"
    (root / "packaging").mkdir(parents=True)
    for name in ("bootstrap.py", "debian-packages.txt"):
        shutil.copy(ROOT / "packaging" / name, root / "packaging" / name)
    for name in ("run.lock", "test.lock"):
        (root / "packaging" / name).write_text(f"# {name}, empty\n", encoding="utf-8")
    (root / "app").mkdir()
    (root / "app" / "__init__.py").touch()
    (root / "app" / "__main__.py").write_text(
        "import os, sys\nprint(sys.argv[1:], os.environ.get('QT_QPA_PLATFORM'))\n",
        encoding="utf-8",
    )
    return root
