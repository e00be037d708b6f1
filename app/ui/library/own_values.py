"""Fields of an own exercise as a coach types them, and as values that the shared rules read."""

from __future__ import annotations

import re
from collections.abc import Iterable

from app.domain.errors import CoachError
from app.domain.exercise import Exercise, Fault, Reach
from app.domain.wording import mark, tr
from app.ui.words import number

LABELS = {
    "name": mark("Name"),
    "aliases": mark("Other names"),
    "pattern": mark("Movement"),
    "plane": mark("Plane"),
    "work": mark("Muscles"),
    "equipment": mark("Equipment"),
    "load_kind": mark("Load"),
    "multi_joint": mark("Joints"),
    "unilateral": mark("Sides"),
    "timed": mark("Timed"),
    "body_share": mark("Own mass"),
    "skill": mark("Demand"),
    "spinal_load": mark("Spine"),
    "setup_s": mark("Set-up time"),
    "rest_s": mark("Usual rest"),
    "tempo": mark("Usual tempo"),
    "rep_low": mark("Fewest repetitions"),
    "rep_high": mark("Most repetitions"),
    "reaches": mark("Reaches"),
    "stress": mark("Stress"),
    "set_up": mark("Set up"),
    "cues": mark("Do it"),
    "faults": mark("If you notice"),
    "easier": mark("Easier"),
    "harder": mark("Harder"),
    "activation": mark("Activation"),
    "figure": mark("Figure"),
    "warmup_for": mark("Prepares"),
    "texts": mark("Further languages"),
}
"""What the form calls each field."""

_NUMBER = r"\d{1,3}([.,]\d+)?"
_AMPLITUDE = re.compile(rf"(?P<low>{_NUMBER})(\s*[-\u2013]\s*(?P<high>{_NUMBER}))?\s*%?", re.ASCII)


def lines_of(text: str) -> list[str]:
    """The lines of a text, without those that are blank."""
    return [line.strip() for line in text.splitlines() if line.strip()]


def names_of(text: str) -> list[str]:
    """Names between commas."""
    return [name.strip() for name in text.split(",") if name.strip()]


def number_of(text: str) -> object:
    """The number typed; the text itself where it is none, for the rules to refuse."""
    plain = text.strip().replace(",", ".")
    for kind in (int, float):
        try:
            return kind(plain)
        except ValueError:
            continue
    return text.strip()


def faults_of(text: str) -> list[list[str]]:
    """Pairs of what one notices and what to try. Raises CoachError for a line without a colon."""
    pairs = []
    for line in lines_of(text):
        notice, colon, remedy = line.partition(":")
        if not (colon and notice.strip() and remedy.strip()):
            raise CoachError(
                tr(
                    "{labels}: '{line}' has no remedy.", labels=tr(LABELS["faults"]), line=line[:40]
                ),
                mend=tr("Write what is noticed, a colon, and what to try."),
            )
        pairs.append([notice.strip(), remedy.strip()])
    return pairs


def faults_text(faults: Iterable[Fault]) -> str:
    """One line a fault, as `faults_of` reads it."""
    return "\n".join(f"{fault.notice}: {fault.remedy}" for fault in faults)


def amplitude_of(text: str) -> tuple[float, float]:
    """The lowest and highest per cent of '42' or '29-45'. Raises CoachError for anything else."""
    found = _AMPLITUDE.fullmatch(text.strip())
    if found is None:
        raise CoachError(
            tr(
                "{labels}: '{text}' cannot be read.",
                labels=tr(LABELS["activation"]),
                text=text[:40],
            ),
            mend=tr("Write % or a range of %: 42 or 29-45."),
        )
    low = float(found["low"].replace(",", "."))
    high = low if found["high"] is None else float(found["high"].replace(",", "."))
    return low, high


def reaches_text(reaches: Iterable[Reach]) -> str:
    """One line a reach: 'knee flexion 110'."""
    return "\n".join(f"{one.joint} {one.motion} {one.degrees or ''}".strip() for one in reaches)


def percent_text(share: float) -> str:
    """A share as per cent, without its sign."""
    return number(share * 100) if share else ""


def said(error: CoachError) -> str:
    """What the rules refuse, told by the form's own name of the field."""
    field = error.where.rsplit(", ", 1)[-1]
    if field not in LABELS:
        return error.sentence
    return f"{tr(LABELS[field])}: {error.what} {error.mend}".strip()


def named_copy(exercise: Exercise) -> str:
    """The name that a changed copy begins with."""
    return tr("{exercise}, changed", exercise=exercise.name[:70])
