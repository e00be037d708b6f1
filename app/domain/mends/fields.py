"""Mends that set one field of a prescription, in this week."""

from __future__ import annotations

from math import ceil, floor

from app.domain.edits.fields import set_field
from app.domain.effort import PercentOneRm, Rir
from app.domain.findings import Edit, edit
from app.domain.mends.ask import Ask
from app.domain.program import Field, Reps, Slot
from app.domain.wording import tr

REST_STEP_S = 5
"""Rests are written in steps of so many seconds."""


def _set(label: str, slot: Slot, field: Field, *, value: object) -> Edit:
    return edit(label, set_field, slot_id=slot.id, field=field, value=value)


def reps(ask: Ask) -> Edit | None:
    """Repetitions brought into the range."""
    band, slot = ask.finding.range, ask.slot
    if band is None:
        return None
    low = min(max(slot.reps.low, ceil(band.low or 1)), floor(band.high or 600))
    high = min(max(slot.reps.high, low), floor(band.high or 600))
    unit = "seconds" if ask.context.catalogue[slot.exercise].timed else "repetitions"
    words = f"{low}" if low == high else f"{low}–{high}"
    return _set(
        tr("Set {words} {unit}", words=words, unit=unit), slot, Field.REPS, value=Reps(low, high)
    )


def reserve(ask: Ask) -> Edit | None:
    """Repetitions in reserve at the near end of the range."""
    band = ask.finding.range
    if band is None or ask.finding.measured is None:
        return None
    rir = band.low if band.short_by(ask.finding.measured) else band.high
    if rir is None:
        return None
    label = tr("Set RIR {rir:g}", rir=rir)
    return _set(label, ask.slot, Field.EFFORT, value=Rir(rir))


def load(ask: Ask) -> Edit | None:
    """A written percentage brought into the range; other loads follow from repetitions."""
    band, slot = ask.finding.range, ask.slot
    if band is None or ask.finding.measured is None or not isinstance(slot.effort, PercentOneRm):
        return None
    percent = band.low if band.short_by(ask.finding.measured) else band.high
    if percent is None:
        return None
    return _set(
        tr("Set {percent:g} %", percent=percent), slot, Field.EFFORT, value=PercentOneRm(percent)
    )


def rest(ask: Ask) -> Edit | None:
    """The rest lengthened or shortened to the near end of the range."""
    band, slot = ask.finding.range, ask.slot
    if band is None or ask.finding.measured is None:
        return None
    change = band.short_by(ask.finding.measured) or -band.over_by(ask.finding.measured)
    steps = ceil(change / REST_STEP_S) if change > 0 else floor(change / REST_STEP_S)
    rest_s = max(0, slot.rest_s + steps * REST_STEP_S)
    return _set(
        tr("Rest {rest_s}:{rest_s_2:02}", rest_s=rest_s // 60, rest_s_2=rest_s % 60),
        slot,
        Field.REST,
        value=rest_s,
    )


def tempo(ask: Ask) -> Edit | None:
    """The exercise's usual tempo."""
    slot = ask.slot
    usual = ask.context.catalogue[slot.exercise].tempo
    return _set(tr("Set tempo {usual}", usual=usual), slot, Field.TEMPO, value=usual)
