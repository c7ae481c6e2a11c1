"""The answer as it is written: which form fits the boxes or the choices, and why."""

from __future__ import annotations

from narrate.exact.caption import write
from narrate.exact.tree import (
    Decimal,
    Expr,
    Frac,
    InUnits,
    Mixed,
    Neg,
    Ratio,
    TimeOfDay,
    Whole,
    Writing,
    value,
    walk,
)
from narrate.items.item import Part
from narrate.reading.reading import Reading
from narrate.solution.task import ResultForm, as_expr


def result_form(part: Part, reading: Reading) -> ResultForm:
    """Whether the answer goes in as a mixed number or as one fraction."""
    if reading.goal.shape == "mixed" or "whole" in part.boxes:
        return "mixed"
    if part.boxes or reading.goal.shape == "improper" or reading.target:
        return "improper"
    trees = [choice.tree for choice in part.choices if choice.tree is not None]
    if not any(map(_has_mixed, trees)):
        return "mixed" if part.claim is not None and _has_mixed(part.claim) else "improper"
    right = [tree for tree in trees if reading.goal.accepts(tree)]
    return "mixed" if any(map(_has_mixed, right or trees)) else "improper"


def _has_mixed(tree: Writing) -> bool:
    return any(isinstance(node, Mixed) for node in walk(tree))


def written(part: Part, result: Expr) -> str:
    """What goes in the boxes: `7/12`, `1 3/4`, or the number, in plain digits."""
    return write(as_boxed(part, result)).replace("−", "-").replace(",", "")


def as_boxed(part: Part, result: Expr) -> Expr:
    """The result in the form that the boxes take; a number box takes a whole where it is one."""
    amount = value(result)
    if part.boxes == ("numerator", "denominator"):
        if isinstance(result, Whole):
            return Frac(result.number, 1)
        if isinstance(result, Neg) and isinstance(result.inner, Whole):
            return Neg(Frac(result.inner.number, 1))
        return result
    if amount.denominator == 1 and not isinstance(result, _KEPT):
        return as_expr(amount)
    return result


_KEPT = Decimal | InUnits | Ratio | TimeOfDay
"""Numbers that stay as they are written: 3.0 is rounded to tenths, 4:20 p.m. is no 980."""


def digits(part: Part, result: Expr) -> tuple[str, ...]:
    """What each box gets, in the order of the boxes; "" where a box stays empty."""
    boxed = as_boxed(part, result)
    found: dict[str, str] = {"number": written(part, result)}
    sign, tree = ("−", boxed.inner) if isinstance(boxed, Neg) else ("", boxed)
    match tree:
        case Whole(number):
            found["whole"] = f"{sign}{number}"
        case Frac(numerator, denominator):
            found |= {"numerator": f"{sign}{numerator}", "denominator": str(denominator)}
        case Mixed(whole, numerator, denominator):
            found |= {
                "whole": f"{sign}{whole}",
                "numerator": str(numerator),
                "denominator": str(denominator),
            }
        case _:
            pass
    return tuple(found.get(box, "") for box in part.boxes)
