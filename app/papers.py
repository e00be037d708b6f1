"""The papers besides the booklet: which there are, and each from a client's plan as PDF bytes."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass

from app import press, resources
from app.booklet import Content, Paper
from app.booklet.intake_form import IntakeForm, make_intake_form
from app.booklet.season_poster import make_poster
from app.booklet.session_sheet import make_session_sheets
from app.booklet.substitute_list import make_substitute_list
from app.domain.errors import CoachError
from app.domain.exercise import Catalogue
from app.domain.ranges import RangeBook
from app.domain.wording import mark, speaking, tr
from app.domain.work import Coach, Issue
from app.resources.languages import nearest_language


@dataclass(frozen=True, slots=True)
class Look:
    """What can be chosen about a paper.

    week: the week that is printed, as an index from 0; language: a BCP 47 code, None for the
    client's own.
    """

    paper: Paper = Paper.A4
    grey: bool = False
    week: int = 0
    language: str | None = None


@dataclass(frozen=True, slots=True)
class Order:
    """What papers are made from: who hands it out, to whom, and the plan if there is one.

    references: shipped ones and the coach's own, None for the shipped ones alone.
    """

    coach: Coach
    name: str
    issue: Issue | None
    catalogue: Catalogue
    ranges: RangeBook
    references: press.References | None = None

    def plan(self) -> tuple[Issue, Content]:
        """The plan and what is printed beside it. Raises CoachError where there is none."""
        if self.issue is None:
            raise CoachError(
                tr("There is no program to print."),
                mend=tr("Open a client's program first."),
            )
        return self.issue, press.content_for(
            self.issue, self.catalogue, self.ranges, references=self.references
        )


Make = Callable[[Order, Look], bytes]


@dataclass(frozen=True, slots=True)
class Kind:
    """One paper.

    name and about: for the list it is chosen from; stem: of its file's name; weekly: whether it
    is printed for one week; planned: whether it needs a program.
    """

    key: str
    name: str
    about: str
    stem: str
    make: Make
    weekly: bool = False
    planned: bool = True


def _poster(order: Order, look: Look) -> bytes:
    return make_poster(*order.plan(), paper=look.paper, grey=look.grey)


def _sessions(order: Order, look: Look) -> bytes:
    return make_session_sheets(*order.plan(), week=look.week, paper=look.paper, grey=look.grey)


def _substitutes(order: Order, look: Look) -> bytes:
    return make_substitute_list(*order.plan(), paper=look.paper, grey=look.grey)


def _intake(order: Order, look: Look) -> bytes:
    form = IntakeForm(order.coach, look.paper, look.grey)
    return make_intake_form(form, resources.path_of("fonts"))


def _spoken(make: Make) -> Make:
    """The paper in the language that was chosen, or in the client's own."""

    def spoken(order: Order, look: Look) -> bytes:
        own = order.issue.client.language if order.issue is not None else ""
        with speaking(nearest_language(own if look.language is None else look.language)):
            return make(order, look)

    return spoken


KINDS = (
    Kind(
        "poster",
        mark("Season poster"),
        mark("The whole season on one wide page, with a box to tick for every session."),
        "season",
        _spoken(_poster),
    ),
    Kind(
        "sessions",
        mark("Session sheets"),
        mark("One week's sessions, each on a sheet of its own with boxes to write in."),
        "sessions",
        _spoken(_sessions),
        weekly=True,
    ),
    Kind(
        "instead",
        mark("Substitute list"),
        mark("What may be done in each exercise's place, for the training bag."),
        "instead",
        _spoken(_substitutes),
    ),
    Kind(
        "intake",
        mark("Intake form"),
        mark(
            "One page of questions for a new client, to fill in by hand, or on a screen and read "
            "back."
        ),
        "intake-form",
        _spoken(_intake),
        planned=False,
    ),
)
