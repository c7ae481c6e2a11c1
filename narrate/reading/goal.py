"""The form of a question, and which choices answer it."""

from __future__ import annotations

from collections import Counter
from collections.abc import Callable, Iterator
from dataclasses import dataclass
from fractions import Fraction
from functools import lru_cache
from math import gcd
from typing import Literal

from narrate.errors import ExactError
from narrate.exact.tree import (
    Blank,
    Expr,
    Frac,
    Group,
    Mixed,
    Neg,
    Op,
    Over,
    Ratio,
    Relation,
    Whole,
    Writing,
    has_blank,
    terms,
    value,
)
from narrate.reading.demands import Demand
from narrate.reading.saying import says_same

Form = Literal[
    "value",
    "first line",
    "equivalent",
    "missing",
    "claim",
    "told",
    "judged",
    "expression",
    "tested",
]
Shape = Literal["any", "mixed", "improper"]


@dataclass(frozen=True, slots=True, kw_only=True)
class Goal:
    """What is asked for, and in which form it must be written.

    `asked` is the expression to work out, `answer` its exact value (for a missing number, the
    number itself). `told` is for choices that are sentences: the item's own key says which.
    `expression` asks which choice says the work of a story, which is not worked out (`answer` is 0
    where an amount is a letter). `start` says that sentences tell how to start, so that the end is
    not asked for.
    `tested` is for choices that are right or wrong by themselves, whatever they are.
    `demand` is what is asked beyond the value, such as that it be rounded: the answer then is.
    """

    form: Form
    asked: Expr
    answer: Fraction
    shape: Shape = "any"
    simplest: bool = False
    start: bool = False
    demand: Demand | None = None

    def accepts(self, choice: Writing | None) -> bool:
        """Whether a choice answers the question as it was asked."""
        if self.form == "expression":
            return says_same(self.asked, choice)
        if choice is None or isinstance(choice, Relation) or has_blank(choice):
            return False
        try:
            return _ACCEPTS[self.form](self, choice)
        except ExactError:
            return False

    def well_formed(self, choice: Expr) -> bool:
        """Whether a number is written as asked: in simplest form, mixed, or improper."""
        if self.simplest and not in_simplest_form(choice):
            return False
        return shaped(choice, self.shape)


def _equal(goal: Goal, choice: Expr) -> bool:
    return value(choice) == goal.answer


def _equal_in_form(goal: Goal, choice: Expr) -> bool:
    return _equal(goal, choice) and goal.well_formed(choice)


def _equal_as_demanded(goal: Goal, choice: Expr) -> bool:
    return _equal_in_form(goal, choice) and (goal.demand is None or goal.demand.takes(choice))


def _first_line(goal: Goal, choice: Expr) -> bool:
    return same_amounts(goal.asked, choice) and one_size(choice) and len(pieces(choice)) > 1


def _judged(goal: Goal, choice: Expr) -> bool:
    return goal.demand is not None and goal.demand.takes(choice)


def _never(goal: Goal, choice: Expr) -> bool:
    return False


_ACCEPTS: dict[Form, Callable[[Goal, Expr], bool]] = {
    "value": _equal_as_demanded,
    "missing": _equal_in_form,
    "claim": _equal_in_form,
    "equivalent": _equal,
    "first line": _first_line,
    "told": _never,
    "tested": _never,
    "expression": _equal,
    "judged": _judged,
}


def in_simplest_form(tree: Expr) -> bool:
    """Whether a number is in simplest form: no common factor, no whole hidden in a mixed number."""
    match tree:
        case Frac(numerator, denominator):
            return gcd(numerator, denominator) == 1 and denominator != 1
        case Ratio(first, second):
            return gcd(first, second) == 1
        case Mixed(_, numerator, denominator):
            return 0 < numerator < denominator and gcd(numerator, denominator) == 1
        case Neg(inner) | Group(inner):
            return in_simplest_form(inner)
        case Over() | Op() | Blank():
            return False
        case _:
            return True


def shaped(tree: Expr, shape: Shape) -> bool:
    """Whether a number is written as a mixed number, or as a fraction, where that is asked."""
    match shape:
        case "mixed":
            return isinstance(tree, Mixed | Whole) or 0 < value(tree) < 1
        case "improper":
            return not isinstance(tree, Mixed)
        case "any":
            return True


@lru_cache(maxsize=2048)  # each told fact looks at each choice
def pieces(tree: Expr) -> tuple[tuple[int, Expr], ...]:
    """Signed terms of a sum, a sum over one denominator taken apart: `(15 + 4)/20` has two."""
    return tuple(_pieces(tree))


def _pieces(tree: Expr) -> Iterator[tuple[int, Expr]]:
    for sign, term in terms(tree):
        match term:
            case Over(top, bottom) if len(terms(top)) > 1:
                for inner_sign, inner in terms(top):
                    yield sign * inner_sign, Over(inner, bottom)
            case _:
                yield sign, term


def signed_values(tree: Expr) -> Counter[Fraction]:
    """The signed values of a sum's terms, with how often each stands there."""
    return Counter(sign * value(term) for sign, term in pieces(tree))


def split_values(tree: Expr) -> Counter[Fraction]:
    """The same with each term's whole part and fraction part apart: 2 3/4 is 2 and 3/4."""
    return Counter(
        sign * part for sign, term in pieces(tree) for part in divmod_parts(value(term)) if part
    )


def divmod_parts(amount: Fraction) -> tuple[Fraction, Fraction]:
    """The whole part and the rest of an amount: 11/4 is 2 and 3/4."""
    whole = Fraction(int(amount))
    return whole, amount - whole


def same_amounts(asked: Expr, choice: Expr) -> bool:
    """Whether a choice joins and takes away just the amounts asked for, however written."""
    return signed_values(asked) == signed_values(choice) or split_values(asked) == split_values(
        choice
    )


def keeps_amount(choice: Expr, amount: Fraction) -> bool:
    """Whether one signed amount stands among a choice's terms, whole or as its two parts."""
    there = signed_values(choice)
    return there[amount] > 0 or all(
        split_values(choice)[part] > 0 for part in divmod_parts(amount) if part
    )


def denominators(tree: Expr) -> set[int]:
    """The denominators written in a sum's terms; whole numbers have none."""
    return {size for _, term in pieces(tree) if (size := _denominator(term)) is not None}


def _denominator(term: Expr) -> int | None:
    match term:
        case Frac(_, denominator) | Mixed(_, _, denominator):
            return denominator
        case Over(_, bottom):
            return int(value(bottom)) if value(bottom).denominator == 1 else None
        case Neg(inner) | Group(inner):
            return _denominator(inner)
        case _:
            return None


def one_size(tree: Expr) -> bool:
    """Whether all fractions of a sum count pieces of one size."""
    return len(denominators(tree)) <= 1
