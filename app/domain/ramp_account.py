"""Where the ramp sets of a lift come from: worked out from its load, or set by the coach."""

from __future__ import annotations

from app.domain.program import Slot
from app.domain.ramp import ramp_text
from app.domain.strength import RampSet
from app.domain.units import mass_text
from app.domain.wording import tr
from app.domain.working import COMMON_PRACTICE, Line


def ramp_line(slot: Slot, sets: tuple[RampSet, ...], unit: str = "kg") -> Line | None:
    """The ramp sets of a slot with where they come from; None where none are meant."""
    said = ", ".join(f"{mass_text(one.load_kg, unit)} × {one.reps}" for one in sets)
    if slot.ramp is None:
        remark = tr("worked out from the load, {source}", source=tr(COMMON_PRACTICE))
        return Line(tr("Ramp sets"), said, remark) if said else None
    if not slot.ramp.steps:
        return Line(tr("Ramp sets"), tr("none"), tr("set by the coach"))
    written = ramp_text(slot.ramp, unit)
    if len(sets) == len(slot.ramp.steps):
        return Line(tr("Ramp sets"), said, tr("set by the coach: {written}", written=written))
    remark = tr(
        "set by the coach: {written}; those without a load below the working load are left out",
        written=written,
    )
    return Line(tr("Ramp sets"), said or tr("none"), remark)
