from __future__ import annotations

import pytest

from app.ui.charts.look import look_of, paper_look
from app.ui.theme import DARK, LIGHT


def luminance(code):
    parts = [int(code[at : at + 2], 16) / 255 for at in (1, 3, 5)]
    linear = [c / 12.92 if c <= 0.04045 else ((c + 0.055) / 1.055) ** 2.4 for c in parts]
    return 0.2126 * linear[0] + 0.7152 * linear[1] + 0.0722 * linear[2]


def contrast(one, other):
    low, high = sorted((luminance(one), luminance(other)))
    return (high + 0.05) / (low + 0.05)


@pytest.mark.parametrize("look", [look_of(LIGHT), look_of(DARK), paper_look()])
def test_letters_and_marks_stand_out_from_the_ground(look):
    assert contrast(look.ink, look.ground) >= 4.5
    assert contrast(look.mid, look.ground) >= 4.5
    for mark in (look.bar, look.accent, look.rule):
        assert contrast(mark, look.ground) >= 3


def test_paper_is_white():
    assert paper_look().ground == "#ffffff"
