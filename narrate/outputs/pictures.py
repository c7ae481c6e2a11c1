"""pictures/: every slide and every build of it as PNG, and a contact sheet for each part.

`slide-03.png` is the third slide at its end, `slide-03-build-02.png` what it shows after two
builds, `slide-03-build-00.png` before any; `sheet-compost.2.png` has all states of a part in order,
each under its time.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from itertools import groupby
from math import ceil
from pathlib import Path
from xml.sax.saxutils import escape

from narrate.lesson.lesson import Beat, Lesson, Timeline
from narrate.lesson.marks import PAGE_HEIGHT, PAGE_WIDTH, Page
from narrate.lesson.palette import Palette
from narrate.outputs._clock import minutes_seconds
from narrate.outputs._options import Options
from narrate.outputs._raster import rasters
from narrate.outputs._svg import svg

FILE = "pictures/"
DEFAULT = False
LONG = True

WIDTH = 1_280
"""Pixels across a picture."""

ACROSS = 4
TILE, GAP, LABEL = 24_000, 1_200, 2_400
"""A contact sheet's tiles, the room between them and the room of a label, in points × 100."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Shot:
    """What a page shows after `builds` of its builds, seen from `start` ms of the review on."""

    page: Page
    number: int
    builds: int
    start: int

    @property
    def name(self) -> str:
        """The name of its file."""
        return f"slide-{self.number:02}-build-{self.builds:02}.png"

    @property
    def label(self) -> str:
        """What stands under it on the contact sheet."""
        last = len(self.page.builds)
        build = f", {self.builds} of {last}" if last else ""
        return f"slide {self.number}{build} · {minutes_seconds(self.start)}"


def write(lesson: Lesson, timeline: Timeline, options: Options, sink: Path) -> None:
    """Write all pictures into the folder `sink`."""
    palette = options.palette
    shots = list(_shots(lesson, timeline))
    sheets = dict(_sheets(lesson, shots, palette))
    pages = [(svg(shot.page, shot.builds, palette), WIDTH) for shot in shots]
    drawn = rasters([*pages, *((sheet, _WIDE) for sheet in sheets.values())])
    for shot, picture in zip(shots, drawn, strict=False):
        if shot.page.builds:
            (sink / shot.name).write_bytes(picture)
        if shot.builds == len(shot.page.builds):
            (sink / f"slide-{shot.number:02}.png").write_bytes(picture)
    for name, picture in zip(sheets, drawn, strict=True):
        (sink / f"sheet-{name}.png").write_bytes(picture)


def _shots(lesson: Lesson, timeline: Timeline) -> Iterator[Shot]:
    """Every state of every page, the empty one too."""
    for number, page in enumerate(lesson.pages, start=1):
        starts = [timeline.beats[build.beat].start for build in page.builds]
        first = timeline.beats[page.beats[0]].start
        for builds, start in enumerate((first, *starts)):
            yield Shot(page=page, number=number, builds=builds, start=start)


# -- contact sheets

_WIDE = 2 * (ACROSS * (TILE + GAP) + GAP) // 100
"""Pixels across a contact sheet: two to a point."""


def _sheets(lesson: Lesson, shots: Sequence[Shot], palette: Palette) -> Iterator[tuple[str, str]]:
    """A contact sheet as SVG for each part, by the part's name."""
    beats = {beat.id: beat for beat in lesson.beats}

    def part(shot: Shot) -> str:
        return _part(beats[shot.page.beats[0]])

    for name, seen in groupby(shots, key=part):
        if name:
            yield name, _sheet(list(seen), lesson.title, palette)


def _part(beat: Beat) -> str:
    return f"{beat.item}.{beat.part}" if beat.item else ""


def _sheet(shots: Sequence[Shot], title: str, palette: Palette) -> str:
    tall = TILE * PAGE_HEIGHT // PAGE_WIDTH
    cell = tall + LABEL + GAP
    width = ACROSS * (TILE + GAP) + GAP
    height = ceil(len(shots) / ACROSS) * cell + 2 * LABEL + GAP
    heading = _words(GAP, 2 * LABEL - GAP, 1_600, f"{title} · {shots[0].page.title}")
    tiles = "".join(
        _tile(
            shot, GAP + place % ACROSS * (TILE + GAP), 2 * LABEL + place // ACROSS * cell, palette
        )
        for place, shot in enumerate(shots)
    )
    return (
        f'<svg xmlns="http://www.w3.org/2000/svg" viewBox="0 0 {width} {height}"'
        f' width="{width // 100}" height="{height // 100}" font-family="Arimo">'
        f'<rect width="{width}" height="{height}" fill="#FFFFFF"/>{heading}{tiles}</svg>'
    )


def _tile(shot: Shot, x: int, y: int, palette: Palette) -> str:
    tall = TILE * PAGE_HEIGHT // PAGE_WIDTH
    page = svg(shot.page, shot.builds, palette).replace(
        'width="960" height="540"', f'x="{x}" y="{y}" width="{TILE}" height="{tall}"', 1
    )
    frame = (
        f'<rect x="{x}" y="{y}" width="{TILE}" height="{tall}" fill="none" stroke="#767676"'
        ' stroke-width="75"/>'
    )
    return f"{page}{frame}{_words(x, y + tall + 1_500, 1_100, shot.label)}"


def _words(x: int, y: int, size: int, words: str) -> str:
    return f'<text x="{x}" y="{y}" font-size="{size}" fill="#333333">{escape(words)}</text>'
