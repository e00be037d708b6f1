"""Our own small icons."""

from __future__ import annotations

import pytest
from PySide6.QtGui import QIcon
from PySide6.QtWidgets import QApplication

from app.ui import icons, theme

NAMES = ("undo", "redo", "search", "fold", "open", "plus", "cross", "more")


def inked(icon: QIcon, mode: QIcon.Mode) -> set[str]:
    """The opaque colours of the icon."""
    image = icon.pixmap(64, 64, mode).toImage()
    pixels = (image.pixelColor(x, y) for x in range(image.width()) for y in range(image.height()))
    return {pixel.name() for pixel in pixels if pixel.alpha() == 255}


@pytest.mark.parametrize("name", NAMES)
def test_an_icon_is_drawn_in_ink_and_pale_where_it_is_off(qapp: QApplication, name: str) -> None:
    for colours in (theme.LIGHT, theme.DARK):
        theme.force(colours)
        try:
            made = icons.icon(name)
        finally:
            theme.force(None)
        assert inked(made, QIcon.Mode.Normal) == {colours.ink2.name()}
        assert inked(made, QIcon.Mode.Disabled) == {colours.hair.name()}


def test_icons_differ(qapp: QApplication) -> None:
    pictures = [icons.icon(name).pixmap(64, 64).toImage() for name in NAMES]
    for number, picture in enumerate(pictures):
        assert all(picture != other for other in pictures[number + 1 :])


def test_an_unknown_name_is_a_mistake_of_ours(qapp: QApplication) -> None:
    with pytest.raises(KeyError):
        icons.icon("bell")
