"""A number that follows by a rule: the rule is told first, then what it says is worked out.

CCSSM (2010) 4.MD.C.7 and 7.G.B.5 (angles that make a whole), 8.G.A.5 (angles of a triangle),
4.OA.C.5 (patterns), 6.RP.A.3c (what the whole is of which a percent is told).
"""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import replace

from narrate.exact.tree import leaves, value
from narrate.kinds import kind_of
from narrate.reading.demands import Ruled
from narrate.solution.number_slips import NUMBER_SLIPS
from narrate.solution.slips import Slip, Written
from narrate.solution.steps import Step, Work
from narrate.solution.task import Task

SUMMARY = "numbers that follow by a rule: angles, patterns, the whole of a percent"
STANDARDS = ("4.MD.C.7", "4.OA.C.5", "6.RP.A.3c", "7.G.B.5", "8.G.A.5")
TAKES = Ruled


def recognise(task: Task) -> bool:
    """Whatever some kind works out, once the rule has been told."""
    return kind_of(replace(task, demand=None)) is not None


def solve(task: Task) -> Work:
    """The rule, and the work that follows from it."""
    exact = replace(task, demand=None)
    kind = kind_of(exact)
    assert kind is not None
    assert isinstance(task.demand, Ruled)
    rule = Step(
        move="rule",
        line=task.expression,
        details={
            "rule": task.demand.rule,
            "numbers": leaves(task.expression),
            "expression": task.expression,
        },
    )
    work = kind.solve(exact)
    return replace(work, steps=(rule, *work.steps), opened=True)


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
