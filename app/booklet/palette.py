"""The tones of the booklet, in colour and in grey.

Named by role; the numbers in the comments are CIE lightness. Fills that touch and mean different
things lie at least 20 apart, so the colour file survives a grey printer. `HAIR`, `TINT` and
`TINT2` carry nothing alone.
"""

from __future__ import annotations

from dataclasses import dataclass


@dataclass(frozen=True, slots=True)
class Palette:
    """Every tone, as '#rrggbb'."""

    paper: str = "#FFFFFF"  # 100
    tint: str = "#F4EFE6"  # 95
    tint2: str = "#E6DCCB"  # 88
    hair: str = "#C9CCC9"  # 82
    sand: str = "#CDBB9C"  # 77
    helper: str = "#C896B1"  # 67
    line: str = "#9AA0A2"  # 65
    sage: str = "#7C8B79"  # 56
    cell: str = "#7E8487"  # 55
    mid: str = "#5E6468"  # 42
    accent: str = "#7A2558"  # 30
    slate: str = "#39424C"  # 28
    ink: str = "#1B2026"  # 12


COLOUR = Palette()

GREY = Palette(
    tint="#F1F1F1",
    tint2="#DDDDDD",
    hair="#CBCBCB",
    sand="#BFBFBF",
    helper="#A3A3A3",
    line="#9E9E9E",
    sage="#868686",
    cell="#838383",
    mid="#636363",
    accent="#3A3A3A",  # 24
    slate="#434343",
    ink="#202020",
)
"""The same roles without colour; shapes and hatches stay as they are."""
