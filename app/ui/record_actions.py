"""Commands on what a client did and reported: charts, check-ins, the progress report."""

from __future__ import annotations

from app.domain.wording import mark
from app.ui.action import Action, client_open, program_open
from app.ui.client import open_form

RECORD_ACTIONS: tuple[Action, ...] = (
    Action(
        "charts",
        mark("Client"),
        mark("Charts…"),
        lambda w: open_form.charts(w.bench, w),
        ("Ctrl+Shift+G",),
        client_open,
        tip=mark("Strength, sets, tonnage, adherence and body mass over the weeks"),
        apart=True,
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
)
"""In the menu of the client, below the forms."""
