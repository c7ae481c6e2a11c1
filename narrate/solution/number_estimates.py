"""Bounds on an answer with whole numbers and decimals, by rounding to leading digits, and its end.

CCSSM (2010) 3.OA.D.8, 4.OA.A.3: the reasonableness of answers by mental computation and estimation,
rounding included.
"""

from __future__ import annotations

from fractions import Fraction

from narrate.exact.tree import Decimal, Op, Relation, Whole, value
from narrate.solution import operations
from narrate.solution.facts import Fact
from narrate.solution.steps import Detail, Step
from narrate.solution.task import Task


def one_operation(task: Task) -> Op | None:
    """The operation of a task that is just one, on two whole numbers or decimals."""
    tree = task.expression
    if task.rounding or not isinstance(tree, Op):
        return None
    plain = isinstance(tree.left, Whole | Decimal) and isinstance(tree.right, Whole | Decimal)
    return tree if plain else None


def rounded(task: Task) -> Step | None:
    """48 × 25 is more than 40 × 20 and less than 50 × 30."""
    tree = one_operation(task)
    found = operations.bounds(tree.sign, tree.left, tree.right) if tree else None
    if found is None:
        return None
    return between("estimate rounded", found, tuple(value(each) for each in found))


def quotient(task: Task) -> Step | None:
    """144 ÷ 6 is more than 20 and less than 30, for 6 × 20 is less than 144."""
    tree = one_operation(task)
    if tree is None or tree.sign != "÷":
        return None
    found = operations.quotient_bounds(tree.left, tree.right)
    if found is None:
        return None
    step = between("estimate quotient", found, tuple(value(each.right) for each in found))
    return Step(move=step.move, details={**step.details, "total": tree.left}, facts=step.facts)


def between(move: str, found: tuple[Op, Op], ends: tuple[Fraction, ...]) -> Step:
    """A step that tells two easy operations and the ends between which the answer lies."""
    low, high = (Relation("=", (each, Whole(int(value(each))))) for each in found)
    facts = tuple(
        Fact(name=name, args=(end,), rests_on=("amounts",))
        for name, end in zip(("above", "below"), ends, strict=True)
    )
    details: dict[str, Detail] = {
        "low": low,
        "high": high,
        "above": int(ends[0]),
        "below": int(ends[1]),
    }
    return Step(move=move, details=details, facts=facts)


def last_digit(task: Task) -> Step | None:
    """48 × 25 ends in nought, for eight times five is forty."""
    tree = one_operation(task)
    found = operations.last_digit(tree.sign, tree.left, tree.right) if tree else None
    if found is None:
        return None
    digit, _, line = found
    return Step(
        move="last digit",
        details={"line": line, "digit": digit},
        facts=(Fact(name="ends in", args=(digit, 0)),),
    )
