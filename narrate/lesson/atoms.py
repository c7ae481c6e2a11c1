"""Atoms, which are never broken: a word, a number, a sign, a stacked fraction, an empty box.

Atoms know the characters of the text they came from, so that a phrase can be found and marked.
All lengths are in hundredths of a point.
"""

from __future__ import annotations

import re
import unicodedata
from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from functools import lru_cache
from typing import NamedTuple

from narrate.exact import prose, stacked
from narrate.exact.tree import Piece, Writing
from narrate.lesson import measure
from narrate.lesson.marks import Colour

LABEL = 2_000
SMALLEST = 1_800
"""Labels and notes are set no smaller (20 pt) if it can be helped, and nothing ever (18 pt)."""

STACK_HEIGHT = 1.9
STACK_ROOM = 0.3
"""Of a stacked fraction, in ems of its digits: its height; what its rule is wider than they are."""

MIXED_GAP = 0.1
"""Room inside a mixed number, in ems."""

_SIGN_ROOM: dict[stacked.SignKind, float] = {
    "relation": 0.3,
    "operation": 0.22,
    "prefix": 0.04,
    "open": 0.04,
    "close": 0.04,
}
"""Room before and after a sign, in ems; of two neighbours' the wider one counts."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Setting:
    """How a text is set: type size, size of the digits of its fractions, weight and colour."""

    size: int
    stack: int
    bold: bool = False
    colour: Colour = "ink"


def setting(size: int, *, bold: bool = False, colour: Colour = "ink") -> Setting:
    """The setting for prose: fractions at four fifths of the words, never under 18 pt."""
    return Setting(size=size, stack=max(SMALLEST, size * 4 // 5), bold=bold, colour=colour)


def note(size: int) -> Setting:
    """The setting for what the teacher notes beside the work: fractions no smaller than words."""
    return Setting(size=size, stack=size, colour="pen")


def maths(size: int, *, colour: Colour = "ink") -> Setting:
    """The setting for a line of mathematics: digits of fractions as large as all others."""
    return Setting(size=size, stack=size, colour=colour)


class Atom(NamedTuple):
    """One unbroken thing: `text`, or a fraction (`over` its denominator), or an empty box.

    `gap` is the room before it when it does not begin a row; `glued` atoms stay with the one
    before. `above` and `below` reach from the base line. `start`, `end` are characters of the text.
    """

    text: str
    width: int
    above: int
    below: int
    over: str | None = None
    empty: bool = False
    gap: int = 0
    glued: bool = False
    relation: bool = False
    start: int = 0
    end: int = 0


@lru_cache(maxsize=1024)
def atoms_of(tree: Writing, how: Setting) -> tuple[Atom, ...]:
    """The atoms of an expression or equation, all glued save where it may be broken."""
    return tuple(_math_atoms(tree, how))


def _math_atoms(tree: Writing, how: Setting) -> Iterator[Atom]:
    """May be broken before a relation or an operation sign, nowhere else."""
    after = 0
    for at, token in enumerate(stacked.stack(tree)):
        before, following, atom = _math_atom(token, how)
        breaks = isinstance(token, stacked.Sign) and token.kind in {"relation", "operation"}
        gap = max(before, after) if at else 0
        yield atom._replace(gap=gap, glued=at > 0 and not breaks)
        after = following


def _math_atom(token: stacked.Token, how: Setting) -> tuple[int, int, Atom]:
    """The room before and after a token, and its atom."""
    match token:
        case stacked.Stacked(top=top, bottom=bottom, tight=tight):
            return (round(MIXED_GAP * how.size) if tight else 0), 0, stack_atom(top, bottom, how)
        case stacked.Empty():
            return 0, 0, empty_atom(how)
        case stacked.Number(text=text):
            return 0, 0, word_atom(text, how)
        case stacked.Sign(text=text, kind=kind):
            room = round(_SIGN_ROOM[kind] * how.size)
            return room, room, word_atom(text, how)._replace(relation=kind == "relation")


def word_atom(
    text: str, how: Setting, *, gap: int = 0, glued: bool = False, start: int = 0, end: int = 0
) -> Atom:
    """Words, a number or a sign on the base line."""
    return Atom(
        gap=gap,
        glued=glued,
        start=start,
        end=end,
        text=text,
        width=measure.text_width(text, how.size, bold=how.bold),
        above=round(0.75 * how.size),
        below=round(measure.DESCENT * how.size),
    )


def stack_atom(top: str, bottom: str, how: Setting) -> Atom:
    """A stacked fraction, its rule at the height of the signs beside it."""
    digits = max(measure.box_width(part, how.stack) for part in (top, bottom))
    half, axis = round(STACK_HEIGHT * how.stack / 2), round(measure.AXIS * how.size)
    return Atom(
        text=top,
        over=bottom,
        width=digits + round(STACK_ROOM * how.stack),
        above=axis + half,
        below=half - axis,
    )


def empty_atom(how: Setting) -> Atom:
    """An empty box to write in, as high as a digit and a little more."""
    side = round(0.95 * how.size)
    below = side // 2 - round(measure.AXIS * how.size)
    return Atom(text="", empty=True, width=side, above=side - below, below=below)


@lru_cache(maxsize=256)
def _read(text: str) -> tuple[prose.Run, ...]:
    return prose.shown(text)


def is_maths(text: str) -> bool:
    """Whether an item's words are nothing but mathematics."""
    return all(not isinstance(run.piece, str) for run in _read(text))


@lru_cache(maxsize=512)
def words_of(text: str, how: Setting) -> tuple[Atom, ...]:
    """The atoms of an item's own words, with the mathematics in them stacked."""
    found: list[Atom] = []
    for run in _read(text):
        spaced = run.start == 0 or text[run.start - 1].isspace()
        if isinstance(run.piece, str):
            found.extend(_words(text[run.start : run.end], run.start, how, spaced=spaced))
        else:
            found.extend(_inline(run.piece, run.start, run.end, how, spaced=spaced))
    return tuple(found)


def pieces_of(pieces: Sequence[Piece], how: Setting) -> tuple[Atom, ...]:
    """The atoms of pieces of our own wording; characters count through all strings."""
    found: list[Atom] = []
    at, spaced = 0, True
    for piece in pieces:
        if isinstance(piece, str):
            found.extend(_words(piece, at, how, spaced=spaced))
            spaced = not piece or piece[-1].isspace()
            at += len(piece)
        else:
            inline = list(_inline(piece, at, at + 1, how, spaced=spaced))
            if found and inline:  # `than` and its 2/3 stay on one row
                inline[0] = inline[0]._replace(glued=True)
            found.extend(inline)
            spaced, at = False, at + 1
    return tuple(found)


def _words(text: str, start: int, how: Setting, *, spaced: bool) -> Iterator[Atom]:
    space = measure.text_width(" ", how.size, bold=how.bold)
    for match in re.finditer(r"\S+", text):
        glued = match.start() == 0 and not spaced
        word = _printable(match.group())
        if word:
            yield word_atom(
                word,
                how,
                gap=0 if glued else space,
                glued=glued,
                start=start + match.start(),
                end=start + match.end(),
            )


def _printable(word: str) -> str:
    """Without control characters and unpaired surrogates, which no format can hold."""
    if word.isprintable():
        return word
    return "".join(c for c in word if unicodedata.category(c) not in {"Cc", "Cs", "Cn"})


def _inline(tree: Writing, start: int, end: int, how: Setting, *, spaced: bool) -> Iterator[Atom]:
    """An expression inside words; all of its atoms stand for all of its characters."""
    space = measure.text_width(" ", how.size, bold=how.bold)
    for at, atom in enumerate(atoms_of(tree, how)):
        first = at == 0
        gap = (space if spaced else 0) if first else atom.gap
        glued = not spaced if first else atom.glued
        yield atom._replace(gap=gap, glued=glued, start=start, end=end)


def shifted(atoms: Sequence[Atom], by: int) -> tuple[Atom, ...]:
    """The atoms with their characters counted from `by`."""
    if not by:
        return tuple(atoms)
    return tuple(atom._replace(start=atom.start + by, end=atom.end + by) for atom in atoms)
