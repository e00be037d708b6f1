"""Lines of the adjustment: what is suggested for each slot, what the coach makes of it."""

from __future__ import annotations

import re
from dataclasses import dataclass

from app.domain.adjust import SAME_KG, Advice, Change
from app.domain.errors import CoachError
from app.domain.exercise import LoadKind
from app.domain.log_sheet import load_text, read_load
from app.domain.program import Reps
from app.domain.units import mass_text
from app.domain.wording import date_text, tr
from app.ui.words import DASH, TIMES

_RANGE = re.compile(r"(\d+)(?:\s*[-\N{EN DASH}]\s*(\d+))?")


@dataclass(slots=True)
class Line:
    """One slot: what is suggested, what is typed in its place, and whether it is taken."""

    advice: Advice
    session: str
    unit: str
    taken: bool = False
    typed: str | None = None
    wrong: CoachError | None = None

    @property
    def text(self) -> str:
        """What stands in the cell of the suggestion."""
        return self.suggested if self.typed is None else self.typed

    @property
    def suggested(self) -> str:
        """The suggestion as a coach would type it; empty if there is none."""
        if self.advice.reps is not None:
            return reps_text(self.advice.reps, timed=self.advice.exercise.timed)
        if self.advice.load_kg is None:
            return ""
        return f"{load_text(self.advice.load_kg, self.unit)} {self.unit}"

    @property
    def can_change(self) -> bool:
        """True if something can be typed for it."""
        kind = self.advice.exercise.load_kind
        return self.advice.reps is not None or kind not in (LoadKind.BAND, LoadKind.NONE)

    def type(self, text: str) -> None:
        """Something else is typed; it is taken if it can be read."""
        text = text.strip()
        self.typed = None if text in ("", self.suggested) else text
        self.wrong = None
        try:
            change = self.change()
        except CoachError as error:
            self.wrong, self.taken = error, False
            return
        self.taken = change is not None

    def change(self) -> Change | None:
        """What would be kept; None if it changes nothing. Raises CoachError for what is typed."""
        slot = self.advice.slot
        if self.typed is None:
            if not self.advice.changes:
                return None
            return Change(slot.id, self.advice.load_kg, self.advice.reps)
        if self.advice.reps is not None:
            return Change(slot.id, reps=_reps(self.typed))
        load_kg = read_load(self.typed, self.unit)
        planned_kg = self.advice.planned_kg
        if planned_kg is not None and abs(load_kg - planned_kg) <= SAME_KG:
            return None
        return Change(slot.id, load_kg=load_kg)

    @property
    def last_text(self) -> str:
        """'80 kg × 10, 10, 9 · 17 Nov', or nothing."""
        last = self.advice.last
        if last is None:
            return ""
        heaviest = max(done.load_kg for done in last.sets)
        reps = ", ".join(str(done.reps) for done in last.sets)
        if heaviest:
            reps = f"{mass_text(heaviest, self.unit)} {TIMES} {reps}"
        return tr("{reps}, on {day}", reps=reps, day=date_text(last.on))

    @property
    def planned_text(self) -> str:
        """What the plan says now: its load, else its repetitions."""
        if self.advice.planned_kg is not None:
            return mass_text(self.advice.planned_kg, self.unit)
        return reps_text(self.advice.slot.reps, timed=self.advice.exercise.timed)

    @property
    def why(self) -> str:
        """The reason, or what is wrong with what was typed."""
        return self.wrong.sentence if self.wrong is not None else self.advice.why


def reps_text(reps: Reps, *, timed: bool = False) -> str:
    """'8–10 reps', or '30 s'."""
    told = str(reps.low) if reps.low == reps.high else f"{reps.low}{DASH}{reps.high}"
    if timed:
        return tr("{told} s", told=told)
    return tr("{told} reps", told=told)


def _reps(text: str) -> Reps:
    found = _RANGE.match(text)
    if found is None:
        raise CoachError(
            tr("'{text}' is no number of repetitions.", text=text),
            mend=tr("Type one such as 10, or a range such as 8-10."),
        )
    return Reps(int(found[1]), int(found[2] or found[1]))
