"""Ramp sets as a coach sets them for one lift: each a part of the working load, or kilograms.

Where nothing is set, they are worked out from the load (`app.domain.strength.ramp_sets`).
"""

from __future__ import annotations

import re
from collections.abc import Iterable
from dataclasses import dataclass
from itertools import pairwise

from app.domain.errors import CoachError
from app.domain.units import kg_from_lb, mass_text, number_text, require, require_whole
from app.domain.wording import mark, tr

MAX_RAMP_SETS = 8
MAX_RAMP_REPS = 30
MAX_RAMP_PERCENT = 95.0
LIGHTEST_STEP_KG, HEAVIEST_STEP_KG = 0.5, 1000.0
"""Outside these no ramp set is taken for meant. Common practice."""


@dataclass(frozen=True, slots=True)
class RampStep:
    """One ramp set: repetitions with a part of the working load, or with a load of its own.

    percent: of the working load, 0 for the empty bar or the lightest there is; load_kg: that load
    whatever the working load is. Just one of the two is given. Raises CoachError.
    """

    reps: int
    percent: float | None = None
    load_kg: float | None = None

    def __post_init__(self) -> None:
        require_whole("repetitions of a ramp set", self.reps, low=1, high=MAX_RAMP_REPS)
        if (self.percent is None) is (self.load_kg is None):
            raise CoachError(
                tr("A ramp set needs either per cent of the working load or kilograms."),
                mend=accepted(),
            )
        if self.percent is not None:
            require(
                "per cent of the working load in a ramp set",
                self.percent,
                low=0,
                high=MAX_RAMP_PERCENT,
            )
        if self.load_kg is not None:
            require(
                "load of a ramp set, kg",
                self.load_kg,
                low=LIGHTEST_STEP_KG,
                high=HEAVIEST_STEP_KG,
            )


@dataclass(frozen=True, slots=True)
class Ramp:
    """The ramp sets before one lift as the coach set them, in order; no step: none are done.

    Raises CoachError for more than MAX_RAMP_SETS and for loads that fall on the way up.
    """

    steps: tuple[RampStep, ...]

    def __post_init__(self) -> None:
        if len(self.steps) > MAX_RAMP_SETS:
            raise CoachError(
                tr("There are {count} ramp sets.", count=len(self.steps)),
                mend=tr("Keep at most {most}.", most=MAX_RAMP_SETS),
            )
        _refuse_falling(step.percent for step in self.steps)
        _refuse_falling(step.load_kg for step in self.steps)

    @property
    def has_kg(self) -> bool:
        """True if a step names kilograms, which are meant for one lift of one client."""
        return any(step.load_kg is not None for step in self.steps)


def _refuse_falling(amounts: Iterable[float | None]) -> None:
    known = [amount for amount in amounts if amount is not None]
    for before, after in pairwise(known):
        if after < before:
            raise CoachError(
                tr(
                    "The ramp sets fall from {before} to {after}.",
                    before=number_text(before, 2),
                    after=number_text(after, 2),
                ),
                mend=tr("Write them from light to heavy."),
            )


NO_RAMP = Ramp(())
"""What a coach sets where a lift is to have no ramp sets."""


# -- as a line of text ---------------------------------------------------------------------------

EXAMPLE = "50 % x 5, 70 % x 3, 60 kg x 2"
_ACCEPTED = mark(
    "Write ramp sets like '{example}': per cent of the working load (0 to {most}; 0 is the empty "
    "bar) or kg or lb, then x and 1 to {reps} repetitions, with commas between, {sets} at most."
)


def accepted() -> str:
    """What a line may hold, with an example, as a sentence."""
    return tr(
        _ACCEPTED,
        example=EXAMPLE,
        most=number_text(MAX_RAMP_PERCENT),
        reps=MAX_RAMP_REPS,
        sets=MAX_RAMP_SETS,
    )


_STEP = re.compile(
    r"(\d{1,4}(?:[.,]\d{1,3})?)\s*(%|kg|lbs?)\s*[x×*]\s*(\d{1,4})(?:\s*reps?)?", re.IGNORECASE
)


def read_ramp(line: str) -> Ramp:
    """The ramp sets that the line says. Raises CoachError naming the part and what is accepted."""
    # a comma between figures is a decimal one: '62,5 kg x 3' is one part
    parts = [part.strip() for part in re.split(r",(?!\d)|;", line) if part.strip()]
    if not parts:
        raise CoachError(tr("No ramp set is written."), mend=accepted())
    return Ramp(tuple(map(_read_step, parts)))


def _read_step(part: str) -> RampStep:
    found = _STEP.fullmatch(part)
    if found is None:
        raise CoachError(tr("'{part}' is no ramp set.", part=part), mend=accepted())
    amount, unit, reps = float(found[1].replace(",", ".")), found[2].casefold(), int(found[3])
    if unit == "%":
        return RampStep(reps, percent=amount)
    return RampStep(reps, load_kg=kg_from_lb(amount) if unit.startswith("lb") else amount)


def ramp_text(ramp: Ramp, unit: str = "kg") -> str:
    """The steps as a line: '50 % × 5, 60 kg × 3'; empty for none. `read_ramp` reads it."""
    return ", ".join(f"{step_text(step, unit)} × {step.reps}" for step in ramp.steps)


def step_text(step: RampStep, unit: str = "kg") -> str:
    """What a step is done with: '50 %', '60 kg'."""
    if step.load_kg is not None:
        return mass_text(step.load_kg, unit)
    return f"{number_text(step.percent or 0.0, 2)} %"
