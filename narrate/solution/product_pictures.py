"""Which picture serves a product or quotient with fractions: figures as values, never drawn here.

Pieces of pieces and equal shares are seen on a bar that is cut again, copies as hops on a number
line, pieces in wholes as wholes cut up. Where there is too much to see, there is no picture.
"""

from __future__ import annotations

from collections.abc import Iterator
from fractions import Fraction
from math import ceil

from narrate.exact.tree import Frac, Op, Whole, value
from narrate.solution.figures import (
    Brace,
    Cut,
    Jump,
    Layer,
    NumberLine,
    Point,
    Shade,
    ShadeEach,
    Strip,
)

MOST_PIECES = 40
"""A bar cut in more pieces than this shows nothing."""

MOST_SHADED = 6
"""So many pieces are shaded one by one at most."""

MOST_HOPS = 6
LONGEST_LINE = 6
MOST_WHOLES = 6

Layers = tuple[Layer, ...]


def copies(operation: Op) -> Layers:
    """So many hops of a fraction on a number line."""
    sides = operation.left, operation.right
    times = next(side for side in sides if isinstance(side, Whole)).number
    fraction = next(side for side in sides if isinstance(side, Frac))
    end = ceil(times * value(fraction))
    if not 1 < times <= MOST_HOPS or end > LONGEST_LINE or end * fraction.denominator > MOST_PIECES:
        return ()
    return tuple(_hops(times, fraction, end))


def _hops(times: int, fraction: Frac, end: int) -> Iterator[Layer]:
    size = value(fraction)
    yield NumberLine(of="hops", low=0, high=end, parts=fraction.denominator)
    for hop in range(times):
        yield Jump(of="hops", start=hop * size, end=(hop + 1) * size, label=fraction)
    total = Frac(times * fraction.numerator, fraction.denominator)
    if value(total).denominator > 1:
        yield Point(of="hops", at=value(total), label=total)


def pieces_of_pieces(operation: Op) -> tuple[Layers, Layers]:
    """A fraction on a bar with its pieces cut again, and the small pieces that are taken."""
    share, of = operation.left, operation.right
    assert isinstance(share, Frac)
    assert isinstance(of, Frac)
    if not _shows(of, share.denominator) or value(share) >= 1:
        return (), ()
    ground = (*_shaded(of), _cut(of, share.denominator))
    return ground, (_from_each(of, share.numerator, share.denominator),)


def shares(operation: Op) -> Layers:
    """A fraction on a bar, and one of its equal shares."""
    fraction, number = operation.left, operation.right
    assert isinstance(fraction, Frac)
    assert isinstance(number, Whole)
    parts = number.number
    if fraction.numerator % parts == 0:
        share = value(fraction) / parts
        if not _shows(fraction, 1) or parts == 1:
            return ()
        return (*_shaded(fraction), Shade(of="bar", start=Fraction(0), end=share, tone="second"))
    if not _shows(fraction, parts):
        return ()
    return (*_shaded(fraction), _cut(fraction, parts), _from_each(fraction, 1, parts))


def pieces_in(operation: Op) -> Layers:
    """Wholes side by side, each cut in the pieces that are counted."""
    wholes, piece = operation.left, operation.right
    assert isinstance(wholes, Whole)
    assert isinstance(piece, Frac)
    number, parts = wholes.number, piece.denominator
    if number > MOST_WHOLES or number * parts > MOST_PIECES:
        return ()
    return (
        Strip(of="bar", wholes=number, parts=1),
        Cut(of="bar", parts=parts),
        Brace(of="bar", start=Fraction(0), end=value(piece), label=piece),
    )


def _shows(fraction: Frac, factor: int) -> bool:
    """Whether a fraction with each piece cut in so many can be seen on a bar of one whole."""
    few = fraction.denominator * factor <= MOST_PIECES and fraction.numerator <= MOST_SHADED
    return few and value(fraction) < 1


def _shaded(fraction: Frac) -> Iterator[Layer]:
    yield Strip(of="bar", wholes=1, parts=fraction.denominator)
    yield Shade(of="bar", start=Fraction(0), end=value(fraction), tone="first", label=fraction)


def _cut(fraction: Frac, factor: int) -> Cut:
    parts = factor * fraction.denominator
    return Cut(of="bar", parts=parts, start=Fraction(0), end=value(fraction))


def _from_each(fraction: Frac, count: int, factor: int) -> ShadeEach:
    """So many of the small parts shaded in each piece of a fraction, which is cut in `factor`."""
    return ShadeEach(
        of="bar",
        pieces=fraction.numerator,
        size=Fraction(1, fraction.denominator),
        count=count,
        parts=fraction.denominator * factor,
        tone="second",
    )
