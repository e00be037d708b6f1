"""A reader sees one idea on one or two screens."""

from __future__ import annotations

import ast
from collections.abc import Iterator
from pathlib import Path

import pytest

ROOT = Path(__file__).resolve().parents[2]
SOURCES = sorted(
    path.relative_to(ROOT)
    for top in ("app", "db", "packaging", "tests")
    for path in (ROOT / top).rglob("*.py")
    if "versions" not in path.parts
)
LONGEST_MODULE = 600
LONGEST_FUNCTION = 60


def long_functions(tree: ast.AST) -> Iterator[str]:
    """Names and lengths of the functions that do not fit a screen, docstrings left out."""
    for node in ast.walk(tree):
        if isinstance(node, ast.FunctionDef):
            first = node.body[1 if ast.get_docstring(node) and len(node.body) > 1 else 0]
            length = (node.end_lineno or node.lineno) - first.lineno + 1
            if length > LONGEST_FUNCTION:
                yield f"{node.name} (line {node.lineno}) has {length} lines"


@pytest.mark.parametrize("source", SOURCES, ids=[path.as_posix() for path in SOURCES])
def test_a_module_and_its_functions_are_short(source: Path) -> None:
    text = (ROOT / source).read_text(encoding="utf-8")
    if source.parts[0] in ("app", "db"):
        assert len(text.splitlines()) <= LONGEST_MODULE
    assert list(long_functions(ast.parse(text))) == []
