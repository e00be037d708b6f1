"""The log: boxes that a hand can write in."""

from __future__ import annotations

import pytest

from app.booklet import Options, Paper
from app.booklet.bind import open_book
from app.booklet.book import frame_of
from app.booklet.week_log import log_boxes, targets_of
from tests.booklet.sample import WIDE, content, issue, season


@pytest.mark.parametrize("paper", WIDE)
def test_seven_boxes_for_body_mass_and_seven_for_sleep_fill_the_line(paper: Paper):
    width = frame_of(paper).width
    mass, sleep = log_boxes(width, 100.0)
    for line in (mass, sleep):
        assert len(line) == 7
        assert line[-1].right == pytest.approx(width)
        for box in line:
            assert box.width >= 15
            assert box.height >= 8.5
    assert sleep[0].y == pytest.approx(mass[0].bottom)


def test_without_energy_targets_there_is_nothing_to_eat_by():
    book = open_book(issue(season(2)), content(), Options())
    assert targets_of(book, 0) is None
