"""Commands on the open program as a whole."""

from __future__ import annotations

from app.domain.wording import mark
from app.ui.action import Action, program_open

PROGRAM_ACTIONS: tuple[Action, ...] = (
    Action(
        "rename_program",
        mark("Program"),
        mark("Rename…"),
        lambda w: w.rename_program(),
        (),
        program_open,
    ),
    Action(
        "emphasis",
        mark("Program"),
        mark("Emphasis…"),
        lambda w: w.edit_emphasis(),
        (),
        program_open,
        tip=mark("The muscles the program is for, in order"),
    ),
    Action(
        "progression",
        mark("Program"),
        mark("Progression…"),
        lambda w: w.show_progression(),
        ("Ctrl+G",),
        program_open,
        apart=True,
        tip=mark("Repetitions, sets and effort over the weeks"),
    ),
    Action(
        "split",
        mark("Program"),
        mark("Change the split…"),
        lambda w: w.show_split(),
        ("Ctrl+Shift+D",),
        program_open,
        tip=mark("Two days into one, or one into two"),
    ),
    Action(
        "warmup",
        mark("Program"),
        mark("Warm-up…"),
        lambda w: w.show_warmup(),
        ("Ctrl+U",),
        program_open,
        tip=mark("Drills and ramp sets before a session"),
    ),
    Action(
        "report",
        mark("Program"),
        mark("Findings report…"),
        lambda w: w.show_report(),
        (),
        program_open,
        tip=mark("All findings and acceptances on paper or as a file, for a colleague's review"),
    ),
    Action(
        "layout",
        mark("Program"),
        mark("Start from a layout…"),
        lambda w: w.show_layouts(),
        (),
        program_open,
    ),
    Action(
        "compare_states",
        mark("Program"),
        mark("Compare with an earlier state…"),
        lambda w: w.show_comparison(),
        (),
        program_open,
        apart=True,
        tip=mark("Beside a booklet that was handed out, or a step of this session"),
    ),
    Action(
        "give",
        mark("Program"),
        mark("Give to other clients…"),
        lambda w: w.give_program(),
        (),
        program_open,
        tip=mark("Refitted to each of them, with what would be different said first"),
    ),
    Action(
        "archive_program",
        mark("Program"),
        mark("Archive, or bring back"),
        lambda w: w.toggle_archived(),
        (),
        program_open,
        tip=mark("An archived program keeps everything, but is not offered at the top"),
    ),
)
