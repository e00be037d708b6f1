"""The rows of the findings list as values: what is tried, what stands, what is accepted."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass

from app.desk import Desk, Preview
from app.domain.findings import Finding, Weight
from app.domain.program import WeekId
from app.domain.wording import mark, tr
from app.domain.working import UNSOURCED
from app.ui.bench import Bench
from app.ui.words import number

APPEARS, GOES = mark("would appear"), mark("would go")


@dataclass(frozen=True, slots=True)
class Row:
    """A finding in the list. state: '', `APPEARS` or `GOES`; reason: why accepted."""

    finding: Finding
    state: str = ""
    reason: str = ""

    @property
    def group(self) -> int:
        """0 for what is tried, 1 to 3 for the weights, heaviest first, 4 for what is accepted."""
        if self.state == APPEARS:
            return 0
        return 4 if self.reason else 1 + self.finding.weight

    def shows_as(self, other: Row) -> bool:
        """True if the other row needs no painting anew: the same finding in the same state."""
        return (
            self.finding is other.finding
            and self.state == other.state
            and self.reason == other.reason
        )


def finding_rows(desk: Desk, preview: Preview | None, week: WeekId | None) -> list[Row]:
    """The rows of one week, or of the whole program where `week` is None, group by group.

    Within a group the order of the checks stays.
    """

    def stands(finding: Finding) -> bool:
        return week is None or finding.place.week in (week, None)

    reasons = {a.finding: a.reason for a in desk.program.accepted}
    lost = set() if preview is None else {f.id for f in preview.lost}
    rows = [] if preview is None else [Row(f, APPEARS) for f in preview.gained if stands(f)]
    for finding in desk.findings:
        if stands(finding):
            key = finding.id
            rows.append(Row(finding, GOES if key in lost else "", reasons.get(key, "")))
    rows.sort(key=lambda row: row.group)
    return rows


def count_open(rows: Iterable[Row]) -> dict[Weight, int]:
    """How many findings of each weight stand now and are not accepted."""
    counts = dict.fromkeys(Weight, 0)
    for row in rows:
        if not row.reason and row.state != APPEARS:
            counts[row.finding.weight] += 1
    return counts


def measured_text(finding: Finding) -> str:
    """'10, range 12–20 sets/week'; empty where the finding is not about an amount."""
    if finding.measured is None or finding.range is None or not finding.range.text:
        return ""
    return tr(
        "{measured}, range {range} {unit}",
        measured=number(finding.measured),
        range=finding.range.text,
        unit=tr(finding.range.unit),
    ).rstrip()


def source_text(bench: Bench, finding: Finding) -> str:
    """'Baz-Valle 2022, trained young men', or 'common practice'."""
    key = finding.source
    name = tr(key)
    if key not in UNSOURCED and key in bench.shelf.references:
        name = bench.shelf.references[key].short
    note = tr(finding.range.note) if finding.range is not None else ""
    return f"{name}, {note}" if note and name else name or note


def spoken(bench: Bench, row: Row) -> str:
    """The row in words."""
    finding = row.finding
    parts = (
        finding.weight.word,
        finding.text,
        finding.place_text,
        measured_text(finding),
        row.state and tr(row.state),
        row.reason and tr("accepted: {reason}", reason=row.reason),
        source_text(bench, finding),
    )
    return ". ".join(part for part in parts if part)
