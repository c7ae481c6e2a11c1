"""A caption that is shown on the page itself, where nobody speaks."""

from __future__ import annotations

from narrate.lesson import measure
from narrate.lesson.marks import PAGE_HEIGHT, PAGE_WIDTH, Box, Group, Text

_TOP = PAGE_HEIGHT * 4 // 5 + 600
_HEIGHT, _SIDE, _EDGE = 9_000, 10_000, 1_200
"""Captions lie in the lowest fifth, clear of the slide's number at its right."""
_SIZE, _LEADING = 3_000, 3_600
"""As large as the words of choices; two lines of 37 characters have room."""


def caption_sheet(own: str, lines: tuple[str, ...]) -> Group:
    """A caption on a sheet of its own, all sheets of one size: only one is ever seen."""
    room = PAGE_WIDTH - 2 * (_SIDE + _EDGE)
    widest = max(measure.text_width(line, _SIZE) for line in lines)
    size = _SIZE if widest <= room else _SIZE * room // widest
    height = measure.text_height(len(lines), size, _LEADING)
    sheet = Box(
        x=_SIDE,
        y=_TOP,
        width=PAGE_WIDTH - 2 * _SIDE,
        height=_HEIGHT,
        fill="panel",
        line="quiet",
        rounded=True,
    )
    words = Text(
        x=_SIDE + _EDGE,
        y=_TOP + (_HEIGHT - height) // 2,
        width=room,
        height=height,
        lines=lines,
        size=size,
        leading=_LEADING,
        align="centre",
    )
    return Group(name=own, alt=" ".join(lines), marks=(sheet, words))
