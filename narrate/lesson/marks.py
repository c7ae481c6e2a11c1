"""The closed set of marks a page is made of.

Places and sizes are integers in hundredths of a point (exactly 127 EMU), from the page's top left
corner; a page is 96,000 wide and 54,000 high (13.333 × 7.5 inches). Colours are roles, which
a palette turns into colours when a page is written. Outputs write marks as they are and lay nothing
out.
"""

from __future__ import annotations

from dataclasses import dataclass
from typing import Literal

PAGE_WIDTH = 96_000
PAGE_HEIGHT = 54_000

Colour = Literal["paper", "ink", "quiet", "pen", "panel", "first", "second", "third", "taken"]
"""What a colour is for, never what it looks like: a palette says that, when a page is written.

`paper` is the ground and `ink` what is printed on it; `quiet` are lines that only part things;
`pen` is what the teacher adds; `panel` is the ground of boxes to write in and of signs; `first`,
`second` and `third` fill the amounts of a picture, `taken` fills what is crossed off.
"""

Align = Literal["left", "centre"]
Effect = Literal["appear", "fade", "wipe"]


@dataclass(frozen=True, slots=True, kw_only=True)
class Text:
    """Words or symbols on one line or more, already broken: `lines` are drawn as they are.

    `x, y` is the top left corner of the block, `width` what was measured (text never wraps
    again); `size` is the type size, `leading` the distance between base lines.
    """

    x: int
    y: int
    width: int
    height: int
    lines: tuple[str, ...]
    size: int
    leading: int
    bold: bool = False
    colour: Colour = "ink"
    align: Align = "left"


@dataclass(frozen=True, slots=True, kw_only=True)
class Stack:
    """A stacked fraction: `top` over a rule over `bottom`, centred in its box."""

    x: int
    y: int
    width: int
    height: int
    top: str
    bottom: str
    size: int
    colour: Colour = "ink"


@dataclass(frozen=True, slots=True, kw_only=True)
class Rule:
    """A straight line from (x1, y1) to (x2, y2)."""

    x1: int
    y1: int
    x2: int
    y2: int
    weight: int
    colour: Colour = "ink"
    dashed: bool = False


@dataclass(frozen=True, slots=True, kw_only=True)
class Box:
    """A rectangle; `fill` None is empty, `line` None has no outline. `hatched` fills by stripes."""

    x: int
    y: int
    width: int
    height: int
    fill: Colour | None = None
    line: Colour | None = "ink"
    weight: int = 150
    hatched: bool = False
    rounded: bool = False
    dashed: bool = False


@dataclass(frozen=True, slots=True, kw_only=True)
class Path:
    """A line through points, closed or open; for hops on a number line, arrows, ticks."""

    points: tuple[tuple[int, int], ...]
    closed: bool = False
    fill: Colour | None = None
    line: Colour | None = "ink"
    weight: int = 200


@dataclass(frozen=True, slots=True, kw_only=True)
class Dot:
    """An ellipse in the box x, y, width, height; a ring when `fill` is None."""

    x: int
    y: int
    width: int
    height: int
    fill: Colour | None = "ink"
    line: Colour | None = "ink"
    weight: int = 150


@dataclass(frozen=True, slots=True, kw_only=True)
class Picture:
    """A picture of the teacher's own, `data` as its file holds it, scaled into its box."""

    x: int
    y: int
    width: int
    height: int
    data: bytes
    kind: Literal["png", "jpeg"]


Plain = Text | Stack | Rule | Box | Path | Dot | Picture


@dataclass(frozen=True, slots=True, kw_only=True)
class Group:
    """Marks that belong together: one name (unique on its page), one description in words."""

    name: str
    alt: str
    marks: tuple[Plain, ...]


@dataclass(frozen=True, slots=True, kw_only=True)
class Build:
    """A group that appears with a beat. The first build of a waiting beat waits for a click.

    `steps` is how many things in it are said one after another while it is wiped on.
    """

    beat: str
    group: Group
    effect: Effect = "fade"
    steps: int = 1


@dataclass(frozen=True, slots=True, kw_only=True)
class Page:
    """One slide: `base` is there from the start, `builds` come in beat order.

    `beats` are the ids of the beats told on it, in order. `title` is the slide's title for
    screen readers and outlines, drawn at `heading`.
    """

    title: str
    heading: Text
    base: tuple[Group, ...]
    builds: tuple[Build, ...]
    beats: tuple[str, ...]
