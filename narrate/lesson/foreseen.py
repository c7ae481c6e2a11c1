"""How briefly a part has to be told to end in time, foreseen from what it has in it.

So that nearly every part is told once: only one that comes out longer than foreseen is told again.
"""

from __future__ import annotations

from dataclasses import dataclass

from narrate.lesson.solved import SolvedPart
from narrate.lesson.timeline import pace
from narrate.lesson.wording import CLOSE, FULL, SHORT, SHORTER

MEASURED_AT = 140
"""The pace, in words a minute, that the lengths below were measured at."""

MANY = 20
"""From pieces so small on, each number is said in many words."""


@dataclass(frozen=True, slots=True)
class _Takes:
    """About how long a telling takes, in milliseconds: to begin and end, and for each of these."""

    brief: int
    always: int
    letter: int
    step: int
    choice: int
    many: int

    def ms(self, solved: SolvedPart) -> int:
        """How long a part takes; `many` comes on top for a step in small pieces."""
        item, part, solution = solved.item, solved.part, solved.solution
        stimulus = item.stimulus.text if item.stimulus else ""
        tested = sum(step.move in ("equal choice", "judge") for step in solution.steps)
        step = self.step + (self.many if _smallest(solved) > MANY else 0)
        counted = (
            (self.letter, len(part.ask) + len(stimulus)),
            (step, len(solution.steps) - tested),
            (self.choice, len(solution.rule_outs) + tested),
        )
        return self.always + sum(each * count for each, count in counted)


_TAKES = (
    _Takes(brief=FULL, always=9_000, letter=200, step=12_300, choice=6_000, many=1_500),
    _Takes(brief=SHORT, always=5_400, letter=230, step=8_800, choice=5_100, many=1_500),
    _Takes(brief=SHORTER, always=14_000, letter=240, step=6_700, choice=4_000, many=1_500),
)
"""Least squares over the parts of the tests, as told in each way; within 7 to 9 s (one sigma)."""


def foreseen(solved: SolvedPart, longest: int) -> int:
    """The fullest way of telling in which a part should take `longest` milliseconds at most."""
    speed = pace(solved.item.grade)
    fits = (each.brief for each in _TAKES if each.ms(solved) * MEASURED_AT <= longest * speed)
    return next(fits, CLOSE)


def _smallest(solved: SolvedPart) -> int:
    """The largest denominator of the work."""
    sizes = (step.details.get("size", 1) for step in solved.solution.steps)
    return max((size for size in sizes if isinstance(size, int)), default=1)
