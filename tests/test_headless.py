"""What the terminal asks of tables and calendars."""

from __future__ import annotations

from pathlib import Path

import pytest

from app.domain.errors import CoachError
from app.domain.wording import Language, speaking
from app.headless import (
    Subject,
    TableWish,
    WouldReplace,
    contents_of,
    refuse_standing,
    subjects_of,
    targets_of,
)
from app.table_files import Content
from tests.ui.desks import PROGRAM, RUNA

SUBJECT = Subject(RUNA, PROGRAM)


def test_tables_are_named_with_commas() -> None:
    assert contents_of("results, plan") == (Content.PLAN, Content.RESULTS)
    with pytest.raises(CoachError, match="plan, tally, results"):
        contents_of("plan,sums")


def test_csv_is_written_as_the_language_expects() -> None:
    assert TableWish("xlsx").csv_style() is None
    assert TableWish("csv").csv_style().separator == ","
    with speaking(Language("de", decimal=",")):
        assert TableWish("csv").csv_style().separator == ";"
    assert TableWish("csv", style="tab").csv_style().separator == "\t"


def test_two_programs_of_one_name_get_two_files(tmp_path: Path) -> None:
    one, two = targets_of([SUBJECT, SUBJECT], kind="xlsx", out=None, to=tmp_path)
    assert one.parent == two.parent == tmp_path
    assert one != two
    assert targets_of([SUBJECT], kind="csv", out=tmp_path / "a", to=None) == (tmp_path / "a",)


def test_several_programs_do_not_fit_one_file(tmp_path: Path) -> None:
    with pytest.raises(CoachError, match="2 programs"):
        targets_of([SUBJECT, SUBJECT], kind="xlsx", out=tmp_path / "a.xlsx", to=None)


def test_clients_without_a_program_are_passed_over() -> None:
    assert subjects_of([(RUNA, None), (RUNA, PROGRAM)]) == (SUBJECT,)
    with pytest.raises(CoachError, match="no program"):
        subjects_of([(RUNA, None)])


def test_a_file_that_stands_there_is_refused(tmp_path: Path) -> None:
    path = tmp_path / "a.xlsx"
    refuse_standing([path], replacing=False)
    path.touch()
    refuse_standing([path], replacing=True)
    with pytest.raises(WouldReplace, match="--replace"):
        refuse_standing([path], replacing=False)
