"""Slips with numbers that are asked for by name: wrong rules that pupils follow, each computable.

S106 (median without ordering: Zawojewski & Shaughnessy 2000, from memory) is of the list of slips
that the project keeps; the others are common practice, no source.
"""

from __future__ import annotations

from collections.abc import Iterator
from fractions import Fraction
from math import gcd, lcm, prod

from narrate.exact.tree import value
from narrate.reading.demands import Named
from narrate.solution.slips import Slip, Written
from narrate.solution.task import Task

_NO_SOURCE = "common practice, no source"
_MULTIPLES = ("least common multiple", "least common denominator")


def _of(task: Task, *names: str) -> tuple[Fraction, ...]:
    """The numbers that are named, none where something else is asked for."""
    demand = task.demand
    plain = isinstance(demand, Named) and demand.name in names
    return tuple(map(value, demand.of)) if isinstance(demand, Named) and plain else ()


def _wholes(task: Task, *names: str) -> tuple[int, ...]:
    return tuple(int(n) for n in _of(task, *names) if n.denominator == 1 and n > 0)


def _give(amount: Fraction | int) -> Iterator[Written]:
    found = Fraction(amount)
    if found >= 0:
        yield 0, found.numerator, found.denominator


def _middle(numbers: tuple[Fraction, ...]) -> Fraction:
    low, high = (len(numbers) - 1) // 2, len(numbers) // 2
    return (numbers[low] + numbers[high]) / 2


def _not_in_order(task: Task) -> Iterator[Written]:
    """7, 3, 9 has the median 3: the middle of the numbers as they are told."""
    if numbers := _of(task, "median"):
        yield from _give(_middle(numbers))


def _mean_for_median(task: Task) -> Iterator[Written]:
    if numbers := _of(task, "median"):
        yield from _give(sum(numbers, Fraction(0)) / len(numbers))


def _median_for_mean(task: Task) -> Iterator[Written]:
    if numbers := _of(task, "mean"):
        yield from _give(_middle(tuple(sorted(numbers))))


def _not_shared(task: Task) -> Iterator[Written]:
    """The mean of 6, 9 and 15 is 30: added, and not shared."""
    if numbers := _of(task, "mean"):
        yield from _give(sum(numbers, Fraction(0)))


def _multiple_for_factor(task: Task) -> Iterator[Written]:
    if numbers := _wholes(task, "greatest common factor"):
        yield from _give(lcm(*numbers))


def _factor_for_multiple(task: Task) -> Iterator[Written]:
    if numbers := _wholes(task, *_MULTIPLES):
        yield from _give(gcd(*numbers))


def _not_the_greatest(task: Task) -> Iterator[Written]:
    """3 divides 18 and 24; but 6 does, too."""
    if numbers := _wholes(task, "greatest common factor"):
        shared = gcd(*numbers)
        for number in range(1, shared):
            if not shared % number:
                yield from _give(number)


def _not_the_least(task: Task) -> Iterator[Written]:
    """48 is a multiple of 6 and 8; but 24 is, too."""
    if numbers := _wholes(task, *_MULTIPLES):
        yield from _give(prod(numbers))


def _digit_itself(task: Task) -> Iterator[Written]:
    """The 7 of 4,732 is worth 7."""
    if numbers := _of(task, "value of a digit"):
        yield from _give(numbers[0])


def _next_place(task: Task) -> Iterator[Written]:
    """The 7 of 4,732 is worth 70 or 7,000: the place beside it."""
    if _of(task, "value of a digit"):
        for times in (Fraction(1, 10), Fraction(10)):
            yield from _give(task.answer * times)


SLIPS = (
    Slip("not in order", "S106", "Zawojewski & Shaughnessy 2000, from memory", _not_in_order),
    Slip("mean for median", "", _NO_SOURCE, _mean_for_median),
    Slip("median for mean", "", _NO_SOURCE, _median_for_mean),
    Slip("not shared", "", _NO_SOURCE, _not_shared),
    Slip("multiple for factor", "", _NO_SOURCE, _multiple_for_factor),
    Slip("factor for multiple", "", _NO_SOURCE, _factor_for_multiple),
    Slip("not the greatest", "", _NO_SOURCE, _not_the_greatest),
    Slip("not the least", "", _NO_SOURCE, _not_the_least),
    Slip("digit itself", "", _NO_SOURCE, _digit_itself),
    Slip("next place", "", _NO_SOURCE, _next_place),
)
