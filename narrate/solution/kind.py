"""What every kind of problem offers."""

from __future__ import annotations

from typing import Protocol

from narrate.solution.slips import Slip
from narrate.solution.steps import Work
from narrate.solution.task import Task


class Kind(Protocol):
    """A module in `kinds/`. Its file's name is its name; `SLIPS` are tried in their order."""

    SUMMARY: str
    STANDARDS: tuple[str, ...]
    SLIPS: tuple[Slip, ...]

    def recognise(self, task: Task) -> bool:
        """Whether it can solve a task with certainty."""

    def solve(self, task: Task) -> Work:
        """The task worked out, in steps."""
