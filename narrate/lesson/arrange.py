"""Putting the work of one page in place: lines, figures, lists and the sentence to take along."""

from __future__ import annotations

from collections.abc import Callable, Collection, Mapping, Sequence
from dataclasses import dataclass, field, replace
from functools import lru_cache, partial

from narrate.exact.tree import Writing
from narrate.lesson import alt, drawing, workzone
from narrate.lesson.block import Area, Block
from narrate.lesson.effects import OF_LAYERS, RING, effect_of
from narrate.lesson.frame import MARGIN, WIDTH
from narrate.lesson.marks import Dot, Effect, Group, Plain
from narrate.lesson.shows import Draw, Line, Multiples, Show, Takeaway
from narrate.lesson.workzone import GUTTER, LINE_GAP, LIST_GAP, Style, WorkLine
from narrate.solution.figures import Layer

When = tuple[int, int] | None
"""Which show of which beat; None for what is on the page from the start."""

IN_ZONE = (Line, Draw, Multiples, Takeaway)
"""The shows that the work zone holds; others have their own places."""

FULL = 6
"""Six plain lines of work fill a page, or three stacked ones."""

FEW = 4
"""So little work leaves a page room for larger mathematics."""

MOST_FIGURES = 2
LIST_WIDTH = 22_000
"""A list wider than this may be broken to stand beside the lines."""

WIDEST_FIGURE = 62_000
NARROWEST_SIDE = 22_000
"""Room beside the lines that figures and lists ask for; two thirds of it where it must be."""

FIGURE_GAP = 1_400
RESULTS_GAP = 1_000
TAKEAWAY_GAP = 1_200
WIDEST_LINE_GAP, WIDEST_FIGURE_GAP = 3_400, 3_600
"""Room that is left over is shared out between lines and figures, up to this."""


@dataclass(slots=True)
class Content:
    """The shows that a page's work zone holds.

    `rings` says for a list of multiples when its common multiple is ringed; a list that it does not
    name gets its ring as it comes. `results` are what earlier pages leave for this one.
    """

    lines: list[tuple[When, Line]] = field(default_factory=list)
    figures: dict[str, list[tuple[When, Layer]]] = field(default_factory=dict)
    lists: list[tuple[When, Multiples]] = field(default_factory=list)
    takeaways: list[tuple[When, Takeaway]] = field(default_factory=list)
    rings: Mapping[Multiples, When] = field(default_factory=dict)
    results: tuple[Writing, ...] = ()

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

    def turned(
        self,
        *,
        results: tuple[Writing, ...],
        lists: Sequence[Multiples],
        kept: Collection[str] = (),
    ) -> Content:
        """Without what has done its service on pages before this one.

        Of what came earlier it holds the `results`, some `lists`, and the figures that are `kept`.
        """
        return Content(
            lines=[line for line in self.lines if line[0] is not None],
            results=results,
            figures={
                name: layers
                for name, layers in self.figures.items()
                if name in kept or any(when is not None for when, _ in layers)
            },
            lists=[(when, show) for when, show in self.lists if when is not None or show in lists],
            takeaways=[each for each in self.takeaways if each[0] is not None],
            rings=self.rings,
        )

    def split(self) -> tuple[list[str], list[str]]:
        """The figures that come before the first line of work or with it, and the later ones."""
        first = min((when for when, _ in self.lines if when is not None), default=None)
        early: list[str] = []
        late: list[str] = []
        for name, layers in self.figures.items():
            begun = layers[0][0]
            comes_later = first is not None and begun is not None and begun[0] > first[0]
            (late if comes_later else early).append(name)
        return early, late


@dataclass(slots=True)
class Arranged:
    """Groups in their place: there from the start, or by the show that they appear with.

    On `trial` nothing is drawn: the question is only whether it fits.
    """

    language: str
    trial: bool = False
    base: list[Group] = field(default_factory=list)
    builds: dict[tuple[int, int], list[tuple[Group, Effect, int]]] = field(default_factory=dict)

    def put(
        self,
        when: When,
        named: Callable[[], tuple[str, str]],
        marks: Callable[[], tuple[Plain, ...]],
        effect: Effect,
        steps: int = 1,
    ) -> None:
        """Put a group in, by its name and description and its marks; a show may bring several."""
        if self.trial:
            return
        name, said = named()
        group = Group(name=name, alt=said, marks=marks())
        if when is None:
            self.base.append(group)
        else:
            self.builds.setdefault(when, []).append((group, effect, steps))


def arrange(
    content: Content,
    zone: Area,
    wide_from: int,
    language: str,
    *,
    size: int,
    squeeze: bool = False,
    force: bool = False,
    trial: bool = False,
) -> Arranged | None:
    """The work in its zone, its mathematics at `size`, or None where it does not fit.

    `squeeze` lifts the number of lines that a page should have, `force` all limits; on `trial`
    nothing is drawn.
    """
    if not squeeze and crowded(content, zone.width):
        return None
    style = _style(content, zone.width, language, size, squeeze=squeeze)
    lines = [workzone.set_line(show, style, zone.width) for _, show in content.lines]
    done = Arranged(language, trial=trial)
    bottom = _put_takeaway(content, zone, wide_from, done)
    top = _put_results(content, zone, done)
    room = Area(zone.x, top, zone.width, bottom - top)
    if style.beside and _is_better_under(content, lines, room, style):
        style = replace(style, beside=False)
    used = _put_work(content, lines, room, style, done)
    return done if force or used <= bottom else None


def _is_better_under(content: Content, lines: Sequence[WorkLine], room: Area, style: Style) -> bool:
    """Whether a figure is plainly wider over or under few lines than beside them, and has room."""
    if len(content.figures) != 1 or content.lists:
        return False
    if room.width - style.left - GUTTER > min(room.width, WIDEST_FIGURE) * 2 // 3:
        return False
    under = replace(style, beside=False)
    return (
        _put_work(content, lines, room, under, Arranged(style.language, trial=True)) <= room.bottom
    )


def _put_results(content: Content, zone: Area, done: Arranged) -> int:
    """At the top, small; returns where the work may begin."""
    if not content.results:
        return zone.y
    trees, block = workzone.kept_row(content.results, zone.width)
    if not trees:
        return zone.y
    done.put(
        None, partial(alt.kept, trees, done.language), partial(block.at, zone.x, zone.y), "fade"
    )
    return zone.y + block.height + RESULTS_GAP


def crowded(content: Content, width: int) -> bool:
    """Whether there are more lines or figures than a page should hold, at any size."""
    if len(content.figures) > MOST_FIGURES:
        return True
    return sum(workzone.weight(show, width) for _, show in content.lines) > FULL


def is_sparse(content: Content, width: int, language: str) -> bool:
    """Whether there are few lines, nothing beside them, and all on one row when set large."""
    if not content.lines or content.figures or content.lists:
        return False
    if sum(workzone.weight(show, width) for _, show in content.lines) > FEW:
        return False
    style = _style(content, width, language, workzone.LARGE, squeeze=False)
    lines = [workzone.set_line(show, style, width) for _, show in content.lines]
    return all(len(line.rows) == 1 and line.width <= width for line in lines)


def _style(content: Content, width: int, language: str, size: int, *, squeeze: bool) -> Style:
    least = max((_least_width(_layers(content, name)) for name in content.figures), default=0)
    least = max(least, NARROWEST_SIDE)
    if squeeze:
        least = least * 2 // 3
    return workzone.style([line for _, line in content.lines], least, width, language, size)


def _layers(content: Content, name: str) -> tuple[Layer, ...]:
    return tuple(layer for _, layer in content.figures[name])


def _put_takeaway(content: Content, zone: Area, wide_from: int, done: Arranged) -> int:
    """At the bottom, over the whole page where the answer leaves room; returns its upper edge."""
    bottom = zone.bottom
    for when, show in reversed(content.takeaways):
        block = workzone.takeaway(show.text, WIDTH)
        if bottom - block.height < wide_from:
            block = workzone.takeaway(show.text, zone.width)
        y = bottom - block.height
        drawn = partial(block.at, MARGIN, y)
        done.put(when, partial(_takeaway_named, show), drawn, effect_of(show))
        bottom = y - TAKEAWAY_GAP
    return bottom


def _takeaway_named(show: Takeaway) -> tuple[str, str]:
    return "take along", show.text


def _put_work(
    content: Content, lines: Sequence[WorkLine], room: Area, style: Style, done: Arranged
) -> int:
    """Lines, figures and lists; returns how far down they reach."""
    if style.beside and lines:
        left = style.left
        side = Area(room.x + left + GUTTER, room.y, room.width - left - GUTTER, room.height)
        below = _put_side(content, side, done)
        return max(below, _put_lines(content, lines, room, done))
    early, late = content.split()
    under = _put_figures(content, early, room, FIGURE_GAP, done)
    rest = _below(room, under)
    used = max((line.width for line in lines), default=0)
    spare = room.width - used - GUTTER
    if not lines or spare < _least_list(content):
        if content.carries_lists:
            return room.bottom + 1
        rest = _below(rest, _put_lists(content, rest, done) + FIGURE_GAP)
        below = _put_lines(content, lines, _above(content, late, rest), done)
    else:
        side = Area(room.x + used + GUTTER, under, spare, room.bottom - under)
        below = _put_lists(content, side, done)
        below = max(below, _put_lines(content, lines, _above(content, late, rest), done))
    last = _below(room, below + FIGURE_GAP)
    return _put_figures(content, late, last, FIGURE_GAP, done) - FIGURE_GAP if late else below


def _below(room: Area, y: int) -> Area:
    """What is left of a room under `y`."""
    return Area(room.x, y, room.width, room.bottom - y)


def _above(content: Content, late: Sequence[str], room: Area) -> Area:
    """What is left of a room above the figures that come later."""
    taken = sum(_figure(content, name, room.width).height + FIGURE_GAP for name in late)
    return Area(room.x, room.y, room.width, room.height - taken)


def _put_side(content: Content, side: Area, done: Arranged) -> int:
    """Figures and lists beside the lines, the room that is left shared out between them."""
    tall = sum(_figure(content, name, side.width).height for name in content.figures)
    count = len(content.figures) + bool(content.lists)
    if content.lists:
        shows = [show for _, show in content.lists]
        size = workzone.list_size(shows, side.width, side.height - tall - FIGURE_GAP * count)
        tall += workzone.lists_height(shows, size, side.width)
    spare = (side.height - tall) // max(1, count)
    gap = max(FIGURE_GAP, min(spare, WIDEST_FIGURE_GAP))
    below = _put_figures(content, tuple(content.figures), side, gap, done)
    return max(_put_lists(content, _below(side, below), done), below - gap)


def _least_list(content: Content) -> int:
    """The room that the lists ask for beside the lines."""
    if not content.lists:
        return 0
    size = workzone.LIST_SIZES[0]
    longest = max(workzone.multiples(show, size, WIDTH).block.width for _, show in content.lists)
    return min(longest * 9 // 10, LIST_WIDTH)


def _put_lines(content: Content, lines: Sequence[WorkLine], room: Area, done: Arranged) -> int:
    """The lines one under another; room that is left is shared out between them."""
    tall = sum(line.height for line in lines)
    spare = (room.height - TAKEAWAY_GAP - tall) // max(1, len(lines) - 1)
    gap = max(LINE_GAP, min(spare, WIDEST_LINE_GAP))
    y = room.y
    for (when, show), line in zip(content.lines, lines, strict=True):
        done.put(
            when,
            partial(alt.line, show.tree, done.language, struck=show.struck, note=show.note),
            partial(_line_marks, line, room.x, y),
            effect_of(show),
        )
        y += line.height + gap
    return y - gap if lines else y


def _line_marks(line: WorkLine, x: int, y: int) -> tuple[Plain, ...]:
    return Block(line.width, line.height, line.marks()).at(x, y)


def _figure(content: Content, name: str, width: int) -> drawing.Drawing:
    return _drawn(_layers(content, name), min(width, WIDEST_FIGURE))


def _put_figures(
    content: Content, names: Sequence[str], room: Area, gap: int, done: Arranged
) -> int:
    """Figures one under another; returns where the next thing may begin."""
    y = room.y
    for name in names:
        figure = _figure(content, name, room.width)
        for (when, layer), marks in zip(content.figures[name], figure.parts, strict=True):
            drawn = Block(figure.width, figure.height, marks)
            effect = OF_LAYERS[type(layer)]
            done.put(
                when, partial(alt.layer, layer, done.language), partial(drawn.at, room.x, y), effect
            )
        y += figure.height + gap
    return y


@lru_cache(maxsize=256)
def _least_width(layers: tuple[Layer, ...]) -> int:
    return drawing.least_width(layers)


@lru_cache(maxsize=256)
def _drawn(layers: tuple[Layer, ...], width: int) -> drawing.Drawing:
    return drawing.draw(layers, width)


def _put_lists(content: Content, room: Area, done: Arranged) -> int:
    """Lists one under another; returns how far down they reach."""
    y = room.y
    size = workzone.list_size([show for _, show in content.lists], room.width, room.height)
    rings: dict[When, list[tuple[Multiples, Dot]]] = {}
    for when, show in content.lists:
        drawn = workzone.multiples(show, size, room.width)
        listed = partial(drawn.block.at, room.x, y)
        done.put(
            when,
            partial(alt.multiples, show, done.language),
            listed,
            effect_of(show),
            len(show.values),
        )
        if drawn.ring is not None:
            ring = replace(drawn.ring, x=drawn.ring.x + room.x, y=drawn.ring.y + y)
            rings.setdefault(content.rings.get(show, when), []).append((show, ring))
        y += drawn.block.height + LIST_GAP
    for when, found in rings.items():  # after all lists, around the number that they share
        shows = tuple(show for show, _ in found)
        done.put(when, partial(alt.common, shows, done.language), partial(_rings, found), RING)
    return y - LIST_GAP if content.lists else y


def _rings(found: Sequence[tuple[Multiples, Dot]]) -> tuple[Plain, ...]:
    return tuple(ring for _, ring in found)
