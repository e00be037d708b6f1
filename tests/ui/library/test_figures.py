"""Figures that are painted when there is time."""

from __future__ import annotations

import pytest

from app import resources
from app.ui import theme
from app.ui.library.figures import MOST_WISHES, LazyFigures


@pytest.fixture
def figures(qapp) -> LazyFigures:
    return LazyFigures(resources.poses(), (44, 44))


def test_a_figure_is_not_there_at_once_but_soon(qtbot, figures):
    assert figures.picture("back_squat", 1.0) is None
    with qtbot.waitSignal(figures.ready):
        pass
    picture = figures.picture("back_squat", 1.0)
    assert picture is not None
    assert (picture.width(), picture.height()) == (44, 44)


def test_finer_screens_get_finer_figures(figures):
    figures.picture("back_squat", 2.0)
    figures.finish()
    assert figures.picture("back_squat", 2.0).width() == 88
    assert figures.picture("back_squat", 1.0) is None


def test_the_newest_wish_comes_first(qtbot, figures):
    figures.picture("back_squat", 1.0)
    figures.picture("step_up", 1.0)
    with qtbot.waitSignal(figures.ready):
        pass
    assert figures.picture("step_up", 1.0) is not None
    assert figures.picture("back_squat", 1.0) is None


def test_what_scrolled_by_long_ago_is_forgotten(figures):
    first = next(iter(resources.poses()))
    for ratio in range(1, MOST_WISHES + 2):
        figures.picture(first, 1 + ratio / 100)
    figures.finish()
    assert figures.picture(first, 1.01) is None
    assert figures.picture(first, 1 + (MOST_WISHES + 1) / 100) is not None


def test_an_exercise_without_a_pose_has_none_and_asks_for_none(figures):
    assert figures.picture("", 1.0) is None
    figures.finish()
    assert figures.picture("", 1.0) is None


def test_another_theme_paints_them_anew(figures):
    theme.force(theme.LIGHT)
    try:
        figures.picture("back_squat", 1.0)
        figures.finish()
        light = figures.picture("back_squat", 1.0).toImage()
        theme.force(theme.DARK)
        assert figures.picture("back_squat", 1.0) is None
        figures.finish()
        assert figures.picture("back_squat", 1.0).toImage() != light
    finally:
        theme.force(None)
