"""What can be chosen."""

from __future__ import annotations

import pytest

from app.booklet import ALL_PARTS, Content, Options, Paper, Part
from tests.booklet.sample import FONTS
from tests.builders import CATALOGUE


def test_by_default_everything_is_printed_on_a4_in_colour():
    assert Options() == Options(Paper.A4, grey=False, weeks=None, parts=ALL_PARTS)
    assert set(Part) == ALL_PARTS


@pytest.mark.parametrize(
    ("paper", "inches"), [(Paper.A4, (8.268, 11.693)), (Paper.LETTER, (8.5, 11.0))]
)
def test_papers_have_their_standard_size(paper: Paper, inches: tuple[float, float]):
    width, height = inches
    assert paper.width_mm == pytest.approx(width * 25.4, abs=0.05)
    assert paper.height_mm == pytest.approx(height * 25.4, abs=0.05)


def test_a_catalogue_and_fonts_are_enough():
    content = Content(CATALOGUE, FONTS)
    assert content.energy is None
    assert not content.references
    assert not content.poses
