"""Every colour, type size and measure of the window, in light and dark.

Names and contrast are those of the design's tokens; widgets ask for a role, never for a colour.
"""

from __future__ import annotations

from dataclasses import dataclass, fields
from string import Template
from typing import Literal

from PySide6.QtCore import Qt
from PySide6.QtGui import QColor, QFont, QGuiApplication, QPalette
from PySide6.QtWidgets import QApplication

from app import resources
from app.domain.wording import tr

Step = Literal["small", "body", "medium", "number", "head", "title", "name"]

_STEPS: dict[Step, tuple[float, QFont.Weight]] = {
    "small": (0.9, QFont.Weight.Normal),
    "body": (1.0, QFont.Weight.Normal),
    "medium": (1.0, QFont.Weight.Medium),
    "number": (1.05, QFont.Weight.DemiBold),
    "head": (1.1, QFont.Weight.DemiBold),
    "title": (1.4, QFont.Weight.DemiBold),
    "name": (1.6, QFont.Weight.DemiBold),
}


@dataclass(frozen=True, slots=True)
class Theme:
    """One set of colours by role."""

    dark: bool
    paper: QColor
    sheet: QColor
    card: QColor
    rest: QColor
    hover: QColor
    hair: QColor
    rule: QColor
    ink: QColor
    ink2: QColor
    ink3: QColor
    band: QColor
    bar: QColor
    accent: QColor
    fill: QColor
    on_fill: QColor
    wash: QColor
    conflict: QColor
    outside: QColor
    remark: QColor


def _theme(dark: bool, **colours: str) -> Theme:
    return Theme(dark=dark, **{role: QColor(code) for role, code in colours.items()})


LIGHT = _theme(
    False,
    paper="#F3F0E8",
    sheet="#FAF8F2",
    card="#FFFEFA",
    rest="#EEEAE0",
    hover="#ECE7DA",
    hair="#DDD8CB",
    rule="#8A8577",
    ink="#1B2026",
    ink2="#434951",
    ink3="#5F646A",
    band="#DFD9C9",
    bar="#39424C",
    accent="#7A2558",
    fill="#7A2558",
    on_fill="#FFFFFF",
    wash="#F3E3EB",
    conflict="#A8320A",
    outside="#004F7E",
    remark="#434951",
)

DARK = _theme(
    True,
    paper="#21221F",
    sheet="#282926",
    card="#31332F",
    rest="#232421",
    hover="#363833",
    hair="#42443F",
    rule="#868880",
    ink="#F0ECE2",
    ink2="#D0CCC2",
    ink3="#ABA89F",
    band="#4C4D45",
    bar="#C6C9C6",
    accent="#E8B3CE",
    fill="#8C3F6B",
    on_fill="#FFFFFF",
    wash="#3A2D34",
    conflict="#F7A27D",
    outside="#93C9EC",
    remark="#D0CCC2",
)

ROLES = tuple(f.name for f in fields(Theme) if f.name != "dark")

_forced: list[Theme] = []


def current() -> Theme:
    """The theme of the platform's colour scheme, or the one that was forced."""
    if _forced:
        return _forced[-1]
    dark = QGuiApplication.styleHints().colorScheme() == Qt.ColorScheme.Dark
    return DARK if dark else LIGHT


def force(theme: Theme | None) -> None:
    """Use `theme` whatever the platform says; None follows the platform again."""
    _forced.clear()
    if theme is not None:
        _forced.append(theme)


_fonts: dict[Step, QFont] = {}
_fonts_of: list[QFont] = []


def font(step: Step) -> QFont:
    """The system's font at one step of the scale, with tabular figures.

    Made once for each system font: painters ask for it hundreds of times a frame.
    """
    system = QApplication.font()
    if not _fonts_of or system != _fonts_of[0]:
        _fonts.clear()
        _fonts_of[:] = [system]
    if step not in _fonts:
        _fonts[step] = _make_font(step)
    return QFont(_fonts[step])


def _make_font(step: Step) -> QFont:
    scale, weight = _STEPS[step]
    result = QFont(QApplication.font())
    size = result.pointSizeF()
    if size > 0:
        result.setPointSizeF(size * scale)
    else:
        result.setPixelSize(round(result.pixelSize() * scale))
    result.setWeight(weight)
    result.setFeature(QFont.Tag("tnum"), 1)
    return result


def palette(theme: Theme) -> QPalette:
    """The Qt palette that stock controls draw with."""
    p = QPalette()
    role = QPalette.ColorRole
    for which, colour in (
        (role.Window, theme.paper),
        (role.Base, theme.card),
        (role.AlternateBase, theme.sheet),
        (role.Button, theme.card),
        (role.ToolTipBase, theme.card),
        (role.WindowText, theme.ink),
        (role.Text, theme.ink),
        (role.ButtonText, theme.ink),
        (role.ToolTipText, theme.ink),
        (role.PlaceholderText, theme.ink3),
        (role.Highlight, theme.fill),
        (role.HighlightedText, theme.on_fill),
        (role.Link, theme.accent),
        (role.Mid, theme.rule),
        (role.Light, theme.sheet),
        (role.Dark, theme.rule),
    ):
        p.setColor(which, colour)
    for which in (role.WindowText, role.Text, role.ButtonText):
        p.setColor(QPalette.ColorGroup.Disabled, which, theme.ink3)
    return p


def style_sheet(theme: Theme) -> str:
    """The style of stock controls in these colours (`resources/window.qss`)."""
    parts = {role: getattr(theme, role).name() for role in ROLES}
    parts["chevron"] = _url(f"icons/chevron-{'dark' if theme.dark else 'light'}.svg")
    parts |= {"tick": _url("icons/tick.svg"), "dot": _url("icons/dot.svg")}
    return Template(resources.text("window.qss")).substitute(parts)


def _url(relative: str) -> str:
    """A shipped file's path in the form that a style sheet reads on every system."""
    return resources.path_of(relative).as_posix()


def apply(app: QApplication) -> Theme:
    """Dress the whole application in the current theme; returns it."""
    theme = current()
    app.setStyle(tr("Fusion"))
    app.setPalette(palette(theme))
    app.setStyleSheet(style_sheet(theme))
    return theme
