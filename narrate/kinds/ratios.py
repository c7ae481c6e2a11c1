"""The ratio of two amounts: both in the order of the question, and divided by what divides both.

CCSSM (2010) 6.RP.A.1.
"""

from __future__ import annotations

from collections.abc import Iterator
from math import gcd

from narrate.exact.tree import Expr, Frac, Group, Op, Ratio, Relation, Whole, value
from narrate.reading.demands import InRatio
from narrate.solution.facts import Fact
from narrate.solution.slips import Slip, Written
from narrate.solution.steps import Detail, Step, Work
from narrate.solution.task import Task

SUMMARY = "the ratio of two amounts, or of one to all"
STANDARDS = ("6.RP.A.1",)
TAKES = InRatio


def recognise(task: Task) -> bool:
    """Two whole amounts above 0, one of which may be the sum of two."""
    return all(amount > 0 for amount in _amounts(task))


def solve(task: Task) -> Work:
    """The sum where all are named; then the ratio as it is told, and in smaller numbers."""
    demand = _demand(task)
    first, second = _amounts(task)
    common = gcd(first, second)
    told, small = _made(task, first, second), _made(task, first // common, second // common)
    named: dict[str, Detail] = {"first": demand.names[0], "second": demand.names[1]}
    steps = [*_sums(task), Step(move="ratio in order", line=told, details=named | {"told": told})]
    fact = Fact(name="comes to", args=(task.answer,))
    if common > 1:
        factor = Whole(common)
        line = Relation("=", (told, small))
        parts: dict[str, Detail] = {
            "by": factor,
            "one": Relation("=", (Op("÷", Whole(first), factor), Whole(first // common))),
            "other": Relation("=", (Op("÷", Whole(second), factor), Whole(second // common))),
            "line": line,
            "small": small,
        }
        steps.append(Step(move="ratio in smaller numbers", line=line, details=named | parts))
    steps[-1] = Step(
        move=steps[-1].move, line=steps[-1].line, details=steps[-1].details, facts=(fact,)
    )
    return Work(
        steps=tuple(steps), amounts=((1, small),), total=small, result=small, size=1, opened=True
    )


def _demand(task: Task) -> InRatio:
    assert isinstance(task.demand, InRatio)
    return task.demand


def _sides(task: Task) -> tuple[Expr, Expr]:
    match task.expression:
        case Op("÷", left, right):
            return left, right
        case _:
            raise AssertionError(task.expression)


def _amounts(task: Task) -> tuple[int, int]:
    left, right = _sides(task)
    return int(value(left)), int(value(right))


def _made(task: Task, first: int, second: int) -> Expr:
    """Two numbers as the choices write a ratio."""
    sign = _demand(task).sign
    return Frac(first, second) if sign == "/" else Ratio(first, second, sign)


def _sums(task: Task) -> Iterator[Step]:
    for side, name in zip(_sides(task), _demand(task).names, strict=True):
        if isinstance(side, Group):
            line = Relation("=", (side.inner, Whole(int(value(side)))))
            yield Step(move="ratio of all", line=line, details={"line": line, "all": name})


# -- slips


def _give(first: int, second: int) -> Iterator[Written]:
    if second > 0:
        yield 0, first, second


def _other_way(task: Task) -> Iterator[Written]:
    """Beans to peas as peas to beans."""
    first, second = _amounts(task)
    yield from _give(second, first)


def _all_for_part(task: Task) -> Iterator[Written]:
    """Beans to all where beans to peas is asked."""
    first, second = _amounts(task)
    counts = not _demand(task).names[0].isdigit()
    if counts and not any(isinstance(side, Group) for side in _sides(task)):
        yield from _give(first, first + second)
        yield from _give(second, first + second)


def _part_for_all(task: Task) -> Iterator[Written]:
    """Beans to peas where beans to all is asked."""
    first, second = _amounts(task)
    if isinstance(_sides(task)[1], Group):
        yield from _give(first, second - first)
        yield from _give(second - first, first)
        yield from _give(second - first, second)


SLIPS = (
    Slip("ratio the other way", "", "common practice, no source", _other_way),
    Slip("all for a part", "", "common practice, no source", _all_for_part),
    Slip("part for all", "", "common practice, no source", _part_for_all),
)
