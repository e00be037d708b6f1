"""What electromyography reported of the exercises chosen for the emphasis.

Amplitude is not growth (vigotsky2018, vigotsky2022), and a trial went against the ranking
(plotkin2023): this only ever remarks.
"""

from __future__ import annotations

from collections.abc import Iterator

from app.domain.activation import HIGH_ABOVE
from app.domain.checks.context import Context
from app.domain.checks.say import finding, how_far, week_place
from app.domain.facts import WeekFacts
from app.domain.findings import Finding
from app.domain.muscle_groups import muscle_name
from app.domain.wording import tr


def activation_share(week: WeekFacts, context: Context, *, index: int) -> Iterator[Finding]:
    """Share of an emphasised muscle's sets done with high reported activation (% of sets).

    Exercises that nobody measured are left out of the sum; without any, nothing is said.
    """
    band = context.band("activation_share", index=index)
    if band is None:
        return
    for muscle in context.emphasis:
        high = known = 0.0
        for placed in week.slots:
            amplitude = context.amplitude(placed.at.exercise, muscle)
            if amplitude is None:
                continue
            sets = placed.at.slot.sets * placed.at.exercise.fraction(muscle)
            known += sets
            high += sets if amplitude > HIGH_ABOVE else 0.0
        percent = round(100 * high / known) if known else 100
        if percent in band:
            continue
        yield finding(
            "activation_share",
            band,
            place=week_place(week.week),
            about=muscle.value,
            text=tr(
                "{muscle_name}: {percent} % of the measured sets with high "
                "reported activation, {how_far}",
                muscle_name=muscle_name(muscle),
                percent=percent,
                how_far=how_far(percent, band),
            ),
            measured=percent,
            where=tr("week {number}", number=index + 1),
        )
