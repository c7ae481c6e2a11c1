"""A product or quotient of two numbers of which one or both are below zero.

CCSSM (2010) 7.NS.A.2: the sizes are multiplied or divided, and the signs say on which side of zero
the result lies.
"""

from __future__ import annotations

from fractions import Fraction

from narrate.exact.tree import Decimal, Expr, Group, Neg, Op, Relation, Whole
from narrate.solution import operations
from narrate.solution.facts import Fact
from narrate.solution.slips import Slip, Written
from narrate.solution.steps import Detail, Step, Work
from narrate.solution.task import Task

SUMMARY = "products and quotients of two numbers of which one or both are below zero"
STANDARDS = ("7.NS.A.2",)


def recognise(task: Task) -> bool:
    """Two whole numbers or decimals, one below zero at least, and a result that ends."""
    sides = _sides(task.expression)
    if sides is None or task.demand is not None:
        return False
    left, right = sides
    below = sum(sign < 0 for sign, _ in (left, right))
    return below > 0 and _size(task.answer) is not None


def _sides(tree: Expr) -> tuple[tuple[int, Expr], tuple[int, Expr]] | None:
    """Both numbers with their signs, None where one is more than a number."""
    match tree:
        case Op("×" | "÷", left, right):
            one, other = _signed(left), _signed(right)
            return None if one is None or other is None else (one, other)
        case _:
            return None


def _signed(tree: Expr) -> tuple[int, Expr] | None:
    match tree:
        case Group(inner):
            return _signed(inner)
        case Neg(Whole() | Decimal() as inner):
            return -1, inner
        case Whole() | Decimal():
            return 1, tree
        case _:
            return None


def _size(amount: Fraction) -> Expr | None:
    return operations.number(abs(amount), decimals=True)


def solve(task: Task) -> Work:
    """The sizes worked out; then the signs."""
    expression, sides = task.expression, _sides(task.expression)
    assert sides is not None
    assert isinstance(expression, Op)
    size = _size(task.answer)
    assert size is not None
    (first, left), (second, right) = sides
    why: dict[str, Detail] = {"unit": "", "units": ("", ""), "situation": "", "order": ""}
    why |= {"last": "", "first": "yes"}
    sizes = operations.work_out(Op(expression.sign, left, right), size, **why)
    result: Expr = Neg(size) if task.answer < 0 else size
    signs = Step(
        move="signs",
        line=Relation("=", (expression, result)),
        details={
            "how": "alike" if first == second else "unlike",
            "result": result,
            "called": "product" if expression.sign == "×" else "quotient",
        },
        facts=(Fact(name="comes to", args=(task.answer,)),),
    )
    return Work(steps=(sizes, signs), amounts=((1, result),), total=result, result=result, size=1)


def _sign_lost(task: Task) -> tuple[Written, ...]:
    """(−6) × (−7) is −42: the sign taken wrongly, the size right."""
    wrong = -task.answer
    return ((0, wrong.numerator, wrong.denominator),)


SLIPS = (Slip("sign of product", "", "common practice, no source", lambda t: iter(_sign_lost(t))),)
