"""Commands on sessions, days, weeks and blocks: titles, notes, and what comes and goes whole."""

from __future__ import annotations

from app.domain.wording import mark
from app.ui.action import Action, program_open

DAY_ACTIONS: tuple[Action, ...] = (
    Action(
        "add_session",
        mark("Week"),
        mark("Add a session on the day in focus"),
        lambda w: w.grid.session_acts.add(w.grid.cursor_day),
        (),
        program_open,
    ),
    Action(
        "session_title",
        mark("Week"),
        mark("Title of the session…"),
        lambda w: w.grid.edit_title(),
        (),
        program_open,
        tip=mark("Of the session in focus; a double click on its title does the same"),
    ),
    Action(
        "session_note",
        mark("Week"),
        mark("Note on the session…"),
        lambda w: w.grid.edit_session_note(),
        (),
        program_open,
        tip=mark("For the client, printed above the session's exercises"),
    ),
    Action(
        "pick_session",
        mark("Week"),
        mark("Pick up the session, to put down elsewhere"),
        lambda w: w.grid.pick_up_session(),
        (),
        program_open,
        tip=mark("Arrows or a click choose its day; dragging it by its title does the same"),
    ),
    Action(
        "remove_session",
        mark("Week"),
        mark("Remove the session"),
        lambda w: w.grid.remove_session(),
        (),
        program_open,
    ),
    Action(
        "day_note",
        mark("Week"),
        mark("Note on the day…"),
        lambda w: w.grid.edit_day_note(),
        (),
        program_open,
        apart=True,
        tip=mark("For the client, printed with the week; the key N on a day's head does the same"),
    ),
    Action(
        "clear_day",
        mark("Week"),
        mark("Clear the day in focus"),
        lambda w: w.grid.session_acts.clear_day(w.grid.cursor_day),
        (),
        program_open,
    ),
    Action(
        "week_note",
        mark("Week"),
        mark("Note on the week…"),
        lambda w: w.grid.edit_week_note(),
        (),
        program_open,
        apart=True,
        tip=mark("For the client, printed with the week"),
    ),
)

BLOCK_ACTIONS: tuple[Action, ...] = (
    Action(
        "rename_block",
        mark("Week"),
        mark("Rename this block…"),
        lambda w: w.rename_block(),
        (),
        program_open,
    ),
)

ON_A_SESSION = ("session_title", "session_note", "pick_session", "remove_session")
"""Commands that need a session on the day."""

DAY_MENU: tuple[tuple[str, ...], ...] = (
    ("place", "paste", "choose_day"),
    ON_A_SESSION,
    ("add_session", "day_note", "clear_day"),
    ("working",),
)
"""The context menu of a day: ids of commands, a line between the groups."""
