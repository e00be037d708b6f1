"""Plan, loads and warm-up in one column: the figures of the wide pages, unbroken."""

from __future__ import annotations

import re

import pytest

from app.booklet import Options, Paper, make
from app.booklet.bind import open_book
from app.booklet.block_table import block_row
from app.booklet.loads_page import sort_loads
from app.domain.client import Client, ClientId
from tests.booklet.reading_pdf import Printed
from tests.booklet.sample import content, issue, season

A5 = Options(paper=Paper.A5)


@pytest.mark.parametrize("options", [A5, Options(large=True), Options(paper=Paper.PHONE)])
def test_every_block_is_named_with_its_weeks_and_what_changes(options: Options):
    handed = issue(season(12))
    book = open_book(handed, content(), options)
    text = re.sub(r"\s+", " ", Printed(make(handed, content(), options)).whole)
    for number in range(len(handed.program.blocks)):
        row = block_row(book, number)
        assert f"{row.title} {row.weeks}" in text
        assert re.sub(r"\s+", " ", row.said) in text


def test_tests_and_what_follows_from_them_are_there():
    handed = issue(season(2))
    tested, _ = sort_loads(open_book(handed, content(), A5))
    text = re.sub(r"\s+", " ", Printed(make(handed, content(), A5)).whole)
    assert tested
    for row in tested:
        assert row.title in text
        assert row.test.replace("\u00a0", " ") in text
        assert row.one_rm.replace("\u00a0", " ") in text


def test_where_nothing_was_tested_the_steps_are_there():
    bare = issue(season(1), Client(ClientId("x"), "Bo"))
    text = re.sub(r"\s+", " ", Printed(make(bare, content(), A5)).whole)
    assert "How to find a load" in text
    assert "Begin with the empty bar" in text
    assert "Five more or better: " in text


def test_drills_stand_with_their_days():
    text = re.sub(r"\s+", " ", Printed(make(issue(season(1)), content(), A5)).whole)
    assert "Band walk × 5–10 · Tuesday" in text.replace("\N{NO-BREAK SPACE}", " ").replace(
        "  ", " "
    )
    assert "Ramp sets in your first week" in text
