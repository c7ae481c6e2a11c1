"""Which stretches of speech are which lines: the cheapest way through both, by what is predicted.

A line takes one stretch or several; the price grows with how far their length is from the predicted
one, with silences inside a line and with lines between which there is none. A stretch may be no
line (a breath, an aside), a line may not be said, and she may go back and say lines again: each at
a price that only a recording in which it happened is worth. Prices are about the negative
logarithms of how often something happens, so a difference of 3 is a chance of 1 in 20.
"""

from __future__ import annotations

import math
from bisect import bisect_left, bisect_right
from collections.abc import Iterator, Sequence
from dataclasses import dataclass, replace
from itertools import accumulate, pairwise
from typing import NamedTuple

from narrate.fitting.speech import Stretch

# How far a line's length strays from prediction: a share of it, and an absolute part (ms).
# A line at 157 words a minute without its pauses (lesson/timeline.py), in ms.
_A_LETTER, _A_LINE = 77, 200
_ROUNDS = 3
_FEW, _DEVIATION, _LEAST_STRAY = 20, 1.5, 0.05

_STRAY, _STRAY_MS, _FAR, _FARTHEST = 0.11, 110, 4.0, 6.0
_SILENCE_INSIDE_MS, _MOST_INSIDE = 300, 7.0
_COMMA = 0.25
_PAUSE_STRAYS, _MOST_PAUSE = 0.7, 4.0
_JOINED, _MOST_JOINED = 12.0, 3
_EXTRA, _EXTRA_A_SECOND, _BREATH = 3.5, 2.0, 0.6
_SKIPPED = 7.5
_BACK, _BACK_A_LINE, _FARTHEST_BACK = 10.0, 0.2, 14
_MOST_STRETCHES = 24
_BEAM = 40.0
_SAME_MS, _RUN_TOGETHER_SURE = 300, 40


@dataclass(frozen=True, slots=True, kw_only=True)
class Line:
    """A line to be found: its letters, the pauses inside it, the silence planned after it (ms)."""

    letters: int
    pauses: int
    after: int


@dataclass(frozen=True, slots=True, kw_only=True)
class Take:
    """A line found: from `start` to `end` ms. `sure` is from 0 to 100.

    `joined` says that no silence parts it from a line beside it; `last` is false where it is said
    again later.
    """

    line: int
    start: int
    end: int
    sure: int
    joined: bool = False
    last: bool = True


@dataclass(frozen=True, slots=True, kw_only=True)
class Alignment:
    """Takes in the order of the recording, stretches that are no line, and the price a line."""

    takes: tuple[Take, ...]
    extra: tuple[Stretch, ...]
    price: float


class _Edge(NamedTuple):
    """From a state to (stretch, line): `lines` lines said in between, 0 for an extra stretch."""

    stretch: int
    line: int
    price: float
    lines: int


class _Step(NamedTuple):
    """Stretches `start` up to `end` are `lines` lines from `line` on; none where it is 0."""

    start: int
    end: int
    line: int
    lines: int


@dataclass(frozen=True, slots=True)
class _Voice:
    """How long lines take as this voice speaks: ms a letter, a comma, a line; and how far they
    stray from that, as a share."""

    letter: float
    comma: float
    line: float
    stray: float = _STRAY

    def wanted(self, line: Line) -> float:
        """How long the sounds of a line should take, in ms."""
        found = self.letter * line.letters + self.comma * line.pauses + self.line
        return max(found, self.letter * line.letters / 2, 100.0)


def align(lines: Sequence[Line], heard: Sequence[Stretch]) -> Alignment:
    """The cheapest way. The pace is guessed from the totals, then learnt from the lines found."""
    usual = sum(_A_LETTER * line.letters + _A_LINE for line in lines)
    rate = sum(one.length for one in heard) / max(usual, 1)
    voice = _Voice(rate * _A_LETTER, 0.0, rate * _A_LINE)
    for _ in range(_ROUNDS):
        found = _Way(lines, heard, voice).alignment()
        before, voice = voice, _learnt(lines, heard, found, voice)
        if abs(voice.letter / before.letter - 1) < 0.01 and voice.stray == before.stray:
            break
    return found


def _learnt(
    lines: Sequence[Line], heard: Sequence[Stretch], found: Alignment, voice: _Voice
) -> _Voice:
    """The voice that fits the lines found best; lines far from the guess are left out."""
    starts = [one.start for one in heard]
    pairs = []
    for take in found.takes:
        inside = heard[bisect_left(starts, take.start) : bisect_left(starts, take.end)]
        if not take.joined:
            pairs.append((lines[take.line], sum(one.length for one in inside)))
    for _ in range(3):
        near = [(line, length) for line, length in pairs if _off(line, length, voice) < 3]
        if len(near) < _FEW:
            return voice
        voice = _fitted(near, voice)
    strays = sorted(abs(length / voice.wanted(line) - 1) for line, length in near)
    stray = min(max(_DEVIATION * strays[len(strays) // 2], _LEAST_STRAY), _STRAY)
    return replace(voice, stray=round(stray, 2))


def _off(line: Line, length: float, voice: _Voice) -> float:
    wanted = voice.wanted(line)
    return abs(length - wanted) / (_STRAY * wanted + _STRAY_MS)


def _fitted(pairs: Sequence[tuple[Line, int]], voice: _Voice) -> _Voice:
    """Least squares, held near the voice so far (at its pace) where there are few lines."""
    share = sum(n for _, n in pairs) / sum(voice.wanted(line) for line, _ in pairs)
    usual = (share * voice.letter, share * voice.comma, share * voice.line)
    hold = (20 * 30**2, 20, 20)
    left = [[float(hold[i]) if i == j else 0.0 for j in range(3)] for i in range(3)]
    right = [hold[i] * usual[i] for i in range(3)]
    for line, length in pairs:
        row = (line.letters, line.pauses, 1)
        for i in range(3):
            right[i] += row[i] * length
            left[i] = [old + row[i] * x for old, x in zip(left[i], row, strict=True)]
    letter, comma, line_ms = _solved(left, right)
    return _Voice(letter, comma, line_ms, voice.stray)


def _solved(left: list[list[float]], right: list[float]) -> list[float]:
    """Elimination; the matrix is symmetric and positive, so no pivot is zero."""
    for i in range(3):
        for j in range(i + 1, 3):
            share = left[j][i] / left[i][i]
            left[j] = [x - share * y for x, y in zip(left[j], left[i], strict=True)]
            right[j] -= share * right[i]
    found = [0.0] * 3
    for i in (2, 1, 0):
        known = sum(left[i][j] * found[j] for j in range(i + 1, 3))
        found[i] = (right[i] - known) / left[i][i]
    return found


class _Way:
    """The search: states are (stretches heard, lines said).

    `reached[j][i]` is the price of a state after any jump (a line left out, or gone back to),
    `landed[j][i]` before it.
    """

    def __init__(self, lines: Sequence[Line], heard: Sequence[Stretch], voice: _Voice) -> None:
        self.lines, self.heard, self.stray = lines, heard, voice.stray
        self.wanted = list(map(voice.wanted, lines))
        self.sums = list(accumulate((one.length for one in heard), initial=0))
        silences = [after.start - before.end for before, after in pairwise(heard)]
        self.gaps = [0.0, *map(self._inside, silences)]
        self.inside: dict[tuple[int, int], list[float]] = {}
        self.landed: list[dict[int, float]] = [{} for _ in range(len(heard) + 1)]
        self.reached: list[dict[int, float]] = [{} for _ in range(len(heard) + 1)]
        self.jumped: list[dict[int, int]] = [{} for _ in range(len(heard) + 1)]
        self.came: list[dict[int, tuple[int, int, int]]] = [{} for _ in range(len(heard) + 1)]
        self.edges: dict[tuple[int, int], list[_Edge]] = {}
        self.onward: list[dict[int, float]] = [{} for _ in range(len(heard) + 1)]
        self._forward()
        self._backward()

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

    def _land(self, stretch: int, line: int, price: float, edge: _Edge) -> None:
        landed = self.landed[edge.stretch]
        total = price + edge.price
        if total < landed.get(edge.line, math.inf):
            landed[edge.line] = total
            self.came[edge.stretch][edge.line] = stretch, line, edge.lines

    def _jump(self, stretch: int) -> None:
        landed = self.landed[stretch]
        reached, jumped = self.reached[stretch], self.jumped[stretch]
        reached.update(landed)
        limit = min(landed.values(), default=0.0) + _BEAM
        for line in sorted(landed):
            if landed[line] <= limit:
                for other, price in self._jumps(line):
                    if landed[line] + price < reached.get(other, math.inf):
                        reached[other] = landed[line] + price
                        jumped[other] = line

    def _jumps(self, line: int) -> Iterator[tuple[int, float]]:
        """Where one can go on from a line, and the price."""
        for back in range(1, min(line, _FARTHEST_BACK) + 1):
            yield line - back, _BACK + _BACK_A_LINE * back
        for ahead in range(1, min(len(self.lines) - line, int(_BEAM / _SKIPPED)) + 1):
            yield line + ahead, _SKIPPED * ahead

    # -- prices

    def _edges(self, stretch: int, line: int) -> Iterator[_Edge]:
        yield _Edge(stretch + 1, line, self._extra(stretch), 0)
        spoken, pauses = 0.0, 0
        for count in range(1, min(_MOST_JOINED, len(self.lines) - line) + 1):
            spoken += self.wanted[line + count - 1]
            pauses += self.lines[line + count - 1].pauses
            yield from self._said(stretch, line, count, spoken, pauses)

    def _said(
        self, stretch: int, line: int, count: int, wanted: float, pauses: int
    ) -> Iterator[_Edge]:
        """The ways that `count` lines, run together, take the stretches from here on."""
        stray = self.stray * wanted + _STRAY_MS
        done = self.sums[stretch]
        first = bisect_left(self.sums, done + wanted - _FARTHEST * stray, stretch + 1)
        last = bisect_right(self.sums, done + wanted + _FARTHEST * stray, first)
        inside = self._silences(stretch, last - stretch, pauses)
        before = self._pause(stretch, line) + _JOINED * (count - 1)
        for end in range(first, min(last, stretch + len(inside) + 1)):
            off = abs(self.sums[end] - done - wanted) / stray
            price = off * off / 2 if off < _FAR else _FAR * (off - _FAR / 2)
            yield _Edge(end, line + count, price + before + inside[end - stretch - 1], count)

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
        if not stretch or not line:
            return 0.0
        silence = max(self.heard[stretch].start - self.heard[stretch - 1].end, 20)
        off = math.log(silence / max(self.lines[line - 1].after, 300)) / _PAUSE_STRAYS
        return min(off * off / 2, _MOST_PAUSE)

    def _extra(self, stretch: int) -> float:
        """The price of a stretch that is no line: little for a breath, soft and short."""
        found = self.heard[stretch]
        if found.length < 500 and found.soft > 8:
            return _BREATH
        return _EXTRA + _EXTRA_A_SECOND * found.length / 1000

    # -- back from the end

    def _backward(self) -> None:
        """What it costs to go on from each state to the end, for how sure a line is."""
        last = len(self.heard)
        ahead: dict[int, float] = {len(self.lines): 0.0}
        for stretch in range(last, -1, -1):
            if stretch < last:
                ahead = {
                    line: min(e.price + self.onward[e.stretch].get(e.line, math.inf) for e in edges)
                    for line in self.reached[stretch]
                    if (edges := self.edges.get((stretch, line)))
                }
            onward = self.onward[stretch]
            for line in self.landed[stretch]:
                onward[line] = min(
                    ahead.get(line, math.inf),
                    *(ahead.get(other, math.inf) + price for other, price in self._jumps(line)),
                    math.inf,
                )

    # -- what was found

    def alignment(self) -> Alignment:
        """The cheapest way, read back from its end."""
        last = len(self.heard)
        best = self.reached[last].get(len(self.lines), math.inf)
        path = list(self._path()) if best < math.inf else []
        starts = self._starts()
        begun = {(step.line, step.start) for step in path}
        takes: list[Take] = []
        again: set[int] = set()
        for step in path:
            others = [
                price
                for start, price in starts.get(step.line, ())
                if (step.line, start) not in begun and self._apart(start, step.start)
            ]
            sure = round(100 * (1 - math.exp((best - min(others, default=math.inf)) / 2)))
            found = list(self._takes(step, sure, again))
            again.update(take.line for take in found)
            takes.extend(reversed(found))
        return Alignment(
            takes=tuple(reversed(takes)),
            extra=tuple(self.heard[step.start] for step in reversed(path) if not step.lines),
            price=best / len(self.lines),
        )

    def _path(self) -> Iterator[_Step]:
        """The steps of the cheapest way, the last one first."""
        stretch, line = len(self.heard), len(self.lines)
        while stretch:
            line = self.jumped[stretch].get(line, line)
            start, first, count = self.came[stretch][line]
            yield _Step(start, stretch, first, count)
            stretch, line = start, first

    def _starts(self) -> dict[int, list[tuple[int, float]]]:
        """For each line the stretches it may begin with, and the price of the whole way then."""
        starts: dict[int, list[tuple[int, float]]] = {}
        for (stretch, line), edges in self.edges.items():
            ways = [e.price + self._onward(e) for e in edges if e.lines]
            price = self.reached[stretch][line] + min(ways, default=math.inf)
            if price < math.inf:
                starts.setdefault(line, []).append((stretch, price))
        return starts

    def _onward(self, edge: _Edge) -> float:
        return self.onward[edge.stretch].get(edge.line, math.inf)

    def _apart(self, one: int, other: int) -> bool:
        return abs(self.heard[one].start - self.heard[other].start) > _SAME_MS

    def _takes(self, step: _Step, sure: int, again: set[int]) -> Iterator[Take]:
        """The lines of one step; those run together share its time by their predicted lengths."""
        begins, ends = self.heard[step.start].start, self.heard[step.end - 1].last
        lines = range(step.line, step.line + step.lines)
        edges = list(accumulate((round(self.wanted[line]) for line in lines), initial=0))
        for place, line in enumerate(lines):
            early, late = (begins + (ends - begins) * at // edges[-1] for at in edges[place:][:2])
            alone = step.lines == 1
            yield Take(
                line=line,
                start=early,
                end=late,
                sure=sure if alone else min(sure, _RUN_TOGETHER_SURE),
                joined=not alone,
                last=line not in again,
            )
