"""What results say: trends, adherence, the next load, and signs worth a look.

Everything here is a suggestion to the coach, worded as one. The robust regression is passed in
(`scipy.stats.theilslopes`).
"""

from app.domain.progress.next_load import Adjustment, Move, next_load, rises_in_reach
from app.domain.progress.signs import Sign, Suggestion, over_reach, stall
from app.domain.progress.trends import (
    Adherence,
    DatedMax,
    adherence,
    mass_trend,
    maxima,
    strength_trend,
)

__all__ = [
    "Adherence",
    "Adjustment",
    "DatedMax",
    "Move",
    "Sign",
    "Suggestion",
    "adherence",
    "mass_trend",
    "maxima",
    "next_load",
    "over_reach",
    "rises_in_reach",
    "stall",
    "strength_trend",
]
