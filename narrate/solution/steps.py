"""Solutions as values: steps in the order a teacher works, choices ruled out on the way."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, field
from fractions import Fraction

from narrate.exact.tree import Expr, Frac, Sayable, Writing
from narrate.solution.facts import Fact
from narrate.solution.figures import Layer
from narrate.solution.slips import Slip
from narrate.solution.task import Task

Detail = Sayable | int | str | tuple["Detail", ...]
"""What a sentence may say: computed numbers and trees, or the name of a sub-case."""


@dataclass(frozen=True, slots=True, kw_only=True)
class MultiplesList:
    """Multiples of `of` up to the first that all share."""

    of: int
    values: tuple[int, ...]


@dataclass(frozen=True, slots=True, kw_only=True)
class Step:
    """One step. `move` names what it does (and its template), `details` fill its sentences.

    `line` is the true line it adds to the work, `shown` the same as a page shows it where that is
    longer (with the factors written in). `lists` go at the side, `layers` on the figure.
    """

    move: str
    line: Writing | None = None
    shown: Writing | None = None
    details: Mapping[str, Detail] = field(default_factory=dict)
    facts: tuple[Fact, ...] = ()
    lists: tuple[MultiplesList, ...] = ()
    layers: tuple[Layer, ...] = ()


@dataclass(frozen=True, slots=True, kw_only=True)
class Work:
    """What a kind makes of a task: its steps and the number they end in, as written.

    `amounts` are the signed amounts as rewritten to one size, `total` what they make before it is
    simplified or changed in form. `board` is what is left on the board for a later part: fractions
    and their equals. `ready` is the number of steps after which every amount counts pieces of one
    size: there a question for "a first line of work" is answered. `check` is the kind's own look
    back, where undoing a sum is none. `opened` says that its first step writes the expression down.
    """

    steps: tuple[Step, ...]
    amounts: tuple[tuple[int, Expr], ...]
    total: Expr
    result: Expr
    size: int
    board: Mapping[Frac, Frac] = field(default_factory=dict)
    ready: int = 0
    check: Step | None = None
    opened: bool = False


@dataclass(frozen=True, slots=True, kw_only=True)
class RuleOut:
    """A wrong choice struck at step `step` (0-based) by a told fact that does not admit it."""

    letter: str
    step: int
    fact: Fact
    slip: str | None


@dataclass(frozen=True, slots=True, kw_only=True)
class Solution:
    """A part, solved.

    `answer` is the exact value, `result` the number as written at the end of the work, `written`
    what goes in the boxes. `key` holds the letters of the right choices. `slips` name, for each
    wrong choice that one makes, the wrong rule; `rules` are all that there are for the `task`.
    """

    steps: tuple[Step, ...]
    answer: Fraction
    result: Expr
    written: str
    key: tuple[str, ...]
    rule_outs: tuple[RuleOut, ...]
    slips: Mapping[str, str]
    task: Task
    rules: tuple[Slip, ...]
    board: Mapping[Frac, Frac]
