"""Commands on clients as people: who needs what, the record, tests, places and wishes."""

from __future__ import annotations

from app.domain.wording import mark
from app.ui.action import Action, client_open
from app.ui.client import open_form

PEOPLE_ACTIONS: tuple[Action, ...] = (
    Action(
        "home",
        mark("View"),
        mark("Who needs what today"),
        lambda w: w.show_home(),
        ("Alt+Home",),
        tip=mark("Tests, check-ins, booklets and screenings that are due, of all clients"),
        apart=True,
    ),
    Action(
        "interview_new",
        mark("File"),
        mark("New client by interview…"),
        lambda w: open_form.interview(w.bench, w, new=True),
        tip=mark("Person, screening, training, places, days, wishes, test and food, page by page"),
    ),
    Action(
        "interview",
        mark("Client"),
        mark("Interview…"),
        lambda w: open_form.interview(w.bench, w),
        (),
        client_open,
        tip=mark("Page by page through all that is asked of a client"),
    ),
    Action(
        "wishes",
        mark("Client"),
        mark("Wishes…"),
        lambda w: open_form.wishes(w.bench, w),
        (),
        client_open,
        tip=mark("Exercises the client likes, and those that are not wanted"),
    ),
    Action(
        "tests",
        mark("Client"),
        mark("Strength tests…"),
        lambda w: open_form.strength_tests(w.bench, w),
        (),
        client_open,
        tip=mark("All tests, what rests on them, and which to do next"),
    ),
    Action(
        "record",
        mark("Client"),
        mark("Record…"),
        lambda w: open_form.record(w.bench, w),
        (),
        client_open,
        tip=mark("Stage, tags, consent, how long records are kept, and the unit of loads"),
    ),
)
