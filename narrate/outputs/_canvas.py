"""A page in pixels, drawn a group of marks at a time: only the rectangle that the group fills.

A whole page takes a raster some hundred times as long as most groups do.
"""

from __future__ import annotations

import io
from collections.abc import Iterable, Iterator

from PIL import Image

from narrate.lesson.marks import (
    PAGE_HEIGHT,
    PAGE_WIDTH,
    Group,
    Page,
    Path,
    Plain,
    Rule,
    Stack,
    Text,
)
from narrate.lesson.measure import font_path
from narrate.lesson.palette import Palette
from narrate.outputs._raster import draw
from narrate.outputs._svg import seen_through


class Canvas:
    """A page at so many pixels' height, and what lies over it for a while."""

    def __init__(self, page: Page, palette: Palette, height: int) -> None:
        self._palette = palette
        self._unit = PAGE_HEIGHT // height
        self._builds = [build.group for build in page.builds]
        self._shown = 0
        size = PAGE_WIDTH // self._unit, height
        self._image = Image.new("RGB", size, f"#{palette['paper']}")
        for marks in ((page.heading,), *(group.marks for group in page.base)):
            self._put(self._image, marks)

    def show(self, builds: int, over: Group | None = None) -> Image.Image:
        """The page after its first `builds` builds, never fewer than before; not to be changed."""
        for group in self._builds[self._shown : builds]:
            self._put(self._image, group.marks)
        self._shown = max(builds, self._shown)
        if over is None:
            return self._image
        image = self._image.copy()
        self._put(image, over.marks)
        return image

    def _put(self, image: Image.Image, marks: tuple[Plain, ...]) -> None:
        """Draws marks on the image, through the smallest window of whole pixels."""
        left, top, right, bottom = self._window(marks)
        if left >= right or top >= bottom:
            return
        window = tuple(edge * self._unit for edge in (left, top, right - left, bottom - top))
        picture = seen_through(window, marks, self._palette, self._unit)  # type: ignore[arg-type]
        drawn = draw((picture, right - left, str(font_path())))
        with Image.open(io.BytesIO(drawn)) as over:
            image.paste(over, (left, top), over)

    def _window(self, marks: Iterable[Plain]) -> tuple[int, int, int, int]:
        """The pixels that marks fill: left, top, right, bottom, inside the page."""
        lefts, tops, rights, bottoms = zip(*map(_edges, marks), strict=True)
        unit = self._unit
        return (
            max(min(lefts) // unit, 0),
            max(min(tops) // unit, 0),
            min(-(-max(rights) // unit), PAGE_WIDTH // unit),
            min(-(-max(bottoms) // unit), PAGE_HEIGHT // unit),
        )


def _edges(mark: Plain) -> tuple[int, int, int, int]:
    """Left, top, right and bottom of what a mark paints, on the safe side."""
    match mark:
        case Rule():
            points: Iterator[tuple[int, int]] = iter(((mark.x1, mark.y1), (mark.x2, mark.y2)))
            return _around(points, mark.weight)
        case Path():
            return _around(iter(mark.points), mark.weight)
        case Text() | Stack():
            room = mark.size // 2  # letters may lean out of their advance
        case _:
            room = getattr(mark, "weight", 0)
    far = (mark.x + mark.width, mark.y + mark.height)
    return _around(iter(((mark.x, mark.y), far)), room)


def _around(points: Iterator[tuple[int, int]], room: int) -> tuple[int, int, int, int]:
    across, down = zip(*points, strict=True)
    return min(across) - room, min(down) - room, max(across) + room, max(down) + room
