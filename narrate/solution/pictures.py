"""Which picture serves a task, and how the work changes it: figures as values, never drawn here."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from fractions import Fraction
from math import ceil

from narrate.exact.tree import Blank, Expr
from narrate.solution.figures import (
    Bars,
    Brace,
    CrossOff,
    Cut,
    Jump,
    Layer,
    NumberLine,
    Point,
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
    if strip is None or not task.terms or not _fits(task, strip.wholes):
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


def shade_strip(task: Task, size: int, amounts: Sequence[Expr]) -> Iterator[Step]:
    """The amounts shaded on the given strip, or crossed off it, once it is cut in one size.

    They are labelled by the `amounts` as they stand in the work.
    """
    strip = task.strip
    if strip is None or not _fits(task, strip.wholes) or size % strip.parts:
        return
    if strip.wholes * size > 100:
        return
    layers: list[Layer] = []
    if strip.parts == size:
        layers.append(Strip(of="strip", wholes=strip.wholes, parts=size))
    layers.extend(_amounts(task, "strip", amounts))
    yield Step(
        move="shade strip",
        details={
            "signs": tuple(term.sign for term in task.terms),
            "counts": tuple(over(term.size, size).numerator for term in task.terms),
            "size": size,
        },
        layers=tuple(layers),
    )


def _amounts(task: Task, of: str, labels: Sequence[Expr]) -> Iterator[Layer]:
    """Amounts shaded one after another, or crossed off from the right end of the first."""
    end = Fraction(0)
    for place, (term, label) in enumerate(zip(task.terms, labels, strict=True)):
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
    if not task.terms:
        return ()
    if task.situation == "difference" and len(task.terms) == 2:
        return (_two_bars(task),)
    return tuple(_bar(task)) if _fits(task, MOST_WHOLES) else ()


def hops(task: Task, total: Expr) -> tuple[Layer, ...]:
    """Hops on a number line from the first amount to the `total`, as it is written in the work.

    They are drawn to scale and so only once the answer is there.
    """
    told_by_bar = (
        task.strip or (task.terms and _fits(task, MOST_WHOLES)) or task.situation == "difference"
    )
    drawn = task.terms and task.natural and task.answer != 0
    if task.situation == "bare" or not drawn or told_by_bar:
        return ()
    return tuple(_hops(task, total))


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
    yield from _amounts(task, "bar", [term.numeral for term in task.terms])
    yield Brace(of="bar", start=Fraction(0), end=task.answer, label=Blank())


def _hops(task: Task, total: Expr) -> Iterator[Layer]:
    stops = [Fraction(0)]
    for term in task.terms:
        stops.append(stops[-1] + term.signed)
    if ceil(max(stops)) > LONGEST_LINE:
        return
    yield NumberLine(of="hops", low=0, high=ceil(max(stops)))
    yield Point(of="hops", at=stops[1], label=task.terms[0].numeral)
    for start, end, term in zip(stops[1:-1], stops[2:], task.terms[1:], strict=True):
        yield Jump(of="hops", start=start, end=end, label=term.numeral)
    yield Point(of="hops", at=stops[-1], label=total)


def recut(task: Task, place: int, size: int) -> tuple[Layer, ...]:
    """The stretch of one amount on a story's bar cut in the common size."""
    drawn = ground(task)
    if not drawn or not isinstance(drawn[0], Strip) or drawn[0].wholes * size > MOST_PIECES:
        return ()
    stretches = [layer for layer in drawn if isinstance(layer, Shade | CrossOff)]
    stretch = stretches[place]
    return (Cut(of="bar", parts=size, start=stretch.start, end=stretch.end),)
