"""Rows: atoms on one base line, broken to a width, set one under another and drawn.

All lengths are in hundredths of a point.
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Sequence
from typing import NamedTuple

from narrate.lesson import measure
from narrate.lesson.atoms import Atom, Setting, word_atom
from narrate.lesson.block import Area, Block
from narrate.lesson.marks import Box, Plain, Stack, Text


class Row(NamedTuple):
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


def balanced(atoms: Sequence[Atom], how: Setting, width: int) -> tuple[Row, ...]:
    """Atoms in as few rows as in `flow`, without a word or two left over for the last one."""
    rows = flow(atoms, how, width)
    for narrower in (width * share // 100 for share in (92, 84, 76, 68)):
        if len(rows) < 2 or rows[-1].width >= width // 3:
            break
        again = flow(atoms, how, narrower)
        if len(again) > len(rows):
            break
        rows = again
    return rows


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
            gap, end = 0 if number else atom.gap, at + len(part)
            piece = word_atom(part, how, gap=gap, start=at, end=end)
            yield piece._replace(relation=atom.relation)
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


def placed(rows: Sequence[Row], x: int, y: int) -> tuple[Plain, ...]:
    """The marks of rows set at one and a quarter of their size, from (x, y)."""
    if not rows:
        return ()
    bases = paragraph(rows, rows[0].setting.size * 5 // 4)
    return tuple(
        mark for row, base in zip(rows, bases, strict=True) for mark in row.marks(x, y + base)
    )


def block(rows: Sequence[Row]) -> Block:
    """Rows as one block."""
    return Block(*extent(rows), placed(rows, 0, 0))


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
