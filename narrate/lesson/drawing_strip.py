"""Fraction strips and bars as marks."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from fractions import Fraction
from itertools import pairwise

from narrate.lesson.block import Block
from narrate.lesson.drawing import TOUCH, Drawing, centred, cuts, label, spread, steps, words
from narrate.lesson.marks import Box, Colour, Path, Plain, Rule
from narrate.solution.figures import (
    Bars,
    Brace,
    CrossOff,
    Cut,
    Layer,
    Shade,
    ShadeEach,
    Strip,
    Tone,
)

BAR = 4_800
"""The height of a strip or bar."""

HOOK = 600
"""How far a bracket reaches down."""

NARROWEST_CROSS = 900
NARROWEST_PART = 400
"""Cuts closer than this run together, so they are left out (the label still counts them)."""


def draw(ground: Layer, layers: Sequence[Layer], width: int) -> Drawing:
    """A strip (or two bars compared) and what comes on it."""
    if isinstance(ground, Bars):
        return _draw_bars(ground, layers, width)
    assert isinstance(ground, Strip)
    above, over = _labels_above(ground, layers, width)
    strip = _Strip(ground, width, top=over)
    under, below = _labels_under(strip, layers)
    parts = [strip.ground()]
    for at, layer in enumerate(layers):
        parts.append(strip.layer(layer) + above.get(at, ()) + under.get(at, ()))
    return Drawing(width, strip.bottom + below, tuple(parts))


def least_width(ground: Layer) -> int:
    """Wide enough for parts that can be counted, up to the width of a page."""
    if isinstance(ground, Strip):
        return min(60_000, max(22_000, ground.wholes * max(9_000, ground.parts * 1_200)))
    return 26_000


def _labels_above(
    ground: Strip, layers: Sequence[Layer], width: int
) -> tuple[dict[int, tuple[Plain, ...]], int]:
    """The labels over shaded stretches by layer, and the room they take."""
    found = [
        (at, layer.start + (layer.end - layer.start) / 2, label(layer.label))
        for at, layer in enumerate(layers)
        if isinstance(layer, Shade) and layer.label is not None
    ]
    if not found:
        return {}, 0
    room = max(block.height for _, _, block in found)
    centres = [round(middle * width / ground.wholes) for _, middle, _ in found]
    lefts = spread(centres, [block.width for _, _, block in found], 600, width)
    placed = {
        at: block.at(left, room - block.height)
        for (at, _, block), left in zip(found, lefts, strict=True)
    }
    return placed, room + TOUCH


@dataclass(slots=True)
class _Strip:
    """Draws the layers of one strip; remembers how it is cut so far."""

    ground_layer: Strip
    width: int
    top: int
    parts: int = 0

    def __post_init__(self) -> None:
        self.parts = self.ground_layer.parts

    @property
    def bottom(self) -> int:
        """The lower edge of the bar."""
        return self.top + BAR

    def x(self, place: Fraction) -> int:
        """Where `place` (in wholes) lies."""
        return round(place * self.width / self.ground_layer.wholes)

    def ground(self) -> tuple[Plain, ...]:
        """The empty strip: wholes by heavy lines, parts by thin ones."""
        wholes = self.ground_layer.wholes
        outline = Box(
            x=0, y=self.top, width=self.width, height=BAR, fill="paper", line="ink", weight=225
        )
        start, end = Fraction(0), Fraction(wholes)
        return (outline, *self.cut(start, end), *self._wholes(start, end))

    def _wholes(self, start: Fraction, end: Fraction) -> list[Plain]:
        """The heavy lines between wholes inside a stretch."""
        xs = [self.x(place) for place in steps(start, end, 1)]
        return [Rule(x1=x, y1=self.top, x2=x, y2=self.bottom, weight=300) for x in xs]

    def cut(self, start: Fraction, end: Fraction) -> list[Plain]:
        """The cuts inside a stretch, as the strip is cut now."""
        if self.width < self.parts * self.ground_layer.wholes * NARROWEST_PART:
            return []
        inner = [place for place in steps(start, end, self.parts) if place.denominator > 1]
        return cuts([self.x(place) for place in inner], self.top, self.bottom, "ink", 100)

    def layer(self, layer: Layer) -> tuple[Plain, ...]:
        """What a layer adds, its label above left out."""
        match layer:
            case Shade(start=start, end=end, tone=tone):
                return self._shade(start, end, tone)
            case ShadeEach(pieces=pieces, size=size, count=count, parts=parts, tone=tone):
                amount = Fraction(count, parts)
                starts = [piece * size for piece in range(pieces)]
                return tuple(m for at in starts for m in self._shade(at, at + amount, tone))
            case CrossOff(start=start, end=end):
                return self._crossed(start, end)
            case Cut(parts=parts, start=start, end=end):
                self.parts = parts
                whole = Fraction(self.ground_layer.wholes)
                return self._fresh(start or Fraction(0), end or whole)
            case _:
                return ()

    def _shade(self, start: Fraction, end: Fraction, tone: Tone) -> tuple[Plain, ...]:
        left, right = self.x(start), self.x(end)
        shaded = _toned(left, self.top, right - left, tone)
        return (shaded, *self.cut(start, end), *self._wholes(start, end))

    def _fresh(self, start: Fraction, end: Fraction) -> tuple[Plain, ...]:
        """New cuts; a strip too fine to cut shows the stretch's edges only."""
        drawn = self.cut(start, end)
        if drawn:
            return tuple(drawn)
        left, right = self.x(start), self.x(end)
        return tuple(cuts([left, right], self.top, self.bottom, "pen", 150))

    def _crossed(self, start: Fraction, end: Fraction) -> tuple[Plain, ...]:
        """The stretch seen to be taken: pale in a dashed outline, a cross through every part.

        One cross through the whole stretch where parts are thin, and before it is cut.
        """
        left, right = self.x(start), self.x(end)
        pale = Box(
            x=left,
            y=self.top,
            width=right - left,
            height=BAR,
            fill="taken",
            dashed=True,
            weight=225,
        )
        xs = [self.x(place) for place in (start, *steps(start, end, self.parts), end)]
        if (right - left) < (len(xs) - 1) * NARROWEST_CROSS:
            xs = [left, right]
        crosses = [mark for one, other in pairwise(xs) for mark in self._cross(one, other)]
        return (pale, *self.cut(start, end), *self._wholes(start, end), *crosses)

    def _cross(self, left: int, right: int) -> list[Plain]:
        """Two strokes, no wider than high and not much higher than wide."""
        reach = min((right - left) * 3 // 10, BAR * 3 // 10)
        middle, tall = (left + right) // 2, min(BAR * 3 // 5, reach * 7)
        top = self.top + (BAR - tall) // 2
        ends = ((top, top + tall), (top + tall, top))
        return [
            Rule(x1=middle - reach, y1=y1, x2=middle + reach, y2=y2, weight=225, colour="pen")
            for y1, y2 in ends
        ]


def _toned(left: int, top: int, width: int, tone: Tone) -> Box:
    match tone:
        case "first":
            return Box(x=left, y=top, width=width, height=BAR, fill="first", weight=225)
        case "second":
            return Box(
                x=left, y=top, width=width, height=BAR, fill="second", hatched=True, weight=225
            )
        case "third":
            return Box(
                x=left,
                y=top,
                width=width,
                height=BAR,
                fill="third",
                hatched=True,
                dashed=True,
                weight=225,
            )
        case "rest":
            return Box(x=left, y=top, width=width, height=BAR, fill="panel", dashed=True)


def _labels_under(
    strip: _Strip, layers: Sequence[Layer]
) -> tuple[dict[int, tuple[Plain, ...]], int]:
    """Brackets under stretches and crossed-off parts by layer, and the room they take."""
    found = [(at, layer) for at, layer in enumerate(layers) if _is_under(layer)]
    if not found:
        return {}, 0
    rows = _rows([layer for _, layer in found])
    tall = HOOK + TOUCH + max(_label(layer).height for _, layer in found)
    marks: dict[int, tuple[Plain, ...]] = {}
    for row in range(max(rows) + 1):
        inside = [each for each, on in zip(found, rows, strict=True) if on == row]
        marks |= _row_under(strip, inside, strip.bottom + TOUCH + row * tall)
    return marks, TOUCH + (max(rows) + 1) * tall + 200


def _is_under(layer: Layer) -> bool:
    return isinstance(layer, Brace) or (isinstance(layer, CrossOff) and layer.label is not None)


def _label(layer: Layer) -> Block:
    assert isinstance(layer, Brace | CrossOff)
    assert layer.label is not None
    return label(layer.label)


def _rows(layers: Sequence[Layer]) -> list[int]:
    """The row of each bracket: the first in which no earlier one is over the same stretch."""
    rows: list[int] = []
    for layer in layers:
        assert isinstance(layer, Brace | CrossOff)
        taken = {
            row
            for row, other in zip(rows, layers, strict=False)
            if isinstance(other, Brace | CrossOff)
            and other.start < layer.end
            and layer.start < other.end
        }
        rows.append(next(row for row in range(len(layers)) if row not in taken))
    return rows


def _row_under(
    strip: _Strip, inside: Sequence[tuple[int, Layer]], top: int
) -> dict[int, tuple[Plain, ...]]:
    """The brackets of one row, open to the top, with their labels under them."""
    ends = [
        (strip.x(layer.start) + 100, strip.x(layer.end) - 100)
        for _, layer in inside
        if isinstance(layer, Brace | CrossOff)
    ]
    texts = [_label(layer) for _, layer in inside]
    centres = [(left + right) // 2 for left, right in ends]
    lefts = spread(centres, [text.width for text in texts], 600, strip.width)
    marks: dict[int, tuple[Plain, ...]] = {}
    for (at, layer), (left, right), text, x in zip(inside, ends, texts, lefts, strict=True):
        points = ((left, top), (left, top + HOOK), (right, top + HOOK), (right, top))
        colour: Colour = "pen" if isinstance(layer, Brace) else "ink"
        hook = Path(points=points, line=colour, weight=200)
        marks[at] = (hook, *text.at(x, top + HOOK + TOUCH))
    return marks


def _draw_bars(ground: Bars, layers: Sequence[Layer], width: int) -> Drawing:
    """Two bars from one left edge, each with its label at its left; the difference marked `?`."""
    names = (label(ground.longer_label), label(ground.shorter_label))
    edge = max(name.width for name in names) + 2 * TOUCH
    whole = width - edge
    inside = ground.longer <= 1  # parts of one whole are drawn on it, as a number line would be
    long = round(whole * ground.longer) if inside else whole
    short = round(long * ground.shorter / ground.longer)
    second = BAR + 700
    marks: list[Plain] = [
        *(_whole_bars(edge, whole, second) if inside else ()),
        *(names[0].at(edge - 2 * TOUCH - names[0].width, (BAR - names[0].height) // 2)),
        _toned(edge, 0, long, "first"),
        *(names[1].at(edge - 2 * TOUCH - names[1].width, second + (BAR - names[1].height) // 2)),
        _toned(edge, second, short, "second"),
        *_difference(edge + short, edge + long, width, second),
    ]
    empty = tuple(() for _ in layers)
    return Drawing(width, second + BAR, (tuple(marks), *empty))


def _whole_bars(left: int, width: int, second: int) -> list[Plain]:
    """The outline of the whole that both amounts are parts of."""
    return [
        Box(x=left, y=top, width=width, height=BAR, fill="paper", weight=150) for top in (0, second)
    ]


def _difference(left: int, right: int, limit: int, top: int) -> list[Plain]:
    """The stretch between the ends marked `?`, inside it or else beside it up to `limit`."""
    unknown = words("?")
    gap = Box(x=left, y=top, width=right - left, height=BAR, line="pen", dashed=True, weight=200)
    if right - left < unknown.width + 2 * TOUCH:
        if limit - right < unknown.width + 2 * TOUCH:
            return [gap]
        return [gap, *unknown.at(right + TOUCH, top + (BAR - unknown.height) // 2)]
    return [gap, *centred(unknown, (left + right) // 2, top + (BAR - unknown.height) // 2)]
