"""Blocks: marks drawn around their own origin, to be put in place later.

A block says how much room it takes; a zone of the page puts blocks where they belong.
"""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from dataclasses import dataclass, replace

from narrate.lesson.marks import Box, Dot, Path, Picture, Plain, Rule, Stack, Text


@dataclass(frozen=True, slots=True)
class Area:
    """A rectangle, in hundredths of a point: `right` and `bottom` lie just outside it."""

    x: int
    y: int
    width: int
    height: int

    @property
    def right(self) -> int:
        """The first place to the right of it."""
        return self.x + self.width

    @property
    def bottom(self) -> int:
        """The first place below it."""
        return self.y + self.height

    def meets(self, other: Area) -> bool:
        """Whether the two share more than an edge."""
        return (
            self.x < other.right
            and other.x < self.right
            and self.y < other.bottom
            and other.y < self.bottom
        )

    def holds(self, other: Area) -> bool:
        """Whether `other` lies wholly inside."""
        return (
            self.x <= other.x
            and self.y <= other.y
            and other.right <= self.right
            and other.bottom <= self.bottom
        )


@dataclass(frozen=True, slots=True)
class Block:
    """Marks inside the rectangle from (0, 0) to (`width`, `height`)."""

    width: int
    height: int
    marks: tuple[Plain, ...] = ()

    def at(self, x: int, y: int) -> tuple[Plain, ...]:
        """The marks with the block's origin put at (x, y)."""
        return tuple(moved(mark, x, y) for mark in self.marks)


def moved(mark: Plain, dx: int, dy: int) -> Plain:
    """The mark `dx` further right and `dy` further down."""
    match mark:
        case Rule(x1=x1, y1=y1, x2=x2, y2=y2):
            return replace(mark, x1=x1 + dx, y1=y1 + dy, x2=x2 + dx, y2=y2 + dy)
        case Path(points=points):
            return replace(mark, points=tuple((x + dx, y + dy) for x, y in points))
        case _:
            return replace(mark, x=mark.x + dx, y=mark.y + dy)


def area(mark: Plain) -> Area:
    """The rectangle a mark takes, its line's thickness left out."""
    match mark:
        case Rule(x1=x1, y1=y1, x2=x2, y2=y2):
            return _around(((x1, y1), (x2, y2)))
        case Path(points=points):
            return _around(points)
        case Text(x=x, y=y, width=width, height=height):
            return Area(x, y, width, height)
        case Stack(x=x, y=y, width=width, height=height):
            return Area(x, y, width, height)
        case Box(x=x, y=y, width=width, height=height):
            return Area(x, y, width, height)
        case Dot(x=x, y=y, width=width, height=height):
            return Area(x, y, width, height)
        case Picture(x=x, y=y, width=width, height=height):
            return Area(x, y, width, height)


def _around(points: Sequence[tuple[int, int]]) -> Area:
    left, top = min(x for x, _ in points), min(y for _, y in points)
    right, bottom = max(x for x, _ in points), max(y for _, y in points)
    return Area(left, top, right - left, bottom - top)


def bounds(marks: Iterable[Plain]) -> Area:
    """The smallest rectangle around all marks; empty at the origin where there are none."""
    areas = [area(mark) for mark in marks]
    if not areas:
        return Area(0, 0, 0, 0)
    corners = [(each.x, each.y) for each in areas] + [(each.right, each.bottom) for each in areas]
    return _around(corners)
