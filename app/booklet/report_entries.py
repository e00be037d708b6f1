"""The findings of a program as a colleague reads them: alike ones of several weeks as one."""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from dataclasses import dataclass
from datetime import date

from app.booklet.words import full_day_text
from app.domain.client import Client
from app.domain.findings import Finding, Weight
from app.domain.program import Program, day_name
from app.domain.wording import listing, tr


@dataclass(frozen=True, slots=True)
class Entry:
    """One finding with the weeks it stands in, counted from 1; none for the whole program.

    accepted: the coach's reason; empty while the finding stands open.
    """

    finding: Finding
    weeks: tuple[int, ...]
    accepted: str = ""

    @property
    def day(self) -> str:
        """'Thursday', or nothing."""
        return "" if self.finding.place.day is None else day_name(self.finding.place.day)


@dataclass(frozen=True, slots=True)
class Part:
    """Entries of one weight that stand in the same weeks."""

    weeks: tuple[int, ...]
    entries: tuple[Entry, ...]


@dataclass(frozen=True, slots=True)
class Section:
    """A weight, or None for what was accepted, week by week; count: of findings, week for week."""

    weight: Weight | None
    count: int
    parts: tuple[Part, ...]

    @property
    def title(self) -> str:
        """The word for the weight, or 'Accepted'."""
        return tr("Accepted") if self.weight is None else self.weight.word


def sections(program: Program, findings: Iterable[Finding]) -> tuple[Section, ...]:
    """The findings heaviest first, then the accepted ones; only sections that have any."""
    reasons = {one.finding: one.reason for one in program.accepted}
    by_weight: dict[Weight | None, list[Finding]] = {weight: [] for weight in (*Weight, None)}
    for finding in findings:
        by_weight[None if finding.id in reasons else finding.weight].append(finding)
    return tuple(
        Section(weight, len(found), _parts(_entries(program, found, reasons)))
        for weight, found in by_weight.items()
        if found
    )


def _entries(
    program: Program, findings: Iterable[Finding], reasons: Mapping[str, str]
) -> list[Entry]:
    alike: dict[tuple[object, ...], list[Finding]] = {}
    for f in findings:
        same = (f.rule, f.about, f.place.day, f.text, f.reason, f.source, reasons.get(f.id))
        alike.setdefault(same, []).append(f)
    return [
        Entry(found[0], _weeks(program, found), reasons.get(found[0].id, ""))
        for found in alike.values()
    ]


def _weeks(program: Program, findings: Iterable[Finding]) -> tuple[int, ...]:
    ids = {f.place.week for f in findings}
    return tuple(number for number, week in enumerate(program.weeks, 1) if week.id in ids)


def _parts(entries: Iterable[Entry]) -> tuple[Part, ...]:
    by_weeks: dict[tuple[int, ...], list[Entry]] = {}
    for entry in entries:
        by_weeks.setdefault(entry.weeks, []).append(entry)
    return tuple(Part(weeks, tuple(by_weeks[weeks])) for weeks in sorted(by_weeks))


def weeks_title(weeks: tuple[int, ...], start: date) -> tuple[str, str]:
    """('Week 7', 'from 23 November 2026'), ('Weeks 1–5, 7', ''), ('The whole program', '')."""
    if not weeks:
        return tr("The whole program"), ""
    if len(weeks) == 1:
        monday = date.fromordinal(start.toordinal() + 7 * (weeks[0] - 1))
        return tr("Week {first}", first=weeks[0]), tr("from {monday}", monday=full_day_text(monday))
    runs: list[list[int]] = []
    for week in weeks:
        if runs and runs[-1][-1] == week - 1:
            runs[-1].append(week)
        else:
            runs.append([week])
    texts = [str(run[0]) if len(run) == 1 else f"{run[0]}–{run[-1]}" for run in runs]
    return tr("Weeks {texts}", texts=", ".join(texts)), ""


def initials(name: str) -> str:
    """'R. E.' for 'Runa Estvik'; 'the client' for no name."""
    return " ".join(f"{word[0].upper()}." for word in name.split()) or tr("the client")


def counts_text(found: tuple[Section, ...]) -> str:
    """'2 conflicts, 5 outside, 3 remarks and 1 accepted'."""
    parts = [
        tr("{count} accepted", count=section.count)
        if section.weight is None
        else section.weight.counted(section.count)
        for section in found
    ]
    return listing(tuple(parts)) or tr("no findings")


def client_text(client: Client, *, named: bool) -> str:
    """The client's name, or the initials alone."""
    return client.name if named else initials(client.name)
