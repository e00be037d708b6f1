"""The published pre-participation logic in our own words: who may start, and how hard.

Prompts to see a practitioner, never a diagnosis or a decision; what practitioners and local rules
say goes first. Source of the logic: riebe2015 (value from memory: confirm against the paper).
"""

from __future__ import annotations

from dataclasses import dataclass
from datetime import date, timedelta
from enum import StrEnum

from app.domain.client import Outcome, Screening
from app.domain.wording import mark, tr
from app.domain.working import FROM_MEMORY, Line, Working

CLEARANCE_DAYS = 365
"""How long a clearance holds. Source: riebe2015 for vigorous exercise (value from memory); for
beginners with a known disease common practice."""


class Wish(StrEnum):
    """How hard the client wants to train."""

    MODERATE = "moderate"
    VIGOROUS = "vigorous"


class Begin(StrEnum):
    """How training goes on from today."""

    START_EASY = "start_easy"  # light to moderate, then build up
    CARRY_ON = "carry_on"  # may progress
    WAIT = "wait"  # not before a practitioner has agreed
    STOP = "stop"  # what is under way stops until a practitioner has agreed


class Clearance(StrEnum):
    """Whether a practitioner has to agree first."""

    NOT_NEEDED = "not_needed"
    BEFORE_VIGOROUS = "before_vigorous"
    BEFORE_ANY = "before_any"


@dataclass(frozen=True, slots=True)
class Advice:
    """What the answers of a screening say.

    outcome: for checks and booklet; begin and clearance: the same in detail; text: a sentence for
    the coach; cautions: sentences for the booklet; sources: keys of the references.
    """

    outcome: Outcome
    begin: Begin
    clearance: Clearance
    text: str
    cautions: tuple[str, ...] = ()
    sources: tuple[str, ...] = ("riebe2015", FROM_MEMORY)

    def working(self, screening: Screening) -> Working:
        """The answers and what follows from them."""
        answers = (
            (tr("Active now: planned, 3 days a week for 3 months"), screening.active),
            (tr("Known heart, metabolic or kidney disease"), screening.known_disease),
            (tr("Signs or symptoms of one"), screening.symptoms),
            (tr("Pregnant"), screening.pregnant),
            (tr("Cleared by a practitioner"), screening.cleared_on is not None),
        )
        return Working(
            title=self.text,
            about="screening",
            lines=tuple(
                Line(label, tr("yes") if answer else tr("no")) for label, answer in answers
            ),
            sources=self.sources,
        )


PREGNANCY_CAUTIONS = (
    mark(
        "Avoid lying flat on your back for long, holding your breath, and "
        "anything with a risk of a fall or a blow."
    ),
    mark(
        "Stop and call your practitioner at bleeding, regular painful "
        "contractions, loss of fluid, breathlessness before effort, dizziness, "
        "headache, chest pain, weakness, or pain or swelling in a calf."
    ),
)
"""Source: acog2020 (value from memory)."""


def outcome(
    screening: Screening, wish: Wish | str = Wish.MODERATE, *, on: date | None = None
) -> Advice:
    """What the screening says for training as hard as wished.

    on: the day it is asked (the day of the screening if not given). A clearance dated after it
    does not count. Symptoms and pregnancy are answered by a clearance of the day of the screening
    or later; with a known disease it must be of the last twelve months.
    """
    wish = Wish(wish)
    today = on or screening.on
    if screening.symptoms and not cleared_since(screening, today):
        return _after_symptoms(screening)
    if screening.pregnant:
        return _pregnant(screening, today)
    if not screening.known_disease and not screening.symptoms:
        return _nothing_known(screening)
    if not screening.active:
        return _inactive_with_disease(screening, today)
    return _active_with_disease(screening, wish, today)


def cleared_since(screening: Screening, on: date) -> bool:
    """True if by the day `on` a practitioner agreed, on the day of the screening or later."""
    cleared = screening.cleared_on
    return cleared is not None and screening.on <= cleared <= on


def _cleared_lately(screening: Screening, today: date) -> bool:
    """True if a practitioner agreed within the last twelve months."""
    cleared = screening.cleared_on
    return cleared is not None and (today - timedelta(days=CLEARANCE_DAYS) <= cleared <= today)


def _what_is_known(screening: Screening) -> str:
    """What a clearance answers, as the start of a sentence."""
    return tr("Known disease") if screening.known_disease else tr("Signs or symptoms")


def _after_symptoms(screening: Screening) -> Advice:
    return Advice(
        Outcome.SEE_PRACTITIONER,
        Begin.STOP if screening.active else Begin.WAIT,
        Clearance.BEFORE_ANY,
        tr("Signs or symptoms: have a practitioner agree before any training.")
        if not screening.active
        else tr("Signs or symptoms: stop training until a practitioner has agreed."),
        (tr("Do not train before your doctor has agreed."),),
    )


def _pregnant(screening: Screening, today: date) -> Advice:
    """Pregnancy without complications: adapted training is encouraged, once it was agreed."""
    sources = ("acog2020", FROM_MEMORY)
    if not cleared_since(screening, today):
        return Advice(
            Outcome.SEE_PRACTITIONER,
            Begin.WAIT,
            Clearance.BEFORE_ANY,
            tr("Pregnancy: have the obstetric practitioner agree before training."),
            tuple(map(tr, PREGNANCY_CAUTIONS)),
            sources,
        )
    return Advice(
        Outcome.MODERATE_ONLY,
        Begin.CARRY_ON if screening.active else Begin.START_EASY,
        Clearance.NOT_NEEDED,
        tr("Pregnancy, training agreed: keep to moderate effort and to what was agreed."),
        tuple(map(tr, PREGNANCY_CAUTIONS)),
        sources,
    )


def _nothing_known(screening: Screening) -> Advice:
    if screening.active:
        return Advice(
            Outcome.MAY_START,
            Begin.CARRY_ON,
            Clearance.NOT_NEEDED,
            tr("No clearance needed: may carry on and progress."),
        )
    return Advice(
        Outcome.MAY_START,
        Begin.START_EASY,
        Clearance.NOT_NEEDED,
        tr("No clearance needed: begin light to moderate and build up."),
        (tr("Begin with less than you could do, and build up over weeks."),),
    )


def _inactive_with_disease(screening: Screening, today: date) -> Advice:
    if not _cleared_lately(screening, today):
        return Advice(
            Outcome.SEE_PRACTITIONER,
            Begin.WAIT,
            Clearance.BEFORE_ANY,
            tr(
                "{what_is_known}, not active yet: have a practitioner agree before "
                "any training; what was agreed more than twelve months ago no longer "
                "counts.",
                what_is_known=_what_is_known(screening),
            ),
            (tr("Do not train before your doctor has agreed."),),
        )
    return Advice(
        Outcome.MODERATE_ONLY,
        Begin.START_EASY,
        Clearance.NOT_NEEDED,
        tr(
            "{what_is_known}, training agreed: begin light to moderate and build up.",
            what_is_known=_what_is_known(screening),
        ),
        (tr("Keep to what your doctor agreed, and stop at pain in the chest or dizziness."),),
    )


def _active_with_disease(screening: Screening, wish: Wish, today: date) -> Advice:
    if _cleared_lately(screening, today):
        return Advice(
            Outcome.MAY_START,
            Begin.CARRY_ON,
            Clearance.NOT_NEEDED,
            tr("Known disease, clearance of the last twelve months: may carry on and progress.")
            if screening.known_disease
            else tr(
                "Signs or symptoms, cleared by a practitioner within the last "
                "twelve months: may carry on and progress; stop if they come "
                "back."
            ),
            (tr("Keep to what your doctor agreed, and stop at pain in the chest or dizziness."),),
        )
    vigorous = wish is Wish.VIGOROUS
    return Advice(
        Outcome.MODERATE_ONLY,
        Begin.CARRY_ON,
        Clearance.BEFORE_VIGOROUS if vigorous else Clearance.NOT_NEEDED,
        tr(
            "{what_is_known}, active: moderate effort may go on; for vigorous effort "
            "a practitioner must have agreed within the last twelve months.",
            what_is_known=_what_is_known(screening),
        ),
        (tr("Keep to moderate effort, and stop at pain in the chest or dizziness."),),
    )
