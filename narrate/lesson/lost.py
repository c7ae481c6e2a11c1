"""What a wrong first line of work has lost: an amount, as the item writes it and as rewritten."""

from __future__ import annotations

from collections.abc import Iterator
from fractions import Fraction
from typing import Any

from narrate.errors import ExactError
from narrate.exact.tree import Expr, Op, Relation, value
from narrate.solution.steps import Solution
from narrate.solution.task import as_expr


def lost(tree: Expr, amount: Fraction, solution: Solution) -> dict[str, Any]:
    """What is said of a first line that has lost an amount: as it is told, and as rewritten."""
    return {
        "amount": _as_told(abs(amount), solution),
        "equal": _rewritten(abs(amount), solution),
        "single": not any(isinstance(n, Op) and n.sign in "+−" for n in _outer(tree)),
    }


def _outer(tree: Expr) -> Iterator[Expr]:
    """The sums of a tree that are not inside a fraction."""
    if isinstance(tree, Op):
        yield tree


def _as_told(amount: Fraction, solution: Solution) -> Expr:
    """The amount as the item writes it."""
    return _side(amount, solution, 0)


def _rewritten(amount: Fraction, solution: Solution) -> Expr:
    """The amount as the work has rewritten it."""
    return _side(amount, solution, -1)


def _side(amount: Fraction, solution: Solution, place: int) -> Expr:
    for step in solution.steps:
        if step.move in ("rewrite", "improper") and isinstance(step.line, Relation):
            try:
                if value(step.line.sides[0]) == amount:
                    return step.line.sides[place]
            except ExactError:
                continue
    return as_expr(amount)
