"""What a table file holds: sheets of cells, and what had to be said about reading them."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass
from datetime import date, time, timedelta

from app.domain.errors import CoachError
from app.domain.wording import tr

Cell = str | float | int | date | time | timedelta | None
"""A cell as it was read: a text, a number, a day, a time, or None for an empty one."""

MOST_CELLS = 1_000_000
MOST_SHEETS = 200
"""A year of full weeks has some 50,000 cells; what holds more than this is no training plan."""


Stop = Callable[[], bool]
"""Asked now and then while a file is read: whether nobody waits for it any more."""


class SheetError(CoachError):
    """A table file that cannot be read: names the file, what is wrong and what to do."""


@dataclass(frozen=True, slots=True)
class Sheet:
    """One sheet: its name and its rows, each as long as it has cells.

    hidden: not shown there; unworked: cells with a formula whose result is not in the file, which
    are empty here.
    """

    name: str
    rows: tuple[tuple[Cell, ...], ...]
    hidden: bool = False
    unworked: tuple[str, ...] = ()

    @property
    def width(self) -> int:
        """Cells of the longest row."""
        return max((len(row) for row in self.rows), default=0)


@dataclass(frozen=True, slots=True)
class Book:
    """A table file. encoding and separator: of a CSV file, else empty; remarks: what was odd."""

    sheets: tuple[Sheet, ...]
    encoding: str = ""
    separator: str = ""
    remarks: tuple[str, ...] = ()


def too_many_cells(source: str) -> SheetError:
    """The error for a file that goes on and on."""
    return SheetError(
        tr("The table has more than {most_cells:,} cells.", most_cells=MOST_CELLS),
        where=source,
        mend=tr("Take the plan's part of it into a file of its own."),
    )


def stopped(source: str) -> SheetError:
    """The error for a file whose reading was stopped."""
    return SheetError(tr("Its reading was stopped."), where=source)
