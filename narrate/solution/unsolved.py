"""Why no kind works out what was read: the one reason that applies, in a teacher's words."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import replace
from fractions import Fraction

from narrate.errors import ExactError
from narrate.exact.caption import write
from narrate.exact.tree import Decimal, Expr, Frac, Mixed, Op, Whole, value, walk

_LEAVE = "leave it out, or tell it yourself with `told:`"


def why_unsolved(expression: Expr, *, money: bool, fewer: str = "") -> str:
    """Why an expression is not worked out, and what to do; `money` where dollars are asked.

    `fewer` is its last operation alone, where that can be worked out.
    """
    if fewer:
        return (
            f"all of it in one is not worked out yet; add `model: {fewer}`, its last step with "
            "what the steps before make, or tell it yourself with `told:`"
        )
    return f"{_reason(expression, money=money)}; {_LEAVE}"


def last_operation(expression: Expr) -> Op | None:
    """The last operation of longer work with fractions, with its two amounts worked out."""
    if not isinstance(expression, Op) or any(isinstance(n, Decimal) for n in walk(expression)):
        return None
    longer = sum(isinstance(node, Op) for node in walk(expression)) > 1
    left, right = _amount(expression.left), _amount(expression.right)
    if not longer or left is None or right is None:
        return None
    return replace(expression, left=left, right=right)


def _amount(side: Expr) -> Expr | None:
    """A side of an operation as a number, where it is one above zero."""
    if not any(isinstance(node, Op) for node in walk(side)):
        return side
    try:
        number = value(side)
    except ExactError:  # by zero
        return None
    if number <= 0:
        return None
    if number.denominator == 1:
        return Whole(number.numerator)
    return Frac(number.numerator, number.denominator)


def _reason(expression: Expr, *, money: bool) -> str:
    nodes = list(walk(expression))
    if isinstance(expression, Decimal):
        return "writing a decimal as a fraction is not worked out yet"
    if any(isinstance(node, Decimal) for node in nodes) and any(
        isinstance(node, Frac | Mixed) for node in nodes
    ):
        return "decimals in work with fractions are not worked out yet"
    values = list(_values(expression))
    if any(number < 0 for _, number in values):
        return "numbers below zero in such work are not worked out yet"
    for part, number in values:
        places = 100 if money else 10**6
        if (number * places).denominator != 1:
            what = "in dollars and cents" if money else "even, nor ends as a decimal"
            return f"{write(part)} does not come out {what}, and such work is not worked out yet"
    operations = sum(isinstance(node, Op) for node in nodes)
    if operations > 1:
        return f"work of {operations} operations like these is not worked out yet"
    return "such work is not worked out yet"


def _values(expression: Expr) -> Iterator[tuple[Expr, Fraction]]:
    """Each operation in it, inner ones first, with what it makes."""
    inside = [node for node in walk(expression) if isinstance(node, Op)]
    for node in reversed(inside):
        try:
            yield node, value(node)
        except ExactError:  # by zero
            continue
