"""What is told before work that another kind does: the rule, or the fact of two units."""

from __future__ import annotations

from dataclasses import replace

from narrate.kinds import kind_of
from narrate.solution.steps import Step, Work
from narrate.solution.task import Task


def is_worked(task: Task) -> bool:
    """Whether some kind works it out, once what its demand says is put in."""
    return kind_of(replace(task, demand=None)) is not None


def after(step: Step, task: Task) -> Work:
    """The step, and the work that follows from it."""
    exact = replace(task, demand=None)
    kind = kind_of(exact)
    assert kind is not None
    work = kind.solve(exact)
    return replace(work, steps=(step, *work.steps), opened=True)
