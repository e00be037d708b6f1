"""Coaches' tables from files, with what is remembered about them."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import replace
from pathlib import Path

import openpyxl
import pytest

from app import resources
from app.domain.effort import Rir
from app.domain.exercise import ExerciseKey
from app.domain.program import Program
from app.exchange.coach_plan.build import Wanted, build, weeks_in
from app.exchange.coach_plan.columns import Part
from app.exchange.files import FileTrouble
from app.exchange.sheets.sheet import Book, Sheet, SheetError
from app.exchange.tables.csv_file import STYLES, Style
from app.table_files import Content, Source, write_tables
from app.table_plans import NAMES_KEY, TableReader, kept_names, open_table, shown_sheets
from db.store import Store
from tests.test_table_files import SOURCE
from tests.ui.desks import PROGRAM, RUNA

CATALOGUE = resources.catalogue()
TABLE = "Exercise;Sets;Reps;Hue\nBack squat;3;5;red\nSquish;3;8;blue\n"


@pytest.fixture
def store() -> Iterator[Store]:
    made = Store.in_memory()
    yield made
    made.close()


@pytest.fixture
def table(tmp_path: Path) -> Path:
    path = tmp_path / "plan.csv"
    path.write_text(TABLE, encoding="utf-8")
    return path


def test_what_the_coach_said_is_remembered_for_the_next_table(store: Store, table: Path) -> None:
    sheets = shown_sheets(open_table(table))
    reader = TableReader(CATALOGUE, store)
    columns = reader.columns(sheets, unit="kg")
    assert columns.columns[3].part is Part.IGNORED
    assert reader.match(sheets, columns).asked == ("Squish",)
    changed = columns.with_part(3, Part.NOTE)
    reader.keep(sheets, changed, {"Squish": ExerciseKey("goblet_squat")})
    again = TableReader(CATALOGUE, store)
    assert again.columns(sheets, unit="kg") == changed
    assert again.match(sheets, changed).meant["Squish"] == "goblet_squat"


def test_a_name_that_was_left_out_is_remembered_too(store: Store, table: Path) -> None:
    sheets = shown_sheets(open_table(table))
    reader = TableReader(CATALOGUE, store)
    reader.keep(sheets, reader.columns(sheets, unit="kg"), {"Squish": None})
    assert TableReader(CATALOGUE, store).left_out(["Squish", "Back squat"]) == {"Squish"}


def test_other_headings_are_guessed_afresh(store: Store, table: Path, tmp_path: Path) -> None:
    reader = TableReader(CATALOGUE, store)
    sheets = shown_sheets(open_table(table))
    reader.keep(sheets, reader.columns(sheets, unit="kg").with_part(3, Part.NOTE), {})
    other = Sheet("Other", (("Exercise", "Sets", "Reps", "Shade"), ("Back squat", 3, 5, "x")))
    assert reader.columns([other], unit="kg").columns[3].part is Part.IGNORED


@pytest.mark.parametrize("text", ["nonsense", "[1]", '{"a": null}', "{"])
def test_a_memory_that_is_damaged_is_no_hindrance(store: Store, table: Path, text: str) -> None:
    store.set_setting(NAMES_KEY, text)
    kept_names(store)
    sheets = shown_sheets(open_table(table))
    reader = TableReader(CATALOGUE, store)
    columns = reader.columns(sheets, unit="kg")
    reader.keep(sheets, columns, {})
    for key in ("table columns x",):
        store.set_setting(key, text)
    assert reader.match(sheets, columns).asked == ("Squish",)


def test_hidden_and_empty_sheets_are_no_plan() -> None:
    full, empty = Sheet("A", (("x",),)), Sheet("B", ())
    hidden = Sheet("C", (("x",),), hidden=True)
    assert shown_sheets(Book((full, empty, hidden))) == (full,)
    assert shown_sheets(Book((hidden, empty))) == (hidden,)


@pytest.mark.parametrize("style", [None, *STYLES], ids=["xlsx", "comma", "semicolon", "tab"])
@pytest.mark.parametrize("unit", ["kg", "lb"])
def test_our_own_tables_are_read_back_whole(
    store: Store, tmp_path: Path, style: Style | None, unit: str
) -> None:
    client = replace(RUNA, units=unit)
    source = Source(client, PROGRAM, SOURCE.diary, CATALOGUE)
    path = tmp_path / ("a.xlsx" if style is None else "a.csv")
    write_tables(path, source, [Content.PLAN], style)
    sheets = shown_sheets(open_table(path))
    reader = TableReader(CATALOGUE, store)
    columns = reader.columns(sheets, unit=unit)
    matched = reader.match(sheets, columns)
    assert matched.asked == ()
    assert matched.reading.remarks == ()
    lines = matched.reading.lines
    wanted = Wanted(PROGRAM.id, PROGRAM.name, PROGRAM.start, weeks_in(lines), matched.meant)
    made = build(lines, wanted, client=client, catalogue=CATALOGUE).program

    def said(program: Program) -> list[tuple[object, ...]]:
        return [
            (n, day, session.title, s.exercise, s.sets, s.reps, s.effort, s.rest_s, s.tempo, s.note)
            for n, week in enumerate(program.weeks)
            for day, session in week.sessions()
            for s in session.slots
        ]

    assert said(made) == said(PROGRAM)
    assert [week.light for week in made.weeks] == [week.light for week in PROGRAM.weeks]


def test_a_file_that_is_not_there_or_too_large_is_refused(tmp_path: Path) -> None:
    with pytest.raises(FileTrouble):
        open_table(tmp_path / "no.csv")
    huge = tmp_path / "huge.csv"
    with huge.open("wb") as file:
        file.truncate(300 * 1024 * 1024)
    with pytest.raises(FileTrouble, match="314,572,800 bytes"):
        open_table(huge)


def test_a_renamed_file_is_refused(tmp_path: Path) -> None:
    path = tmp_path / "plan.xlsx"
    path.write_text(TABLE, encoding="utf-8")
    with pytest.raises(SheetError, match="no workbook"):
        open_table(path)


def test_a_workbook_with_merged_cells_side_by_side_is_read_whole(
    store: Store, tmp_path: Path
) -> None:
    book = openpyxl.Workbook()
    sheet = book.active
    sheet.append(["Strength block for the spring"])
    sheet.append([None, None, None, "Week 1", None, "Week 2", None])
    sheet.append(["Day", "Session", "Exercise", "Sets x reps", "RIR", "Sets x reps", "RIR"])
    sheet.append(["Monday", "Lower", "A1. Back squats", "3x5", 2, "4 x 5", "1-2"])
    sheet.append([None, None, "A2. Leg extension", "3 x 12-15", 1, None, None])
    sheet.append(["Thursday", "Upper", "BB row", "4×8 @ RIR 2", None, "4x8", "2,5"])
    for cells in ("A1:G1", "D2:E2", "F2:G2", "A4:A5", "B4:B5"):
        sheet.merge_cells(cells)
    book.save(tmp_path / "a.xlsx")
    sheets = shown_sheets(open_table(tmp_path / "a.xlsx"))
    reader = TableReader(CATALOGUE, store)
    matched = reader.match(sheets, reader.columns(sheets, unit="kg"))
    assert matched.asked == ()
    assert matched.reading.remarks == ()
    lines = matched.reading.lines
    wanted = Wanted(PROGRAM.id, "Spring", PROGRAM.start, weeks_in(lines), matched.meant)
    made = build(lines, wanted, client=RUNA, catalogue=CATALOGUE).program
    assert [
        (n + 1, day, s.exercise, s.sets, s.reps.low, s.reps.high, s.effort.reps, s.pair)
        for n, week in enumerate(made.weeks)
        for day, session in week.sessions()
        for s in session.slots
    ] == [
        (1, 0, "back_squat", 3, 5, 5, 2, "A"),
        (1, 0, "leg_extension", 3, 12, 15, 1, "A"),
        (1, 3, "barbell_row", 4, 8, 8, 2, ""),
        (2, 0, "back_squat", 4, 5, 5, 1.5, ""),
        (2, 3, "barbell_row", 4, 8, 8, 2.5, ""),
    ]


def test_a_table_in_windows_letters_with_decimal_commas_is_read(
    store: Store, tmp_path: Path
) -> None:
    path = tmp_path / "plan.csv"
    text = (
        "Woche;Tag;Übung;Sätze;Wdh.;RPE;Pause (min);Gewicht (kg);Bemerkung\r\n"
        "1;Montag;Back squat;3;5;8,5;2,5;62,5;größte Tiefe\r\n"
    )
    path.write_bytes(text.encode("cp1252"))
    sheets = shown_sheets(open_table(path))
    reader = TableReader(CATALOGUE, store)
    (line,) = reader.match(sheets, reader.columns(sheets, unit="kg")).reading.lines
    assert line.asked.effort == Rir(1.5)
    assert (line.asked.rest_s, line.asked.load_kg) == (150, 62.5)
    assert line.asked.note == "größte Tiefe"
