"""How wide words are and where their base lines lie, by real font metrics.

Pages are set in Arial and measured with Arimo, which has the same advance widths.
All lengths are in hundredths of a point.
"""

from __future__ import annotations

from functools import lru_cache
from importlib.resources import files
from math import ceil
from pathlib import Path

UNITS = 2_048
"""Arimo's font units in an em (its `head` table)."""

SLACK = 1.02
"""Renderers round advances to pixels or kern; boxes are this much wider than what was measured."""

ASCENT = 0.905
DESCENT = 0.212
"""Of Arial (its `hhea` table), in ems: from the base line to the top and bottom of a line."""

DIGIT = 0.70
"""The height of a digit in ems; Arimo's zero reaches 0.698."""

AXIS = 0.33
"""The height in ems at which signs such as = are centred, and fractions have their rule."""


@lru_cache(maxsize=1)
def font_path() -> Path:
    """The font file that pages are measured and pictured with."""
    return Path(str(files("fontpkg_arimo") / "files" / "Arimo[wght].ttf"))


class _Face:
    """Advances of the regular or the bold face, in font units: at `UNITS` pixels an em is that."""

    def __init__(self, *, bold: bool) -> None:
        from PIL import ImageFont

        engine = ImageFont.Layout.BASIC
        self._font = ImageFont.truetype(font_path(), UNITS, layout_engine=engine)
        if bold:
            self._font.set_variation_by_axes([700])
        self._unknown = self._font.getlength("\uffff")
        self._advances: dict[str, int] = {}

    def advance(self, character: str) -> int:
        """Its advance; a full em for a character that the font does not have."""
        if character not in self._advances:
            found = self._font.getlength(character)
            self._advances[character] = UNITS if found == self._unknown else int(found)
        return self._advances[character]


@lru_cache(maxsize=2)
def _face(bold: bool) -> _Face:
    return _Face(bold=bold)


@lru_cache(maxsize=20_000)
def _units(text: str, bold: bool) -> int:
    face = _face(bold)
    return sum(face.advance(character) for character in text)


def text_width(text: str, size: int, *, bold: bool = False) -> int:
    """The advance width of one line of text, without slack."""
    return ceil(_units(text, bold) * size / UNITS)


def box_width(text: str, size: int, *, bold: bool = False) -> int:
    """The width of a box that holds one line of text in any renderer."""
    return ceil(text_width(text, size, bold=bold) * SLACK)


def text_height(lines: int, size: int, leading: int) -> int:
    """The height of `lines` lines, from the top of the first to the bottom of the last."""
    return (lines - 1) * leading + ceil(size * (ASCENT + DESCENT))


def wrap(text: str, size: int, width: int, *, bold: bool = False) -> tuple[str, ...]:
    """Text broken into lines of at most `width`; a word that is wider is broken inside."""
    lines: list[str] = []
    for word in text.split():
        joined = f"{lines[-1]} {word}" if lines else word
        if lines and box_width(joined, size, bold=bold) <= width:
            lines[-1] = joined
        else:
            lines.extend(cut(word, size, width, bold=bold))
    return tuple(lines)


def cut(word: str, size: int, width: int, *, bold: bool = False) -> tuple[str, ...]:
    """A word in pieces of at most `width` (and at least one character)."""
    pieces = [""]
    for character in word:
        if pieces[-1] and box_width(pieces[-1] + character, size, bold=bold) > width:
            pieces.append("")
        pieces[-1] += character
    return tuple(pieces)
