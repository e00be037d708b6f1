"""A prescription in one line as textbooks write it, '4 x 8-10, RIR 2, rest 120 s', both ways.

Parts stand in any order, parted by commas; only sets and repetitions must be there. What is left
out keeps its value where there is one to keep. Reading what was written gives the same value.
"""

from __future__ import annotations

import re
from collections.abc import Callable
from dataclasses import dataclass, replace

from app.domain.effort import Effort, PercentOneRm, PercentRepMax, Rir
from app.domain.errors import CoachError
from app.domain.program import MAX_SETS, Reps, Slot
from app.domain.units import kg_from_lb, lb_from_kg, require
from app.domain.wording import mark, tr


class PrescriptionError(CoachError):
    """A line that cannot be read as a prescription; names the part and what is accepted."""


@dataclass(frozen=True, slots=True)
class Written:
    """What a line says; None for what it leaves out.

    load_kg: of one dumbbell where two are held; tempo as four figures; no_load: the line takes a
    load set by hand off again ('load from tests').
    """

    sets: int
    reps: Reps
    effort: Effort | None = None
    rest_s: int | None = None
    tempo: str | None = None
    load_kg: float | None = None
    no_load: bool = False


_NUMBER = r"(\d+(?:[.,]\d+)?)"
_TIMES = r"\s*(?:x|X|×|\*|sets of|set of)\s*"
_SCHEME = re.compile(rf"(\d+){_TIMES}(\d+)(?:\s*(?:-|–|to)\s*(\d+))?\s*(s|sec|seconds|reps)?")
_RIR = re.compile(rf"(?:RIR\s*{_NUMBER}|{_NUMBER}\s*(?:RIR|in reserve))", re.IGNORECASE)
_FAILURE = re.compile(r"(?:to )?failure", re.IGNORECASE)
_PERCENT = re.compile(
    rf"{_NUMBER}\s*%\s*(?:(?P<one>(?:of\s*)?1\s*RM)?|(?P<rep>(?:of\s*)?(?:\d+\s*)?RM))",
    re.IGNORECASE,
)
_REST = re.compile(
    rf"rest\s*(?:(\d+):([0-5]\d)(?:\s*min)?|{_NUMBER}\s*(s|sec|min|m|minutes|seconds)?)",
    re.IGNORECASE,
)
_TEMPO = re.compile(r"(?:tempo\s*)?((?:\d|X)-(?:\d|X)-(?:\d|X)(?:-(?:\d|X))?)", re.IGNORECASE)
_NO_TEMPO = re.compile(r"no tempo", re.IGNORECASE)
_LOAD = re.compile(rf"(?:2\s*[x×]\s*)?\+?{_NUMBER}\s*(kg|lb|lbs)", re.IGNORECASE)
_NO_LOAD = re.compile(r"load from tests?|no load", re.IGNORECASE)

EXAMPLE = "4 x 8-10, RIR 2, rest 120 s"
_ACCEPTED = mark(
    "Write it like '{example}'. Also understood: '75 % 1RM', '95 % of RM', 'failure', "
    "'rest 2:30', 'tempo 3-0-1-0', '70 kg'."
)


def accepted() -> str:
    """What a line may hold, with an example, as a sentence."""
    return tr(_ACCEPTED, example=EXAMPLE)


def parse(line: str) -> Written:
    """What the line says.

    Raises PrescriptionError naming the part that is not understood or out of range.
    """
    # a comma between figures is a decimal one: '2,5 kg' is one part
    parts = [part.strip() for part in re.split(r",(?!\d)|;", line) if part.strip()]
    if not parts:
        raise PrescriptionError(tr("The line is empty."), mend=accepted())
    scheme = next((m for part in parts if (m := _SCHEME.fullmatch(part))), None)
    if scheme is None:
        raise PrescriptionError(
            tr("There are no sets and repetitions in '{line}'.", line=line.strip()), mend=accepted()
        )
    written = _scheme(scheme)
    seen = {"sets and repetitions"}
    for part in parts:
        if part == scheme.string:
            continue
        name, written = _read(part, written)
        if name in seen:
            raise PrescriptionError(
                tr(
                    "The {name} stands twice, the second time as '{part}'.",
                    name=tr(name),
                    part=part,
                ),
                mend=tr("Keep one of them."),
            )
        seen.add(name)
    return written


def _scheme(found: re.Match[str]) -> Written:
    sets, low = int(found[1]), int(found[2])
    high = int(found[3]) if found[3] else low
    if not 1 <= sets <= MAX_SETS:
        raise PrescriptionError(
            tr("{sets} sets: a prescription has 1 to {max_sets}.", sets=sets, max_sets=MAX_SETS),
            mend=tr("Enter fewer or more."),
        )
    if high < low:
        raise PrescriptionError(
            tr("The repetitions run from {low} down to {high}.", low=low, high=high),
            mend=tr("Write '{high}-{low}'.", high=high, low=low),
        )
    return Written(sets, Reps(low, high))


def _figure(text: str) -> float:
    return float(text.replace(",", "."))


def _read(part: str, written: Written) -> tuple[str, Written]:
    """What the part is about, and what was written with it added."""
    readers: tuple[tuple[re.Pattern[str], str, Callable[[re.Match[str]], dict[str, object]]], ...]
    readers = (
        (_RIR, "effort", lambda m: {"effort": Rir(_figure(m[1] or m[2]))}),
        (_FAILURE, "effort", lambda m: {"effort": Rir(0)}),
        (_PERCENT, "effort", _percent),
        (_REST, "rest", _rest),
        (_TEMPO, "tempo", lambda m: {"tempo": _tempo(m[1])}),
        (_NO_TEMPO, "tempo", lambda m: {"tempo": ""}),
        (_LOAD, "load", _load),
        (_NO_LOAD, "load", lambda m: {"no_load": True}),
    )
    for pattern, name, read in readers:
        found = pattern.fullmatch(part)
        if found:
            return name, replace(written, **read(found))  # type: ignore[arg-type]
    raise PrescriptionError(tr("'{part}' is not understood.", part=part), mend=accepted())


def _percent(found: re.Match[str]) -> dict[str, object]:
    kind = PercentRepMax if found["rep"] else PercentOneRm
    return {"effort": kind(_figure(found[1]))}


def _rest(found: re.Match[str]) -> dict[str, object]:
    if found[1]:
        seconds = 60 * int(found[1]) + int(found[2])
    else:
        unit = (found[4] or "s").lower()
        seconds = round(_figure(found[3]) * (60 if unit.startswith("m") else 1))
    return {"rest_s": int(require("rest, s", seconds, low=0, high=1200))}


def _tempo(text: str) -> str:
    """Four figures; a missing last one is no pause."""
    return text.upper() if text.count("-") == 3 else f"{text.upper()}-0"


def read_tempo(text: str) -> str:
    """The tempo that the text says, as four figures; empty for none. Raises PrescriptionError."""
    text = text.strip()
    found = _TEMPO.fullmatch(text)
    if text and found is None:
        raise PrescriptionError(
            tr("'{text}' is no tempo.", text=text),
            mend=tr("Write four figures, '3-0-1-0', or leave it empty."),
        )
    return _tempo(found[1]) if found else ""


def _load(found: re.Match[str]) -> dict[str, object]:
    load = _figure(found[1])
    kg = kg_from_lb(load) if found[2].lower().startswith("lb") else load
    return {"load_kg": require("load, kg", kg, low=0, high=1000)}


# -- writing -----------------------------------------------------------------------------------


def format_slot(slot: Slot, *, timed: bool = False, unit: str = "kg") -> str:
    """The slot's prescription in one line; its load only where it was set by hand."""
    low, high = slot.reps.low, slot.reps.high
    reps = f"{low}" if low == high else f"{low}-{high}"
    parts = [f"{slot.sets} x {reps}{' s' if timed else ''}", _effort_text(slot.effort)]
    parts.append(f"rest {slot.rest_s} s")
    if slot.tempo:
        parts.append(f"tempo {slot.tempo}")
    if slot.load_kg is not None:
        parts.append(_load_text(slot.load_kg, unit))
    return ", ".join(parts)


def _load_text(load_kg: float, unit: str) -> str:
    return f"{lb_from_kg(load_kg):.1f} lb" if unit == "lb" else f"{load_kg:.10g} kg"


def _effort_text(effort: Effort) -> str:
    match effort:
        case Rir(reps):
            return f"RIR {reps:.10g}"
        case PercentOneRm(percent):
            return f"{percent:.10g} % 1RM"
        case PercentRepMax(percent):
            return f"{percent:.10g} % of RM"


def applied(slot: Slot, written: Written) -> Slot:
    """The slot with what was written in it; what was left out stays, pins are left alone."""
    return replace(
        slot,
        sets=written.sets,
        reps=written.reps,
        effort=slot.effort if written.effort is None else written.effort,
        rest_s=slot.rest_s if written.rest_s is None else written.rest_s,
        tempo=slot.tempo if written.tempo is None else written.tempo,
        load_kg=None if written.no_load else _either(written.load_kg, slot.load_kg),
    )


def _either(new: float | None, old: float | None) -> float | None:
    """The new load; the old one where there is none, or none that pounds to a tenth could tell."""
    if new is None or (old is not None and abs(new - old) < 0.03):
        return old
    return new
