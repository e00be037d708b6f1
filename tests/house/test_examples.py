"""Examples in docstrings are true."""

from __future__ import annotations

import doctest
import importlib
from pathlib import Path

import pytest

ROOT = Path(__file__).resolve().parents[2]
MODULES = sorted(
    ".".join(path.relative_to(ROOT).with_suffix("").parts)
    for top in ("app", "db")
    for path in (ROOT / top).rglob("*.py")
    if ">>>" in path.read_text(encoding="utf-8")
)


@pytest.mark.parametrize("name", MODULES)
def test_the_examples_of_a_module_come_out_as_written(name: str) -> None:
    results = doctest.testmod(importlib.import_module(name.removesuffix(".__init__")))
    assert results.attempted > 0
    assert results.failed == 0
