"""Kilograms, pounds, centimetres, inches; loads that can really be put on the bar.

Everything inside is SI; these functions stand at the edges.
"""

from __future__ import annotations

import math
from dataclasses import dataclass
from functools import lru_cache
from math import gcd

from app.domain.errors import QuantityError
from app.domain.wording import number_as_spoken, tr

KG_PER_LB = 0.45359237
"""Exact by definition (NIST SP 811; value from memory)."""

CM_PER_IN = 2.54
"""Exact by definition (NIST SP 811; value from memory)."""


def require(quantity: str, value: float, *, low: float, high: float) -> float:
    """`value` itself, once it is known to be a finite number from `low` to `high`.

    Raises QuantityError that names the quantity, the value and the accepted range.
    """
    if not math.isfinite(value) or not low <= value <= high:
        raise QuantityError.outside(quantity, value, low=low, high=high)
    return value


def require_whole(quantity: str, value: int, *, low: int, high: int) -> int:
    """`value` itself, once it is known to be a whole number from `low` to `high`.

    Raises QuantityError that names the quantity, the value and the accepted range.
    """
    require(quantity, value, low=low, high=high)
    if value != int(value):
        raise QuantityError(
            tr("{quantity} {value} is not a whole number.", quantity=tr(quantity), value=value),
            mend=tr("Enter a whole number from {low} to {high}.", low=low, high=high),
        )
    return value


LARGEST = 10**12
"""No amount past this is converted; tonnages of a year lie far below it."""


def kg_from_lb(mass_lb: float) -> float:
    """Kilograms for pounds. Raises QuantityError past LARGEST either way.

    >>> kg_from_lb(100)
    45.359237
    """
    return require("mass, lb", mass_lb, low=-LARGEST, high=LARGEST) * KG_PER_LB


def lb_from_kg(mass_kg: float) -> float:
    """Pounds for kilograms. Raises QuantityError past LARGEST either way."""
    return require("mass, kg", mass_kg, low=-LARGEST, high=LARGEST) / KG_PER_LB


def in_units(mass_kg: float, units: str) -> float:
    """The mass in the client's unit, kg or lb."""
    return mass_kg / KG_PER_LB if units == "lb" else mass_kg


def cm_from_in(length_in: float) -> float:
    """Centimetres for inches. Raises QuantityError past LARGEST either way."""
    return require("length, in", length_in, low=-LARGEST, high=LARGEST) * CM_PER_IN


def in_from_cm(length_cm: float) -> float:
    """Inches for centimetres. Raises QuantityError past LARGEST either way."""
    return require("length, cm", length_cm, low=-LARGEST, high=LARGEST) / CM_PER_IN


HEAVIEST_KG = 1000.0
"""No load past this is taken for meant."""

HEAVIEST_BAR_KG = 100.0
"""No bar past this is taken for meant."""

LIGHTEST_PLATE_KG, HEAVIEST_PLATE_KG = 0.01, 100.0
"""Plates and steps outside these are not taken for meant."""


def require_plate(size_kg: float) -> float:
    """`size_kg` itself, once it is known to be a plate that there can be. Raises QuantityError."""
    return require("plate, kg", size_kg, low=LIGHTEST_PLATE_KG, high=HEAVIEST_PLATE_KG)


def require_bar(bar_kg: float, collars_kg: float = 0.0) -> float:
    """Bar and collars together, once both are known to be ones that there can be.

    Raises QuantityError outside 0 to HEAVIEST_BAR_KG, and 0 to 20 kg for both collars.
    """
    require("bar, kg", bar_kg, low=0, high=HEAVIEST_BAR_KG)
    require("collars, kg", collars_kg, low=0, high=20)
    return bar_kg + collars_kg


@dataclass(frozen=True, slots=True)
class Plates:
    """What goes on each side of a bar.

    plates: kg each, heaviest first, for one side; loaded_kg: bar, collars and both sides;
    remainder_kg: what the target still lacks.
    """

    plates: tuple[float, ...]
    loaded_kg: float
    remainder_kg: float


def plates_per_side(
    target_kg: float, bar_kg: float, plates_kg: tuple[float, ...], collars_kg: float = 0.0
) -> Plates:
    """The plates for one side, from heavy to light, that come nearest below the target.

    plates_kg: the sizes there are, each as often as needed; collars_kg: both collars together.
    Raises QuantityError for a target lighter than bar and collars, and for a bar, collars or a
    plate that there cannot be.
    """
    empty_kg = require_bar(bar_kg, collars_kg)
    require("load, kg", target_kg, low=empty_kg, high=HEAVIEST_KG)
    # whole grams keep 2.5 + 1.25 exact where floats would leave a crumb over
    left_g = round((target_kg - empty_kg) * 500)
    chosen: list[float] = []
    for size_kg in sorted(set(map(require_plate, plates_kg)), reverse=True):
        count, left_g = divmod(left_g, round(size_kg * 1000))
        chosen.extend([size_kg] * count)
    loaded_kg = empty_kg + 2 * sum(chosen)
    return Plates(tuple(chosen), loaded_kg, round(target_kg - loaded_kg, 6))


@lru_cache(maxsize=64)
def _by_grams(plates_kg: tuple[float, ...]) -> dict[int, float]:
    """The plates by their whole grams, heaviest first. Raises QuantityError."""
    grams = {round(require_plate(size_kg) * 1000): size_kg for size_kg in plates_kg}
    return dict(sorted(grams.items(), reverse=True))


@lru_cache(maxsize=64)
def _sums(sizes: tuple[int, ...], highest: int) -> int:
    """A row of bits: bit n is set if n is a sum of `sizes`, each as often as needed."""
    bits = 1
    for size in sizes:
        step = size
        while step <= highest:
            bits |= bits << step
            step *= 2
    return bits & ((1 << (highest + 1)) - 1)


def nearest_plates(
    target_kg: float, bar_kg: float, plates_kg: tuple[float, ...], collars_kg: float = 0.0
) -> Plates:
    """The plates for one side whose load comes nearest to the target, from below or above.

    The lower of two loads that are equally near; the empty bar where the target is lighter (see
    `remainder_kg`, which is then negative). Raises QuantityError outside 0 to HEAVIEST_KG, and
    for a bar, collars or a plate that there cannot be.
    """
    require("load, kg", target_kg, low=0, high=HEAVIEST_KG)
    empty_kg = require_bar(bar_kg, collars_kg)
    grams = _by_grams(tuple(plates_kg))
    if not grams or target_kg <= empty_kg:
        return Plates((), empty_kg, round(target_kg - empty_kg, 6))
    unit = gcd(*grams)
    sizes = tuple(size // unit for size in grams)
    highest = round(HEAVIEST_KG * 500) // unit + sizes[-1]
    bits = _sums(sizes, highest)
    wanted = (target_kg - empty_kg) * 500 / unit
    floor = int(wanted)
    below = (bits & ((1 << (floor + 1)) - 1)).bit_length() - 1
    rest = bits >> (floor + 1)
    above = floor + (rest & -rest).bit_length()
    left = above if rest and above - wanted < wanted - below else below
    chosen: list[float] = []
    while left:
        # the heaviest plate after which the rest can still be made up
        size = next(s for s in sizes if s <= left and bits >> (left - s) & 1)
        chosen.append(grams[size * unit])
        left -= size
    loaded_kg = empty_kg + 2 * sum(chosen)
    return Plates(tuple(chosen), loaded_kg, round(target_kg - loaded_kg, 6))


def nearest_step(target_kg: float, step_kg: float, *, low_kg: float, high_kg: float) -> float:
    """The load nearest to the target among low_kg, low_kg + step_kg, ... up to high_kg.

    The lower of two that are equally near; an end of the row where the target lies past it.
    Raises QuantityError for a step outside 0.01 to 100 kg, and past 10,000 kg either way.
    """
    require("step, kg", step_kg, low=LIGHTEST_PLATE_KG, high=HEAVIEST_PLATE_KG)
    require("load, kg", target_kg, low=-10_000, high=10_000)
    require("lightest load, kg", low_kg, low=-10_000, high=10_000)
    require("heaviest load, kg", high_kg, low=low_kg, high=10_000)
    last = int((high_kg - low_kg) / step_kg + 1e-9)
    steps = math.ceil((target_kg - low_kg) / step_kg - 0.5 - 1e-9)
    return round(low_kg + step_kg * min(max(steps, 0), last), 6)


def number_text(value: float, digits: int = 1) -> str:
    """`value` with at most so many decimals and no idle zeros: '70', '62.5', '104.9'."""
    text = f"{value:.{digits}f}"
    text = text.rstrip("0").rstrip(".") if "." in text else text
    return "0" if text == "-0" else number_as_spoken(text)


def kcal_text(kcal: float) -> str:
    """Energy in whole kilocalories as it is shown: '2,660 kcal'."""
    return f"{number_as_spoken(f'{kcal:,.0f}')} kcal"


def mass_text(mass_kg: float, unit: str = "kg", *, digits: int = 2) -> str:
    """A mass as it is shown, in kg or lb: '62.5 kg', '137.8 lb'. Raises as `lb_from_kg` does."""
    require("mass, kg", mass_kg, low=-LARGEST, high=LARGEST)
    if unit == "lb":
        return f"{number_text(lb_from_kg(mass_kg), min(digits, 1))} lb"
    return f"{number_text(mass_kg, digits)} kg"
