"""Kilograms, pounds, centimetres, inches; loads that can really be put on the bar.

Everything inside is SI; these functions stand at the edges.
"""

from __future__ import annotations

import math
from dataclasses import dataclass
from functools import lru_cache
from math import gcd

from app.domain.errors import QuantityError

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


def kg_from_lb(mass_lb: float) -> float:
    """Kilograms for pounds."""
    return mass_lb * KG_PER_LB


def lb_from_kg(mass_kg: float) -> float:
    """Pounds for kilograms."""
    return mass_kg / KG_PER_LB


def cm_from_in(length_in: float) -> float:
    """Centimetres for inches."""
    return length_in * CM_PER_IN


def in_from_cm(length_cm: float) -> float:
    """Inches for centimetres."""
    return length_cm / CM_PER_IN


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
    Raises QuantityError for a target lighter than bar and collars.
    """
    empty_kg = bar_kg + collars_kg
    require("load, kg", target_kg, low=empty_kg, high=1000.0)
    # whole grams keep 2.5 + 1.25 exact where floats would leave a crumb over
    left_g = round((target_kg - empty_kg) * 500)
    chosen: list[float] = []
    for size_kg in sorted(set(plates_kg), reverse=True):
        count, left_g = divmod(left_g, round(size_kg * 1000))
        chosen.extend([size_kg] * count)
    loaded_kg = empty_kg + 2 * sum(chosen)
    return Plates(tuple(chosen), loaded_kg, round(target_kg - loaded_kg, 6))


HEAVIEST_KG = 1000.0
"""No load past this is taken for meant."""


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
    `remainder_kg`, which is then negative). Raises QuantityError outside 0 to HEAVIEST_KG.
    """
    require("load, kg", target_kg, low=0, high=HEAVIEST_KG)
    empty_kg = bar_kg + collars_kg
    grams = sorted({round(size * 1000) for size in plates_kg if size > 0}, reverse=True)
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
        chosen.append(size * unit / 1000)
        left -= size
    loaded_kg = empty_kg + 2 * sum(chosen)
    return Plates(tuple(chosen), loaded_kg, round(target_kg - loaded_kg, 6))


def nearest_step(target_kg: float, step_kg: float, *, low_kg: float, high_kg: float) -> float:
    """The load nearest to the target among low_kg, low_kg + step_kg, ... up to high_kg.

    The lower of two that are equally near; an end of the row where the target lies past it.
    """
    require("step, kg", step_kg, low=0.01, high=100)
    last = int((high_kg - low_kg) / step_kg + 1e-9)
    steps = math.ceil((target_kg - low_kg) / step_kg - 0.5 - 1e-9)
    return round(low_kg + step_kg * min(max(steps, 0), last), 6)


def number_text(value: float, digits: int = 1) -> str:
    """`value` with at most so many decimals and no idle zeros: '70', '62.5', '104.9'."""
    text = f"{value:.{digits}f}"
    text = text.rstrip("0").rstrip(".") if "." in text else text
    return "0" if text == "-0" else text


def mass_text(mass_kg: float, unit: str = "kg", *, digits: int = 2) -> str:
    """A mass as it is shown, in kg or lb: '62.5 kg', '137.8 lb'."""
    if unit == "lb":
        return f"{number_text(lb_from_kg(mass_kg), min(digits, 1))} lb"
    return f"{number_text(mass_kg, digits)} kg"
