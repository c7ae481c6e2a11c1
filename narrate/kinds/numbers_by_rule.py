"""A number that follows by a rule: the rule is told first, then what it says is worked out.

CCSSM (2010) 4.MD.C.7 and 7.G.B.5 (angles that make a whole), 8.G.A.5 (angles of a triangle),
4.OA.C.5 (patterns), 6.RP.A.3c (what the whole is of which a percent is told).
"""

from __future__ import annotations

from collections.abc import Iterator

from narrate.exact.tree import leaves, value
from narrate.kinds._told_first import after, is_worked
from narrate.reading.demands import Ruled
from narrate.solution.number_slips import NUMBER_SLIPS
from narrate.solution.slips import Slip, Written
from narrate.solution.steps import Detail, Step, Work
from narrate.solution.task import Task

SUMMARY = "numbers that follow by a rule: angles, patterns, the whole of a percent"
STANDARDS = ("4.MD.C.7", "4.OA.C.5", "6.RP.A.3c", "7.G.B.5", "8.G.A.5")
TAKES = Ruled


def recognise(task: Task) -> bool:
    """Whatever some kind works out, once the rule has been told."""
    return is_worked(task)


def solve(task: Task) -> Work:
    """The rule, and the work that follows from it."""
    assert isinstance(task.demand, Ruled)
    details: dict[str, Detail] = {
        "rule": task.demand.rule,
        "numbers": leaves(task.expression),
        "expression": task.expression,
    }
    return after(Step(move="rule", line=task.expression, details=details), task)


def _number_given(task: Task) -> Iterator[Written]:
    """A number that the question names, with nothing worked out; not one of the rule, as 180 is."""
    assert isinstance(task.demand, Ruled)
    if task.demand.rule in ("what percent", "whole of percent") or "angles" in task.demand.rule:
        for amount in map(value, leaves(task.expression)):
            if amount not in _OF_RULES:
                yield 0, amount.numerator, amount.denominator


_OF_RULES = (90, 100, 180, 360)
SLIPS = (
    Slip("number given", "", "common practice, no source", _number_given),
    *(slip for slip in NUMBER_SLIPS if slip.name != "number given"),
)
