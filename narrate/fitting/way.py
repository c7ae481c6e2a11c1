"""The cheapest way through stretches of speech and lines, and what every other way costs.

Prices are about the negative logarithms of how often something happens, so a difference of 3 is a
chance of 1 in 20.
"""

from __future__ import annotations

import math
from bisect import bisect_left, bisect_right
from collections.abc import Iterator, Sequence
from itertools import accumulate, pairwise
from typing import NamedTuple

from narrate.fitting.lengths import Lengths, Line
from narrate.fitting.speech import Stretch

_FAR, _FARTHEST = 4.0, 6.0
_SILENCE_INSIDE_MS, _MOST_INSIDE = 300, 7.0
_COMMA = 0.25
_PAUSE_STRAYS, _MOST_PAUSE = 0.7, 4.0
_JOINED, _MOST_JOINED = 12.0, 3
_EXTRA, _EXTRA_A_SECOND, _BREATH = 3.5, 2.0, 0.6
_SKIPPED = 6.0
_BACK, _BACK_A_LINE, _FARTHEST_BACK = 10.0, 0.2, 14
# A line said twice in a row: both times are about as long.
_TWICE, _TWICE_IF, _ALIKE, _ALIKE_MS, _ALIKE_FAR = 3.0, 8.0, 0.04, 50, 3.0
_BREATH_MS, _BREATH_SOFT = 500, 8
_MOST_STRETCHES = 24
_BEAM = 32.0


class Edge(NamedTuple):
    """From a state to (stretch, line): `lines` lines said in between, 0 for an extra stretch.

    Where the one line is said twice, `first` stretches on its first take ends, and `second` on its
    second begins (a breath may lie between).
    """

    stretch: int
    line: int
    price: float
    lines: int
    first: int = 0
    second: int = 0


class Way:
    """The search: states are (stretches heard, lines said).

    `reached[j][i]` is the price of a state after any jump (a line left out, or gone back to),
    `landed[j][i]` before it.
    """

    def __init__(self, lines: Sequence[Line], heard: Sequence[Stretch], lengths: Lengths) -> None:
        self.lines, self.heard, self.lengths = lines, heard, lengths
        self.wanted = lengths.wanted
        self.sums = list(accumulate((one.length for one in heard), initial=0))
        silences = [after.start - before.end for before, after in pairwise(heard)]
        self.gaps = [0.0, *map(self._inside, silences)]
        self.silences = [0.0, *(math.log(max(silence, 20)) for silence in silences)]
        self.planned = [0.0, *(math.log(max(line.after, 300)) for line in lines)]
        self.inside: dict[tuple[int, int], list[float]] = {}
        self.landed: list[dict[int, float]] = [{} for _ in range(len(heard) + 1)]
        self.reached: list[dict[int, float]] = [{} for _ in range(len(heard) + 1)]
        self.jumped: list[dict[int, int]] = [{} for _ in range(len(heard) + 1)]
        self.came: list[dict[int, tuple[int, int, Edge]]] = [{} for _ in range(len(heard) + 1)]
        self.edges: dict[tuple[int, int], list[Edge]] = {}
        self.onward: list[dict[int, float]] = [{} for _ in range(len(heard) + 1)]
        self.ahead: list[dict[int, float]] = [{} for _ in range(len(heard) + 1)]
        self._forward()

    # -- from the start

    def _forward(self) -> None:
        self.landed[0][0] = 0.0
        for stretch in range(len(self.heard) + 1):
            self._jump(stretch)
            reached = self.reached[stretch]
            if stretch == len(self.heard):
                return
            limit = min(reached.values(), default=0.0) + _BEAM
            for line, price in reached.items():
                if price <= limit:
                    edges = self.edges[stretch, line] = list(self._edges(stretch, line))
                    for edge in edges:
                        self._land(stretch, line, price, edge)

    def _land(self, stretch: int, line: int, price: float, edge: Edge) -> None:
        landed = self.landed[edge.stretch]
        total = price + edge.price
        if total < landed.get(edge.line, math.inf):
            landed[edge.line] = total
            self.came[edge.stretch][edge.line] = stretch, line, edge

    def _jump(self, stretch: int) -> None:
        landed = self.landed[stretch]
        reached, jumped = self.reached[stretch], self.jumped[stretch]
        reached.update(landed)
        limit = min(landed.values(), default=0.0) + _BEAM - min(_SKIPPED, _BACK)
        for line in sorted(landed):
            if landed[line] <= limit:
                for other, price in self._jumps(stretch, line):
                    if landed[line] + price < reached.get(other, math.inf):
                        reached[other] = landed[line] + price
                        jumped[other] = line

    def _jumps(self, stretch: int, line: int) -> Iterator[tuple[int, float]]:
        """Where one can go on from a line, and the price.

        The silence here was planned after the line that was said last, not after one left out;
        before going back nothing was planned.
        """
        planned = self._pause(stretch, line)
        for back in range(1, min(line, _FARTHEST_BACK) + 1):
            other = line - back
            yield other, _BACK + _BACK_A_LINE * back - self._pause(stretch, other)
        for ahead in range(1, min(len(self.lines) - line, int(_BEAM / _SKIPPED)) + 1):
            other = line + ahead
            yield other, _SKIPPED * ahead + planned - self._pause(stretch, other)

    # -- prices

    def _edges(self, stretch: int, line: int) -> Iterator[Edge]:
        yield Edge(stretch + 1, line, self._extra(stretch), 0)
        spoken, pauses = 0.0, 0
        for count in range(1, min(_MOST_JOINED, len(self.lines) - line) + 1):
            spoken += self.wanted[line + count - 1]
            pauses += self.lines[line + count - 1].pauses
            for edge in self._said(stretch, line, count, spoken, pauses):
                yield edge
                if count == 1 and edge.price < _TWICE_IF:
                    yield from self._twice(stretch, edge, pauses)

    def _said(
        self, stretch: int, line: int, count: int, wanted: float, pauses: int
    ) -> Iterator[Edge]:
        """The ways that `count` lines, run together, take the stretches from here on."""
        stray = self.lengths.deviation(wanted)
        done = self.sums[stretch]
        first = bisect_left(self.sums, done + wanted - _FARTHEST * stray, stretch + 1)
        last = bisect_right(self.sums, done + wanted + _FARTHEST * stray, first)
        inside = self._silences(stretch, last - stretch, pauses)
        before = self._pause(stretch, line) + _JOINED * (count - 1)
        for end in range(first, min(last, stretch + len(inside) + 1)):
            off = abs(self.sums[end] - done - wanted) / stray
            price = off * off / 2 if off < _FAR else _FAR * (off - _FAR / 2)
            yield Edge(end, line + count, price + before + inside[end - stretch - 1], count)

    def _twice(self, stretch: int, once: Edge, pauses: int) -> Iterator[Edge]:
        """The ways that a line just said (`once`) is said again from there on, as long as then."""
        length = self.sums[once.stretch] - self.sums[stretch]
        alike = _ALIKE * length + _ALIKE_MS
        starts = [once.stretch]
        if once.stretch < len(self.heard) and self._is_breath(self.heard[once.stretch]):
            starts.append(once.stretch + 1)
        for start in starts:
            done = self.sums[start] + length
            first = bisect_left(self.sums, done - _ALIKE_FAR * alike, start + 1)
            last = bisect_right(self.sums, done + _ALIKE_FAR * alike, first)
            inside = self._silences(start, last - start, pauses)
            for end in range(first, min(last, start + len(inside) + 1)):
                off = (self.sums[end] - done) / alike
                price = once.price + _TWICE + off * off / 2 + inside[end - start - 1]
                price += _BREATH * (start - once.stretch)
                yield Edge(end, once.line, price, 1, once.stretch, start)

    def _silences(self, stretch: int, count: int, pauses: int) -> list[float]:
        """The price of the silences inside a line of 1, 2, ... stretches from here on."""
        known = self.inside.setdefault((stretch, pauses), [0.0])
        while len(known) < min(count, _MOST_STRETCHES):
            # the silences after the `pauses` longest are dear; one at a comma is cheap
            place = stretch + len(known)
            if place >= len(self.heard):
                break
            prices = sorted(self.gaps[stretch + 1 : place + 1], reverse=True)
            known.append(_COMMA * sum(prices[:pauses]) + sum(prices[pauses:]))
        return known

    def _inside(self, silence: int) -> float:
        """The price of a silence inside a line."""
        return _MOST_INSIDE * (1 - math.exp(-max(silence - 80, 0) / _SILENCE_INSIDE_MS))

    def _pause(self, stretch: int, line: int) -> float:
        """The price of the silence before a line, against what is planned there."""
        if not 0 < stretch < len(self.heard) or not line:
            return 0.0
        off = (self.silences[stretch] - self.planned[line]) / _PAUSE_STRAYS
        return min(off * off / 2, _MOST_PAUSE)

    def _extra(self, stretch: int) -> float:
        """The price of a stretch that is no line: little for a breath, soft and short."""
        found = self.heard[stretch]
        if self._is_breath(found):
            return _BREATH
        return _EXTRA + _EXTRA_A_SECOND * found.length / 1000

    def _is_breath(self, one: Stretch) -> bool:
        return one.length < _BREATH_MS and one.soft > _BREATH_SOFT

    # -- back from the end

    def back_from_the_end(self) -> None:
        """What it costs to go on from each state to the end: before a jump, and after it."""
        last = len(self.heard)
        self.ahead[last][len(self.lines)] = 0.0
        for stretch in range(last, -1, -1):
            ahead, onward = self.ahead[stretch], self.onward[stretch]
            for line in self.reached[stretch]:
                if edges := self.edges.get((stretch, line)):
                    ahead[line] = min(edge.price + self.after(edge) for edge in edges)
            for line in self.landed[stretch]:
                onward[line] = min(
                    ahead.get(line, math.inf),
                    *(
                        ahead.get(other, math.inf) + price
                        for other, price in self._jumps(stretch, line)
                    ),
                    math.inf,
                )

    # -- what was found

    @property
    def price(self) -> float:
        """The price of the cheapest way; infinite where there is none."""
        return self.reached[-1].get(len(self.lines), math.inf)

    def steps(self) -> Iterator[tuple[int, int, Edge]]:
        """Stretch, line and edge of the cheapest way, where there is one; the last one first."""
        stretch, line = len(self.heard), len(self.lines)
        while stretch:
            stretch, line, edge = self.came[stretch][self.jumped[stretch].get(line, line)]
            yield stretch, line, edge

    def length(self, start: int, end: int) -> int:
        """How long the sounds of stretches `start` up to `end` are, in ms."""
        return self.sums[end] - self.sums[start]

    def after(self, edge: Edge) -> float:
        """What it costs to go on to the end after an edge."""
        return self.onward[edge.stretch].get(edge.line, math.inf)

    def starts(self) -> dict[int, list[tuple[int, float]]]:
        """For each line the stretches it may begin with, and the price of the whole way then."""
        starts: dict[int, list[tuple[int, float]]] = {}
        for (stretch, line), edges in self.edges.items():
            first = min((e.price + self.after(e) for e in edges if e.lines), default=math.inf)
            again: dict[int, float] = {}
            for edge in edges:
                if edge.second:
                    price = edge.price + self.after(edge)
                    again[edge.second] = min(price, again.get(edge.second, math.inf))
            for start, price in ((stretch, first), *again.items()):
                if price < math.inf:
                    found = starts.setdefault(line, [])
                    found.append((start, self.reached[stretch][line] + price))
        return starts

    def left_out(self) -> dict[int, float]:
        """The price of the whole way where a line is left out, for each line."""
        prices: dict[int, float] = {}
        for stretch, landed in enumerate(self.landed):
            for line, price in landed.items():
                for other, jump in self._jumps(stretch, line):
                    whole = price + jump + self.ahead[stretch].get(other, math.inf)
                    for missing in range(line, other):
                        prices[missing] = min(whole, prices.get(missing, math.inf))
        return prices

    def again(self) -> dict[int, float]:
        """The price of the whole way where a line is said again, for each line."""
        prices: dict[int, float] = {}
        for (stretch, line), edges in self.edges.items():
            for edge in edges:
                if edge.second:
                    whole = self.reached[stretch][line] + edge.price + self.after(edge)
                    prices[line] = min(whole, prices.get(line, math.inf))
        for stretch, landed in enumerate(self.landed):
            for line, price in landed.items():
                if line:
                    whole = price + _BACK + _BACK_A_LINE
                    whole += self.ahead[stretch].get(line - 1, math.inf)
                    prices[line - 1] = min(whole, prices.get(line - 1, math.inf))
        return prices
