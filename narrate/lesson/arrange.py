"""Putting the work of one page in place: lines, figures, lists and the sentence to take along."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, field
from functools import lru_cache

from narrate.lesson import alt, drawing, workzone
from narrate.lesson.block import Area, Block
from narrate.lesson.frame import MARGIN, WIDTH
from narrate.lesson.marks import Effect, Group
from narrate.lesson.shows import Draw, Line, Multiples, Show, Takeaway
from narrate.lesson.workzone import GUTTER, LINE_GAP, Style, WorkLine
from narrate.solution.figures import Layer, Stretch

When = tuple[int, int] | None
"""Which show of which beat; None for what is on the page from the start."""

FULL = 6
"""Six plain lines of work fill a page, or three stacked ones."""

MOST_FIGURES = 2
LIST_WIDTH = 22_000
"""A list wider than this may be broken to stand beside the lines."""

WIDEST_FIGURE = 62_000
FIGURE_GAP = 1_400


@dataclass(slots=True)
class Content:
    """The shows that a page's work zone holds."""

    lines: list[tuple[When, Line]] = field(default_factory=list)
    figures: dict[str, list[tuple[When, Layer]]] = field(default_factory=dict)
    lists: list[tuple[When, Multiples]] = field(default_factory=list)
    takeaways: list[tuple[When, Takeaway]] = field(default_factory=list)

    @property
    def carries_lists(self) -> bool:
        """Whether lists of the page before are here; they stay only where they stand aside."""
        return any(when is None for when, _ in self.lists)

    def add(self, when: When, show: Show) -> None:
        """Add a show; those of the stem and the answer have their own places."""
        match show:
            case Line():
                self.lines.append((when, show))
            case Draw(layer):
                self.figures.setdefault(layer.of, []).append((when, layer))
            case Multiples():
                self.lists.append((when, show))
            case Takeaway():
                self.takeaways.append((when, show))
            case _:
                pass

    def turned(self, *, carry: bool, lists: Sequence[Multiples]) -> Content:
        """Without what has done its service on pages before this one."""
        old = [line for line in self.lines if line[0] is None and not line[1].struck]
        new = [line for line in self.lines if line[0] is not None]
        return Content(
            lines=[*(old[-1:] if carry else []), *new],
            figures={
                name: layers
                for name, layers in self.figures.items()
                if any(when is not None for when, _ in layers)
            },
            lists=[(when, show) for when, show in self.lists if when is not None or show in lists],
            takeaways=[each for each in self.takeaways if each[0] is not None],
        )


@dataclass(slots=True)
class Arranged:
    """Groups in their place: there from the start, or by the show that they appear with."""

    base: list[Group] = field(default_factory=list)
    builds: dict[tuple[int, int], list[tuple[Group, Effect]]] = field(default_factory=dict)

    def put(self, when: When, group: Group, effect: Effect = "fade") -> None:
        """Put a group in; a show may bring more than one."""
        if when is None:
            self.base.append(group)
        else:
            self.builds.setdefault(when, []).append((group, effect))


def arrange(
    content: Content,
    zone: Area,
    wide_from: int,
    language: str,
    *,
    size: int | None = None,
    force: bool = False,
) -> Arranged | None:
    """The work in its zone, or None where it does not fit.

    A `size` for the mathematics lifts the number of lines a page should have, `force` all limits.
    """
    style = _style(content, zone.width, language, size)
    lines = [workzone.set_line(show, style, zone.width) for _, show in content.lines]
    crowded = sum(line.weight for line in lines) > FULL or len(content.figures) > MOST_FIGURES
    if crowded and size is None:
        return None
    done = Arranged()
    bottom = _put_takeaway(content, zone, wide_from, done)
    room = Area(zone.x, zone.y, zone.width, bottom - zone.y)
    used = _put_work(content, lines, room, style, done)
    return done if force or used <= bottom else None


def _style(content: Content, width: int, language: str, size: int | None) -> Style:
    figures = [tuple(layer for _, layer in layers) for layers in content.figures.values()]
    least = max((_least_width(layers) for layers in figures), default=0)
    return workzone.style(
        tuple(line for _, line in content.lines), least, width, language, size or workzone.MATHS
    )


def _put_takeaway(content: Content, zone: Area, wide_from: int, done: Arranged) -> int:
    """At the bottom, over the whole page where the answer leaves room; returns its upper edge."""
    bottom = zone.bottom
    for when, show in reversed(content.takeaways):
        block = workzone.takeaway(show.text, WIDTH)
        if bottom - block.height < wide_from:
            block = workzone.takeaway(show.text, zone.width)
        y = bottom - block.height
        group = Group(name="take along", alt=show.text, marks=block.at(MARGIN, y))
        done.put(when, group)
        bottom = y - 1_000
    return bottom


def _put_work(
    content: Content, lines: Sequence[WorkLine], room: Area, style: Style, done: Arranged
) -> int:
    """Lines, figures and lists; returns how far down they reach."""
    if style.beside and lines:
        left = style.left
        side = Area(room.x + left + GUTTER, room.y, room.width - left - GUTTER, room.height)
        below = _put_figures(content, side, done)
        below = _put_lists(content, Area(side.x, below, side.width, 0), done)
        return max(below - FIGURE_GAP, _put_lines(content, lines, room.x, room.y, done))
    under = _put_figures(content, room, done)
    used = max((line.width for line in lines), default=0)
    spare = room.width - used - GUTTER
    if not lines or spare < _least_list(content):
        under = _put_lists(content, Area(room.x, under, room.width, 0), done)
        if content.carries_lists:
            return room.bottom + 1
        return _put_lines(content, lines, room.x, under, done)
    side = Area(room.x + used + GUTTER, under, spare, 0)
    below = _put_lists(content, side, done) - FIGURE_GAP
    return max(below, _put_lines(content, lines, room.x, under, done))


def _least_list(content: Content) -> int:
    """The room that the lists ask for beside the lines."""
    if not content.lists:
        return 0
    size = workzone.LIST_SIZES[0]
    longest = max(workzone.multiples(show, size, WIDTH).block.width for _, show in content.lists)
    return min(longest * 9 // 10, LIST_WIDTH)


def _put_lines(content: Content, lines: Sequence[WorkLine], x: int, y: int, done: Arranged) -> int:
    for (when, show), line in zip(content.lines, lines, strict=True):
        name, said = alt.line(show.tree, struck=show.struck)
        marks = Block(line.width, line.height, line.marks()).at(x, y)
        done.put(when, Group(name=name, alt=said, marks=marks))
        y += line.height + LINE_GAP
    return y - LINE_GAP if lines else y


def _put_figures(content: Content, room: Area, done: Arranged) -> int:
    y = room.y
    for layers in content.figures.values():
        width = min(room.width, WIDEST_FIGURE)
        figure = _drawn(tuple(layer for _, layer in layers), width)
        for (when, layer), marks in zip(layers, figure.parts, strict=True):
            name, said = alt.layer(layer)
            placed = Block(figure.width, figure.height, marks).at(room.x, y)
            done.put(when, Group(name=name, alt=said, marks=placed), _effect(layer))
        y += figure.height + FIGURE_GAP
    return y


@lru_cache(maxsize=256)
def _least_width(layers: tuple[Layer, ...]) -> int:
    return drawing.least_width(layers)


@lru_cache(maxsize=256)
def _drawn(layers: tuple[Layer, ...], width: int) -> drawing.Drawing:
    return drawing.draw(layers, width)


def _effect(layer: Layer) -> Effect:
    return "wipe" if isinstance(layer, Stretch) else "fade"


def _put_lists(content: Content, room: Area, done: Arranged) -> int:
    y = room.y
    size = workzone.list_size([show for _, show in content.lists], room.width)
    for when, show in content.lists:
        drawn = workzone.multiples(show, size, room.width)
        name, said = alt.multiples(show)
        done.put(when, Group(name=name, alt=said, marks=drawn.block.at(room.x, y)))
        if drawn.ring is not None:
            name, said = alt.common(show)
            ring = Block(0, 0, (drawn.ring,)).at(room.x, y)
            done.put(when, Group(name=name, alt=said, marks=ring))
        y += drawn.block.height + 300
    return y + FIGURE_GAP if content.lists else y
