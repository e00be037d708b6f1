"""Each series as sentences: what a chart shows, for who cannot see it, and for the report."""

from __future__ import annotations

from collections.abc import Sequence
from itertools import pairwise

from app.domain.exercise import Muscle
from app.domain.loads import day_text
from app.domain.muscle_groups import muscle_name
from app.domain.progress.series import Corridor, MassSeries, Origin, StrengthSeries
from app.domain.progress.weeks import WeekDone
from app.domain.trend import Trend
from app.domain.units import in_units, number_text
from app.domain.wording import number_as_spoken, tr, trn


def _mass(mass_kg: float, units: str, places: int = 1) -> str:
    return f"{number_text(in_units(mass_kg, units), places)} {units}"


def trend_text(line: Trend, units: str) -> str:
    """'+0.32 kg a week (+0.10 to +0.52), over 8 weeks; clearly rising'."""
    slopes = [in_units(kg, units) for kg in (line.per_week, line.low_per_week, line.high_per_week)]
    middle, low, high = (number_as_spoken(f"{slope:+.2f}").replace("-", "−") for slope in slopes)
    rising = tr("clearly rising") if line.low_per_week > 0 else tr("clearly falling")
    return tr(
        "{slope} {units} a week ({low} to {high}) over {weeks}: {verdict}",
        slope=middle,
        units=units,
        low=low,
        high=high,
        weeks=trn("{n} week", "{n} weeks", max(1, round(line.weeks))),
        verdict=rising if line.is_clear else tr("no clear direction"),
    )


def strength_text(series: StrengthSeries, units: str) -> str:
    """What the chart of one exercise's strength shows."""
    name = series.exercise.name
    if not series.points:
        return tr("{exercise}: nothing to estimate strength from yet.", exercise=name)
    last = series.points[-1]
    told = [
        _estimates_text(series),
        tr(
            "The last is {mass} ({low}–{high}).",
            mass=_mass(last.kg, units),
            low=number_text(in_units(last.low_kg, units), 1),
            high=number_text(in_units(last.high_kg, units), 1),
        ),
    ]
    if series.trend is not None:
        told.append(tr("Trend: {trend}.", trend=trend_text(series.trend, units)))
    if series.own_weight:
        told.append(tr("Own weight is in it, by the client's present mass."))
    return " ".join(told)


def _estimates_text(series: StrengthSeries) -> str:
    """How many estimates there are, from when, and how many of them are tests."""
    first, last = series.points[0], series.points[-1]
    if len(series.points) == 1:
        rests = tr("a test") if first.origin is Origin.TEST else tr("sets done")
        return tr(
            "{exercise}: one estimate of the one-repetition maximum, from {rests} on {day}.",
            exercise=series.exercise.name,
            rests=rests,
            day=day_text(first.on),
        )
    tests = sum(point.origin is Origin.TEST for point in series.points)
    if not tests:
        return tr(
            "{exercise}: {n} estimates of the one-repetition maximum from {first} to {last}, all "
            "from sets done.",
            exercise=series.exercise.name,
            n=len(series.points),
            first=day_text(first.on),
            last=day_text(last.on),
        )
    return tr(
        "{exercise}: {n} estimates of the one-repetition maximum from {first} to {last}, {tests}.",
        exercise=series.exercise.name,
        n=len(series.points),
        first=day_text(first.on),
        last=day_text(last.on),
        tests=trn("{n} of them a test", "{n} of them tests", tests),
    )


def mass_text(series: MassSeries, units: str) -> str:
    """What the chart of body mass shows."""
    if not series.points:
        return tr("No body mass has been written down yet.")
    last = series.points[-1]
    told = [
        tr(
            "{weighings} from {first} to {last}; the last is {mass}.",
            weighings=trn("{n} weighing", "{n} weighings", len(series.points)),
            first=day_text(series.points[0].on),
            last=day_text(last.on),
            mass=_mass(last.value, units),
        )
    ]
    if series.trend is not None:
        told.append(tr("Trend: {trend}.", trend=trend_text(series.trend, units)))
    where = corridor_on(series)
    if where is not None and series.trend is not None:
        told.append(_place_text(series.trend.at_last, where, units))
    if series.missing:
        told.append(missing_text(series))
    return " ".join(told)


def missing_text(series: MassSeries) -> str:
    """Which weeks have no weighing; the trend leaps over them."""
    days = ", ".join(day_text(day) for day in series.missing[:4])
    more = len(series.missing) - 4
    if more > 0:
        days = tr("{days} and {n} more", days=days, n=more)
    return tr("No weighing in the weeks of {days}: the trend leaps over them.", days=days)


def corridor_on(series: MassSeries) -> Corridor | None:
    """The corridor on the day of the last weighing, drawn straight between two weeks' ends."""
    if not series.points:
        return None
    day = series.points[-1].on
    for before, after in pairwise(series.corridor):
        if before.on <= day <= after.on:
            part = (day - before.on).days / (after.on - before.on).days
            return Corridor(
                day,
                before.low_kg + part * (after.low_kg - before.low_kg),
                before.high_kg + part * (after.high_kg - before.high_kg),
            )
    return None


def _place_text(mass_kg: float, where: Corridor, units: str) -> str:
    span = {
        "low": number_text(in_units(where.low_kg, units), 1),
        "high": _mass(where.high_kg, units),
    }
    if mass_kg < where.low_kg:
        return tr("The trend lies below the corridor of {low} to {high}.", **span)
    if mass_kg > where.high_kg:
        return tr("The trend lies above the corridor of {low} to {high}.", **span)
    return tr("The trend lies in the corridor of {low} to {high}.", **span)


def volume_text(weeks: Sequence[WeekDone]) -> str:
    """What the charts of sets and tonnage show."""
    entered = [week for week in weeks if week.entered]
    if not entered:
        return tr("No results have been entered for these weeks yet.")
    planned = sum(week.planned_sets for week in entered)
    done = sum(week.done_sets or 0 for week in entered)
    return tr(
        "{done} of {planned} planned sets were done in {weeks} with entries.",
        done=done,
        planned=planned,
        weeks=trn("{n} week", "{n} weeks", len(entered)),
    )


def loads_text(weeks: Sequence[WeekDone]) -> str:
    """Which loads the planned tonnage is counted with; empty without weeks."""
    printed = sum(week.printed_on is not None for week in weeks)
    if not weeks:
        return ""
    if not printed:
        return tr("Planned is counted with today's loads.")
    if printed == len(weeks):
        return tr("Planned is counted with the loads printed in the booklets that were handed out.")
    return trn(
        "Planned is counted with the loads printed in the booklet for {n} week, else with today's.",
        "Planned is counted with the loads printed in the booklets for {n} weeks, else with "
        "today's.",
        printed,
    )


def tonnage_text(weeks: Sequence[WeekDone], units: str) -> str:
    """What the chart of tonnage shows, what planned is counted with, and what is not in it."""
    entered = [week for week in weeks if week.entered]
    if not entered:
        none = tr("No results have been entered for these weeks yet.")
        return f"{none} {loads_text(weeks)}".rstrip()
    told = tr(
        "{done} {units} lifted in {weeks} with entries: sets times repetitions times load, own "
        "weight not counted.",
        done=number_as_spoken(
            f"{in_units(sum(week.done_kg or 0.0 for week in entered), units):,.0f}"
        ),
        units=units,
        weeks=trn("{n} week", "{n} weeks", len(entered)),
    )
    planned = sum(week.planned_kg for week in entered)
    told += " " + tr(
        "Planned for them: {planned} {units}.",
        planned=number_as_spoken(f"{in_units(planned, units):,.0f}"),
        units=units,
    )
    told += f" {loads_text(weeks)}"
    if any(week.as_lifted for week in weeks):
        told += " " + tr("Where the plan has no load, it counts with what was lifted.")
    without = sum(week.without_load for week in weeks)
    if without:
        told += " " + trn(
            "{n} planned set has no load and is not in the plan's tonnage.",
            "{n} planned sets have no load and are not in the plan's tonnage.",
            without,
        )
    return told


def adherence_text(weeks: Sequence[WeekDone]) -> str:
    """What the chart of adherence shows, weeks without entries said."""
    entered = [week for week in weeks if week.done is not None]
    if not entered:
        return tr("No results have been entered for these weeks yet.")
    planned = sum(week.done.planned_sets for week in entered if week.done)
    done = sum(week.done.done_sets for week in entered if week.done)
    share = done / planned if planned else 1.0
    told = tr("{share:.0%} of the planned sets were done.", share=share)
    last = entered[-1].number
    missing = [str(week.number) for week in weeks if not week.entered and week.number < last]
    if missing:
        told += " " + tr("Nothing was entered for week {weeks}.", weeks=", ".join(missing))
    return told


def muscles_text(weeks: Sequence[WeekDone], muscles: Sequence[Muscle]) -> str:
    """What the chart of sets per muscle shows."""
    told = []
    for muscle in muscles:
        planned = [week.planned_muscles.get(muscle, 0.0) for week in weeks]
        done = [week.done_muscles.get(muscle, 0.0) for week in weeks if week.entered]
        if not planned:
            continue
        text = tr(
            "{muscle}: {low} to {high} sets a week planned",
            muscle=muscle_name(muscle),
            low=number_text(min(planned)),
            high=number_text(max(planned)),
        )
        if done:
            text += tr(", {mean} done on average", mean=number_text(sum(done) / len(done)))
        told.append(text)
    return f"{'; '.join(told)}." if told else tr("No muscle gets any set in these weeks.")
