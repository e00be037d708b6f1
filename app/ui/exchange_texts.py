"""What is explained of the forms by which plans leave the window and enter it."""

from __future__ import annotations

from collections.abc import Mapping

from app.domain.wording import mark

EXCHANGE_PAGES: Mapping[str, str] = {
    "TablesDialog": "plan-files",
    "CalendarDialog": "plan-files",
    "FolderDialog": "plan-files",
    "TableImport": "plan-files",
    "ReferencesDialog": "plan-files",
}
"""The page of the guide for each form, by the name of its class."""

_ANY = "*"
_TICKED = mark("Ticked, it goes into the table.")
_OUT = mark("Programs go out as plan files, or plan files come in.")
_SAVED = mark("Which references are written into the file.")

EXCHANGE_FIELDS: Mapping[tuple[str, str], str] = {
    ("TablesDialog", "Form"): mark(
        "A workbook, or CSV: with a semicolon where your program writes 2,5 and not 2.5."
    ),
    ("TablesDialog", _ANY): _TICKED,
    ("CalendarDialog", "Time zone"): mark("Where the sessions take place, like Europe/Vienna."),
    ("CalendarDialog", "First week"): mark("The first week that is written, counted from 1."),
    ("CalendarDialog", "Last week"): mark("The last week that is written; it is included."),
    ("CalendarDialog", "Write the loads behind the exercises"): mark(
        "The loads as a booklet made today would print them."
    ),
    ("CalendarDialog", _ANY): mark("When sessions of that day begin, or what their events say."),
    ("FolderDialog", "Folder"): mark("The folder that the plan files go to, or come from."),
    ("FolderDialog", "Save programs to a folder, a plan file each"): _OUT,
    ("FolderDialog", "Read the plan files of a folder"): _OUT,
    ("FolderDialog", _ANY): mark("Unticked, what you have in another version stays as it is."),
    ("TableImport", "Encoding"): mark(
        "How letters are kept in the file; change it if they look wrong."
    ),
    ("TableImport", "Between cells"): mark("The sign that parts one cell from the next."),
    ("TableImport", "Headings in row"): mark(
        "The row that says what the columns hold; empty for none."
    ),
    ("TableImport", "Each row is one set"): mark(
        "Ticked, rows of one exercise that follow each other are its sets."
    ),
    ("TableImport", "Each sheet is a week"): mark("Ticked, every sheet stands for one week."),
    ("TableImport", "Weeks stand side by side"): mark(
        "Ticked, you say below each column which week it speaks of."
    ),
    ("TableImport", "Name"): mark("What the program is called; it can be changed later."),
    ("TableImport", "First week of"): mark("Any day of the week that the program begins in."),
    ("TableImport", "Weeks"): mark("With more than the table has, its last week goes on."),
    ("TableImport", "As a new program"): mark("The program that is open stays beside it."),
    ("TableImport", _ANY): mark(
        "What the table means; your choice is remembered for the next one."
    ),
    ("ReferencesDialog", "Form"): mark("What your reference manager reads; each holds the same."),
    ("ReferencesDialog", _ANY): _SAVED,
}
"""The sentences, by the form's class and the field's name."""
