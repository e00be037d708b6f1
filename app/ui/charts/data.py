"""What each chart shows, before anything is drawn: title, sentences, table and series.

Pure values: worked out off the GUI thread, and the same for window, file and screen reader.
"""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import replace
from datetime import date, timedelta

from app.domain.exercise import ExerciseKey, LoadKind, Muscle
from app.domain.loads import day_text, load_for
from app.domain.muscle_groups import muscle_name
from app.domain.program import Slot
from app.domain.progress import told
from app.domain.progress.reported import (
    MARKS,
    SITE_NAMES,
    days_of,
    girth_series,
    girths_text,
    in_length,
    length_unit,
    mark_series,
    marks_text,
)
from app.domain.progress.series import (
    Days,
    Origin,
    mass_series,
    strength_series,
)
from app.domain.progress.trends import tells_strength
from app.domain.progress.weeks import WeekDone, weeks_done
from app.domain.trend import Regression
from app.domain.units import in_units, number_text
from app.domain.wording import mark, tr
from app.ui.charts.kinds import (
    MOST_MUSCLES,
    NAMES,
    NO_GIRTHS,
    NO_MARKS,
    NO_MASS,
    NO_PROGRAM,
    NO_RESULTS,
    NO_STRENGTH,
    Asked,
    Chart,
    Choice,
    Kind,
)


def exercises_to_show(asked: Asked) -> tuple[ExerciseKey, ...]:
    """Exercises with a test or a result; those with most days that tell of strength come first."""
    days: dict[ExerciseKey, set[date]] = {}
    for test in asked.client.tests:
        days.setdefault(test.exercise, set()).add(test.on)
    for result in asked.diary.results:
        told_on = days.setdefault(result.exercise, set())
        if result.on not in told_on and any(map(tells_strength, result.sets)):
            told_on.add(result.on)
    shown = [
        key
        for key in days
        if key in asked.catalogue
        and not asked.catalogue[key].timed
        and asked.catalogue[key].load_kind not in (LoadKind.BAND, LoadKind.NONE)
    ]
    return tuple(sorted(shown, key=lambda key: (-len(days[key]), asked.catalogue[key].name)))


def chart_of(asked: Asked, choice: Choice, regression: Regression) -> Chart:
    """The chart that was chosen, as values."""
    match choice.kind:
        case Kind.STRENGTH:
            return _strength(asked, choice, regression)
        case Kind.MASS:
            return _mass(asked, choice, regression)
        case Kind.SETS:
            return _sets(asked, choice)
        case Kind.TONNAGE:
            return _tonnage(asked, choice)
        case Kind.ADHERENCE:
            return _adherence(asked, choice)
        case Kind.MUSCLES:
            return _muscles(asked, choice)
        case Kind.GIRTHS:
            return _girths(asked, choice, regression)
        case Kind.MARKS:
            return _marks(asked, choice)


def _strength(asked: Asked, choice: Choice, regression: Regression) -> Chart:
    units = asked.client.units
    key = choice.exercise or next(iter(exercises_to_show(asked)), None)
    if key is None or key not in asked.catalogue:
        return Chart(
            Kind.STRENGTH,
            tr(NAMES[Kind.STRENGTH]),
            units,
            "",
            empty=tr(NO_STRENGTH),
            act="strength_test",
        )
    series = strength_series(
        asked.catalogue[key],
        asked.client,
        asked.diary.results,
        regression=regression,
        days=choice.days,
    )
    title = tr("{exercise}: one-repetition maximum", exercise=series.exercise.name)
    words = {Origin.TEST: tr("test"), Origin.SETS: tr("sets done")}
    return Chart(
        Kind.STRENGTH,
        title,
        units,
        told.strength_text(series, units),
        head=(tr("Day"), units, tr("From"), tr("To"), tr("Rests on")),
        rows=tuple(
            (
                day_text(p.on),
                *(_mass_text(kg, units) for kg in (p.kg, p.low_kg, p.high_kg)),
                words[p.origin],
            )
            for p in series.points
        ),
        empty="" if series.points else tr(NO_STRENGTH),
        act="strength_test",
        strength=series,
    )


def _mass_text(mass_kg: float, units: str) -> str:
    return number_text(in_units(mass_kg, units), 1)


def _mass(asked: Asked, choice: Choice, regression: Regression) -> Chart:
    units = asked.client.units
    series = mass_series(
        asked.client,
        asked.diary.check_ins,
        regression=regression,
        program=asked.program,
        days=choice.days,
    )
    return Chart(
        Kind.MASS,
        tr(NAMES[Kind.MASS]),
        units,
        told.mass_text(series, units),
        head=(tr("Day"), units),
        rows=tuple((day_text(p.on), _mass_text(p.value, units)) for p in series.points),
        empty="" if series.points else tr(NO_MASS),
        act="check_in",
        mass=series,
    )


def weeks_to_show(asked: Asked, days: Days) -> tuple[WeekDone, ...]:
    """The weeks of the open program that lie at least partly in the days."""
    program = asked.program
    if program is None:
        return ()

    def load_kg(slot: Slot) -> float | None:
        load = load_for(slot, asked.catalogue[slot.exercise], asked.client, program.curve)
        return None if load is None else load.load_kg

    weeks = weeks_done(
        program,
        asked.diary.results_of(program.id),
        asked.catalogue,
        load_kg=load_kg,
        printed=asked.printed,
    )
    return tuple(week for week in weeks if _touches(week, days))


def _touches(week: WeekDone, days: Days) -> bool:
    last = week.start + timedelta(days=6)
    return (days.first is None or last >= days.first) and (
        days.last is None or week.start <= days.last
    )


def _of_weeks(
    asked: Asked, choice: Choice, text: str, weeks: tuple[WeekDone, ...], **fields: object
) -> Chart:
    """A chart of weeks; empty where no program is open or nothing was entered."""
    empty, act = "", "results"
    if asked.program is None:
        empty, act = tr(NO_PROGRAM), ""
    elif not any(week.entered for week in weeks) and choice.kind is Kind.ADHERENCE:
        empty = tr(NO_RESULTS)
    made = Chart(
        choice.kind,
        tr(NAMES[choice.kind]),
        asked.client.units,
        text,
        empty=empty,
        act=act,
        weeks=weeks,
    )
    return replace(made, **fields)  # type: ignore[arg-type]


def _week_cells(week: WeekDone) -> tuple[str, str]:
    number = tr("{n}, light", n=week.number) if week.light else str(week.number)
    return number, day_text(week.start)


WEEK_HEAD = (mark("Week"), mark("From"))


def _head(*texts: str) -> tuple[str, ...]:
    return (*(tr(text) for text in WEEK_HEAD), *texts)


def _or_none(value: float | None, places: int = 0) -> str:
    return tr("no entry") if value is None else number_text(value, places)


def _sets(asked: Asked, choice: Choice) -> Chart:
    weeks = weeks_to_show(asked, choice.days)
    rows = tuple((*_week_cells(w), str(w.planned_sets), _or_none(w.done_sets)) for w in weeks)
    return _of_weeks(
        asked,
        choice,
        told.volume_text(weeks),
        weeks,
        head=_head(tr("Sets planned"), tr("Sets done")),
        rows=rows,
    )


def _tonnage(asked: Asked, choice: Choice) -> Chart:
    weeks, units = weeks_to_show(asked, choice.days), asked.client.units

    def cell(mass_kg: float | None) -> str:
        return _or_none(None if mass_kg is None else in_units(mass_kg, units))

    return _of_weeks(
        asked,
        choice,
        told.tonnage_text(weeks, units),
        weeks,
        head=_head(
            tr("Planned, {units}", units=units),
            tr("Done, {units}", units=units),
            tr("Sets without a load"),
            tr("Planned loads"),
        ),
        rows=tuple(
            (
                *_week_cells(w),
                cell(w.planned_kg),
                cell(w.done_kg),
                str(w.without_load),
                tr("today's")
                if w.printed_on is None
                else tr("booklet of {day}", day=day_text(w.printed_on)),
            )
            for w in weeks
        ),
    )


def _adherence(asked: Asked, choice: Choice) -> Chart:
    weeks = weeks_to_show(asked, choice.days)
    rows = tuple(
        (
            *_week_cells(week),
            tr("no entry") if week.done is None else f"{week.done.share:.0%}",
            ""
            if week.done is None
            else tr(
                "{done} of {planned}",
                done=week.done.done_sessions,
                planned=week.done.planned_sessions,
            ),
        )
        for week in weeks
    )
    return _of_weeks(
        asked,
        choice,
        told.adherence_text(weeks),
        weeks,
        head=_head(tr("Planned sets done"), tr("Sessions")),
        rows=rows,
    )


def muscles_to_show(asked: Asked, chosen: Iterable[Muscle] = ()) -> tuple[Muscle, ...]:
    """The muscles chosen, else those of the emphasis, else the ones with the most planned sets."""
    wanted = tuple(chosen)
    if not wanted and asked.program is not None:
        wanted = asked.program.emphasis or asked.client.emphasis
    return tuple(dict.fromkeys(wanted))[:MOST_MUSCLES]


def _muscles(asked: Asked, choice: Choice) -> Chart:
    weeks = weeks_to_show(asked, choice.days)
    muscles = muscles_to_show(asked, choice.muscles)
    if not muscles and weeks:
        total = {
            muscle: sum(week.planned_muscles.get(muscle, 0.0) for week in weeks)
            for muscle in Muscle
        }
        most = sorted(total, key=lambda muscle: -total[muscle])[:4]
        muscles = tuple(muscle for muscle in most if total[muscle])
    head = [text for m in muscles for text in _muscle_head(m)]
    rows = []
    for week in weeks:
        cells = []
        for muscle in muscles:
            done = week.done_muscles.get(muscle, 0.0) if week.entered else None
            cells += [number_text(week.planned_muscles.get(muscle, 0.0)), _or_none(done, 1)]
        rows.append((*_week_cells(week), *cells))
    return _of_weeks(
        asked,
        choice,
        told.muscles_text(weeks, muscles),
        weeks,
        head=_head(*head),
        rows=tuple(rows),
        muscles=muscles,
    )


def _muscle_head(muscle: Muscle) -> tuple[str, str]:
    name = muscle_name(muscle)
    return tr("{muscle}, planned", muscle=name), tr("{muscle}, done", muscle=name)


def _girths(asked: Asked, choice: Choice, regression: Regression) -> Chart:
    units = asked.client.units
    series = girth_series(asked.diary.check_ins, regression, days=choice.days)
    heads = (f"{tr(SITE_NAMES[one.site])}, {length_unit(units)}" for one in series)
    by_day = [{p.on: in_length(p.value, units) for p in one.points} for one in series]
    return Chart(
        Kind.GIRTHS,
        tr(NAMES[Kind.GIRTHS]),
        units,
        girths_text(series, units),
        head=(tr("Day"), *heads),
        rows=_rows_by_day(days_of(series), by_day),
        empty="" if series else tr(NO_GIRTHS),
        act="check_in",
        girths=series,
    )


def _marks(asked: Asked, choice: Choice) -> Chart:
    series = mark_series(asked.diary.check_ins, days=choice.days)
    by_day = [{p.on: p.value for p in one.points} for one in series]
    return Chart(
        Kind.MARKS,
        tr(NAMES[Kind.MARKS]),
        asked.client.units,
        marks_text(series),
        head=(tr("Day"), *(tr(MARKS[one.key]) for one in series)),
        rows=_rows_by_day(days_of(series), by_day),
        empty="" if series else tr(NO_MARKS),
        act="check_in",
        marks=series,
    )


def _rows_by_day(
    days: Iterable[date], columns: list[dict[date, float]]
) -> tuple[tuple[str, ...], ...]:
    """A row a day; a cell stays empty where nothing was said."""
    return tuple(
        (
            day_text(day),
            *("" if day not in column else number_text(column[day], 1) for column in columns),
        )
        for day in days
    )
