"""Figures are drawn once and placed often; nothing is drawn where a pose is missing."""

from __future__ import annotations

import re
from dataclasses import replace

import pytest

from app import resources
from app.booklet import Options, make
from app.domain.exercise import Catalogue
from tests.booklet.reading_pdf import Printed
from tests.booklet.sample import TAUGHT, content, issue, season
from tests.builders import program

FIGURED = Catalogue(
    tuple(replace(e, figure="back_squat") if e.key == "back_squat" else e for e in TAUGHT)
)


def forms(data: bytes) -> int:
    return len(set(re.findall(rb"/FormXob\.figure\d+", data)))


@pytest.mark.parametrize("grey", [False, True])
def test_a_figure_is_drawn_once_however_often_it_is_placed(grey: bool):
    one = make(
        issue(program("Mon: back_squat 3x5")),
        content(catalogue=FIGURED, poses=resources.poses()),
        Options(grey=grey),
    )
    four = make(
        issue(program("Mon: back_squat 3x5", times=4)),
        content(catalogue=FIGURED, poses=resources.poses()),
        Options(grey=grey),
    )
    assert forms(one) == forms(four) > 0
    assert Printed(four).pages_with("Start")


def test_without_a_pose_the_page_does_without():
    data = make(issue(season(1)), content(catalogue=FIGURED))
    assert forms(data) == 0
    assert not Printed(data).pages_with("Start ")
