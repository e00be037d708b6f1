"""Who gets no energy numbers from a program, and who should give them instead."""

from __future__ import annotations

from dataclasses import dataclass
from datetime import date

from app.domain.client import Client
from app.domain.energy.resting import ADULT_FROM

LOW_BMI = 18.5
"""Body mass index, kg/m2, under which numbers come from a practitioner. Value from memory."""


@dataclass(frozen=True, slots=True)
class Referral:
    """No numbers from a program for this client: who should give them, and why.

    reasons: as sentences for the coach; text: a sentence for the client.
    """

    reasons: tuple[str, ...]
    text: str = (
        "Please ask your doctor or a registered dietitian for energy and protein targets. "
        "They know what this program cannot know."
    )


def referral(client: Client, on: date) -> Referral | None:
    """Why this client's numbers must come from a practitioner; None if nothing speaks for it.

    Minors, pregnancy, low body mass, known disease without clearance, and whatever the coach
    noted (kidney disease, a history of disordered eating).
    """
    reasons = []
    age = client.age_on(on)
    if age is not None and age < ADULT_FROM:
        reasons.append(f"{age} years old: numbers for minors come from a practitioner.")
    screening = client.latest_screening
    if screening is not None and screening.pregnant:
        reasons.append("Pregnant: needs change; ask the obstetric practitioner.")
    bmi = body_mass_index(client)
    if bmi is not None and bmi < LOW_BMI:
        reasons.append(f"Body mass index {bmi:.1f}, under {LOW_BMI}: body mass is low.")
    if screening is not None and screening.known_disease and screening.cleared_on is None:
        reasons.append("Known heart, metabolic or kidney disease, and no clearance yet.")
    reasons += [f"Noted by the coach: {reason}." for reason in client.refer]
    return Referral(tuple(reasons)) if reasons else None


def body_mass_index(client: Client) -> float | None:
    """Body mass index, kg/m2; None where mass or height is missing."""
    if client.mass_kg is None or client.height_cm is None:
        return None
    return client.mass_kg / (client.height_cm / 100) ** 2
