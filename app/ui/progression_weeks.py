"""What a scheme would make of each week, as the progression's chart shows it. No painting."""

from __future__ import annotations

from collections import Counter
from dataclasses import dataclass

from app.domain import effort
from app.domain.program import Program, Role, Week
from app.domain.wording import tr
from app.ui.season_columns import core_target


@dataclass(frozen=True, slots=True)
class Course:
    """One week: rep target of the core work, sets in all, effort of core work and assistance.

    Texts are empty where the week has no such work.
    """

    reps: str
    sets: int
    light: bool
    core: str
    assistance: str


@dataclass(frozen=True, slots=True)
class ChartWeek:
    """A week now and after; index counts from 0."""

    index: int
    now: Course
    after: Course

    @property
    def told(self) -> str:
        """'Week 7: core work 12 → 10 reps, 31 → 29 sets, core RIR 2, assistance RIR 1'."""
        now, after = self.now, self.after
        parts = []
        if after.reps:
            parts.append(tr("core work {change} reps", change=_change(now.reps, after.reps)))
        parts.append(tr("{change} sets", change=_change(str(now.sets), str(after.sets))))
        if after.core:
            parts.append(tr("core {change}", change=_change(now.core, after.core)))
        if after.assistance:
            parts.append(
                tr("assistance {change}", change=_change(now.assistance, after.assistance))
            )
        light = tr(", light week") * after.light
        return tr(
            "Week {index}{light}: {parts}",
            index=self.index + 1,
            light=light,
            parts=", ".join(parts),
        )


def _change(now: str, after: str) -> str:
    return after if now == after or not now else f"{now} \N{RIGHTWARDS ARROW} {after}"


def chart_weeks(now: Program, after: Program) -> tuple[ChartWeek, ...]:
    """Every week of two states of a program that have the same weeks."""
    pairs = zip(now.weeks, after.weeks, strict=True)
    return tuple(ChartWeek(k, course(a), course(b)) for k, (a, b) in enumerate(pairs))


def course(week: Week) -> Course:
    """One week's part in the chart."""
    return Course(
        reps=core_target(week),
        sets=sum(slot.sets for slot in week.slots()),
        light=week.light,
        core=common_effort(week, Role.CORE),
        assistance=common_effort(week, Role.ASSISTANCE),
    )


def common_effort(week: Week, role: Role) -> str:
    """'RIR 2', the commonest effort of a week's core work or assistance; empty without any."""
    alike = Counter((slot.effort, slot.reps.high) for slot in week.slots() if slot.role is role)
    texts: Counter[str] = Counter()
    for (kind, high), count in alike.items():
        texts[effort.text(kind, high)] += count
    return max(texts, key=texts.__getitem__, default="")
