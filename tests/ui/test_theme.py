"""Colours by role, their contrast, and the type."""

from __future__ import annotations

import re
from pathlib import Path

import pytest
from PySide6.QtGui import QColor, QPalette
from PySide6.QtWidgets import QApplication, QWidget
from pytestqt.qtbot import QtBot

from app.ui import theme

BOTH = pytest.mark.parametrize("colours", [theme.LIGHT, theme.DARK], ids=["light", "dark"])
GROUNDS = ("paper", "sheet", "card", "rest", "hover", "wash")

TEXT = [
    *((ink, ground) for ink in ("ink", "ink2", "ink3", "remark") for ground in GROUNDS),
    *((role, ground) for role in ("accent", "outside") for ground in (*GROUNDS, "band")),
    *(("conflict", ground) for ground in GROUNDS),
    ("on_fill", "fill"),
]
"""What is written on what: 4.5 to 1 (WCAG 2.2, 1.4.3)."""

NUMBERS = [
    *(("ink", ground) for ground in GROUNDS),
    *(("ink2", ground) for ground in GROUNDS),
    *((role, ground) for role in ("accent", "outside") for ground in ("card", "wash", "sheet")),
]
"""Numbers in grid, tally and verdicts: 7 to 1 (WCAG 2.2, 1.4.6)."""

MARKS = [
    *(("rule", ground) for ground in ("card", "rest", "sheet", "paper")),
    *(("bar", ground) for ground in ("sheet", "band", "card")),
    *((role, ground) for role in ("accent", "ink3") for ground in ("sheet", "band")),
    *((role, "sheet") for role in ("conflict", "outside", "remark")),
]
"""Edges of controls and drawn marks: 3 to 1 (WCAG 2.2, 1.4.11)."""


def luminance(colour: QColor) -> float:
    """Relative luminance as WCAG 2.2 defines it."""

    def linear(channel: float) -> float:
        return channel / 12.92 if channel <= 0.04045 else ((channel + 0.055) / 1.055) ** 2.4

    r, g, b = (linear(c) for c in (colour.redF(), colour.greenF(), colour.blueF()))
    return 0.2126 * r + 0.7152 * g + 0.0722 * b


def contrast(one: QColor, other: QColor) -> float:
    """The contrast ratio of WCAG 2.2, 1 to 21."""
    light, dark = sorted((luminance(one), luminance(other)), reverse=True)
    return (light + 0.05) / (dark + 0.05)


def test_the_formula_gives_the_published_ends_of_the_scale() -> None:
    black, white = QColor("#000000"), QColor("#FFFFFF")
    assert contrast(black, white) == pytest.approx(21)
    assert contrast(white, white) == pytest.approx(1)
    # the lightest grey that still passes on white, as the WCAG literature gives it
    assert contrast(QColor("#767676"), white) == pytest.approx(4.54, abs=0.01)


@BOTH
@pytest.mark.parametrize(
    ("pairs", "least"),
    [(TEXT, 4.5), (NUMBERS, 7.0), (MARKS, 3.0)],
    ids=["text", "numbers", "marks"],
)
def test_contrast_is_enough_for_what_is_shown(colours: theme.Theme, pairs, least: float) -> None:
    poor = {
        f"{ink} on {ground}": round(ratio, 2)
        for ink, ground in pairs
        if (ratio := contrast(getattr(colours, ink), getattr(colours, ground))) < least
    }
    assert poor == {}


@BOTH
def test_every_role_has_an_opaque_colour(colours: theme.Theme) -> None:
    for role in theme.ROLES:
        colour = getattr(colours, role)
        assert colour.isValid(), role
        assert colour.alpha() == 255, role


def test_the_two_themes_have_the_same_roles_and_say_which_is_dark() -> None:
    assert (theme.LIGHT.dark, theme.DARK.dark) == (False, True)
    assert luminance(theme.LIGHT.paper) > luminance(theme.DARK.paper)


def test_a_forced_theme_holds_until_the_platform_is_followed_again(qapp: QApplication) -> None:
    platform = theme.current()
    theme.force(theme.DARK)
    assert theme.current() is theme.DARK
    theme.force(theme.LIGHT)
    assert theme.current() is theme.LIGHT
    theme.force(None)
    assert theme.current() is platform


@BOTH
def test_stock_controls_draw_in_the_same_colours(colours: theme.Theme) -> None:
    palette = theme.palette(colours)
    role = QPalette.ColorRole
    assert palette.color(role.Window) == colours.paper
    assert palette.color(role.Highlight) == colours.fill
    assert palette.color(role.PlaceholderText) == colours.ink3
    assert palette.color(QPalette.ColorGroup.Disabled, role.ButtonText) == colours.ink3


@BOTH
def test_the_style_sheet_names_files_that_are_there_and_no_colour_of_its_own(colours) -> None:
    sheet = theme.style_sheet(colours)
    for path in re.findall(r"url\(([^)]*)\)", sheet):
        assert Path(path).is_file(), path
    known = {getattr(colours, role).name() for role in theme.ROLES}
    assert set(re.findall(r"#[0-9a-fA-F]{6}", sheet)) <= known


def test_the_steps_of_type_grow_and_figures_are_tabular(qapp: QApplication) -> None:
    steps: tuple[theme.Step, ...] = ("small", "body", "number", "head", "title", "name")
    sizes = [theme.font(step).pointSizeF() for step in steps]
    assert sizes == sorted(sizes)
    assert len(set(sizes)) == len(sizes)
    tags = theme.font("body").featureTags()
    assert "tnum" in [tag.toString().data().decode() for tag in tags]
    wide = {theme.font("body").key() for _ in range(2)}
    assert len(wide) == 1


def test_a_font_that_was_handed_out_can_be_changed_without_changing_the_next(qapp) -> None:
    mine = theme.font("body")
    mine.setStrikeOut(True)
    assert not theme.font("body").strikeOut()


@BOTH
def test_the_application_is_dressed(qtbot: QtBot, qapp: QApplication, colours) -> None:
    before = qapp.palette(), qapp.styleSheet()
    theme.force(colours)
    try:
        assert theme.apply(qapp) is colours
        widget = QWidget()
        qtbot.addWidget(widget)
        assert widget.palette().color(QPalette.ColorRole.WindowText) == colours.ink
    finally:
        theme.force(None)
        qapp.setPalette(before[0])
        qapp.setStyleSheet(before[1])
