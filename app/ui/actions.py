"""Every command of the window as data: menu, shortcut list, context menu and guide come from it.

An action is run with the window; `enabled` is asked with the bench before a menu opens.
"""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass

from app.domain.wording import mark
from app.ui.bench import Bench
from app.ui.client import open_form
from app.ui.commands import Commands


def _always(_: Bench) -> bool:
    return True


def _program(bench: Bench) -> bool:
    return bench.desk.has_program


def _client(bench: Bench) -> bool:
    return bench.desk.work is not None


def _selection(bench: Bench) -> bool:
    return bool(bench.selection)


def _single(bench: Bench) -> bool:
    return len(bench.selection) == 1


def _chosen_weeks(bench: Bench) -> bool:
    return bool(bench.chosen)


@dataclass(frozen=True, slots=True)
class Action:
    """One command.

    id: stable name; menu: the menu it stands in; shortcuts: in Qt's portable text, the first is
    shown; apart: a line before it; card: also in the context menu of a card.
    """

    id: str
    menu: str
    text: str
    run: Callable[[Commands], object]
    shortcuts: tuple[str, ...] = ()
    enabled: Callable[[Bench], bool] = _always
    tip: str = ""
    apart: bool = False
    card: bool = False


ACTIONS: tuple[Action, ...] = (
    Action("new_client", "File", "New client…", lambda w: w.new_client(), ("Ctrl+Shift+N",)),
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
        "export_plan",
        "File",
        "Save a plan file…",
        lambda w: w.export_plan(),
        ("Ctrl+E",),
        _program,
        tip="The program and its client as one readable file",
    ),
    Action("import_plan", "File", "Open a plan file…", lambda w: w.import_plan(), ("Ctrl+O",)),
    Action(
        "read_again",
        "File",
        "Read the file again",
        lambda w: w.read_again(),
        ("F5",),
        _client,
        tip="Take up what another window kept in the same file",
    ),
    Action("coach", "File", "Your name on booklets…", lambda w: w.edit_coach(), apart=True),
    Action("quit", "File", "Close", lambda w: w.close(), ("Ctrl+Q",), apart=True),
    Action(
        "undo",
        "Edit",
        "Undo",
        lambda w: w.bench.undo(),
        ("Ctrl+Z",),
        lambda b: b.desk.history.undoable is not None,
    ),
    Action(
        "redo",
        "Edit",
        "Redo",
        lambda w: w.bench.redo(),
        ("Ctrl+Y", "Ctrl+Shift+Z"),
        lambda b: b.desk.history.redoable is not None,
    ),
    Action(
        "history",
        "Edit",
        "History…",
        lambda w: w.show_history(),
        ("Ctrl+H",),
        _client,
        tip="Every step of this session, to go back or on to, and what the file has kept",
    ),
    Action(
        "edit_line",
        "Edit",
        "Edit sets, reps, effort…",
        lambda w: w.grid.edit_card(),
        ("F2",),
        _single,
        apart=True,
        card=True,
    ),
    Action(
        "all_fields",
        "Edit",
        "All fields…",
        lambda w: w.grid.edit_fields(),
        ("Alt+Return",),
        _single,
        card=True,
    ),
    Action(
        "note",
        "Edit",
        "Note for the client…",
        lambda w: w.grid.edit_note(),
        (),
        _single,
        card=True,
    ),
    Action(
        "substitute",
        "Edit",
        "Substitutes…",
        lambda w: w.show_substitutes(),
        ("Ctrl+R",),
        _single,
        card=True,
    ),
    Action(
        "working",
        "Edit",
        "How the load came about",
        lambda w: w.show_load_working(),
        ("F3",),
        _single,
        card=True,
    ),
    Action(
        "pick_up",
        "Edit",
        "Pick up, to put down elsewhere",
        lambda w: w.grid.pick_up_by_keys(),
        ("Ctrl+M",),
        _selection,
        card=True,
    ),
    Action(
        "pair",
        "Edit",
        "Pair, done in turn",
        lambda w: w.grid.acts.pair(),
        ("Ctrl+T",),
        lambda b: len(b.selection) > 1,
        card=True,
    ),
    Action(
        "unpair",
        "Edit",
        "Dissolve the pair",
        lambda w: w.grid.acts.unpair(),
        (),
        _selection,
        card=True,
    ),
    Action(
        "cut",
        "Edit",
        "Cut",
        lambda w: w.grid.acts.cut(),
        ("Ctrl+X",),
        _selection,
        apart=True,
        card=True,
    ),
    Action(
        "copy", "Edit", "Copy", lambda w: w.grid.acts.copy(), ("Ctrl+C",), _selection, card=True
    ),
    Action("paste", "Edit", "Paste", lambda w: w.grid.acts.paste(), ("Ctrl+V",), _program),
    Action(
        "remove",
        "Edit",
        "Remove",
        lambda w: w.grid.acts.remove(),
        ("Del",),
        _selection,
        card=True,
    ),
    Action(
        "place",
        "Edit",
        "Choose an exercise for this day",
        lambda w: w.library.start_search(),
        ("Ins",),
        _program,
        apart=True,
    ),
    Action("find", "Edit", "Search the library", lambda w: w.library.start_search(), ("Ctrl+F",)),
    Action("rename_program", "Program", "Rename…", lambda w: w.rename_program(), (), _program),
    Action(
        "emphasis",
        "Program",
        "Emphasis…",
        lambda w: w.edit_emphasis(),
        (),
        _program,
        tip="The muscles the program is for, in order",
    ),
    Action(
        "progression",
        "Program",
        "Progression…",
        lambda w: w.show_progression(),
        ("Ctrl+G",),
        _program,
        apart=True,
        tip="Repetitions, sets and effort over the weeks",
    ),
    Action(
        "split",
        "Program",
        "Change the split…",
        lambda w: w.show_split(),
        ("Ctrl+Shift+D",),
        _program,
        tip="Two days into one, or one into two",
    ),
    Action(
        "warmup",
        "Program",
        "Warm-up…",
        lambda w: w.show_warmup(),
        ("Ctrl+U",),
        _program,
        tip="Drills and ramp sets before a session",
    ),
    Action(
        "report",
        "Program",
        "Findings report…",
        lambda w: w.show_report(),
        (),
        _program,
        tip="All findings and acceptances on paper or as a file, for a colleague's review",
    ),
    Action("layout", "Program", "Start from a layout…", lambda w: w.show_layouts(), (), _program),
    Action(
        "compare_states",
        "Program",
        "Compare with an earlier state…",
        lambda w: w.show_comparison(),
        (),
        _program,
        apart=True,
        tip="Beside a booklet that was handed out, or a step of this session",
    ),
    Action(
        "give",
        "Program",
        "Give to other clients…",
        lambda w: w.give_program(),
        (),
        _program,
        tip="Refitted to each of them, with what would be different said first",
    ),
    Action(
        "archive_program",
        "Program",
        "Archive, or bring back",
        lambda w: w.toggle_archived(),
        (),
        _program,
        tip="An archived program keeps everything, but is not offered at the top",
    ),
    Action(
        "add_session",
        "Week",
        "Add a session on the day in focus",
        lambda w: w.grid.session_acts.add(w.grid.cursor_day),
        (),
        _program,
    ),
    Action(
        "clear_day",
        "Week",
        "Clear the day in focus",
        lambda w: w.grid.session_acts.clear_day(w.grid.cursor_day),
        (),
        _program,
    ),
    Action(
        "hide_rest_days",
        "View",
        "Hide days without a session, or show them",
        lambda w: w.toggle_rest_days(),
        (),
        _program,
    ),
    Action(
        "next_week",
        "Week",
        "Next week",
        lambda w: w.bench.show_week(w.bench.week + 1),
        ("Ctrl+PgDown",),
        _program,
        apart=True,
    ),
    Action(
        "last_week",
        "Week",
        "Week before",
        lambda w: w.bench.show_week(w.bench.week - 1),
        ("Ctrl+PgUp",),
        _program,
    ),
    Action(
        "add_week",
        "Week",
        "Add an empty week after this one",
        lambda w: w.add_week(),
        (),
        _program,
        apart=True,
    ),
    Action(
        "double_week",
        "Week",
        "Copy this week behind itself",
        lambda w: w.duplicate_week(),
        (),
        _program,
    ),
    Action(
        "fill_on", "Week", "Copy this week over all later ones", lambda w: w.fill_on(), (), _program
    ),
    Action(
        "light",
        "Week",
        "Make this week light, or ordinary again",
        lambda w: w.toggle_light(),
        ("Ctrl+L",),
        _program,
    ),
    Action(
        "insert_light",
        "Week",
        "Insert a light week after this one",
        lambda w: w.insert_light(),
        (),
        _program,
    ),
    Action(
        "start_block",
        "Week",
        "Start a block here…",
        lambda w: w.start_block(),
        (),
        _program,
        apart=True,
    ),
    Action(
        "join_block",
        "Week",
        "Join this block to the one before",
        lambda w: w.join_block(),
        (),
        _program,
    ),
    Action(
        "clear_week", "Week", "Clear this week", lambda w: w.clear_week(), (), _program, apart=True
    ),
    Action("remove_week", "Week", "Remove this week", lambda w: w.remove_week(), (), _program),
    Action(
        "week_earlier",
        "Week",
        "Move this week, or the chosen ones, earlier",
        lambda w: w.season.step_weeks(-1),
        (),
        _program,
        tip="In the season: Alt and the arrows, or drag a week's number",
        apart=True,
    ),
    Action(
        "week_later",
        "Week",
        "Move this week, or the chosen ones, later",
        lambda w: w.season.step_weeks(1),
        (),
        _program,
        tip="In the season: Alt and the arrows, or drag a week's number",
    ),
    Action(
        "fill_chosen",
        "Week",
        "Copy open week into chosen weeks",
        lambda w: w.fill_chosen(),
        (),
        _chosen_weeks,
        tip="Drag across the season, or Shift and the arrows there, to choose weeks",
        apart=True,
    ),
    Action(
        "clear_chosen", "Week", "Clear chosen weeks", lambda w: w.clear_chosen(), (), _chosen_weeks
    ),
    Action(
        "remove_chosen",
        "Week",
        "Remove chosen weeks",
        lambda w: w.remove_chosen(),
        (),
        _chosen_weeks,
    ),
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
    Action(
        "charts",
        "Client",
        "Charts…",
        lambda w: open_form.charts(w.bench, w),
        ("Ctrl+Shift+G",),
        _client,
        tip="Strength, sets, tonnage, adherence and body mass over the weeks",
        apart=True,
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
