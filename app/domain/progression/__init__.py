"""Rep, effort and set schemes over weeks: shown as a table first, then applied."""

from app.domain.progression.apply import apply
from app.domain.progression.paths import (
    DoubleProgression,
    RepPath,
    Stepwise,
    Undulating,
    Wave,
    targets,
)
from app.domain.progression.scheme import (
    EffortPath,
    Floors,
    Light,
    Scheme,
    Series,
    SetsPath,
    by_block,
)
from app.domain.progression.table import Cell, WeekRow, table

__all__ = [
    "Cell",
    "DoubleProgression",
    "EffortPath",
    "Floors",
    "Light",
    "RepPath",
    "Scheme",
    "Series",
    "SetsPath",
    "Stepwise",
    "Undulating",
    "Wave",
    "WeekRow",
    "apply",
    "by_block",
    "table",
    "targets",
]
