"""The findings on a program as text for a terminal and as a record for other programs."""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from dataclasses import dataclass
from datetime import date
from typing import Any

from app.domain.client import Client
from app.domain.findings import Finding, Weight
from app.domain.program import Program, day_name
from app.domain.wording import DateForm, date_text, tr, trn
from app.domain.working import COMMON_PRACTICE


@dataclass(frozen=True, slots=True)
class Checked:
    """A program with everything the checks say of it; shorts: names of sources by key."""

    client: Client
    program: Program
    findings: tuple[Finding, ...]
    shorts: Mapping[str, str]

    @property
    def accepted(self) -> Mapping[str, str]:
        """The reason for each finding that the coach has accepted."""
        return {one.finding: one.reason for one in self.program.accepted}

    def source(self, finding: Finding) -> str:
        """The source of a finding as short as it is cited."""
        return self.shorts.get(finding.source, finding.source)

    def counts(self) -> dict[str, int]:
        """How many findings of each weight stand open, and how many are accepted."""
        accepted = self.accepted
        open_ones = [f for f in self.findings if f.id not in accepted]
        counts = {
            weight.name.lower(): sum(f.weight is weight for f in open_ones) for weight in Weight
        }
        return counts | {"accepted": len(self.findings) - len(open_ones)}


def report_text(checked: Checked) -> str:
    """The report as lines: one for each cause, with the weeks it stands in."""
    program, counts = checked.program, checked.counts()
    weeks = len(program.weeks)
    lines = [
        f"{program.name}, {checked.client.name}",
        trn(
            "{n} week from {start}", "{n} weeks from {start}", weeks, start=day_text(program.start)
        ),
        ", ".join(_counted(number, word) for word, number in counts.items()),
    ]
    accepted = checked.accepted
    for weight in Weight:
        found = [f for f in checked.findings if f.weight is weight and f.id not in accepted]
        lines += _section(weight.word, found, checked)
    lines += _section(tr("Accepted"), [f for f in checked.findings if f.id in accepted], checked)
    return "\n".join(lines) + "\n"


def _counted(number: int, word: str) -> str:
    many = word in ("conflict", "remark") and number != 1
    return f"{number} {word}{'s' * many}"


def _section(title: str, findings: Iterable[Finding], checked: Checked) -> list[str]:
    causes: dict[tuple[object, ...], list[Finding]] = {}
    for finding in findings:
        cause = (finding.rule, finding.about, finding.place.day)
        causes.setdefault(cause, []).append(finding)
    lines = ["", title] if causes else []
    for group in causes.values():
        lines += _cause(group, checked)
    return lines


def _cause(group: list[Finding], checked: Checked) -> list[str]:
    first = group[0]
    weeks = sorted({checked.program.week_index(f.place.week) + 1 for f in group if f.place.week})
    day = "" if first.place.day is None else day_name(first.place.day)
    place = ", ".join(part for part in (weeks_text(weeks), day) if part)
    if any(f.text != first.text for f in group):
        place += tr("; the first is shown")
    lines = [f"  {first.text}" + (f" ({place})" if place else "")]
    said = [first.reason, checked.source(first)]
    if first.id in checked.accepted:
        said = [tr("Accepted: {accepted}", accepted=checked.accepted[first.id])]
    elif first.mend is not None:
        said.append(tr("Mend: {mend}", mend=first.mend.label))
    said = [part[:1].upper() + part[1:].rstrip(".") for part in said if part]
    return [*lines, f"    {'. '.join(said)}."] if said else lines


def weeks_text(weeks: Iterable[int]) -> str:
    """Week numbers as runs: 'weeks 1–5, 7'; empty for none."""
    runs: list[list[int]] = []
    for week in weeks:
        if runs and runs[-1][-1] == week - 1:
            runs[-1].append(week)
        else:
            runs.append([week])
    parts = [str(run[0]) if len(run) == 1 else f"{run[0]}–{run[-1]}" for run in runs]
    if not parts:
        return ""
    many = len(runs) > 1 or len(runs[0]) > 1
    return f"{(tr('weeks') if many else tr('week'))} {', '.join(parts)}"


def report_record(checked: Checked) -> dict[str, Any]:
    """The report as a record for a JSON file: every finding by itself, in the order of the checks.

    week counts from 1; low, high and unit are those of the range where there is one.
    """
    program = checked.program
    return {
        "client": checked.client.name,
        "program": program.name,
        "start": program.start.isoformat(),
        "weeks": len(program.weeks),
        "counts": checked.counts(),
        "findings": [_finding_record(finding, checked) for finding in checked.findings],
    }


def _finding_record(finding: Finding, checked: Checked) -> dict[str, Any]:
    place, band = finding.place, finding.range
    record: dict[str, Any] = {
        "id": finding.id,
        "rule": finding.rule,
        "weight": finding.weight.name.lower(),
        "week": None if place.week is None else checked.program.week_index(place.week) + 1,
        "day": None if place.day is None else day_name(place.day),
        "about": finding.about,
        "text": finding.text,
        "measured": finding.measured,
        "low": None if band is None else band.low,
        "high": None if band is None else band.high,
        "unit": None if band is None else band.unit,
        "reason": finding.reason,
        "source": finding.source or COMMON_PRACTICE,
        "mend": None if finding.mend is None else finding.mend.label,
        "accepted": checked.accepted.get(finding.id),
    }
    return record


def day_text(day: date) -> str:
    """A day in full: '12 October 2026'."""
    return date_text(day, DateForm.LONG_DATE)
