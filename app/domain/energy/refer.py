"""Who gets no energy numbers from a program, and who should give them instead."""

from __future__ import annotations

from dataclasses import dataclass, field
from datetime import date

from app.domain.client import Client, Screening
from app.domain.energy.resting import ADULT_FROM
from app.domain.screening import cleared_since
from app.domain.wording import mark, tr

LOW_BMI = 18.5
"""Body mass index, kg/m2, under which numbers come from a practitioner. Value from memory."""

FAR_BELOW = 0.8
"""Part of the resting energy; who eats less than that is sent on. Common practice."""


_ASK = mark(
    "Please ask your doctor or a registered dietitian for energy and protein "
    "targets. They know what this program cannot know."
)


@dataclass(frozen=True, slots=True)
class Referral:
    """No numbers from a program for this client: who should give them, and why.

    reasons: as sentences for the coach; text: a sentence for the client.
    """

    reasons: tuple[str, ...]
    text: str = field(default_factory=lambda: tr(_ASK))


def referral(client: Client, on: date) -> Referral | None:
    """Why this client's numbers must come from a practitioner; None if nothing speaks for it.

    Nobody screened, minors, pregnancy, low body mass, symptoms not cleared, known disease, and
    whatever the coach noted (kidney disease, a history of disordered eating). A clearance for
    exercise says nothing on food: known disease is sent on with one as well.
    """
    reasons = [*_reasons_of_screening(client.latest_screening, on)]
    age = client.age_on(on)
    if age is not None and age < ADULT_FROM:
        reasons.append(tr("{age} years old: numbers for minors come from a practitioner.", age=age))
    bmi = body_mass_index(client)
    if bmi is not None and bmi < LOW_BMI:
        reasons.append(
            tr(
                "Body mass index {bmi:.1f}, under {low_bmi}: body mass is low.",
                bmi=bmi,
                low_bmi=LOW_BMI,
            )
        )
    reasons += [tr("Noted by the coach: {reason}.", reason=reason) for reason in client.refer]
    return Referral(tuple(reasons)) if reasons else None


def _reasons_of_screening(screening: Screening | None, on: date) -> tuple[str, ...]:
    if screening is None:
        return (tr("Not screened yet: ask the screening questions first."),)
    told = (
        (screening.pregnant, tr("Pregnant: needs change; ask the obstetric practitioner.")),
        (
            screening.known_disease,
            tr(
                "Known heart, metabolic or kidney disease: clearance for exercise is "
                "not one for food."
            ),
        ),
        (
            screening.symptoms and not cleared_since(screening, on),
            tr("Signs or symptoms that no practitioner has cleared since they were told."),
        ),
    )
    return tuple(sentence for holds, sentence in told if holds)


def reason_of_intake(eaten_kcal: float | None, resting_kcal: float) -> str:
    """Why somebody who eats so little is sent on; empty if it is near the resting energy."""
    if eaten_kcal is None or eaten_kcal >= FAR_BELOW * resting_kcal:
        return ""
    return tr(
        "{eaten_kcal:,.0f} kcal a day eaten now, far below the resting energy of "
        "{resting_kcal:,.0f}: check how it was logged, and have a practitioner "
        "look.",
        eaten_kcal=eaten_kcal,
        resting_kcal=resting_kcal,
    )


def reason_of_loss(lowest_kg: float, height_cm: float, *, weeks: int) -> str:
    """Why somebody whom the plan may make too light is sent on; empty if it does not."""
    bmi = lowest_kg / (height_cm / 100) ** 2
    if bmi >= LOW_BMI:
        return ""
    return tr(
        "To lose for {weeks} weeks may end at a body mass index of {bmi:.1f}, "
        "under {low_bmi}: plan for fewer weeks, or have a practitioner set the "
        "targets.",
        weeks=weeks,
        bmi=bmi,
        low_bmi=LOW_BMI,
    )


def body_mass_index(client: Client) -> float | None:
    """Body mass index, kg/m2; None where mass or height is missing."""
    if client.mass_kg is None or client.height_cm is None:
        return None
    return client.mass_kg / (client.height_cm / 100) ** 2
