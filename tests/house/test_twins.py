"""Every module has a test file where one would look for it."""

from __future__ import annotations

from pathlib import Path

import pytest

ROOT = Path(__file__).resolve().parents[2]
MODULES = sorted(
    path.relative_to(ROOT)
    for top in ("app", "db")
    for path in (ROOT / top).rglob("*.py")
    if path.name != "__init__.py" and "migrations" not in path.parts
)


def twin(module: Path) -> Path:
    """app/domain/dose.py -> tests/domain/test_dose.py; app/__main__.py -> tests/test_main.py."""
    folders = module.parts[1:-1] if module.parts[0] == "app" else module.parts[:-1]
    return Path("tests", *folders, f"test_{module.stem.strip('_')}.py")


@pytest.mark.parametrize("module", MODULES, ids=[path.as_posix() for path in MODULES])
def test_a_module_has_its_twin(module: Path) -> None:
    assert (ROOT / twin(module)).is_file(), f"{module} has no {twin(module)}"
