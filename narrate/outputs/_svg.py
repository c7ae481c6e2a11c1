"""A page, or the first of its builds, as SVG."""

from __future__ import annotations

import re
from base64 import b64encode
from collections.abc import Iterable, Iterator
from xml.sax.saxutils import escape, quoteattr

from narrate.lesson.marks import (
    PAGE_HEIGHT,
    PAGE_WIDTH,
    Box,
    Colour,
    Dot,
    Group,
    Page,
    Path,
    Picture,
    Plain,
    Rule,
    Stack,
    Text,
)
from narrate.lesson.palette import LIGHT, Palette

ASCENT, CAPITALS = 0.905, 0.716
"""Of Arial, in ems: where the first base line lies in a text; the height that centres digits."""

RADIUS = 600
STRIPE = 900
FRACTION_RULE = 0.055

# What XML 1.0 has no place for (section 2.2).
_FORBIDDEN = "[^\t\n\r\x20-\ud7ff\ue000-\ufffd\U00010000-\U0010ffff]"


def svg(page: Page, builds: int | None = None, palette: Palette = LIGHT) -> str:
    """The page after its first `builds` builds (all of them where None), 960 × 540 points."""
    base, groups, end = layers(page, palette)
    return "".join((base, *groups[:builds], end))


def layers(page: Page, palette: Palette = LIGHT) -> tuple[str, tuple[str, ...], str]:
    """The picture in layers: up to the base, each build, the end; joined they are an SVG."""
    base = "".join(drawing(group, palette) for group in page.base)
    start = opening(page.title, palette) + heading(page, palette) + base
    return start, tuple(drawing(build.group, palette) for build in page.builds), END


END = "</svg>"


def opening(title: str, palette: Palette) -> str:
    """How the picture of any page begins: its title, and its ground."""
    return (
        f"{_opening((0, 0, PAGE_WIDTH, PAGE_HEIGHT), 960, 540)}"
        f"<title>{_words(title)}</title>{_stripes(palette)}"
        f'<rect width="{PAGE_WIDTH}" height="{PAGE_HEIGHT}" fill="#{palette["paper"]}"/>'
    )


def heading(page: Page, palette: Palette) -> str:
    """The heading of a page, drawn."""
    return "".join(_text(page.heading, palette))


def seen_through(
    window: tuple[int, int, int, int], marks: Iterable[Plain], palette: Palette, unit: int
) -> str:
    """Marks alone on a clear ground, seen through a window of the page (x, y, width, height).

    A pixel is `unit` wide and high, which divides all four.
    """
    _, _, width, height = window
    drawn = "".join(part for mark in marks for part in _mark(mark, palette))
    return f"{_opening(window, width // unit, height // unit)}{_stripes(palette)}{drawn}</svg>"


def _opening(window: tuple[int, int, int, int], width: int, height: int) -> str:
    return (
        f'<svg xmlns="http://www.w3.org/2000/svg" viewBox="{" ".join(map(str, window))}" '
        f'width="{width}" height="{height}" style="font-kerning:none" '
        'font-family="Arial, Arimo, Liberation Sans, sans-serif">'
    )


def _words(text: str) -> str:
    return escape(_allowed(text))


def _allowed(text: str) -> str:
    """Without what XML has no place for."""
    return text if text.isprintable() else re.sub(_FORBIDDEN, "", text)


def _stripes(palette: Palette) -> str:
    """One hatching for each colour."""
    patterns = (
        f'<pattern id="hatch-{name}" width="{STRIPE}" height="{STRIPE}" '
        f'patternUnits="userSpaceOnUse" patternTransform="rotate(45)">'
        f'<rect width="{STRIPE}" height="{STRIPE}" fill="#{palette["paper"]}"/>'
        f'<rect width="{STRIPE * 2 // 5}" height="{STRIPE}" fill="#{colour}"/></pattern>'
        for name, colour in palette.items()
    )
    return f"<defs>{''.join(patterns)}</defs>"


def drawing(group: Group, palette: Palette) -> str:
    """A group of marks, with its description in words."""
    marks = "".join(part for mark in group.marks for part in _mark(mark, palette))
    label = quoteattr(_allowed(group.alt))
    return f'<g role="img" aria-label={label}>{marks}</g>'


def _mark(mark: Plain, palette: Palette) -> Iterable[str]:
    match mark:
        case Text():
            return _text(mark, palette)
        case Stack():
            return _stack(mark, palette)
        case Rule():
            return (_rule(mark, palette),)
        case Box():
            return (_box(mark, palette),)
        case Path():
            return (_path(mark, palette),)
        case Dot():
            return (_dot(mark, palette),)
        case Picture():
            return (_picture(mark),)


def _text(mark: Text, palette: Palette) -> Iterator[str]:
    anchor, x = "start", mark.x
    if mark.align == "centre":
        anchor, x = "middle", mark.x + mark.width // 2
    bold = ' font-weight="700"' if mark.bold else ""
    for number, line in enumerate(mark.lines):
        y = mark.y + round(ASCENT * mark.size) + number * mark.leading
        yield (
            f'<text x="{x}" y="{y}" font-size="{mark.size}"{bold} text-anchor="{anchor}" '
            f'fill="#{palette[mark.colour]}" xml:space="preserve">{_words(line)}</text>'
        )


def _stack(mark: Stack, palette: Palette) -> Iterator[str]:
    middle, centre = mark.y + mark.height // 2, mark.x + mark.width // 2
    capitals = round(CAPITALS * mark.size)
    gap = max(0, (mark.height // 2 - capitals) // 2)
    colour = palette[mark.colour]
    for text, y in ((mark.top, middle - gap), (mark.bottom, middle + gap + capitals)):
        yield (
            f'<text x="{centre}" y="{y}" font-size="{mark.size}" text-anchor="middle" '
            f'fill="#{colour}">{_words(text)}</text>'
        )
    yield (
        f'<line x1="{mark.x}" y1="{middle}" x2="{mark.x + mark.width}" y2="{middle}" '
        f'stroke="#{colour}" stroke-width="{round(FRACTION_RULE * mark.size)}"/>'
    )


def _rule(mark: Rule, palette: Palette) -> str:
    return (
        f'<line x1="{mark.x1}" y1="{mark.y1}" x2="{mark.x2}" y2="{mark.y2}"'
        f"{_line(mark.colour, mark.weight, palette, dashed=mark.dashed)}/>"
    )


def _line(colour: Colour | None, weight: int, palette: Palette, *, dashed: bool = False) -> str:
    if colour is None:
        return ""
    dashes = f' stroke-dasharray="{weight * 4} {weight * 3}"' if dashed else ""
    return f' stroke="#{palette[colour]}" stroke-width="{weight}"{dashes}'


def _fill(colour: Colour | None, palette: Palette, *, hatched: bool = False) -> str:
    if colour is None:
        return ' fill="none"'
    return f' fill="url(#hatch-{colour})"' if hatched else f' fill="#{palette[colour]}"'


def _box(mark: Box, palette: Palette) -> str:
    corner = f' rx="{RADIUS}"' if mark.rounded else ""
    return (
        f'<rect x="{mark.x}" y="{mark.y}" width="{mark.width}" height="{mark.height}"{corner}'
        f"{_fill(mark.fill, palette, hatched=mark.hatched)}"
        f"{_line(mark.line, mark.weight, palette, dashed=mark.dashed)}/>"
    )


def _path(mark: Path, palette: Palette) -> str:
    points = " ".join(f"{x},{y}" for x, y in mark.points)
    shape = "polygon" if mark.closed else "polyline"
    return (
        f'<{shape} points="{points}"{_fill(mark.fill, palette)}'
        f'{_line(mark.line, mark.weight, palette)} stroke-linejoin="round"/>'
    )


def _picture(mark: Picture) -> str:
    data = b64encode(mark.data).decode()
    return (
        f'<image x="{mark.x}" y="{mark.y}" width="{mark.width}" height="{mark.height}"'
        f' preserveAspectRatio="none" href="data:image/{mark.kind};base64,{data}"/>'
    )


def _dot(mark: Dot, palette: Palette) -> str:
    across, down = mark.width / 2, mark.height / 2
    return (
        f'<ellipse cx="{mark.x + across:g}" cy="{mark.y + down:g}" rx="{across:g}" ry="{down:g}"'
        f"{_fill(mark.fill, palette)}{_line(mark.line, mark.weight, palette)}/>"
    )
