"""Commands on what a client did and reported: charts, check-ins, the progress report."""

from __future__ import annotations

from app.domain.wording import mark
from app.ui.action import Action, client_open
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
)
"""In the menu of the client, below the forms."""
