"""The client: skill, likes, screening, age, pregnancy, and days that nobody asked about.

Prompts to see a practitioner, never decisions: what practitioners and local rules say goes first.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from datetime import date

from app.domain.checks.context import Context, own_word
from app.domain.checks.say import amount, finding, how_far, plural, slot_finding
from app.domain.client import Outcome
from app.domain.facts import WeekFacts
from app.domain.findings import Finding, Place
from app.domain.screening import cleared_since, outcome
from app.domain.wording import mark, tr

_SKILL = {1: mark("learned in a set"), 2: mark("needs practice"), 3: mark("needs coaching")}


def skill(week: WeekFacts, context: Context, *, index: int) -> Iterator[Finding]:
    """How much skill each exercise asks for, against the client's status (1 to 3)."""
    band = context.band("skill", index=index)
    if band is None:
        return
    for placed in week.slots:
        level = placed.at.exercise.skill
        if level not in band:
            status = context.client.status.value
            article = "an" if status[0] in "aeiou" else "a"
            text = tr(
                "{level}, much for {article} {status}",
                level=tr(_SKILL.get(level, "needs coaching")),
                article=article,
                status=status,
            )
            yield slot_finding("skill", band, week=week, placed=placed, text=text, measured=level)


def dislikes(week: WeekFacts, context: Context, *, index: int) -> Iterator[Finding]:
    """Exercises that the client would rather not do."""
    band = context.band("dislikes", index=index)
    if band is None or not context.client.dislikes:
        return
    for placed in week.slots:
        if placed.at.slot.exercise in context.client.dislikes:
            text = tr("is not liked by {client}", client=context.client.name)
            yield slot_finding("dislikes", own_word(band), week=week, placed=placed, text=text)


def availability(weeks: Sequence[WeekFacts], context: Context) -> Iterator[Finding]:
    """Free days that nobody has asked about, so that no session can be held against them."""
    band = context.band("availability")
    if band is None or any(free.minutes for free in context.client.free) or _bare(weeks):
        return
    yield _on_program(context, "availability", text=tr("Free days and minutes are not known yet"))


def screening(weeks: Sequence[WeekFacts], context: Context) -> Iterator[Finding]:
    """What the last screening says about starting; pregnancy is a matter of its own."""
    if _bare(weeks):
        return
    last = context.client.latest_screening
    if last is None:
        kind, text = "none", tr("{client} has not been screened yet", client=context.client.name)
    elif last.pregnant and not last.symptoms:
        return
    else:
        # a screening, or a clearance, of while the plan runs answers for it from then on
        asked = max(context.start, last.on)
        if last.cleared_on is not None and last.cleared_on <= context.day_date(len(weeks) - 1, 6):
            asked = max(asked, last.cleared_on)
        advice = outcome(last, on=asked)
        kind, text = advice.outcome.value, advice.text
    if context.band("screening", kind) is not None:
        yield _on_program(context, "screening", kind=kind, text=text)


def moderate_only(week: WeekFacts, context: Context, *, index: int) -> Iterator[Finding]:
    """Effort of each slot for a client who is cleared for moderate training only (RIR)."""
    last = context.client.latest_screening
    band = context.band("moderate_only", index=index)
    if band is None or last is None:
        return
    now = outcome(last, on=context.week_start(index)).outcome
    when_cleared = outcome(last, on=max(last.on, last.cleared_on or last.on)).outcome
    ran_out = now is Outcome.SEE_PRACTITIONER and context.week_start(index) > (
        last.cleared_on or date.max
    )
    if not (now is Outcome.MODERATE_ONLY or (ran_out and when_cleared is not now)):
        return
    for placed in week.counted:
        rir = placed.at.rir
        if rir not in band:
            text = tr(
                "RIR {rir}, {how_far} for moderate effort",
                rir=amount(rir),
                how_far=how_far(rir, band),
            )
            yield slot_finding(
                "moderate_only", band, week=week, placed=placed, text=text, measured=rir
            )


def pregnancy(weeks: Sequence[WeekFacts], context: Context) -> Iterator[Finding]:
    """Pregnancy, as the last screening has it, with or without a practitioner's word."""
    last = context.client.latest_screening
    if last is None or not last.pregnant or _bare(weeks):
        return
    # a screening made while the plan runs answers for the plan from then on
    kind = "cleared" if cleared_since(last, max(context.start, last.on)) else "open"
    if context.band("pregnancy", kind) is None:
        return
    text = (
        tr("Pregnancy: have the obstetric provider agree before training")
        if kind == "open"
        else tr("Pregnancy: keep to what the obstetric provider agreed, and to the signs to stop")
    )
    yield _on_program(context, "pregnancy", kind=kind, text=text)


def age(weeks: Sequence[WeekFacts], context: Context) -> Iterator[Finding]:
    """Ages at which training is planned otherwise (years)."""
    years = context.client.age_on(context.start)
    band = context.band("age")
    if band is None or years is None or years in band or _bare(weeks):
        return
    text = (
        tr("{years} years: train supervised, and raise loads in small steps", years=years)
        if band.short_by(years)
        else tr("{years} years: begin lighter, with longer warm-ups", years=years)
    )
    yield finding("age", band, place=Place(), about="age", text=text, measured=years)


def training_days(weeks: Sequence[WeekFacts], context: Context) -> Iterator[Finding]:
    """Training days in a usual week, against the client's status (days)."""
    days = [week.training_days for week in weeks if not week.is_light and not week.is_empty]
    band = context.band("training_days")
    if band is None or not days:
        return
    from statistics import median

    usual = median(days)
    if usual not in band:
        yield finding(
            "training_days",
            band,
            place=Place(),
            about="days",
            text=tr(
                "{usual} in a usual week, {how_far}",
                usual=plural(usual, "{n} training day", "{n} training days"),
                how_far=how_far(usual, band),
            ),
            measured=usual,
        )


def _bare(weeks: Sequence[WeekFacts]) -> bool:
    return all(week.is_empty for week in weeks)


def _on_program(context: Context, rule: str, *, text: str, kind: str = "") -> Finding:
    band = context.band(rule, kind)
    assert band is not None
    return finding(rule, band, place=Place(), about=kind or rule, text=text)
