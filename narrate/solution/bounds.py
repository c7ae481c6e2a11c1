"""A bound on an answer as a step: what it tells, and the stretch of a number line it leaves."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from fractions import Fraction
from math import ceil, floor

from narrate.exact.tree import Frac, Mixed, value
from narrate.solution.facts import Fact
from narrate.solution.figures import Layer, NumberLine, Point, Stretch
from narrate.solution.steps import Detail, Step
from narrate.solution.task import Task, as_expr

HALF = Fraction(1, 2)
LONGEST_LINE = 8
"""An estimate's number line shows at most so many wholes."""


def bounded(
    move: str,
    task: Task,
    *,
    above: Fraction | None = None,
    below: Fraction | None = None,
    **details: Detail,
) -> Step:
    """An estimate that the answer is above a bound, below one, or between two."""
    facts = []
    if above is not None:
        facts.append(Fact(name="above", args=(above,), rests_on=("amounts",)))
        details["above"] = as_expr(above)
    if below is not None:
        facts.append(Fact(name="below", args=(below,), rests_on=("amounts",)))
        details["below"] = as_expr(below)
    layers = tuple(
        _line(above, below, [d for d in details.values() if isinstance(d, Frac | Mixed)])
    )
    return Step(move=f"estimate {move}", details=details, facts=tuple(facts), layers=layers)


def _line(
    above: Fraction | None, below: Fraction | None, said: Sequence[Frac | Mixed]
) -> Iterator[Layer]:
    """The stretch of a number line where the answer must lie, on and on where no end is known.

    Its ends are labelled as they are `said`: 2 1/2 rather than 5/2.
    """
    low = above if above is not None else Fraction(0)
    if below is None:
        first, last = max(0, ceil(low) - 1), floor(low) + 1
    else:
        first, last = floor(low), ceil(below)
    if last - first > LONGEST_LINE:
        return
    yield NumberLine(of="estimate", low=first, high=last)
    yield Stretch(of="estimate", start=low, end=below)
    for end in (low, below):
        if end is not None and end.denominator != 1:
            label = next((number for number in said if value(number) == end), as_expr(end))
            yield Point(of="estimate", at=end, label=label)


def plain_order(first: Fraction, second: Fraction) -> str:
    """Whether one fraction is plainly more or less than another: "" where it takes work to see."""
    same_size = first.denominator == second.denominator
    same_count = first.numerator == second.numerator
    by_half = (first - HALF) * (second - HALF) < 0 or (first == HALF) != (second == HALF)
    same_gap = (1 - first).numerator == (1 - second).numerator  # 3/4 and 7/8: one piece missing
    if same_size or same_count or by_half or same_gap:
        return "more" if first > second else "less"
    return ""
