"""Fonts: which file prints which letter, how wide a line is, where it breaks.

Noto Sans lacks some signs (the minus, the arrow, not-equal signs); Gentium Plus lends them, and
the other way round. A letter that neither has is remembered, and the print stops with its name.
"""

from __future__ import annotations

import re
import unicodedata
from collections.abc import Iterable
from dataclasses import dataclass, field
from enum import StrEnum
from functools import lru_cache
from pathlib import Path

from reportlab.pdfbase import pdfmetrics
from reportlab.pdfbase.ttfonts import TTFError, TTFont

from app.domain.errors import CoachError
from app.domain.wording import language, tr

MM_PER_PT = 25.4 / 72
NBSP = "\u00a0"


class BookletError(CoachError):
    """A booklet that cannot be printed; names the text and the letters that are in the way."""


class Face(StrEnum):
    """The four faces, by the name of their file."""

    SANS = "NotoSans-Regular"
    BOLD = "NotoSans-Bold"
    SERIF = "GentiumPlus-Regular"
    SERIF_BOLD = "GentiumPlus-Bold"


LENDER = {
    Face.SANS: Face.SERIF,
    Face.BOLD: Face.SERIF_BOLD,
    Face.SERIF: Face.SANS,
    Face.SERIF_BOLD: Face.BOLD,
}


@dataclass(frozen=True, slots=True)
class Style:
    """How a text is set: face, size and line feed in points."""

    face: Face
    size: float
    lead: float

    @property
    def lead_mm(self) -> float:
        """From one baseline to the next, mm."""
        return self.lead * MM_PER_PT


COVER = Style(Face.SERIF_BOLD, 40, 43)
COVER_32 = Style(Face.SERIF_BOLD, 32, 35)
COVER_26 = Style(Face.SERIF_BOLD, 26, 29)
COVER_NAME = Style(Face.SERIF, 20, 24)
COVER_TEXT = Style(Face.SERIF, 12, 16)
TITLE = Style(Face.SERIF_BOLD, 24, 27)
TITLE_18 = Style(Face.SERIF_BOLD, 18, 21)
SESSION = Style(Face.SERIF_BOLD, 16, 19)
SESSION_TITLE = Style(Face.SERIF, 16, 19)
SECTION = Style(Face.SERIF_BOLD, 14, 17)
SECTION_REST = Style(Face.SERIF, 14, 17)
SMALL_HEAD = Style(Face.SERIF_BOLD, 12, 15)
FIGURE = Style(Face.BOLD, 14, 17)
FIGURE_12 = Style(Face.BOLD, 12, 15)
BODY = Style(Face.SANS, 11, 15)
BODY_BOLD = Style(Face.BOLD, 11, 15)
NAME = Style(Face.BOLD, 11, 13)
CELL = Style(Face.SANS, 10, 13.4)
CELL_BOLD = Style(Face.BOLD, 10, 13.4)
LABEL = Style(Face.SANS, 9, 12)
LABEL_BOLD = Style(Face.BOLD, 9, 12)
# on pages that are drawn 16/11 times larger: 14 points for labels, 18 for figures
LABEL_LARGE = Style(Face.SANS, 14 * 11 / 16, 12.6)
FIGURE_LARGE = Style(Face.BOLD, 18 * 11 / 16, 15)

SMALLEST_PT = 9
"""Nothing is printed smaller."""


# Latin letters and signs that need no cleaning, in words parted by single spaces.
_PLAIN_LETTERS = "!-~\u00a0-\u00ac\u00ae-\u017f–’×½…·"
_PLAIN = re.compile(f"[{_PLAIN_LETTERS}]+(?: [{_PLAIN_LETTERS}]+)*")


def one_line(text: str) -> str:
    """`text` composed, on one line, without control or invisible characters.

    No-break spaces stay what they are.
    """
    if _PLAIN.fullmatch(text):
        return text
    clean = unicodedata.normalize("NFC", text)
    kept = "".join(
        letter if letter == NBSP or not letter.isspace() else " "
        for letter in clean
        if letter.isspace() or unicodedata.category(letter) not in ("Cc", "Cf")
    )
    return " ".join(part for part in kept.split(" ") if part)


@dataclass(slots=True, eq=False)
class Faces:
    """The four fonts of one folder, ready to measure and to print."""

    names: dict[Face, str]
    letters: dict[Face, frozenset[str]]
    widths: dict[Face, dict[str, float]]
    _runs: dict[tuple[str, Face], tuple[tuple[str, str], ...]] = field(default_factory=dict)
    _wide: dict[tuple[str, Face], float] = field(default_factory=dict)

    def runs(self, text: str, face: Face) -> tuple[tuple[str, str], ...]:
        """Pieces of a line with the font that prints each. Letters without a font are left out."""
        key = (text, face)
        found = self._runs.get(key)
        if found is None:
            if self.letters[face].issuperset(text):
                found = ((self.names[face], text),) if text else ()
            else:
                found = tuple(self._split(text, face))
            self._runs[key] = found
        return found

    def _split(self, text: str, face: Face) -> Iterable[tuple[str, str]]:
        lender = LENDER[face]
        piece, now = "", face
        for letter in text:
            if letter in self.letters[face]:
                want = face
            elif letter in self.letters[lender]:
                want = lender
            else:
                continue
            if want is not now and piece:
                yield self.names[now], piece
                piece = ""
            piece, now = piece + letter, want
        if piece:
            yield self.names[now], piece

    def missing(self, text: str, face: Face) -> tuple[str, ...]:
        """The letters of `text` that no font has."""
        if self.letters[face].issuperset(text):
            return ()
        have = self.letters[face] | self.letters[LENDER[face]]
        return tuple(dict.fromkeys(letter for letter in text if letter not in have))

    def width_mm(self, text: str, style: Style) -> float:
        """How wide a line of `text` is, mm."""
        key = (text, style.face)
        wide = self._wide.get(key)
        if wide is None:
            own, lent = self.widths[style.face], self.widths[LENDER[style.face]]
            wide = self._wide[key] = sum(own.get(c) or lent.get(c, 0.0) for c in text)
        return wide * style.size * MM_PER_PT

    def shortened(self, text: str, style: Style, width_mm: float) -> str:
        """One line of `text`, cut with an ellipsis where it is wider than `width_mm`."""
        if self.width_mm(text, style) <= width_mm:
            return text
        while text and self.width_mm(f"{text}…", style) > width_mm:
            text = text[:-1]
        return f"{text.rstrip()}…"

    def wrap(self, text: str, style: Style, width_mm: float) -> tuple[str, ...]:
        """`text` in lines no wider than `width_mm`; a word that is too long breaks in itself.

        A number and its unit stay together. An empty text gives no line.
        """
        lines: list[str] = []
        line = ""
        for word in _BREAKS.split(one_line(text)):
            longer = f"{line} {word}" if line else word
            if self.width_mm(longer, style) <= width_mm:
                line = longer
                continue
            if line:
                lines.append(line)
            *whole, line = self._pieces(word, style, width_mm)
            lines += whole
        return (*lines, line) if line else tuple(lines)

    def _pieces(self, word: str, style: Style, width_mm: float) -> list[str]:
        """A word cut where it reaches the width: after a hyphen or slash, or at a seam, if any."""
        pieces: list[str] = []
        while self.width_mm(word, style) > width_mm and len(word) > 1:
            cut = len(word) - 1
            while cut > 1 and self.width_mm(word[:cut], style) > width_mm:
                cut -= 1
            hyphen = max(word.rfind(sign, 1, cut) for sign in "-/")
            seam = 0 if hyphen > 0 else last_seam(word, cut)
            if seam and self.width_mm(f"{word[:seam]}-", style) <= width_mm:
                pieces.append(f"{word[:seam]}-")
                word = word[seam:]
                continue
            cut = hyphen + 1 if hyphen > 0 else cut
            pieces.append(word[:cut])
            word = word[cut:]
        return [*pieces, word]


def last_seam(word: str, most: int) -> int:
    """Where a compound of the spoken language parts last within `most` letters; 0 if nowhere."""
    seams = language().seams
    return next((at for at in range(most, 2, -1) if word.startswith(seams, at)), 0)


_BREAKS = re.compile(r"(?<!\d) | (?!(?:kg|lb|kcal|cm|%)(?:\W|$))")
"""The spaces at which a line may end: all but that between a number and its unit."""

_Tables = tuple[dict[Face, str], dict[Face, frozenset[str]], dict[Face, dict[str, float]]]


def open_faces(folder: Path) -> Faces:
    """The fonts in `folder`, registered for printing. Raises BookletError if one is not there."""
    return Faces(*_load(folder))


@lru_cache(maxsize=4)
def _load(folder: Path) -> _Tables:
    names: dict[Face, str] = {}
    letters: dict[Face, frozenset[str]] = {}
    widths: dict[Face, dict[str, float]] = {}
    for face in Face:
        path = folder / f"{face.value}.ttf"
        try:
            font = TTFont(face.value, str(path))
        except (TTFError, OSError) as problem:
            raise BookletError(
                tr("The font {path} cannot be read.", path=path.name),
                where=tr("Booklet"),
                mend=tr("Install Weekloom again."),
            ) from problem
        pdfmetrics.registerFont(font)
        names[face] = font.fontName
        data = font.face
        covered = [chr(code) for code in data.charToGlyph if code not in (0, 13)]
        letters[face] = frozenset(covered)
        widths[face] = {c: data.charWidths.get(ord(c), data.defaultWidth) / 1000 for c in covered}
    return names, letters, widths


def letter_name(letter: str) -> str:
    """A letter with its Unicode name: '漢 (CJK UNIFIED IDEOGRAPH-6F22)'."""
    return f"{letter} ({unicodedata.name(letter, f'U+{ord(letter):04X}')})"


def refuse_missing(missing: dict[str, str]) -> None:
    """Raise BookletError if there is a letter without a font; `missing` maps it to its text."""
    if not missing:
        return
    named = ", ".join(letter_name(letter) for letter in list(missing)[:6])
    more = tr(" and {missing} more", missing=len(missing) - 6) if len(missing) > 6 else ""
    texts = list(dict.fromkeys(missing.values()))[:3]
    where = ", ".join(f"“{text[:60]}”" for text in texts)
    raise BookletError(
        tr("The booklet's fonts have no {named}{more}.", named=named, more=more),
        where=where,
        mend=tr(
            "Write it in Latin, Greek or Cyrillic letters. For a client's name, fill in the name "
            "to be printed among the booklet's choices; the name that is kept stays."
        ),
    )
