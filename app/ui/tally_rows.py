"""What the tally says of a week: sets beside their range, muscle by muscle. No painting."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass

from app.domain.checks.context import Context
from app.domain.exercise import Muscle
from app.domain.facts import WeekFacts
from app.domain.muscle_groups import GROUPS, Group
from app.domain.ranges import Range
from app.domain.wording import tr
from app.ui.words import number


@dataclass(frozen=True, slots=True)
class TallyRow:
    """One line: a muscle of the emphasis, or a group of others."""

    about: str
    name: str
    muscles: tuple[Muscle, ...]
    sets: float
    range: Range | None
    emphasised: bool

    @property
    def below(self) -> bool:
        """True below the range."""
        return self.range is not None and self.range.short_by(self.sets) > 0

    @property
    def above(self) -> bool:
        """True above the range."""
        return self.range is not None and self.range.over_by(self.sets) > 0


def range_text(row: TallyRow) -> str:
    """'12–20', 'from 4', 'up to 8', or nothing where no range is known."""
    band = row.range
    if band is None:
        return ""
    if band.high is None:
        return tr("from {low}", low=number(band.low or 0))
    if band.low is None:
        return tr("up to {high}", high=number(band.high))
    return f"{number(band.low)}\N{EN DASH}{number(band.high)}"


def tally(
    facts: WeekFacts, context: Context, index: int, names: dict[Muscle, str]
) -> tuple[TallyRow, ...]:
    """The lines of a week: the emphasis in its order, then every main group."""
    rows = [
        TallyRow(
            muscle.value,
            names[muscle],
            (muscle,),
            facts.sets.get(muscle, 0.0),
            context.band("weekly_sets", "emphasised", index=index),
            True,
        )
        for muscle in context.emphasis
    ]
    rows += [
        _group_row(facts, context, index, place=(place, group))
        for place, group in enumerate(GROUPS)
        if place not in context.emphasised_groups and (group.main or facts.by_group[place])
    ]
    return tuple(rows)


def _group_row(
    facts: WeekFacts, context: Context, index: int, *, place: tuple[int, Group]
) -> TallyRow:
    at, group = place
    sets = facts.by_group[at]
    # a muscle that the plan leaves alone has no range to fall short of
    band = context.band("weekly_sets", "other", index=index) if group.main and sets else None
    return TallyRow(group.key, tr(group.name), group.muscles, sets, band, False)


def scale_top(rows: Iterable[TallyRow]) -> float:
    """The end of the common scale: 24, or the next five above the largest value."""
    largest = max((row.sets for row in rows), default=0.0)
    return 24.0 if largest <= 24 else 5.0 * -(-largest // 5)
