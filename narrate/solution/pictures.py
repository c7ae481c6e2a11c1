"""Which picture serves a task, and how the work changes it: figures as values, never drawn here."""

from __future__ import annotations

from collections.abc import Iterator
from fractions import Fraction
from math import ceil

from narrate.exact.tree import Blank
from narrate.solution.figures import (
    Bars,
    Brace,
    CrossOff,
    Cut,
    Jump,
    Layer,
    NumberLine,
    Shade,
    Strip,
    Tone,
)
from narrate.solution.steps import Step
from narrate.solution.task import Task, over

TONES: tuple[Tone, ...] = ("first", "second", "third")
MOST_WHOLES = 3
"""A bar of more wholes than this is too long to cut in pieces that can be seen."""

MOST_PIECES = 60
"""Re-cutting a bar into more pieces than this shows nothing."""

LONGEST_LINE = 12
"""A number line over more wholes than this is not drawn."""


def strip_size(task: Task) -> int | None:
    """The parts of the given strip, if they serve as a common size and the amounts fit on it."""
    strip = task.strip
    if strip is None or not _fits(task, strip.wholes):
        return None
    return strip.parts if strip.parts % task.least_common == 0 else None


def _fits(task: Task, wholes: int) -> bool:
    """Whether everything shaded stays on so many wholes."""
    simple = task.adds_only or task.takes_only
    return simple and task.natural and _most(task) <= wholes and len(task.terms) <= len(TONES)


def _most(task: Task) -> Fraction:
    return task.answer if task.adds_only else task.terms[0].size


def about_strip(task: Task, size: int) -> Iterator[Step]:
    """What becomes of a given strip that is not cut in the common size: re-cut, or left aside."""
    strip = task.strip
    if strip is None or strip.parts == size:
        return
    move = "leave strip"
    layers: tuple[Layer, ...] = ()
    if _fits(task, strip.wholes) and size % strip.parts == 0 and strip.wholes * size <= 100:
        move = "recut strip"
        layers = (
            Strip(of="strip", wholes=strip.wholes, parts=strip.parts),
            Cut(of="strip", parts=size),
        )
    details = {"parts": strip.parts, "size": size, "factor": size // strip.parts}
    yield Step(move=move, details=details, layers=layers)


def shade_strip(task: Task, size: int) -> Iterator[Step]:
    """The amounts shaded on the given strip, or crossed off it, once it is cut in one size."""
    strip = task.strip
    if strip is None or not _fits(task, strip.wholes) or size % strip.parts:
        return
    if strip.wholes * size > 100:
        return
    layers: list[Layer] = []
    if strip.parts == size:
        layers.append(Strip(of="strip", wholes=strip.wholes, parts=size))
    layers.extend(_amounts(task, "strip", size))
    yield Step(
        move="shade strip",
        details={
            "signs": tuple(term.sign for term in task.terms),
            "counts": tuple(over(term.size, size).numerator for term in task.terms),
            "size": size,
        },
        layers=tuple(layers),
    )


def _amounts(task: Task, of: str, size: int | None = None) -> Iterator[Layer]:
    """Amounts shaded one after another, or crossed off from the right end of the first."""
    end = Fraction(0)
    for place, term in enumerate(task.terms):
        label = over(term.size, size) if size else term.numeral
        if term.sign > 0:
            start, end = end, end + term.size
            yield Shade(of=of, start=start, end=end, tone=TONES[place], label=label)
        else:
            yield CrossOff(of=of, start=end - term.size, end=end, label=label)
            end -= term.size


def ground(task: Task) -> tuple[Layer, ...]:
    """The picture of a story's amounts before any work: two bars, or a bar of wholes."""
    if task.situation == "bare" or not task.natural or task.strip or task.answer == 0:
        return ()
    if task.situation == "difference" and len(task.terms) == 2:
        return (_two_bars(task),)
    return tuple(_bar(task)) if _fits(task, MOST_WHOLES) else ()


def hops(task: Task) -> tuple[Layer, ...]:
    """Hops on a number line, drawn to scale and so only once the answer is there."""
    told_by_bar = task.strip or _fits(task, MOST_WHOLES) or task.situation == "difference"
    if task.situation == "bare" or not task.natural or task.answer == 0 or told_by_bar:
        return ()
    return tuple(_hops(task))


def _two_bars(task: Task) -> Bars:
    longer, shorter = task.terms
    return Bars(
        of="bars",
        longer=longer.size,
        shorter=shorter.size,
        longer_label=longer.numeral,
        shorter_label=shorter.numeral,
    )


def _bar(task: Task) -> Iterator[Layer]:
    yield Strip(of="bar", wholes=max(1, ceil(_most(task))), parts=1)
    yield from _amounts(task, "bar")
    yield Brace(of="bar", start=Fraction(0), end=task.answer, label=Blank())


def _hops(task: Task) -> Iterator[Layer]:
    stops = [Fraction(0)]
    for term in task.terms:
        stops.append(stops[-1] + term.signed)
    if ceil(max(stops)) > LONGEST_LINE:
        return
    yield NumberLine(of="hops", low=0, high=ceil(max(stops)))
    for start, end, term in zip(stops, stops[1:], task.terms, strict=False):
        yield Jump(of="hops", start=start, end=end, label=term.numeral)


def recut(task: Task, place: int, size: int) -> tuple[Layer, ...]:
    """The stretch of one amount on a story's bar cut in the common size."""
    drawn = ground(task)
    if not drawn or not isinstance(drawn[0], Strip) or drawn[0].wholes * size > MOST_PIECES:
        return ()
    stretches = [layer for layer in drawn if isinstance(layer, Shade | CrossOff)]
    stretch = stretches[place]
    return (Cut(of="bar", parts=size, start=stretch.start, end=stretch.end),)
