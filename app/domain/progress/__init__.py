"""What results say: trends, adherence, the next load, and signs worth a look.

Everything here is a suggestion to the coach, worded as one. The robust regression is passed in
(`scipy.stats.theilslopes`).
"""

from app.domain.progress.next_load import Adjustment, Move, next_load, rises_in_reach
from app.domain.progress.series import (
    EVERY_DAY,
    Corridor,
    Days,
    MassSeries,
    Origin,
    StrengthPoint,
    StrengthSeries,
    band_at,
    mass_corridor,
    mass_series,
    monday,
    strength_series,
    weeks_without,
)
from app.domain.progress.signs import Sign, Suggestion, over_reach, stall
from app.domain.progress.trends import (
    Adherence,
    DatedMax,
    adherence,
    mass_trend,
    maxima,
    strength_trend,
)
from app.domain.progress.weeks import WeekDone, weeks_done

__all__ = [
    "EVERY_DAY",
    "Adherence",
    "Adjustment",
    "Corridor",
    "DatedMax",
    "Days",
    "MassSeries",
    "Move",
    "Origin",
    "Sign",
    "StrengthPoint",
    "StrengthSeries",
    "Suggestion",
    "WeekDone",
    "adherence",
    "band_at",
    "mass_corridor",
    "mass_series",
    "mass_trend",
    "maxima",
    "monday",
    "next_load",
    "over_reach",
    "rises_in_reach",
    "stall",
    "strength_series",
    "strength_trend",
    "weeks_done",
    "weeks_without",
]
