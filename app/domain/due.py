"""What a client needs next, and by when: tests, check-ins, papers, screening, consent.

Worked out from a few days that a list of all clients can give in one query, so that it is quick
for ten thousand of them. The thresholds are data and common practice; a reminder, never a rule.
"""

from __future__ import annotations

from dataclasses import dataclass
from datetime import date, timedelta
from enum import StrEnum

from app.domain.client import Stage
from app.domain.wording import mark, tr, trn
from app.domain.working import COMMON_PRACTICE


class Need(StrEnum):
    """What is due, in the order in which equally late ones are told."""

    SCREENING = "screening"
    KEEP_UNTIL = "keep_until"
    PROGRAM = "program"
    ISSUE = "issue"
    CHECK_IN = "check_in"
    TEST = "test"
    CONSENT = "consent"


@dataclass(frozen=True, slots=True)
class Terms:
    """After how many days something is due, and how many days ahead it is told. Common practice.

    screening, test, check_in: days since the last one; issue, program, keep: days before the end
    of the last booklet, the last program and the time that records may be kept.
    """

    screening: int = 365
    test: int = 84
    check_in: int = 14
    issue: int = 7
    program: int = 14
    keep: int = 30
    source: str = COMMON_PRACTICE


TERMS = Terms()


@dataclass(frozen=True, slots=True)
class Standing:
    """The few days that decide what a client needs; None for what never took place.

    program_start and program_end: of the program that ends last, archived ones left out; ends
    are the first day after the last week, of the last booklet too (issue_end).
    """

    stage: Stage = Stage.ACTIVE
    archived: bool = False
    screened: date | None = None
    tested: date | None = None
    checked_in: date | None = None
    issue_end: date | None = None
    program_start: date | None = None
    program_end: date | None = None
    consent: date | None = None
    keep_until: date | None = None


@dataclass(frozen=True, slots=True)
class Due:
    """One thing a client needs. on: by when; None: it never took place, so it is due now."""

    need: Need
    on: date | None

    def late(self, today: date) -> int:
        """Days since it was due; below 0 while it lies ahead, 0 for what never took place."""
        return 0 if self.on is None else (today - self.on).days

    def text(self, today: date) -> str:
        """'Check-in, 3 days late', 'Booklet ends in 5 days', 'Not screened yet'."""
        if self.on is None:
            return tr(_NEVER[self.need])
        late = self.late(today)
        ahead, now, past = _TEXTS[self.need]
        if late == 0:
            return tr(now)
        days = trn("{n} day", "{n} days", abs(late))
        return tr(past if late > 0 else ahead, days=days)


_NEVER = {
    Need.SCREENING: mark("Not screened yet"),
    Need.KEEP_UNTIL: mark("No end of keeping agreed"),
    Need.PROGRAM: mark("No program yet"),
    Need.ISSUE: mark("No booklet handed out yet"),
    Need.CHECK_IN: mark("No check-in yet"),
    Need.TEST: mark("No strength test yet"),
    Need.CONSENT: mark("No consent noted"),
}

_TEXTS = {
    Need.SCREENING: (
        mark("Screening due in {days}"),
        mark("Screening due today"),
        mark("Screening {days} overdue"),
    ),
    Need.KEEP_UNTIL: (
        mark("Records agreed to be kept for {days} more"),
        mark("Records agreed to be kept until today"),
        mark("Records kept {days} longer than agreed"),
    ),
    Need.PROGRAM: (
        mark("Program ends in {days}"),
        mark("Program ends today"),
        mark("Program over for {days}"),
    ),
    Need.ISSUE: (
        mark("Booklet runs out in {days}"),
        mark("Booklet runs out today"),
        mark("Booklet ran out {days} ago"),
    ),
    Need.CHECK_IN: (
        mark("Check-in due in {days}"),
        mark("Check-in due today"),
        mark("Check-in {days} overdue"),
    ),
    Need.TEST: (
        mark("Strength test due in {days}"),
        mark("Strength test due today"),
        mark("Strength test {days} overdue"),
    ),
    Need.CONSENT: (mark("No consent noted"),) * 3,
}


def dues(standing: Standing, today: date, terms: Terms = TERMS) -> tuple[Due, ...]:
    """Everything the client needs now, the latest first; nothing for what lies further ahead.

    Who is paused, ended or archived needs nothing but an answer when the time to keep records
    runs out. Who enquires needs a screening first; nothing else is asked before it.
    """
    found = [*_keeping(standing, today, terms)]
    if standing.archived or standing.stage in (Stage.PAUSED, Stage.ENDED):
        return tuple(found)
    screening = _since(Need.SCREENING, standing.screened, terms.screening)
    if standing.screened is None:
        return (screening, *found)
    if screening.late(today) >= 0:
        found.append(screening)
    if standing.stage is Stage.ENQUIRY:
        return _sorted(found, today)
    if standing.consent is None:
        found.append(Due(Need.CONSENT, None))
    found += _plan(standing, today, terms)
    return _sorted(found, today)


def _keeping(standing: Standing, today: date, terms: Terms) -> list[Due]:
    end = standing.keep_until
    if end is None or (end - today).days > terms.keep:
        return []
    return [Due(Need.KEEP_UNTIL, end)]


def _plan(standing: Standing, today: date, terms: Terms) -> list[Due]:
    """What an active, screened client's training needs."""
    if standing.program_end is None:
        return [Due(Need.PROGRAM, None)]
    found = []
    if (standing.program_end - today).days <= terms.program:
        found.append(Due(Need.PROGRAM, standing.program_end))
    over = standing.program_end <= today
    if over:
        return found  # the next program comes first; its papers, tests and check-ins follow
    start = standing.program_start
    if standing.issue_end is None:
        if start is None or (start - today).days <= terms.issue:
            found.append(Due(Need.ISSUE, None))
    elif (standing.issue_end - today).days <= terms.issue and (
        standing.issue_end < standing.program_end
    ):
        found.append(Due(Need.ISSUE, standing.issue_end))
    for need, last, days in (
        (Need.TEST, standing.tested, terms.test),
        (Need.CHECK_IN, standing.checked_in, terms.check_in),
    ):
        if last is None and need is Need.CHECK_IN and _just_begun(standing, today, days):
            continue
        due = _since(need, last, days)
        if due.late(today) >= 0:
            found.append(due)
    return found


def _just_begun(standing: Standing, today: date, days: int) -> bool:
    """True until the first check-in could be due."""
    start = standing.program_start
    return start is not None and (today - start).days < days


def _since(need: Need, last: date | None, days: int) -> Due:
    return Due(need, None if last is None else last + timedelta(days=days))


def _sorted(found: list[Due], today: date) -> tuple[Due, ...]:
    order = list(Need)
    return tuple(sorted(found, key=lambda due: (-due.late(today), order.index(due.need))))
