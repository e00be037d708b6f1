"""One-repetition maxima from repetitions: seven published equations, read as an interval.

The spread between the equations is shown and not averaged away. Formulas from agreeing
second-hand copies; see each equation's source.
"""

from __future__ import annotations

from collections.abc import Callable, Mapping
from dataclasses import dataclass, field
from functools import lru_cache
from math import exp
from statistics import median
from types import MappingProxyType

from app.domain.errors import CoachError
from app.domain.units import HEAVIEST_KG, mass_text, number_text, require
from app.domain.wording import language, tr
from app.domain.working import Line, Working

MAX_REPS = 30
"""The most repetitions to failure that are taken for a strength test."""


@dataclass(frozen=True, slots=True)
class Equation:
    """One published equation: 1RM from a load and the repetitions to failure with it.

    formula: as text, w for the load and r for the repetitions; max_reps: past it the estimate is
    stretched (usual validity of all seven, whisenant2003); source: a key of the references.
    """

    key: str
    name: str
    formula: str
    estimate: Callable[[float, float], float] = field(repr=False)
    source: str
    max_reps: int = 10


EQUATIONS: Mapping[str, Equation] = MappingProxyType(
    {
        e.key: e
        for e in (
            Equation(
                "brzycki",
                "Brzycki 1993",
                "w / (1.0278 - 0.0278 r)",
                lambda w, r: w / (1.0278 - 0.0278 * r),
                "brzycki1993",
            ),
            Equation(
                "epley",
                "Epley 1985",
                "w (1 + r / 30)",
                lambda w, r: w * (1 + r / 30),
                "epley1985",
            ),
            Equation(
                "lander",
                "Lander 1985",
                "100 w / (101.3 - 2.67123 r)",
                lambda w, r: 100 * w / (101.3 - 2.67123 * r),
                "lander1985",
            ),
            Equation(
                "lombardi",
                "Lombardi 1989",
                "w r^0.10",
                lambda w, r: w * r**0.10,
                "lombardi1989",
            ),
            Equation(
                "mayhew",
                "Mayhew 1992",
                "100 w / (52.2 + 41.9 e^(-0.055 r))",
                lambda w, r: 100 * w / (52.2 + 41.9 * exp(-0.055 * r)),
                "mayhew1992",
            ),
            Equation(
                "oconner",
                "O'Conner 1989",
                "w (1 + 0.025 r)",
                lambda w, r: w * (1 + 0.025 * r),
                "oconner1989",
            ),
            Equation(
                "wathan",
                "Wathan 1994",
                "100 w / (48.8 + 53.8 e^(-0.075 r))",
                lambda w, r: 100 * w / (48.8 + 53.8 * exp(-0.075 * r)),
                "wathan1994",
            ),
        )
    }
)
"""The seven equations by key."""


def find_equation(equation: str | Equation) -> Equation:
    """The equation of that key; an equation is given back as it is. Raises CoachError."""
    if isinstance(equation, Equation):
        return equation
    try:
        return EQUATIONS[equation]
    except KeyError:
        from difflib import get_close_matches

        near = get_close_matches(equation, EQUATIONS, n=1)
        mend = (
            tr("Did you mean {first!r}?", first=near[0])
            if near
            else tr("Choose one of {equations}.", equations=", ".join(EQUATIONS))
        )
        raise CoachError(
            tr("There is no 1RM equation {equation!r}.", equation=equation), mend=mend
        ) from None


def one_rep_max(load_kg: float, reps: float, equation: str | Equation) -> float:
    """Estimated one-repetition maximum, in the unit of the load.

    reps: repetitions to failure, 1 to 30; past `Equation.max_reps` the estimate is stretched.
    One repetition gives the load itself, whatever the equation says there. Raises QuantityError
    outside.  Source: `Equation.source`.

    >>> round(one_rep_max(100, 10, "epley"), 2)
    133.33
    """
    found = find_equation(equation)
    require("load lifted, kg", load_kg, low=0.1, high=HEAVIEST_KG)
    require("repetitions to failure", reps, low=1, high=MAX_REPS)
    return load_kg if reps == 1 else found.estimate(load_kg, reps)


@dataclass(frozen=True, slots=True)
class OneRepMax:
    """A one-repetition maximum as an interval, kg.

    median, low, high: of the equations; where repetitions were left in reserve, low and high also
    allow for a misjudged reserve. stretched: the repetitions lie past the equations' usual
    validity; remarks: what to keep in mind, as sentences.
    """

    median: float
    low: float
    high: float
    by_equation: Mapping[str, float] = field(hash=False)
    load_kg: float
    reps: float
    rir: float = 0.0
    stretched: bool = False
    remarks: tuple[str, ...] = ()

    @property
    def sources(self) -> tuple[str, ...]:
        """Keys of the references that the estimate rests on."""
        return tuple(EQUATIONS[key].source for key in self.by_equation)

    def lines(self, unit: str = "kg", *, test: str = "Test") -> tuple[Line, ...]:
        """The test and the estimate as two lines of an account."""
        span = "–".join(mass_text(edge, unit, digits=1) for edge in (self.low, self.high))
        return (
            Line(test, set_text(self.load_kg, self.reps, self.rir, unit)),
            Line(
                tr("1RM, median of seven"),
                mass_text(self.median, unit, digits=1),
                without_unit(span, unit),
            ),
        )

    def working(self, unit: str = "kg") -> Working:
        """The account of the estimate: the set, each equation and the median."""
        test, middle = self.lines(unit)
        each = tuple(
            Line(EQUATIONS[key].name, mass_text(value, unit, digits=1), EQUATIONS[key].formula)
            for key, value in self.by_equation.items()
        )
        remarks = tuple(Line(tr("Remark"), remark) for remark in self.remarks)
        return Working(
            title=mass_text(self.median, unit, digits=1),
            about=tr("one-repetition maximum, estimated"),
            lines=(test, *each, middle, *remarks),
            sources=self.sources,
        )


def without_unit(span: str, unit: str) -> str:
    """A range without its unit, '101.2–107.1'."""
    return span.replace(f" {unit}", "")


def set_text(load_kg: float, reps: float, rir: float = 0.0, unit: str = "kg") -> str:
    """A set as it is written down: '90 kg × 5', with a reserve '90 kg × 5, 2 in reserve'.

    Without a load 'own weight × 8'; below 0 '10 kg of help × 6'.
    """
    lifted = mass_text(load_kg, unit) if load_kg > 0 else tr("own weight")
    if load_kg < 0:
        lifted = tr("{load_kg} of help", load_kg=mass_text(-load_kg, unit))
    done = f"{lifted} × {number_text(reps)}"
    return tr("{done}, {rir} in reserve", done=done, rir=number_text(rir)) if rir else done


def estimate_one_rep_max(load_kg: float, reps: float, rir: float = 0.0) -> OneRepMax:
    """The 1RM that a set of `reps` with `rir` repetitions in reserve stands for.

    reps + rir: 1 to 30, taken as the repetitions to failure. A reserve widens the interval by the
    usual misjudgement, 1 repetition up to 5 in reserve and 2 above (hackett2017). Raises
    QuantityError outside.
    """
    require("load lifted, kg", load_kg, low=0.1, high=HEAVIEST_KG)
    require("repetitions in reserve", rir, low=0, high=10)
    require("repetitions", reps, low=1, high=MAX_REPS)
    require("repetitions with those in reserve", reps + rir, low=1, high=MAX_REPS)
    return _estimate(float(load_kg), float(reps), float(rir), language().code)


@lru_cache(maxsize=512)
def _estimate(load_kg: float, reps: float, rir: float, _spoken: str) -> OneRepMax:
    """The estimate itself, remembered: every slot of an exercise asks for the same one.

    _spoken: the code of the language that its remarks are in.
    """
    to_failure = reps + rir
    values = {key: one_rep_max(load_kg, to_failure, key) for key in EQUATIONS}
    slack = 0 if rir == 0 else 1 if rir <= 5 else 2
    fewer, more = max(reps, to_failure - slack), min(MAX_REPS, to_failure + slack)
    remarks = []
    valid = min(e.max_reps for e in EQUATIONS.values())
    if to_failure > valid:
        remarks.append(
            tr(
                "{to_failure} repetitions to failure: the equations are made for up "
                "to {valid}. Test again with a heavier load.",
                to_failure=number_text(to_failure),
                valid=valid,
            )
        )
    if rir > 5:
        remarks.append(tr("More than 5 in reserve is hard to judge: take this as a first guess."))
    return OneRepMax(
        median=median(values.values()),
        low=min(one_rep_max(load_kg, fewer, key) for key in EQUATIONS),
        high=max(one_rep_max(load_kg, more, key) for key in EQUATIONS),
        by_equation=MappingProxyType(values),
        load_kg=load_kg,
        reps=reps,
        rir=rir,
        stretched=to_failure > valid,
        remarks=tuple(remarks),
    )
