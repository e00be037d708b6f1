"""The commands by which plans leave the window and enter it, in the menu File."""

from __future__ import annotations

from app.domain.wording import mark
from app.ui.action import Action, client_open, program_open
from app.ui.commands import Commands


def save_tables(window: Commands) -> None:
    """Ask for what goes into tables, and save them."""
    from app.ui.exchange.tables_dialog import TablesDialog

    TablesDialog(window.bench, window).exec()


def read_table(window: Commands) -> None:
    """Ask for a coach's table, and read it as a program."""
    from app.ui.exchange.table_import.dialog import read_table as read

    if read(window.bench, window.store, window):
        window.refresh_lists()


def save_calendar(window: Commands) -> None:
    """Ask when sessions begin, and save them as a calendar."""
    from app.ui.exchange.calendar_dialog import CalendarDialog

    CalendarDialog(window.bench, window.store, window).exec()


def plan_folder(window: Commands) -> None:
    """Save many programs as plan files, or read many."""
    from app.ui.exchange.folder_dialog import FolderDialog

    FolderDialog(window.bench, window.store, window).exec()
    window.refresh_lists()


def references(window: Commands) -> None:
    """Save references for a reference manager, or take the coach's own in."""
    from app.ui.exchange.references_dialog import ReferencesDialog

    ReferencesDialog(window.bench, window.store, window).exec()


EXCHANGE_ACTIONS: tuple[Action, ...] = (
    Action(
        "plan_folder",
        mark("File"),
        mark("Folder of plan files…"),
        plan_folder,
        tip=mark("Many plan files in one go, out or in"),
    ),
    Action(
        "save_tables",
        mark("File"),
        mark("Save as a table…"),
        save_tables,
        (),
        program_open,
        tip=mark("Weeks, sets per muscle and results for a spreadsheet program"),
        apart=True,
    ),
    Action(
        "read_table",
        mark("File"),
        mark("Read a plan from a table…"),
        read_table,
        (),
        client_open,
        tip=mark("A program for the client from a CSV or XLSX table, however it is laid out"),
    ),
    Action(
        "save_calendar",
        mark("File"),
        mark("Calendar file…"),
        save_calendar,
        (),
        program_open,
        tip=mark("The sessions with their times, for a calendar program"),
    ),
    Action(
        "references",
        mark("File"),
        mark("References…"),
        references,
        tip=mark("The published sources as CSL-JSON, BibTeX or RIS, and those of your own"),
    ),
)
