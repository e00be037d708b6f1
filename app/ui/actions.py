"""Every command of the window as data: menu, shortcut list, context menu and guide come from it.

An action is run with the window; `enabled` is asked with the bench before a menu opens.
"""

from __future__ import annotations

from app.domain.wording import mark
from app.ui import action
from app.ui.action import Action, parted
from app.ui.client import open_form
from app.ui.day_actions import DAY_ACTIONS
from app.ui.edit_actions import EDIT_ACTIONS
from app.ui.exchange.actions import EXCHANGE_ACTIONS
from app.ui.file_actions import FILE_ACTIONS, PERSON_ACTIONS, VIEW_ACTIONS
from app.ui.people_actions import PEOPLE_ACTIONS
from app.ui.program_actions import PROGRAM_ACTIONS
from app.ui.record_actions import RECORD_ACTIONS
from app.ui.week_actions import WEEK_ACTIONS

_program, _client = action.program_open, action.client_open

ACTIONS: tuple[Action, ...] = (
    Action("new_client", "File", "New client…", lambda w: w.new_client(), ("Ctrl+Shift+N",)),
    *(one for one in PEOPLE_ACTIONS if one.menu == "File"),
    Action("new_program", "File", "New program…", lambda w: w.new_program(), ("Ctrl+N",), _client),
    Action(
        "clients",
        "File",
        "Clients…",
        lambda w: w.show_clients(),
        tip="All clients, archived ones too: archive one, or bring one back",
    ),
    Action(
        "programs",
        "File",
        "Programs…",
        lambda w: w.show_programs(),
        ("Ctrl+Shift+P",),
        _client,
        tip="All programs of the client: rename, copy, archive, bring back, remove",
    ),
    Action(
        "booklet",
        "File",
        "Make booklet…",
        lambda w: w.make_booklet(),
        ("Ctrl+P",),
        _program,
        apart=True,
    ),
    Action(
        "booklets",
        "File",
        "Booklets for many…",
        lambda w: w.make_booklets(),
        tip="The newest program of each client you tick, into one folder",
    ),
    Action(
        "papers",
        "File",
        "Other papers…",
        lambda w: w.show_papers(),
        ("Ctrl+Shift+O",),
        tip="Season poster, session sheets, substitute list, intake form",
    ),
    Action(
        "read_filled",
        "File",
        "Read a filled booklet…",
        lambda w: w.read_filled_booklet(),
        (),
        _client,
        tip="A booklet that came back filled in: look at every result before it is kept",
    ),
    Action(
        "export_plan",
        "File",
        "Save a plan file…",
        lambda w: w.export_plan(),
        ("Ctrl+E",),
        _program,
        tip="The program and its client as one readable file",
    ),
    Action("import_plan", "File", "Open a plan file…", lambda w: w.import_plan(), ("Ctrl+O",)),
    *EXCHANGE_ACTIONS,
    Action(
        "read_again",
        "File",
        "Read the file again",
        lambda w: w.read_again(),
        ("F5",),
        _client,
        apart=True,
        tip="Take up what another window kept in the same file",
    ),
    Action("coach", "File", "Your name on booklets…", lambda w: w.edit_coach(), apart=True),
    *FILE_ACTIONS,
    Action("quit", "File", "Close", lambda w: w.close(), ("Ctrl+Q",), apart=True),
    *EDIT_ACTIONS,
    *PROGRAM_ACTIONS,
    *DAY_ACTIONS,
    *WEEK_ACTIONS,
    Action(
        "read_intake",
        "Client",
        "Read an intake form…",
        lambda w: w.read_intake(),
        tip="A form that came back filled in: look at every answer before it is kept",
    ),
    Action("profile", "Client", "Profile…", lambda w: open_form.profile(w.bench, w), (), _client),
    Action(
        "test",
        "Client",
        "Enter a strength test…",
        lambda w: open_form.strength_test(w.bench, w),
        ("Ctrl+Shift+T",),
        _client,
    ),
    Action(
        "limitation",
        "Client",
        "Add a limitation…",
        lambda w: open_form.limitations(w.bench, w),
        (),
        _client,
    ),
    Action(
        "screening", "Client", "Screening…", lambda w: open_form.screening(w.bench, w), (), _client
    ),
    *(one for one in PEOPLE_ACTIONS if one.menu != "File"),
    *RECORD_ACTIONS,
    *PERSON_ACTIONS,
    Action(
        "hide_rest_days",
        "View",
        "Hide days without a session, or show them",
        lambda w: w.toggle_rest_days(),
        (),
        _program,
    ),
    Action(
        "span_week",
        "View",
        "Edits reach this week",
        lambda w: w.choose_span(0),
        ("Alt+1",),
        _program,
    ),
    Action(
        "span_here",
        "View",
        "Edits reach from here on",
        lambda w: w.choose_span(1),
        ("Alt+2",),
        _program,
    ),
    Action(
        "span_block",
        "View",
        "Edits reach the whole block",
        lambda w: w.choose_span(2),
        ("Alt+3",),
        _program,
    ),
    Action(
        "span_all",
        "View",
        "Edits reach the whole program",
        lambda w: w.choose_span(3),
        ("Alt+4",),
        _program,
    ),
    Action(
        "heat",
        "View",
        "Season as heat strip, or as a score again",
        lambda w: w.season.show_heat(not w.season.heat),
        ("Ctrl+Shift+H",),
        _program,
        tip="Sets of every muscle over all weeks",
        apart=True,
    ),
    Action(
        "ranges",
        "View",
        mark("Ranges and your own…"),
        lambda w: w.show_ranges(),
        tip=mark("Every rule of thumb with its source, and your own in its place"),
        apart=True,
    ),
    Action(
        "fold_client",
        "View",
        "Fold the client pane, or open it",
        lambda w: w.toggle_client_pane(),
        ("Ctrl+Shift+C",),
        apart=True,
    ),
    *VIEW_ACTIONS,
    Action(
        "own_exercise",
        "Exercises",
        "Own exercise…",
        lambda w: w.library.acts.make_own(),
        tip="Make an exercise of your own; a copy of another from its menu in the library",
    ),
    Action(
        "bring_back",
        "Exercises",
        "Bring back a retired exercise…",
        lambda w: w.library.acts.bring_back(),
    ),
    Action(
        "compare",
        "Exercises",
        "Compare two exercises…",
        lambda w: w.library.compare(),
        tip="The exercise marked in the library beside another",
    ),
    Action("at_hand", "Exercises", "Show what is kept at hand", lambda w: w.library.show_at_hand()),
    Action(
        "save_exercises",
        "Exercises",
        "Save own exercises as a file…",
        lambda w: w.library.acts.save_own(),
        apart=True,
    ),
    Action(
        "take_in_exercises",
        "Exercises",
        "Take in exercises…",
        lambda w: w.library.acts.take_in_own(),
        tip="Exercises that another coach saved as a file",
    ),
    Action("guide", "Help", "Guide", lambda w: w.show_guide(), ("F1",)),
    Action("about", "Help", "About Weekloom", lambda w: w.show_about(), ()),
)

MENUS = tuple(dict.fromkeys(action.menu for action in ACTIONS))
BY_ID = {action.id: action for action in ACTIONS}
CARD_MENU = parted(action for action in ACTIONS if action.card)
"""The context menu of a card: ids of commands, a line between the groups."""
