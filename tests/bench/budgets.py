"""Measurements beside their budgets: told in a table at the end of a run, never a matter of luck.

A slow or busy machine must not fail a change that is sound, so a budget that is passed is marked in
the table and nothing more. With WEEKLOOM_BUDGETS=strict it fails, for work on speed.
"""

from __future__ import annotations

import os
from dataclasses import dataclass


@dataclass(frozen=True, slots=True)
class Measured:
    """One measurement; limit: the budget it should keep to."""

    what: str
    value: float
    limit: float
    unit: str

    @property
    def line(self) -> str:
        """One line of the table."""
        verdict = "" if self.value <= self.limit else "  over its budget"
        return f"{self.what:<58} {self.value:>8.2f} of {self.limit:g} {self.unit}{verdict}"


MEASURED: list[Measured] = []


def hold(what: str, value: float, limit: float, *, unit: str = "times the floor") -> None:
    """Note a measurement; fail past the budget only where budgets are strict."""
    found = Measured(what, value, limit, unit)
    MEASURED.append(found)
    print(found.line)
    if os.environ.get("WEEKLOOM_BUDGETS") == "strict":
        assert value <= limit, found.line
