"""Number lines as marks: ticks under the line, stretches and hops over it, points on it."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from fractions import Fraction
from math import cos, pi, sin

from narrate.exact.caption import write
from narrate.lesson.block import Block
from narrate.lesson.drawing import TOUCH, Drawing, centred, label, spread, words
from narrate.lesson.marks import Box, Dot, Path, Plain, Rule
from narrate.solution.figures import Jump, Layer, NumberLine, Point, Stretch

MARGIN = 2_000
"""From the edge of the figure to the first whole number."""

TICK, WHOLE_TICK = 700, 1_100
LEADER = 1_100
"""From the line to the label of a point."""

HOP = 2_000
"""How high over the line the lowest hop goes; longer hops over it go higher."""

CORNER = 700
LANE_GAP = 500

BAND = 900
BEYOND = 900
"""From where a stretch without an end stops to the edge of the figure: the arrow goes on."""

DOT = 1_100
NARROWEST_TICKS = 350


def draw(ground: NumberLine, layers: Sequence[Layer], width: int) -> Drawing:
    """A number line and what comes on it. Points are labelled above unless hops need the room."""
    line = _Line(ground, tuple(layers), width)
    parts = tuple(line.layer(at, layer) for at, layer in enumerate(layers))
    return Drawing(width, line.height(), (line.ground(), *parts))


def least_width(ground: NumberLine, layers: Sequence[Layer]) -> int:
    """Wide enough for its ticks, its whole numbers and the labels of points and hops."""
    wholes = ground.high - ground.low
    labels = [label(layer.label) for layer in layers if isinstance(layer, Point | Jump)]
    wanted = sum(block.width + 1_200 for block in labels)
    ends = [words(write(ground.number(place))).width for place in (ground.low, ground.high)]
    wanted = max(wanted, wholes * (max(ends) + 1_200))
    ticks = wholes * ground.parts * NARROWEST_TICKS
    return min(60_000, max(18_000, wholes * 3_200, ticks, wanted) + 2 * MARGIN)


@dataclass(frozen=True, slots=True)
class _Line:
    line: NumberLine
    layers: tuple[Layer, ...]
    width: int

    def x(self, place: Fraction) -> int:
        """Where a number lies."""
        share = (place / self.line.unit - self.line.low) / (self.line.high - self.line.low)
        return MARGIN + round(share * (self.width - 2 * MARGIN))

    def points(self) -> list[Point]:
        return [layer for layer in self.layers if isinstance(layer, Point)]

    def jumps(self) -> list[Jump]:
        return [layer for layer in self.layers if isinstance(layer, Jump)]

    def axis(self) -> int:
        """How far down the line lies: under the hops and their labels, or the points' labels."""
        if self.jumps():
            return HOP + max(self.lanes()) * self._lane() + TOUCH + _tallest(self.jumps())
        if self.points():
            return _tallest(self.points()) + LEADER
        return BAND + 400

    def lanes(self) -> list[int]:
        """The lane of each hop: short hops low, and no two over the same stretch in one lane."""
        spans = [tuple(sorted((jump.start, jump.end))) for jump in self.jumps()]
        order = sorted(range(len(spans)), key=lambda at: (spans[at][1] - spans[at][0], at))
        lanes = [-1] * len(spans)
        for at in order:
            taken = {
                lanes[other]
                for other, (start, end) in enumerate(spans)
                if start < spans[at][1] and spans[at][0] < end
            }
            lanes[at] = next(lane for lane in range(len(spans)) if lane not in taken)
        return lanes

    def _lane(self) -> int:
        """From one lane to the next."""
        return _tallest(self.jumps()) + TOUCH + LANE_GAP

    def numbers_end(self) -> int:
        """The lower edge of the whole numbers' labels."""
        return self.axis() + WHOLE_TICK + TOUCH + words("0").height

    def height(self) -> int:
        """With the labels of points under the whole numbers where hops are above."""
        if self.jumps() and self.points():
            return self.numbers_end() + TOUCH + _tallest(self.points())
        return self.numbers_end()

    def ground(self) -> tuple[Plain, ...]:
        """The line with arrow ends, ticks, whole numbers."""
        axis, left, right = self.axis(), 200, self.width - 200
        tips = [
            Path(points=((x + back, axis - 400), (x, axis), (x + back, axis + 400)), weight=200)
            for x, back in ((left, 600), (right, -600))
        ]
        shaft = Rule(x1=left, y1=axis, x2=right, y2=axis, weight=225)
        return (shaft, *tips, *self._ticks(axis), *self._numbers(axis))

    def _ticks(self, axis: int) -> list[Plain]:
        """All ticks as one line that runs along the shaft between them."""
        wholes = self.line.high - self.line.low
        parts = self.line.parts
        if (self.width - 2 * MARGIN) < wholes * parts * NARROWEST_TICKS:
            parts = 1
        points: list[tuple[int, int]] = []
        for number in range(wholes * parts + 1):
            x = self.x((self.line.low + Fraction(number, parts)) * self.line.unit)
            deep = WHOLE_TICK if number % parts == 0 else TICK
            points += [(x, axis), (x, axis + deep), (x, axis)]
        return [Path(points=tuple(points), weight=150)]

    def _numbers(self, axis: int) -> list[Plain]:
        marks: list[Plain] = []
        for whole in range(self.line.low, self.line.high + 1):
            top = axis + WHOLE_TICK + TOUCH
            number = words(write(self.line.number(whole)))
            marks += centred(number, self.x(whole * self.line.unit), top)
        return marks

    def layer(self, at: int, layer: Layer) -> tuple[Plain, ...]:
        """What a layer adds."""
        match layer:
            case Stretch(start=start, end=end):
                return self._band(self.x(start), self._end(end))
            case Point():
                return self._point(layer, again=layer in self.layers[:at])
            case Jump():
                earlier = [each for each in self.layers[:at] if isinstance(each, Jump)]
                return self._hop(len(earlier))
            case _:
                return ()

    def _end(self, place: Fraction | None) -> int:
        """Where a stretch ends: before the tip of the arrow where it goes on and on."""
        return self.width - BEYOND if place is None else self.x(place)

    def _band(self, left: int, right: int) -> tuple[Plain, ...]:
        top = self.axis() - BAND - 100
        return (Box(x=left, y=top, width=right - left, height=BAND, fill="first", line="ink"),)

    def _point(self, point: Point, *, again: bool) -> tuple[Plain, ...]:
        x, axis = self.x(point.at), self.axis()
        dot = Dot(
            x=x - DOT // 2, y=axis - DOT // 2, width=DOT, height=DOT, fill="pen", line="paper"
        )
        count = point.at / self.line.unit
        numbered = count.denominator == 1 and point.label == self.line.number(int(count))
        if again or numbered:
            return (dot,)
        text = label(point.label)
        left = self._label_left(point, self.points())
        return (*self._leader(x, left + text.width // 2), dot, *text.at(left, self._row(text)))

    def _row(self, text: Block) -> int:
        """The top of a point's label."""
        if self.jumps():
            return self.numbers_end() + TOUCH
        return self.axis() - LEADER - text.height

    def _leader(self, x: int, middle: int) -> list[Plain]:
        axis = self.axis()
        if not self.jumps():
            return [Rule(x1=x, y1=axis, x2=middle, y2=axis - LEADER, weight=150)]
        start = axis
        wholes = range(self.line.low, self.line.high)
        if any(abs(x - self.x(n * self.line.unit)) < 1_000 for n in wholes):
            start = self.numbers_end() - 100
        end = self.numbers_end() + TOUCH
        return [Rule(x1=x, y1=start, x2=middle, y2=end, weight=150)]

    def _label_left(self, one: Point | Jump, of: Sequence[Point | Jump]) -> int:
        """The left edge of a label among those of its kind."""
        centres = [self._centre(each) for each in of]
        widths = [label(each.label).width for each in of]
        return spread(centres, widths, 800, self.width)[list(of).index(one)]

    def _centre(self, layer: Point | Jump) -> int:
        match layer:
            case Point(at=at):
                return self.x(at)
            case Jump(start=start, end=end):
                return (self.x(start) + self.x(end)) // 2

    def _landing(self) -> int:
        """Where hops begin and end: over the stretch that is marked, the points, or the line."""
        banded = any(isinstance(layer, Stretch) for layer in self.layers)
        dotted = DOT // 2 + 150 if self.points() else 150
        return self.axis() - (BAND + 200 if banded else dotted)

    def _hop(self, number: int) -> tuple[Plain, ...]:
        """A hop up, along its lane and down, with its label over the lane."""
        jumps, lanes = self.jumps(), self.lanes()
        jump, axis = jumps[number], self.axis()
        lane = axis - HOP - lanes[number] * self._lane()
        start, end = self.x(jump.start), self.x(jump.end)
        inward = 250 if end > start else -250
        base = self._landing()
        hop = Path(points=_hopped(start + inward, end, base, lane), line="pen", weight=225)
        same = [each for each, on in zip(jumps, lanes, strict=True) if on == lanes[number]]
        text = label(jump.label)
        left = self._label_left(jump, same)
        return (hop, _tip(end, base), *text.at(left, lane - TOUCH - text.height))


def _tallest(layers: Sequence[Point | Jump]) -> int:
    return max(label(layer.label).height for layer in layers)


def _hopped(start: int, end: int, base: int, lane: int) -> tuple[tuple[int, int], ...]:
    """Up from `start`, along `lane` and down to `end`, round at the corners."""
    corner = min(CORNER, abs(end - start) // 2, base - lane)
    inward = corner if end > start else -corner
    steps = [(1 - cos(pi * n / 12), 1 - sin(pi * n / 12)) for n in range(7)]
    up = [(start + round(inward * x), lane + round(corner * y)) for x, y in steps]
    down = [(end - round(inward * x), lane + round(corner * y)) for x, y in reversed(steps)]
    return ((start, base), *up, *down, (end, base))


def _tip(end: int, base: int) -> Path:
    """The head of the arrow where a hop comes down."""
    corners = ((end - 400, base - 900), (end, base), (end + 400, base - 900))
    return Path(points=corners, closed=True, fill="pen", line="pen", weight=100)
