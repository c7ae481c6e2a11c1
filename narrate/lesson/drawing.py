"""Figures as marks: a ground and its layers, every label inside or touching its part.

`draw` sees all layers of a figure at once, so that labels that come later find their room kept.
Amounts are told by hatching, outline and label first, by colour second.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from fractions import Fraction
from functools import lru_cache

from narrate.exact.tree import Blank, Writing
from narrate.lesson import atoms, mathline
from narrate.lesson.block import Block
from narrate.lesson.marks import Colour, Path, Plain
from narrate.solution.figures import Layer, NumberLine

LABEL = 2_400
"""The type size of labels (24 pt)."""

TOUCH = 300
"""The room between a label and the part that it touches."""


@dataclass(frozen=True, slots=True)
class Drawing:
    """A figure in the rectangle from (0, 0): `parts` are the marks of its layers, in order."""

    width: int
    height: int
    parts: tuple[tuple[Plain, ...], ...]


def draw(layers: Sequence[Layer], width: int) -> Drawing:
    """The layers of one figure, its ground first, drawn `width` hundredths of a point wide."""
    from narrate.lesson import drawing_line, drawing_strip

    if isinstance(layers[0], NumberLine):
        return drawing_line.draw(layers[0], layers[1:], width)
    return drawing_strip.draw(layers[0], layers[1:], width)


def least_width(layers: Sequence[Layer]) -> int:
    """The width under which a figure would be hard to read."""
    from narrate.lesson import drawing_line, drawing_strip

    if isinstance(layers[0], NumberLine):
        return drawing_line.least_width(layers[0], layers[1:])
    return drawing_strip.least_width(layers[0])


@lru_cache(maxsize=512)
def label(tree: Writing, colour: Colour = "ink") -> Block:
    """A label of mathematics; an unknown □ is written `?`."""
    how = atoms.maths(LABEL, colour=colour)
    if tree == Blank():
        return mathline.block((mathline.line((atoms.word_atom("?", how),), how),))
    return mathline.block((mathline.line(atoms.atoms_of(tree, how), how),))


@lru_cache(maxsize=512)
def words(text: str, colour: Colour = "ink") -> Block:
    """A label of plain characters."""
    how = atoms.maths(LABEL, colour=colour)
    return mathline.block((mathline.line((atoms.word_atom(text, how),), how),))


def spread(centres: Sequence[int], widths: Sequence[int], room: int, limit: int) -> list[int]:
    """Left edges of labels near their `centres`, at least `room` apart, between 0 and `limit`.

    Labels keep the order of their centres. Where all of them can't fit they run past `limit`
    evenly; callers ask for enough width.
    """
    order = sorted(range(len(centres)), key=lambda at: centres[at])
    lefts = [centre - width // 2 for centre, width in zip(centres, widths, strict=True)]
    edge = 0
    for at in order:
        lefts[at] = max(lefts[at], edge)
        edge = lefts[at] + widths[at] + room
    edge = limit
    for at in reversed(order):
        lefts[at] = max(0, min(lefts[at], edge - widths[at]))
        edge = lefts[at] - room
    return lefts


def cuts(places: Sequence[int], top: int, bottom: int, colour: Colour, weight: int) -> list[Plain]:
    """Cuts at `places` from `top` to `bottom`, as one line that runs along the edges between."""
    if not places:
        return []
    points: list[tuple[int, int]] = []
    for number, x in enumerate(places):
        ends = (top, bottom) if number % 2 == 0 else (bottom, top)
        points.extend((x, y) for y in ends)
    return [Path(points=tuple(points), line=colour, weight=weight)]


def steps(start: Fraction, end: Fraction, parts: int) -> list[Fraction]:
    """The multiples of 1/`parts` strictly between `start` and `end`."""
    first, last = start * parts, end * parts
    low = first.numerator // first.denominator + 1
    high = -(-last.numerator // last.denominator)
    return [Fraction(number, parts) for number in range(low, high)]


def centred(block: Block, centre: int, y: int) -> tuple[Plain, ...]:
    """The block with its middle at `centre` and its top at `y`."""
    return block.at(centre - block.width // 2, y)
