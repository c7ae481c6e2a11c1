"""Lines of words and mathematics: atoms with a base line, broken into rows and drawn.

An atom is what is never broken: a word, a number, a sign, a stacked fraction, an empty box. Atoms
know the characters of the text they came from, so that a phrase can be found and marked.
All lengths are in hundredths of a point.
"""

from __future__ import annotations

import re
import unicodedata
from collections.abc import Iterable, Iterator, Sequence
from dataclasses import dataclass, replace
from functools import lru_cache

from narrate.exact import prose, stacked
from narrate.exact.tree import Piece, Writing
from narrate.lesson import measure
from narrate.lesson.block import Area, Block
from narrate.lesson.marks import Box, Colour, Plain, Stack, Text

SMALLEST = 1_800
"""Nothing on a page is set smaller (18 pt)."""

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


def maths(size: int, *, colour: Colour = "ink") -> Setting:
    """The setting for a line of mathematics: digits of fractions as large as all others."""
    return Setting(size=size, stack=size, colour=colour)


@dataclass(frozen=True, slots=True, kw_only=True)
class Atom:
    """One unbroken thing: `text`, or a fraction (`over` its denominator), or an empty box.

    `gap` is the room before it when it does not begin a row; `glued` atoms stay with the one
    before. `above` and `below` reach from the base line. `start`, `end` are characters of the text.
    """

    text: str
    over: str | None = None
    empty: bool = False
    width: int
    above: int
    below: int
    gap: int = 0
    glued: bool = False
    relation: bool = False
    start: int = 0
    end: int = 0


@dataclass(frozen=True, slots=True)
class Row:
    """Atoms on one base line, each with its left edge."""

    atoms: tuple[tuple[int, Atom], ...]
    above: int
    below: int
    setting: Setting

    @property
    def width(self) -> int:
        """From the left edge of the first atom to the right edge of the last."""
        return max((left + atom.width for left, atom in self.atoms), default=0)

    @property
    def height(self) -> int:
        """From its highest to its lowest place."""
        return self.above + self.below

    def marks(self, x: int, base: int) -> tuple[Plain, ...]:
        """Its marks with the left edge at `x` and the base line at `base`."""
        return tuple(_row_marks(self, x, base))

    def stacked(self) -> bool:
        """Whether a stacked fraction stands in it."""
        return any(atom.over is not None for _, atom in self.atoms)


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
        yield replace(atom, gap=gap, glued=at > 0 and not breaks)
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
            return room, room, replace(word_atom(text, how), relation=kind == "relation")


def word_atom(text: str, how: Setting) -> Atom:
    """Words, a number or a sign on the base line."""
    return Atom(
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
    return prose.read(text)


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
            found.extend(_inline(piece, at, at + 1, how, spaced=spaced))
            spaced, at = False, at + 1
    return tuple(found)


def _words(text: str, start: int, how: Setting, *, spaced: bool) -> Iterator[Atom]:
    space = measure.text_width(" ", how.size, bold=how.bold)
    for match in re.finditer(r"\S+", text):
        glued = match.start() == 0 and not spaced
        word = _printable(match.group())
        if word:
            yield replace(
                word_atom(word, how),
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
        yield replace(atom, gap=gap, glued=glued, start=start, end=end)


def flow(atoms: Sequence[Atom], how: Setting, width: int) -> tuple[Row, ...]:
    """Atoms broken into rows of at most `width`; a word too wide for a row is cut."""
    rows: list[list[tuple[int, Atom]]] = []
    edge = width + 1
    for chunk in _chunks(_fitting(atoms, how, width)):
        long = sum(atom.gap + atom.width for atom in chunk) - chunk[0].gap
        if edge + chunk[0].gap + long > width or not rows:
            rows.append([])
            edge = -chunk[0].gap
        for atom in chunk:
            rows[-1].append((edge + atom.gap, atom))
            edge += atom.gap + atom.width
    return tuple(_row(row, how) for row in rows)


def _chunks(atoms: Iterable[Atom]) -> Iterator[list[Atom]]:
    chunk: list[Atom] = []
    for atom in atoms:
        if chunk and not atom.glued:
            yield chunk
            chunk = []
        chunk.append(atom)
    if chunk:
        yield chunk


def _fitting(atoms: Sequence[Atom], how: Setting, width: int) -> Iterator[Atom]:
    """The atoms, words wider than a row cut into pieces that are not."""
    for atom in atoms:
        if atom.width <= width or atom.over is not None or atom.empty:
            yield atom
            continue
        at = atom.start
        for number, part in enumerate(measure.cut(atom.text, how.size, width, bold=how.bold)):
            piece = replace(word_atom(part, how), gap=0 if number else atom.gap)
            yield replace(piece, start=at, end=at + len(part), relation=atom.relation)
            at += len(part)


def _row(atoms: Sequence[tuple[int, Atom]], how: Setting) -> Row:
    above = max((atom.above for _, atom in atoms), default=how.size)
    below = max((atom.below for _, atom in atoms), default=0)
    return Row(tuple(atoms), above, below, how)


def line(atoms: Sequence[Atom], how: Setting) -> Row:
    """All atoms on one row, however wide."""
    return (flow(atoms, how, 10**9) or (_row((), how),))[0]


def paragraph(rows: Sequence[Row], leading: int) -> tuple[int, ...]:
    """The base lines of rows set one under another from 0, at least `leading` apart."""
    bases: list[int] = []
    for row in rows:
        if not bases:
            bases.append(row.above)
            continue
        room = rows[len(bases) - 1].below + row.above + leading // 8
        bases.append(bases[-1] + max(leading, room))
    return tuple(bases)


def extent(rows: Sequence[Row]) -> tuple[int, int]:
    """The width and height of the block that rows make."""
    if not rows:
        return 0, 0
    bases = paragraph(rows, rows[0].setting.size * 5 // 4)
    width = max(row.width for row in rows)
    return round(width * measure.SLACK), bases[-1] + rows[-1].below


def block(rows: Sequence[Row]) -> Block:
    """Rows as one block, set at one and a quarter of their size."""
    if not rows:
        return Block(0, 0)
    bases = paragraph(rows, rows[0].setting.size * 5 // 4)
    marks = tuple(
        mark for row, base in zip(rows, bases, strict=True) for mark in row.marks(0, base)
    )
    return Block(*extent(rows), marks)


def _row_marks(row: Row, x: int, base: int) -> Iterator[Plain]:
    """Neighbouring words become one text, so that it can be edited as one."""
    run: list[str] = []
    left = 0
    for at, (edge, atom) in enumerate(row.atoms):
        plain = atom.over is None and not atom.empty
        if plain:
            left = left if run else edge
            run.append(atom.text)
            following = row.atoms[at + 1][1] if at + 1 < len(row.atoms) else None
            if following is not None and _joins(following, row.setting):
                run.extend([" "] if following.gap else [])
                continue
            yield _text("".join(run), x + left, base, row.setting)
            run = []
        else:
            yield _drawn(atom, x + edge, base, row.setting)


def _joins(atom: Atom, how: Setting) -> bool:
    """Whether a word can go on in the same text: set apart by a space or nothing."""
    space = measure.text_width(" ", how.size, bold=how.bold)
    return atom.over is None and not atom.empty and atom.gap in {0, space}


def _text(words: str, x: int, base: int, how: Setting) -> Text:
    return Text(
        x=x,
        y=base - round(measure.ASCENT * how.size),
        width=measure.box_width(words, how.size, bold=how.bold),
        height=measure.text_height(1, how.size, how.size),
        lines=(words,),
        size=how.size,
        leading=how.size * 5 // 4,
        bold=how.bold,
        colour=how.colour,
    )


def _drawn(atom: Atom, x: int, base: int, how: Setting) -> Plain:
    if atom.over is None:
        side = atom.width
        return Box(x=x, y=base - atom.above, width=side, height=side, line=how.colour, weight=150)
    return Stack(
        x=x,
        y=base - atom.above,
        width=atom.width,
        height=atom.above + atom.below,
        top=atom.text,
        bottom=atom.over,
        size=how.stack,
        colour=how.colour,
    )


def stretches(rows: Sequence[Row], start: int, end: int) -> tuple[Area, ...]:
    """Where characters `start` to `end` stand: one area for each row they are on.

    Rows are set from (0, 0) as `block` sets them.
    """
    if not rows:
        return ()
    bases = paragraph(rows, rows[0].setting.size * 5 // 4)
    found = (_stretch(row, base, start, end) for row, base in zip(rows, bases, strict=True))
    return tuple(area for area in found if area is not None)


def _stretch(row: Row, base: int, start: int, end: int) -> Area | None:
    hit = [(edge, atom) for edge, atom in row.atoms if atom.start < end and start < atom.end]
    if not hit:
        return None
    left = hit[0][0] + _prefix(hit[0][1], start, row.setting)
    right = hit[-1][0] + _prefix(hit[-1][1], end, row.setting)
    above = max(atom.above for _, atom in hit)
    below = max(atom.below for _, atom in hit)
    return Area(left, base - above, right - left, above + below)


def _prefix(atom: Atom, character: int, how: Setting) -> int:
    """How far into an atom a character of the text lies; fractions are all or nothing."""
    if character >= atom.end:
        return atom.width
    if character <= atom.start or atom.over is not None or atom.empty:
        return 0
    if len(atom.text) != atom.end - atom.start:
        return 0
    return measure.text_width(atom.text[: character - atom.start], how.size, bold=how.bold)


def shifted(atoms: Sequence[Atom], by: int) -> tuple[Atom, ...]:
    """The atoms with their characters counted from `by`."""
    return tuple(replace(atom, start=atom.start + by, end=atom.end + by) for atom in atoms)
