"""Tells the measurements of the run in one table at its end."""

from __future__ import annotations

import pytest

from tests.bench.budgets import MEASURED


def pytest_terminal_summary(terminalreporter: pytest.TerminalReporter) -> None:
    """Write the table, if anything was measured."""
    if MEASURED:
        terminalreporter.section("measured, beside the budget")
        for found in MEASURED:
            terminalreporter.write_line(found.line)
