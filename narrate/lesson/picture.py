"""The teacher's own picture on a page: scaled into the room it is given, never cut."""

from __future__ import annotations

from narrate.items.item import PictureGiven
from narrate.lesson.frame import MARGIN, WIDTH
from narrate.lesson.marks import Group, Picture

WIDE = 2.2
"""A picture so many times as wide as high goes under the words, any other one beside them."""

BESIDE, UNDER_HEIGHT, LEAST_HEIGHT = 34_000, 15_000, 3_000
SMALL_WIDTH, SMALL_HEIGHT = 30_000, 10_400
"""Room for it on the item's page, and on work pages, where a wide one stays beside the stem."""

ASIDE_WIDTH, ASIDE_HEIGHT, LEAST_ASIDE = 20_000, 24_000, 9_000
"""Room for any other one on work pages: beside the choices or under the boxes; and the least
height in which that serves."""


def is_wide(given: PictureGiven) -> bool:
    """Whether a picture goes under the words."""
    return given.width >= WIDE * given.height


def size(given: PictureGiven, width: int, height: int) -> tuple[int, int]:
    """The largest width and height of its own shape within a room; at least a point."""
    across = min(width, height * given.width // given.height)
    return max(100, across), max(100, across * given.height // given.width)


def group(given: PictureGiven, x: int, y: int, width: int, height: int) -> Group:
    """The picture with its top left corner at (`x`, `y`)."""
    mark = Picture(x=x, y=y, width=width, height=height, data=given.data, kind=given.kind)
    return Group(name="picture", alt=given.alt, marks=(mark,))


def at_right(given: PictureGiven, y: int, width: int, height: int) -> Group:
    """The picture at the right edge of the page, in a room of `width` and `height`."""
    across, tall = size(given, width, height)
    return group(given, MARGIN + WIDTH - across, y, across, tall)
