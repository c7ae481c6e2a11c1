"""What is wrong with a page as laid out: things that overlap or are not where they may be.

Builds only add, so a page is free of overlaps at every build when it is at its end. Groups that
are made to lie over others (a strike over its choice) are known by what they are; even then no
words may come upon other words.
"""

from __future__ import annotations

from itertools import combinations

from narrate.lesson import measure
from narrate.lesson.block import Area, area
from narrate.lesson.marks import PAGE_HEIGHT, PAGE_WIDTH, Group, Page, Plain, Stack, Text

CAPTIONS = PAGE_HEIGHT * 4 // 5
"""Captions lie below this line."""

_OVER = (
    ("strike ", "choices"),
    ("ring ", "choices"),
    ("ring ", "multiples"),
    ("mark ", "stem"),
    ("answer ", "answer boxes"),
)
"""Groups by the start of their names: the first may lie over the second."""


def overlaps(page: Page) -> list[str]:
    """Every overlap of two groups, and every group outside the page or in the captions' room."""
    heading = Group(name="heading", alt=page.title, marks=(page.heading,))
    groups = [heading, *page.base, *(build.group for build in page.builds)]
    found = [fault for group in groups for fault in _outside(group)]
    for first, second in combinations(groups, 2):
        if _collide(first, second):
            found.append(f"{page.title}: “{first.name}” and “{second.name}” overlap")
    return found


def _outside(group: Group) -> list[str]:
    room = Area(0, 0, PAGE_WIDTH, CAPTIONS)
    inside = all(room.holds(_ink(mark)) for mark in group.marks)
    return [] if inside else [f"“{group.name}” leaves its room"]


def _collide(first: Group, second: Group) -> bool:
    over = _lies_over(first.name, second.name) or _lies_over(second.name, first.name)
    return any(
        _ink(one).meets(_ink(other))
        for one in first.marks
        for other in second.marks
        if not over or (_is_words(one) and _is_words(other))
    )


def _lies_over(upper: str, lower: str) -> bool:
    if ": " in upper and ": " in lower:
        return upper.split(": ")[0] == lower.split(": ")[0]
    return any(upper.startswith(one) and lower.startswith(other) for one, other in _OVER)


def _is_words(mark: Plain) -> bool:
    return isinstance(mark, Text | Stack)


def _ink(mark: Plain) -> Area:
    """The area of a mark; of a text without the empty room above its letters."""
    whole = area(mark)
    if not isinstance(mark, Text):
        return whole
    spare = round((measure.ASCENT - 0.75) * mark.size)
    return Area(whole.x, whole.y + spare, whole.width, whole.height - spare)
