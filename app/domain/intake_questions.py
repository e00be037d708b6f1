"""The questions of the intake form, as the table that it is printed from and read back by.

No answer can so land in another question.
"""

from __future__ import annotations

from dataclasses import dataclass
from enum import StrEnum

from app.domain.client import Goal, Sex
from app.domain.exercise import Equipment
from app.domain.wording import mark

FORM = "weekloom intake 1"
"""Stands in the form's hidden field `form`; another number is another table of questions."""


class Kind(StrEnum):
    """How a question is answered."""

    LINE = "line"
    LINES = "lines"
    NUMBER = "number"
    DATE = "date"  # day, month and year in a box each: no two countries can read it differently
    ONE = "one"  # one of several ticks
    ANY = "any"  # any of several ticks
    ORDER = "order"  # 1, 2, 3 beside what matters most
    WEEK = "week"  # a number for each weekday


@dataclass(frozen=True, slots=True)
class Question:
    """One question: its key, how it is answered, its words and its choices (key and words)."""

    key: str
    kind: Kind
    text: str
    choices: tuple[tuple[str, str], ...] = ()
    low: float = 0.0
    high: float = 0.0

    @property
    def fields(self) -> tuple[str, ...]:
        """The names of its fields in a form."""
        match self.kind:
            case Kind.LINE | Kind.LINES:
                return (self.key,)
            case Kind.DATE:
                return tuple(f"{self.key}.{part}" for part in ("day", "month", "year"))
            case Kind.NUMBER:
                units = tuple(f"{self.key}.{unit}" for unit, _ in self.choices)
                return (f"{self.key}.value", *units)
            case Kind.WEEK:
                return tuple(f"{self.key}.{day}" for day in DAYS)
            case _:
                return tuple(f"{self.key}.{choice}" for choice, _ in self.choices)


DAYS = ("mon", "tue", "wed", "thu", "fri", "sat", "sun")
YES_NO = (("yes", mark("yes")), ("no", mark("no")))
SEXES = (
    (Sex.FEMALE.value, mark("female")),
    (Sex.MALE.value, mark("male")),
    (Sex.AVERAGE.value, mark("average of both")),
)
GOALS = (
    (Goal.HYPERTROPHY.value, mark("muscle")),
    (Goal.STRENGTH.value, mark("strength")),
    (Goal.HEALTH.value, mark("health")),
)
THINGS = tuple((thing.value, thing.value.replace("_", " ")) for thing in Equipment)[1:]
MUSCLES = (
    ("quadriceps", mark("front of the thighs")),
    ("gluteals", mark("buttocks")),
    ("hamstrings", mark("back of the thighs")),
    ("calves", mark("calves")),
    ("spinal_erectors", mark("lower back")),
    ("trunk", mark("abdomen")),
    ("back", mark("upper back")),
    ("chest", mark("chest")),
    ("shoulders", mark("shoulders")),
    ("biceps", mark("biceps")),
    ("triceps", mark("triceps")),
)
"""The main groups of the tally, in a client's words."""

PERSON = (
    Question("name", Kind.LINE, mark("Name")),
    Question("contact", Kind.LINE, mark("Telephone or address")),
    Question("born", Kind.DATE, mark("Born")),
    Question("sex", Kind.ONE, mark("Sex, for the energy equations"), SEXES),
    Question(
        "height", Kind.NUMBER, mark("Height"), (("cm", "cm"), ("in", "in")), low=100, high=250
    ),
    Question(
        "mass", Kind.NUMBER, mark("Body mass"), (("kg", "kg"), ("lb", "lb")), low=25, high=350
    ),
)
HEALTH = (
    Question(
        "active",
        Kind.ONE,
        mark(
            "For the last 3 months, have you done planned exercise of at least 30 minutes, at a "
            "moderate effort, on 3 days a week?"
        ),
        YES_NO,
    ),
    Question(
        "known_disease",
        Kind.ONE,
        mark(
            "Has a doctor told you that you have a disease of the heart, the vessels, the "
            "metabolism (such as diabetes) or the kidneys?"
        ),
        YES_NO,
    ),
    Question(
        "symptoms",
        Kind.ONE,
        mark(
            "Do you have chest pain, breathlessness at rest or mild effort, dizziness or "
            "fainting, swollen ankles, palpitations, or calf pain when walking?"
        ),
        YES_NO,
    ),
    Question(
        "pregnant",
        Kind.ONE,
        mark("Are you pregnant, or did you give birth in the last months?"),
        YES_NO,
    ),
    Question("pains", Kind.LINES, mark("Pains, injuries, operations, what you must not do")),
)
TRAINING = (
    Question("years", Kind.NUMBER, mark("Years of strength training"), low=0, high=80),
    Question("goal", Kind.ONE, mark("You train for"), GOALS),
    Question("muscles", Kind.ORDER, mark("What matters most: write 1, 2, 3"), MUSCLES),
    Question("minutes", Kind.WEEK, mark("Minutes you have for training"), low=0, high=600),
    Question("equipment", Kind.ANY, mark("What you can train with"), THINGS),
    Question("likes", Kind.LINE, mark("Exercises you like")),
    Question("dislikes", Kind.LINE, mark("Exercises you do not want")),
)
CONSENT = mark(
    "My coach may keep what I wrote here, to plan my training and for nothing else, until I ask "
    "for it to be erased."
)

AGREED = (
    Question("agreed", Kind.ANY, mark("Agreed"), (("yes", CONSENT),)),
    Question("agreed_on", Kind.DATE, mark("Date")),
)
QUESTIONS = (*PERSON, *HEALTH, *TRAINING, *AGREED)
