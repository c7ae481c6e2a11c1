"""About how much: easy numbers in place of those that are told, and then the work with them.

CCSSM (2010) 3.OA.D.8 and 4.OA.A.3 (mental computation and estimation strategies).
"""

from __future__ import annotations

from dataclasses import replace

from narrate.kinds import kind_of
from narrate.reading.demands import Estimated
from narrate.solution.steps import Step, Work
from narrate.solution.task import Task

SUMMARY = "about how much it is, with the numbers rounded first"
STANDARDS = ("3.OA.D.8", "4.OA.A.3")
SLIPS = ()
TAKES = Estimated


def recognise(task: Task) -> bool:
    """Whether the easy numbers can be worked with."""
    return kind_of(replace(task, demand=None)) is not None


def solve(task: Task) -> Work:
    """The easy numbers, then the work with them."""
    assert isinstance(task.demand, Estimated)
    easy = replace(task, demand=None)
    kind = kind_of(easy)
    assert kind is not None
    work = kind.solve(easy)
    about = Step(
        move="about",
        line=task.expression,
        details={"pairs": task.demand.pairs, "expression": task.expression},
    )
    return replace(work, steps=(about, *work.steps), opened=True)
