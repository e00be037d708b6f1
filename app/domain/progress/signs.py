"""Signs of stalling and of too much strain, worded as suggestions."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass
from enum import StrEnum

from app.domain.curve import Curve
from app.domain.program import Slot
from app.domain.progress.next_load import DayDone, reserve_meant
from app.domain.results import CheckIn, SlotResult
from app.domain.trend import Trend
from app.domain.units import number_text
from app.domain.wording import tr
from app.domain.working import COMMON_PRACTICE, Line

STALL_WEEKS = 4
"""An estimate that has not risen for so long is worth a look. Common practice."""

LESS_RESERVE = 1.0
"""Ending sets so many repetitions nearer to failure than meant, on average, is a sign of fatigue.
Common practice."""

POOR = 2.0
"""Check-in marks (1 to 5) that average so low are a sign. Common practice."""


class Sign(StrEnum):
    """What the logs may be saying."""

    STALL = "stall"
    OVER_REACH = "over_reach"


@dataclass(frozen=True, slots=True)
class Suggestion:
    """Something worth a look; text: a sentence that suggests and does not decide."""

    sign: Sign
    text: str
    lines: tuple[Line, ...]
    sources: tuple[str, ...] = (COMMON_PRACTICE, "bell2023")


def stall(strength: Trend) -> Suggestion | None:
    """A suggestion if the estimate has not clearly risen for four weeks or more, else None."""
    if strength.weeks < STALL_WEEKS or strength.low_per_week > 0:
        return None
    what = tr("is falling") if strength.high_per_week < 0 else tr("has not clearly risen")
    return Suggestion(
        Sign.STALL,
        tr(
            "The estimate {what} over {weeks:.0f} weeks. Worth a look: sleep and "
            "food, a light week, another rep zone, or a related exercise.",
            what=what,
            weeks=strength.weeks,
        ),
        (_trend_line(tr("Estimated 1RM"), strength),),
    )


def over_reach(
    slots: Iterable[tuple[Slot, SlotResult]],
    check_ins: Iterable[CheckIn] = (),
    *,
    strength: Trend | None = None,
    curve: str | Curve = "textbook",
) -> Suggestion | None:
    """A suggestion if at least two signs of too much strain meet, else None.

    The signs: sets end nearer to failure than meant, a clearly falling estimate, and poor sleep,
    soreness or mood in the check-ins. slots: recent slots with what was done of them.
    """
    days = [
        DayDone(slot, result, reserve_meant(slot, curve)) for slot, result in slots if result.sets
    ]
    lines = [
        line
        for line in (_reserve_line(days), _falling_line(strength), _marks_line(check_ins))
        if line is not None
    ]
    if len(lines) < 2:
        return None
    return Suggestion(
        Sign.OVER_REACH,
        tr(
            "Several signs of strain meet. Consider a light week, and ask how sleep, "
            "food and life outside training are going; if it lasts, a practitioner "
            "should have a look."
        ),
        tuple(lines),
    )


def _reserve_line(days: list[DayDone]) -> Line | None:
    gaps = [
        done.rir - day.meant
        for day in days
        for done in day.result.sets
        if day.meant is not None and done.rir is not None
    ]
    if not gaps or sum(gaps) / len(gaps) > -LESS_RESERVE:
        return None
    mean = sum(gaps) / len(gaps)
    return Line(
        tr("Reserve against what was meant"), tr("{mean} on average", mean=number_text(mean))
    )


def _falling_line(strength: Trend | None) -> Line | None:
    if strength is None or strength.high_per_week >= 0:
        return None
    return _trend_line(tr("Estimated 1RM"), strength)


def _marks_line(check_ins: Iterable[CheckIn]) -> Line | None:
    marks = [
        mark
        for check_in in check_ins
        for mark in (check_in.sleep, check_in.soreness, check_in.mood)
        if mark is not None
    ]
    if len(marks) < 3 or sum(marks) / len(marks) > POOR:
        return None
    return Line(
        tr("Sleep, soreness and mood"),
        tr("{marks} of 5", marks=number_text(sum(marks) / len(marks))),
    )


def _trend_line(label: str, line: Trend) -> Line:
    span = tr(
        "{low_per_week:+.2f} to {high_per_week:+.2f}",
        low_per_week=line.low_per_week,
        high_per_week=line.high_per_week,
    )
    return Line(label, tr("{per_week:+.2f} kg a week", per_week=line.per_week), span)
