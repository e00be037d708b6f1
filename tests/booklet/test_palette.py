"""Tones that a grey printer keeps apart (CIE lightness from sRGB, IEC 61966-2-1)."""

from __future__ import annotations

import pytest

from app.booklet.palette import COLOUR, GREY, Palette


def lightness(tone: str) -> float:
    """CIE L* of an sRGB tone."""
    parts = [int(tone[at : at + 2], 16) / 255 for at in (1, 3, 5)]
    linear = [c / 12.92 if c <= 0.04045 else ((c + 0.055) / 1.055) ** 2.4 for c in parts]
    y = 0.2126 * linear[0] + 0.7152 * linear[1] + 0.0722 * linear[2]
    return 116 * y ** (1 / 3) - 16 if y > 0.008856 else 903.3 * y


PALETTES = pytest.mark.parametrize("palette", [COLOUR, GREY], ids=["colour", "grey"])


@PALETTES
@pytest.mark.parametrize(
    ("one", "other"),
    [
        ("line", "accent"),  # strip: past and now
        ("accent", "tint2"),  # now and to come
        ("line", "tint2"),  # past and to come
        ("sand", "slate"),  # ramp sets and working set
        ("accent", "tint"),  # bars over their range
        ("helper", "accent"),  # the two tones of a muscle
        ("paper", "slate"),
    ],
)
def test_touching_fills_differ_by_twenty(palette: Palette, one: str, other: str):
    assert abs(lightness(getattr(palette, one)) - lightness(getattr(palette, other))) >= 20


@PALETTES
@pytest.mark.parametrize("ground", ["paper", "tint"])
@pytest.mark.parametrize("tone", ["ink", "mid", "accent"])
def test_text_has_contrast_enough(palette: Palette, ground: str, tone: str):
    def luminance(name: str) -> float:
        level = (lightness(getattr(palette, name)) + 16) / 116
        return level**3

    ratio = (luminance(ground) + 0.05) / (luminance(tone) + 0.05)
    assert ratio >= 4.5  # WCAG 2.2, 1.4.3


def test_grey_has_no_colour():
    for name in Palette.__slots__:
        tone = getattr(GREY, name)
        assert tone[1:3] == tone[3:5] == tone[5:7]
