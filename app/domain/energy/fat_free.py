"""The client's fat-free mass: what it takes to use it, and how far it can be trusted.

It is measured or it is unknown; nothing here makes one out of mass and stature.
"""

from __future__ import annotations

from app.domain.client import Client
from app.domain.energy.resting import RESTING_EQUATIONS
from app.domain.errors import CoachError
from app.domain.units import number_text
from app.domain.wording import tr

MISSED_KG = (2.0, 4.0)
"""How far skinfolds and impedance commonly miss one person's fat-free mass, kg. Value from memory.
"""

MISSED_KCAL = (40.0, 90.0)
"""What that makes at rest by equations of 21.6 to 22 kcal a kg (cunningham1980, cunningham1991), to
the next ten.
"""


def measured_text() -> str:
    """Where a fat-free mass has to come from and how uncertain it is, for the coach."""
    low, high = MISSED_KG
    low_kcal, high_kcal = MISSED_KCAL
    return tr(
        "Only as measured. Skinfolds and impedance miss it by {low} to {high} kg (value from "
        "memory): {low_kcal} to {high_kcal} kcal a day by Cunningham. Measure again as body mass "
        "changes.",
        low=number_text(low),
        high=number_text(high),
        low_kcal=number_text(low_kcal),
        high_kcal=number_text(high_kcal),
    )


def why_not(equation: str, fat_free_kg: float | None) -> str:
    """Why an equation cannot be chosen with this fat-free mass, in short; empty where it can.

    equation: a key of RESTING_EQUATIONS, or empty for the program's own choice.
    """
    found = RESTING_EQUATIONS.get(equation)
    needed = found is not None and found.needs_fat_free
    return tr("needs fat-free mass") if needed and fat_free_kg is None else ""


def refuse_fat_free(client: Client) -> None:
    """Raises CoachError for a fat-free mass that is not below the body mass, where both are known.

    No law of the client's record: the body mass goes on changing after the measurement.
    """
    lean_kg, mass_kg = client.fat_free_kg, client.mass_kg
    if lean_kg is not None and mass_kg is not None and lean_kg >= mass_kg:
        raise CoachError(
            tr(
                "The fat-free mass, {lean} kg, is not below the body mass, {mass} kg.",
                lean=number_text(lean_kg, 2),
                mass=number_text(mass_kg, 2),
            ),
            where=client.name,
            mend=tr("Enter what was measured last for both, or leave the fat-free mass empty."),
        )


def refuse_choice(client: Client) -> None:
    """Raises CoachError where the client's equation needs a fat-free mass that is not known."""
    if why_not(client.energy_equation, client.fat_free_kg):
        raise CoachError(
            tr(
                "{equation} needs the fat-free mass.",
                equation=RESTING_EQUATIONS[client.energy_equation].name,
            ),
            where=client.name,
            mend=tr("Enter what was measured, or choose an equation that does without."),
        )
