"""How wide words are and where their base lines lie, by real font metrics.

Pages are set in Arial and measured with Arimo, which has the same advance widths. Only the
character map, the advances and (for bold) their variation are read, once, when first needed.
All lengths are in hundredths of a point.
"""

from __future__ import annotations

from functools import lru_cache
from importlib.resources import files
from math import ceil
from pathlib import Path
from struct import unpack_from
from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from fontTools.ttLib import TTFont

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
    """Advances by character, in font units, of the regular or the bold face."""

    def __init__(self, *, bold: bool) -> None:
        from fontTools.ttLib import TTFont

        with TTFont(font_path(), lazy=True) as font:
            self.units = int(font["head"].unitsPerEm)
            regular: dict[str, tuple[int, int]] = font["hmtx"].metrics
            names: dict[int, str] = font.getBestCmap()
            wider = _bold_deltas(font) if bold else {}
        self._advances: dict[int, int] = {
            code: regular[name][0] + wider.get(name, 0) for code, name in names.items()
        }
        self._unknown = self.units

    def advance(self, character: str) -> int:
        """Its advance; a full em for a character that the font does not have."""
        return int(self._advances.get(ord(character), self._unknown))


def _bold_deltas(font: TTFont) -> dict[str, int]:
    """What each glyph gains at weight 700, by glyph name (OpenType, HVAR table)."""
    order: list[str] = font.getGlyphOrder()
    deltas = _plain_deltas(font.reader["HVAR"])
    if deltas is None:
        deltas = _any_deltas(font, order)
    return dict(zip(order, deltas, strict=False))


def _plain_deltas(table: bytes) -> tuple[int, ...] | None:
    """The deltas of a table with one region and one row for each glyph; None for other forms.

    Read by hand: fontTools' own way imports four times what a whole build otherwise needs of it.
    """
    _, _, store, mapping = unpack_from(">HHLL", table)
    _, _, pieces, first = unpack_from(">HLHL", table, store)
    if mapping or pieces != 1:
        return None
    count, words, regions = unpack_from(">HHH", table, store + first)
    if (words, regions) != (1, 1):
        return None
    return unpack_from(f">{count}h", table, store + first + 8)


def _any_deltas(font: TTFont, order: list[str]) -> tuple[int, ...]:
    from fontTools.varLib.varStore import VarStoreInstancer

    table = font["HVAR"].table
    instancer = VarStoreInstancer(table.VarStore, font["fvar"].axes, {"wght": 1.0})
    mapping = table.AdvWidthMap.mapping if table.AdvWidthMap else {}
    return tuple(round(instancer[mapping.get(name, at)]) for at, name in enumerate(order))


@lru_cache(maxsize=2)
def _face(bold: bool) -> _Face:
    return _Face(bold=bold)


@lru_cache(maxsize=20_000)
def _units(text: str, bold: bool) -> int:
    face = _face(bold)
    return sum(face.advance(character) for character in text)


def text_width(text: str, size: int, *, bold: bool = False) -> int:
    """The advance width of one line of text, without slack."""
    return ceil(_units(text, bold) * size / _face(bold).units)


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
