"""How each number of the window came about: what F3, or a click on it, tells. No painting.

Every account is a `Working`; the numbers in it are those that the panes show, read from the same
values.
"""

from __future__ import annotations

from dataclasses import dataclass, replace

from app.domain import dose
from app.domain.checks.context import Context
from app.domain.edits.parts import find_slot, locate
from app.domain.exercise import Muscle
from app.domain.findings import Finding, Weight
from app.domain.muscle_groups import GROUPS
from app.domain.prescription_text import format_slot
from app.domain.program import Role, Session, Slot, SlotId, Week, day_name
from app.domain.session_time import start_minutes, whole_minutes
from app.domain.wording import tr
from app.domain.working import COMMON_PRACTICE, UNSOURCED, Line, Working
from app.ui.bench import Bench
from app.ui.season_columns import core_target
from app.ui.tally_rows import TallyRow, range_text, tally
from app.ui.words import DASH, number


@dataclass(frozen=True, slots=True)
class Account:
    """An account, and a sentence below its lines: mostly the range with its reason."""

    working: Working
    extra: str = ""


# -- sets of a muscle ------------------------------------------------------------------------------


def of_row(bench: Bench, row: TallyRow, week: Week) -> Account:
    """Of a week's sets for a muscle of the emphasis or for a group of others."""
    catalogue = bench.desk.catalogue
    group = next((g for g in GROUPS if g.key == row.about), None)
    if row.emphasised or group is None:
        working = dose.sets_working(week, row.muscles[0], catalogue)
    else:
        working = dose.group_working(week, group, catalogue)
    return Account(working, _range_sentence(row))


def _range_sentence(row: TallyRow) -> str:
    if row.range is None:
        return ""
    return tr("Range {range}: {reason}", range=range_text(row), reason=row.range.reason)


def rows_of(bench: Bench, index: int) -> tuple[TallyRow, ...]:
    """The lines of a week's tally."""
    names = {muscle: name.trade for muscle, name in bench.shelf.muscles.items()}
    week = bench.desk.program.weeks[index]
    return tally(bench.desk.facts(week), bench.desk.context, index, names)


# -- a card ----------------------------------------------------------------------------------------


def of_card(bench: Bench, slot_id: SlotId) -> Account:
    """Of a card's load, or why it has none; and when in its session it begins."""
    desk = bench.desk
    slot = find_slot(desk.program, slot_id)
    place = locate(desk.program, slot_id)
    session = desk.program.weeks[place.week].days[place.day].sessions[place.session]
    extra = _begins(bench, slot, session)
    load, ramp = desk.load(slot), _ramp_lines(bench, slot, session, day=place.day)
    if load is not None:
        working = load.working(desk.client.units)
        return Account(replace(working, lines=(*working.lines, *ramp)), extra)
    exercise = desk.catalogue[slot.exercise]
    line = format_slot(slot, timed=exercise.timed, unit=desk.client.units)
    why = tr("No strength test yet. Without one the plan shows effort only.")
    working = Working(
        title=tr("No load for {exercise}", exercise=exercise.name),
        about=why,
        lines=(Line(tr("Prescription"), line), *ramp),
    )
    return Account(working, extra)


def _ramp_lines(bench: Bench, slot: Slot, session: Session, *, day: int) -> tuple[Line, ...]:
    """The ramp sets before a card and where they come from; empty where it has none."""
    from app.domain.ramp_account import ramp_line
    from app.domain.warmup import ramps_of

    desk = bench.desk

    def load_of(other: Slot) -> float | None:
        load = desk.load(other)
        return None if load is None else load.load_kg

    found = ramps_of(
        session,
        desk.catalogue.__getitem__,
        load_of=load_of,
        increments=desk.client.increments_on(day),
    )
    sets = next((ramp.sets for ramp in found if ramp.slot == slot.id), ())
    line = ramp_line(slot, sets, desk.client.units)
    return () if line is None else (line,)


def _begins(bench: Bench, slot: Slot, session: Session) -> str:
    catalogue = bench.desk.catalogue
    starts = start_minutes(session, catalogue)
    at = next(n for n, other in enumerate(session.slots) if other.id == slot.id)
    return tr(
        "Begins at minute {minute} of its session. F3 on the day's head tells the minutes.",
        minute=whole_minutes(starts[at]),
    )


# -- a day -----------------------------------------------------------------------------------------


def of_day(bench: Bench, day: int) -> Account:
    """Of a day's sets and minutes, session by session."""
    desk, week = bench.desk, bench.desk.program.weeks[bench.week]
    sessions = week.days[day].sessions
    free = desk.client.free[day].minutes
    cap = tr("{minutes} minutes are free.", minutes=free) if free else ""
    if not sessions:
        title = tr("Nothing on {day}", day=day_name(day))
        return Account(Working(title, tr("no session"), ()), cap)
    parts = [dose.minutes_working(session, desk.catalogue) for session in sessions]
    minutes = desk.facts(week).minutes_by_day[day]
    lines: list[Line] = []
    for part in parts:
        if len(parts) > 1:
            lines.append(Line(part.about, part.title))
        lines += part.lines
    sets = [slot.sets for session in sessions for slot in session.slots]
    lines.append(Line(tr("Sets of the day"), str(sum(sets)), " + ".join(map(str, sets))))
    about = parts[0].about if len(parts) == 1 else day_name(day)
    title = tr("{minutes} min on {day}", minutes=whole_minutes(minutes), day=day_name(day))
    return Account(Working(title, about, tuple(lines), parts[0].sources), cap)


# -- a week of the season --------------------------------------------------------------------------


def of_week(bench: Bench, index: int, *, whole: bool = False) -> Account:
    """Of a column of the season: sets, rep target, minutes and findings.

    whole: sets of every muscle, as the heat strip shows them, not of the emphasis alone.
    """
    desk = bench.desk
    week, facts = desk.program.weeks[index], desk.facts(desk.program.weeks[index])
    rows = rows_of(bench, index)
    lines = [_sets_line(row, light=week.light) for row in rows if whole or row.emphasised]
    target = core_target(week)
    if target:
        lines.append(Line(tr("Rep target"), target, tr("commonest of the core work below")))
    for day, session in week.sessions():
        lines += [
            Line(desk.catalogue[slot.exercise].name, _reps(slot), day_name(day))
            for slot in session.slots
            if slot.role is Role.CORE
        ]
    for day, minutes in enumerate(facts.minutes_by_day):
        if minutes:
            free = desk.client.free[day].minutes
            cap = tr("of {minutes} free", minutes=free) if free else ""
            told = tr("{minutes} min", minutes=whole_minutes(minutes))
            lines.append(Line(day_name(day), told, cap))
    found = _counts(bench, week)
    lines.append(Line(tr("Findings"), found or tr("none"), tr("accepted ones left out")))
    about = tr("light week, ranges do not hold") if week.light else tr("sets beside their ranges")
    sources = {row.range.source for row in rows if row.range is not None and row.emphasised}
    title = tr("Week {number}", number=index + 1)
    return Account(
        Working(title, about, tuple(lines), tuple(sorted(sources))),
        tr("F3 in the tally tells the sets of a muscle exercise by exercise."),
    )


def _reps(slot: Slot) -> str:
    low, high = slot.reps.low, slot.reps.high
    return str(low) if low == high else f"{low}{DASH}{high}"


def _sets_line(row: TallyRow, *, light: bool) -> Line:
    told = tr("{sets} sets", sets=number(row.sets))
    if row.range is None or light:
        return Line(row.name, told)
    where = tr("below") if row.below else tr("above") if row.above else tr("within")
    return Line(row.name, told, tr("{where} {range}", where=where, range=range_text(row)))


def _counts(bench: Bench, week: Week) -> str:
    accepted = {one.finding for one in bench.desk.program.accepted}
    here = [f for f in bench.desk.findings if f.place.week == week.id and f.id not in accepted]
    counts = ((weight, sum(f.weight is weight for f in here)) for weight in Weight)
    return ", ".join(weight.counted(count) for weight, count in counts if count)


# -- a finding -------------------------------------------------------------------------------------


def of_finding(bench: Bench, finding: Finding) -> Account:
    """Of a finding's measured value: beside its range, and how it was counted where it was."""
    lines: list[Line] = []
    band = finding.range
    unit = "" if band is None else tr(band.unit)
    if finding.measured is not None:
        lines.append(Line(tr("Measured"), f"{number(finding.measured, places=2)} {unit}".strip()))
    if band is not None and band.text:
        lines.append(Line(tr("Range"), f"{band.text} {unit}".strip()))
        if finding.measured is not None:
            off = band.short_by(finding.measured) or band.over_by(finding.measured)
            word = tr("Short by") if band.short_by(finding.measured) else tr("Over by")
            if off:
                lines.append(Line(word, f"{number(off, places=2)} {unit}".strip()))
    if finding.place_text:
        lines.append(Line(tr("Where"), finding.place_text))
    counted = _counted(bench, finding)
    sources: tuple[str, ...] = (finding.source,) if finding.source else ()
    if sources and finding.source not in UNSOURCED + tuple(bench.shelf.references):
        lines.append(Line(tr("Said by"), finding.source))
        sources = ()
    if counted is not None:
        lines += counted.lines
        more = tuple(key for key in counted.sources if key not in (*sources, COMMON_PRACTICE))
        sources += more
    return Account(
        Working(finding.text, finding.weight.word, tuple(lines), sources), finding.reason
    )


def _counted(bench: Bench, finding: Finding) -> Working | None:
    """How the measured value was counted, for the rules that count sets, sessions or minutes."""
    desk = bench.desk
    week = next((w for w in desk.program.weeks if w.id == finding.place.week), None)
    if week is None:
        return None
    catalogue = desk.catalogue
    group = next((g for g in GROUPS if g.key == finding.about), None)
    muscle = next((m for m in Muscle if m.value == finding.about), None)
    match finding.rule:
        case "weekly_sets" if muscle is not None and _is_emphasised(desk.context, muscle):
            return dose.sets_working(week, muscle, catalogue)
        case "weekly_sets" if group is not None:
            return dose.group_working(week, group, catalogue)
        case "weekly_frequency" if muscle is not None:
            return dose.frequency_working(week, muscle, catalogue)
        case "session_minutes" if finding.place.day is not None:
            sessions = week.days[finding.place.day].sessions
            parts = [dose.minutes_working(session, catalogue) for session in sessions]
            return (
                replace(parts[0], lines=tuple(ln for p in parts for ln in p.lines))
                if parts
                else None
            )
    return None


def _is_emphasised(context: Context, muscle: Muscle) -> bool:
    return muscle in context.emphasis
