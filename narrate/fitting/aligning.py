"""Which stretches of speech are which lines: the cheapest way through both, by what is predicted.

A line takes one stretch or several; the price grows with how far their length is from the predicted
one, with silences inside a line and with lines between which there is none. A stretch may be no
line (a breath, an aside), a line may not be said, and she may go back and say lines again: each at
a price that only a recording in which it happened is worth. Prices are about the negative
logarithms of how often something happens, so a difference of 3 is a chance of 1 in 20.
"""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass
from itertools import accumulate
from math import exp, inf
from typing import NamedTuple

from narrate.fitting.lengths import Line, guessed, learnt
from narrate.fitting.speech import Stretch
from narrate.fitting.way import Edge, Way

_ROUNDS = 3
_SAME_MS, _RUN_TOGETHER_SURE = 300, 40
_RIVAL, _MOST_RIVALS, _NEAR = 3.0, 3, 10


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
    """Takes in the order of the recording, stretches that are no line, and the price a line.

    `left_out` and `again` name the lines not said and said again, each with those nearby which it
    may be instead, the likeliest first: lengths alone cannot tell them apart.
    """

    takes: tuple[Take, ...]
    extra: tuple[Stretch, ...]
    price: float
    left_out: Mapping[int, tuple[int, ...]]
    again: Mapping[int, tuple[int, ...]]


class _Step(NamedTuple):
    """Stretches `start` up to `end` are `lines` lines from `line` on; none where it is 0."""

    start: int
    end: int
    line: int
    lines: int


def align(lines: Sequence[Line], heard: Sequence[Stretch]) -> Alignment:
    """The cheapest way. The pace is guessed from the totals, then learnt from the lines found."""
    lengths = guessed(lines, sum(one.length for one in heard))
    steps: list[_Step] = []
    for _ in range(_ROUNDS):
        way, before = Way(lines, heard, lengths), steps
        found = way.steps() if way.price < inf else ()
        steps = [step for one in found for step in _parts(*one)]
        if steps == before:
            break
        alone = (step for step in steps if step.lines == 1)
        lengths = learnt(
            lines, {step.line: way.length(step.start, step.end) for step in alone}, lengths
        )
    return _read_back(way, steps)


# -- reading back


def _read_back(way: Way, steps: Sequence[_Step]) -> Alignment:
    """The steps of the cheapest way, the last one first, as takes: how sure each is, by what the
    other ways cost."""
    way.back_from_the_end()
    starts = way.starts()
    begun = {(step.line, step.start) for step in steps}
    takes: list[Take] = []
    later: set[int] = set()
    for step in steps:
        others = [
            price
            for start, price in starts.get(step.line, ())
            if (step.line, start) not in begun and _apart(way.heard, start, step.start)
        ]
        sure = round(100 * (1 - exp((way.price - min(others, default=inf)) / 2)))
        found = list(_takes(way, step, sure, later))
        later.update(take.line for take in found)
        takes.extend(reversed(found))
    missing = [line for line in range(len(way.lines)) if line not in later]
    again = [take.line for take in takes if not take.last]
    return Alignment(
        takes=tuple(reversed(takes)),
        extra=tuple(way.heard[step.start] for step in reversed(steps) if not step.lines),
        price=way.price / len(way.lines),
        left_out=_rivals(missing, way.left_out(), way.price) if missing else {},
        again=_rivals(again, way.again(), way.price) if again else {},
    )


def _parts(stretch: int, line: int, edge: Edge) -> Iterator[_Step]:
    """The steps of an edge, the last one first: two where a line is said twice in a row."""
    if not edge.second:
        yield _Step(stretch, edge.stretch, line, edge.lines)
        return
    yield _Step(edge.second, edge.stretch, line, 1)
    if edge.second > edge.first:
        yield _Step(edge.first, edge.second, line, 0)
    yield _Step(stretch, edge.first, line, 1)


def _rivals(
    named: Sequence[int], prices: Mapping[int, float], best: float
) -> dict[int, tuple[int, ...]]:
    """For each line named, those near it that would cost about as little."""
    found = {}
    for line in named:
        near = sorted(
            (price, other)
            for other, price in prices.items()
            if other not in named and abs(other - line) <= _NEAR and price < best + _RIVAL
        )
        found[line] = tuple(other for _, other in near[:_MOST_RIVALS])
    return found


def _apart(heard: Sequence[Stretch], one: int, other: int) -> bool:
    return abs(heard[one].start - heard[other].start) > _SAME_MS


def _takes(way: Way, step: _Step, sure: int, later: set[int]) -> Iterator[Take]:
    """The lines of one step; those run together share its time by their predicted lengths."""
    begins, ends = way.heard[step.start].start, way.heard[step.end - 1].last
    lines = range(step.line, step.line + step.lines)
    edges = list(accumulate((round(way.wanted[line]) for line in lines), initial=0))
    for place, line in enumerate(lines):
        early, late = (begins + (ends - begins) * at // edges[-1] for at in edges[place:][:2])
        alone = step.lines == 1
        yield Take(
            line=line,
            start=early,
            end=late,
            sure=sure if alone else min(sure, _RUN_TOGETHER_SURE),
            joined=not alone,
            last=line not in later,
        )
