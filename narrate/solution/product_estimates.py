"""Bounds on a product or quotient with fractions, from the sizes of its numbers against one whole.

CCSSM (2010) 5.NF.B.5: multiplying by a fraction greater than 1 makes more of a number, by one less
than 1 less of it. The same of division, and how many times one amount fits in another.
"""

from __future__ import annotations

from fractions import Fraction

from narrate.exact.tree import Decimal, Expr, Frac, Group, Mixed, Op, Whole, value
from narrate.solution import number_estimates, operations
from narrate.solution.bounds import bounded, plain_order
from narrate.solution.steps import Detail, Step
from narrate.solution.task import Task


def one_operation(task: Task) -> Op | None:
    """The product or quotient that a task is, on numbers above zero, a fraction among them."""
    tree = task.expression
    if task.rounding or not isinstance(tree, Op) or tree.sign not in "×÷":
        return None
    left, right = (_opened(side) for side in (tree.left, tree.right))
    numbers = all(isinstance(side, Whole | Frac | Mixed | Decimal) for side in (left, right))
    fractions = any(isinstance(side, Frac | Mixed) for side in (left, right))
    if not (numbers and fractions and value(left) > 0 and value(right) > 0):
        return None
    return Op(tree.sign, left, right)


def _opened(tree: Expr) -> Expr:
    return _opened(tree.inner) if isinstance(tree, Group) else tree


def first_factor(task: Task) -> Step | None:
    """2/3 of 4/5 is less than 4/5; 2 1/2 times 3 is more than 3."""
    tree = one_operation(task)
    return _factor(task, tree.left, tree.right) if tree and tree.sign == "×" else None


def second_factor(task: Task) -> Step | None:
    """8 × 3/4 is less than 8."""
    tree = one_operation(task)
    return _factor(task, tree.right, tree.left) if tree and tree.sign == "×" else None


def _factor(task: Task, factor: Expr, amount: Expr) -> Step | None:
    if value(factor) == 1 or isinstance(factor, Whole):
        return None
    side = "more" if value(factor) > 1 else "less"
    return _bound("factor", task, side, value(amount), factor=factor, amount=amount)


def _bound(move: str, task: Task, side: str, bound: Fraction, **details: Detail) -> Step:
    """An estimate that the answer is more, or less, than a bound."""
    above, below = (bound, None) if side == "more" else (None, bound)
    return bounded(move, task, above=above, below=below, side=side, **details)


def divisor(task: Task) -> Step | None:
    """6 ÷ 1/2 is more than 6: every piece is smaller than a whole; 3/4 ÷ 2 is less than 3/4."""
    tree = one_operation(task)
    if tree is None or tree.sign != "÷" or value(tree.right) == 1:
        return None
    side = "more" if value(tree.right) < 1 else "less"
    return _bound("divisor", task, side, value(tree.left), by=tree.right, amount=tree.left)


def how_many_fit(task: Task) -> Step | None:
    """2/3 ÷ 3/4 is less than one: 3/4 is more than there is. Told where the order is plain."""
    tree = one_operation(task)
    if tree is None or tree.sign != "÷" or isinstance(tree.right, Whole):
        return None
    amount, size = value(tree.left), value(tree.right)
    side = plain_order(amount, size) if amount != size else ""
    if not side or (side == "more" and amount >= 1):
        return None
    one = Fraction(1)
    return _bound("how many fit", task, side, one, by=tree.right, amount=tree.left)


def rounded(task: Task) -> Step | None:
    """2 1/2 × 3 1/3 is more than 2 × 3 and less than 3 × 4."""
    tree = one_operation(task)
    if tree is None or tree.sign != "×":
        return None
    found = operations.bounds("×", tree.left, tree.right)
    if found is None:
        return None
    return number_estimates.between("estimate rounded", found, tuple(value(op) for op in found))
