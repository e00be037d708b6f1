"""Commands on what a client did and reported: charts, check-ins, the progress report."""

from __future__ import annotations

from app.domain.wording import mark
from app.ui.action import Action, client_open, program_open
from app.ui.client import open_form

RECORD_ACTIONS: tuple[Action, ...] = (
    Action(
        "check_in",
        mark("Client"),
        mark("Check-in…"),
        lambda w: open_form.check_in(w.bench, w),
        ("Ctrl+Shift+I",),
        client_open,
        tip=mark("Body mass, girths, sleep, mood and what else the client reported of a day"),
        apart=True,
    ),
    Action(
        "check_in_weeks",
        mark("Client"),
        mark("Check-ins of several weeks…"),
        lambda w: open_form.check_in_weeks(w.bench, w),
        (),
        client_open,
        tip=mark("A table to fill by keyboard, or to paste into"),
    ),
    Action(
        "check_ins",
        mark("Client"),
        mark("All check-ins…"),
        lambda w: open_form.check_ins(w.bench, w),
        (),
        client_open,
        tip=mark("The list with its trend, weeks without any, and what they say of energy"),
    ),
    Action(
        "charts",
        mark("Client"),
        mark("Charts…"),
        lambda w: open_form.charts(w.bench, w),
        ("Ctrl+Shift+G",),
        client_open,
        tip=mark("Strength, sets, tonnage, adherence and body mass over the weeks"),
    ),
    Action(
        "results",
        mark("Client"),
        mark("Enter results…"),
        lambda w: open_form.results(w.bench, w),
        ("Ctrl+Shift+R",),
        program_open,
        tip=mark("What was done of each session, beside what was meant"),
    ),
    Action(
        "result_table",
        mark("Client"),
        mark("Results from a table…"),
        lambda w: open_form.result_table(w.bench, w),
        (),
        program_open,
        tip=mark("A CSV or XLSX file with a row a set, whatever its columns are called"),
    ),
    Action(
        "adjust",
        mark("Client"),
        mark("Adjust next week…"),
        lambda w: open_form.adjust(w.bench, w),
        ("Ctrl+Shift+J",),
        program_open,
        tip=mark("What the results suggest for the coming week, slot by slot, and why"),
    ),
    Action(
        "from_results",
        mark("Client"),
        mark("Begin from the results…"),
        lambda w: open_form.from_results(w.bench, w),
        (),
        client_open,
        tip=mark("Hard sets count as tests, so that the next block starts from what was done"),
    ),
    Action(
        "progress_report",
        mark("Client"),
        mark("Progress report…"),
        lambda w: open_form.progress_report(w.bench, w),
        (),
        client_open,
        tip=mark("Two pages for the client: planned and done, strength, body mass, what is next"),
    ),
)
"""In the menu of the client, below the forms."""
