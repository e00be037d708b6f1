"""Training status from three answers, after the published definitions.

Source: acsm2009, which calls novice who has no experience of resistance training or has not
trained for years, intermediate who has trained regularly for about six months, and advanced who
has done so for years. The figures that the definitions leave open are named where they stand.
"""

from __future__ import annotations

from dataclasses import dataclass

from app.domain.client import Status
from app.domain.units import require
from app.domain.wording import mark, tr
from app.domain.working import COMMON_PRACTICE, Line, Working

INTERMEDIATE_YEARS = 0.5
"""Regular training that makes a client intermediate: 'about six months'. Source: acsm2009."""
ADVANCED_YEARS = 2.0
"""Regular training that makes a client advanced: 'years', read as two. Common practice."""
OFF_YEARS = 2.0
"""Years without training after which one begins anew: 'years off', read as two. Common practice."""
RETURN_YEARS = 0.25
"""A break, years, after which a client comes back one step lower at first. Common practice."""

STATUS_WORDS = {
    Status.NOVICE: mark("novice"),
    Status.INTERMEDIATE: mark("intermediate"),
    Status.ADVANCED: mark("advanced"),
}


@dataclass(frozen=True, slots=True)
class Answers:
    """What is asked.

    trained_years: resistance training all told, years; regular: on two days a week or more, most
    weeks; off_years: years since it was last so. Raises QuantityError outside 0 to 100.
    """

    trained_years: float
    regular: bool
    off_years: float = 0.0

    def __post_init__(self) -> None:
        require("years of training", self.trained_years, low=0, high=100)
        require("years without training", self.off_years, low=0, high=100)


@dataclass(frozen=True, slots=True)
class Decision:
    """The status the answers make, why, and what else to heed; sources: keys or their stand-in."""

    status: Status
    why: str
    heed: str = ""
    sources: tuple[str, ...] = ("acsm2009", COMMON_PRACTICE)

    def working(self, answers: Answers) -> Working:
        """The answers and what follows from them."""
        return Working(
            title=tr("Training status: {status}", status=tr(STATUS_WORDS[self.status])),
            about=self.why,
            lines=(
                Line(tr("Resistance training, years"), f"{answers.trained_years:g}"),
                Line(
                    tr("Two days a week or more, most weeks"),
                    tr("yes") if answers.regular else tr("no"),
                ),
                Line(tr("Years since then"), f"{answers.off_years:g}"),
            ),
            sources=self.sources,
        )


def decide(answers: Answers) -> Decision:
    """The training status that the answers make."""
    if answers.trained_years == 0:
        return Decision(Status.NOVICE, tr("No experience of resistance training."))
    if answers.off_years >= OFF_YEARS:
        return Decision(
            Status.NOVICE,
            tr("Years without training: the definition counts it as a new beginning."),
            tr("What was learned comes back sooner than what was never there; begin easy."),
        )
    if not answers.regular:
        return Decision(
            Status.NOVICE, tr("Training now and then is not the regular training meant.")
        )
    if answers.trained_years < INTERMEDIATE_YEARS:
        return Decision(Status.NOVICE, tr("Less than about six months of regular training."))
    heed = ""
    if answers.off_years >= RETURN_YEARS:
        heed = tr("After a break of months, plan the first weeks one step lower.")
    if answers.trained_years < ADVANCED_YEARS:
        return Decision(
            Status.INTERMEDIATE, tr("About six months of regular training or more."), heed
        )
    return Decision(Status.ADVANCED, tr("Years of regular training."), heed)
