"""An amount in another unit: the fact, then so many times as many, or divided into as many.

CCSSM (2010) 4.MD.A.1 (to a smaller unit), 5.MD.A.1 (both ways), 6.RP.A.3d. The facts are those of
`exact/measures.py`.
"""

from __future__ import annotations

from collections.abc import Iterator
from fractions import Fraction

from narrate.exact.tree import Op, Whole, value, walk
from narrate.kinds._told_first import after, is_worked
from narrate.reading.demands import Conversion
from narrate.solution.slips import Slip, Written
from narrate.solution.steps import Step, Work
from narrate.solution.task import Task

SUMMARY = "an amount in another unit: customary, metric or time"
STANDARDS = ("4.MD.A.1", "5.MD.A.1")
TAKES = Conversion


def recognise(task: Task) -> bool:
    """Whatever some kind works out, once the fact is put in."""
    return is_worked(task)


def solve(task: Task) -> Work:
    """The fact of the two units, and the work that follows from it."""
    return after(_fact(task), task)


def _demand(task: Task) -> Conversion:
    assert isinstance(task.demand, Conversion)
    return task.demand


def _fact(task: Task) -> Step:
    demand = _demand(task)
    return Step(
        move="measure fact",
        line=demand.first,
        details={
            "small": demand.small,
            "large": demand.large,
            "size": Whole(demand.size),
            "one": Whole(1),
            "smaller": "yes" if demand.smaller else "",
            "expression": demand.first,
        },
    )


# -- slips


def _numbers(task: Task) -> tuple[Fraction, int] | None:
    """What is converted, and by how much, where nothing else is worked out."""
    demand, tree = _demand(task), task.expression
    if tree is not demand.first:
        return None
    size = demand.size
    amount = value(tree) / size if demand.smaller else value(tree) * size
    return amount, size


def _give(amount: Fraction) -> Written:
    return 0, amount.numerator, amount.denominator


def _other_way(task: Task) -> Iterator[Written]:
    """3 feet are 1/4 inch: divided instead of multiplied, or the other way."""
    if found := _numbers(task):
        amount, size = found
        yield _give(amount / size if _demand(task).smaller else amount * size)


def _another_fact(task: Task) -> Iterator[Written]:
    """3 feet are 30 inches: the number of another unit, often 10 or 100."""
    if found := _numbers(task):
        amount, size = found
        for other in (10, 100, 1000, 12, 3, 16, 60, 24, 7, 8, 4, 2):
            if other != size:
                yield _give(amount * other if _demand(task).smaller else amount / other)


def _added(task: Task) -> Iterator[Written]:
    """3 feet are 15 inches: the number of the fact added."""
    if found := _numbers(task):
        amount, size = found
        yield _give(amount + size)


def _fraction_left_out(task: Task) -> Iterator[Written]:
    """3 1/2 feet are 36 inches: only the whole feet converted."""
    if (found := _numbers(task)) and _demand(task).smaller and found[0] > 1:
        yield _give(Fraction(int(found[0]) * found[1]))


def _not_converted(task: Task) -> Iterator[Written]:
    """3 feet are 3 inches; 28 pounds in servings of 8 ounces, 28 ÷ 8: nothing converted."""
    if found := _numbers(task):
        yield _give(found[0])
        return
    match task.expression:
        case Op("÷", _, part) if value(part):
            first = next(n for n in walk(_demand(task).first) if isinstance(n, Whole))
            yield _give(value(first) / value(part))


def _only_converted(task: Task) -> Iterator[Written]:
    """28 pounds in servings of 8 ounces: 448, the ounces and not the servings."""
    if _numbers(task) is None:
        yield _give(value(_demand(task).first))


def _size_given(task: Task) -> Iterator[Written]:
    """3 feet are 12 inches: the fact alone."""
    yield _give(Fraction(_demand(task).size))


SLIPS = (
    Slip("converted the other way", "", "common practice, no source", _other_way),
    Slip("not converted", "", "common practice, no source", _not_converted),
    Slip("fact alone", "", "common practice, no source", _size_given),
    Slip("only converted", "", "common practice, no source", _only_converted),
    Slip("fraction left out", "", "common practice, no source", _fraction_left_out),
    Slip("fact added", "", "common practice, no source", _added),
    Slip("another fact", "", "common practice, no source", _another_fact),
)
