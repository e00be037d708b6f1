"""How charts look: tones by role for the window in light and dark, and for paper."""

from __future__ import annotations

from dataclasses import dataclass

from app.ui.theme import LIGHT, Theme


@dataclass(frozen=True, slots=True)
class Look:
    """Tones as '#rrggbb', and the size of the type in points."""

    ground: str
    ink: str
    mid: str
    rule: str
    hair: str
    band: str
    bar: str
    accent: str
    type_pt: float = 10.0


def look_of(theme: Theme, *, type_pt: float = 10.0) -> Look:
    """The window's own tones."""
    return Look(
        ground=theme.card.name(),
        ink=theme.ink.name(),
        mid=theme.ink2.name(),
        rule=theme.rule.name(),
        hair=theme.hair.name(),
        band=theme.band.name(),
        bar=theme.bar.name(),
        accent=theme.accent.name(),
        type_pt=type_pt,
    )


def paper_look() -> Look:
    """Tones for a picture that leaves the window: the light ones on white."""
    of_window = look_of(LIGHT)
    return Look(
        ground="#ffffff",
        ink=of_window.ink,
        mid=of_window.mid,
        rule=of_window.rule,
        hair=of_window.hair,
        band=of_window.band,
        bar=of_window.bar,
        accent=of_window.accent,
    )
