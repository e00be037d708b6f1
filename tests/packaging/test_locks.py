"""The lock files name versions and hashes, agree with each other, and cover pyproject.toml."""

from __future__ import annotations

import re
import tomllib
from pathlib import Path

import pytest

ROOT = Path(__file__).resolve().parents[2]
NAME = re.compile(r"[A-Za-z0-9][A-Za-z0-9._-]*")


def requirements(kind: str) -> dict[str, list[str]]:
    """Pins of the lock by package, as written, with their hashes."""
    text = (ROOT / "packaging" / f"{kind}.lock").read_text(encoding="utf-8")
    lines = [line for line in text.splitlines() if not line.lstrip().startswith("#")]
    pins: dict[str, list[str]] = {}
    for entry in "\n".join(lines).replace("\\\n", " ").splitlines():
        if entry.strip():
            pins.setdefault(plain(entry), []).append(entry)
    return pins


def plain(requirement: str) -> str:
    """The package's name in its one normal spelling."""
    found = NAME.match(requirement)
    assert found is not None, requirement
    return re.sub(r"[-_.]+", "-", found.group()).lower()


def without_hashes(entries: list[str]) -> list[str]:
    return [entry.partition("--hash")[0].strip() for entry in entries]


@pytest.mark.parametrize("kind", ["run", "test"])
def test_a_lock_holds_no_address(kind: str) -> None:
    text = (ROOT / "packaging" / f"{kind}.lock").read_text(encoding="utf-8")
    assert "://" not in text
    assert not re.search(
        r"^\s*(-i|-f|--(extra-)?index-url|--find-links|--trusted-host)", text, re.M
    )


@pytest.mark.parametrize("kind", ["run", "test"])
def test_every_requirement_is_pinned_and_hashed(kind: str) -> None:
    for entries in requirements(kind).values():
        for entry in entries:
            assert re.match(r"[\w.-]+==[\w.]+\s", entry), entry
            assert re.search(r"--hash=sha256:[0-9a-f]{64}\b", entry), entry


def test_the_test_lock_holds_the_run_lock() -> None:
    run, test = requirements("run"), requirements("test")
    assert {name: without_hashes(run[name]) for name in run} == {
        name: without_hashes(test.get(name, [])) for name in run
    }


def test_every_dependency_of_the_project_is_locked() -> None:
    project = tomllib.loads((ROOT / "pyproject.toml").read_text(encoding="utf-8"))
    groups = project["dependency-groups"]
    assert {plain(name) for name in project["project"]["dependencies"]} <= set(requirements("run"))
    assert {plain(name) for name in groups["test"] + groups["lint"]} <= set(requirements("test"))


def test_the_tools_of_the_tests_are_not_installed_for_a_coach() -> None:
    assert not {"pytest", "mypy", "ruff", "hypothesis"} & set(requirements("run"))


def test_the_qt_that_loses_references_to_none_is_not_locked() -> None:
    assert "==6.12.0" not in requirements("run")["pyside6-essentials"][0]
