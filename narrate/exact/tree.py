"""Expression trees: numbers as they are written, and what is done with them.

A tree keeps the writing (`8/12` stays eight twelfths, `2 1/5` a mixed number); `value` gives the
exact number. One tree is written in three ways: `spoken`, `caption` and (by the pages) stacked.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass, field
from fractions import Fraction
from functools import lru_cache
from typing import Literal

from narrate.errors import ExactError

Operation = Literal["+", "−", "×", "÷"]
RelationSign = Literal["=", "≠", "<", ">", "≤", "≥", "≈"]


@dataclass(frozen=True, slots=True)
class Whole:
    """A whole number, 0 or more: `12`."""

    number: int


@dataclass(frozen=True, slots=True)
class Frac:
    """A fraction of whole numbers as written, not simplified: `8/12`."""

    numerator: int
    denominator: int


@dataclass(frozen=True, slots=True)
class Mixed:
    """A mixed number as written: `2 3/4`."""

    whole: int
    numerator: int
    denominator: int


@dataclass(frozen=True, slots=True)
class Decimal:
    """A terminating decimal as written: `2.50` is `Decimal("2", "50")`."""

    whole: str
    places: str


@dataclass(frozen=True, slots=True)
class WithRest:
    """A quotient with its remainder, `15 remainder 3`; `by` is what was divided by, 0 if untold."""

    quotient: int
    rest: int
    by: int = 0


@dataclass(frozen=True, slots=True)
class InUnits:
    """An amount in two units, `5 feet 8 inches`; its value counts the small unit.

    `size` small units make one large one; `names` are both, each as one and as many.
    """

    large: int
    small: int
    size: int
    names: tuple[tuple[str, str], tuple[str, str]]

    @property
    def parts(self) -> tuple[tuple[int, str], ...]:
        """How many of which unit, without those of which there are none."""
        pairs = zip((self.large, self.small), self.names, strict=True)
        found = tuple((count, one if count == 1 else many) for count, (one, many) in pairs if count)
        return found or ((0, self.names[1][1]),)


@dataclass(frozen=True, slots=True)
class TimeOfDay:
    """A time of day, `3:45 p.m.`, in minutes from midnight; `half` says that a.m. or p.m. is told.

    Without it the same time comes back after twelve hours, so that `hours` may go on past them.
    """

    hours: int
    minute: int
    half: bool

    @property
    def hour(self) -> int:
        """As a clock shows it, 1 to 12."""
        return (self.hours - 1) % 12 + 1

    @property
    def morning(self) -> bool:
        """Whether it is before noon."""
        return self.hours % 24 < 12

    def moved(self, minutes: int) -> TimeOfDay:
        """The time so many minutes later, or earlier where they are below zero."""
        return TimeOfDay(*divmod(self.hours * 60 + self.minute + minutes, 60), self.half)


@dataclass(frozen=True, slots=True)
class Ratio:
    """A ratio of two whole numbers as written, `3:7` or `3 to 7`, worth `first` over `second`.

    `sign` is ":" or "to".
    """

    first: int
    second: int
    sign: str = "to"


@dataclass(frozen=True, slots=True)
class Blank:
    """An unknown: `□` (also typed `?` or `_`), or a letter such as `n`."""

    name: str = "□"


@dataclass(frozen=True, slots=True)
class Neg:
    """The opposite: `−5`."""

    inner: Expr


@dataclass(frozen=True, slots=True)
class Op:
    """Two expressions joined by an operation sign.

    `close` says that a product is written without its sign: 5n, 3(x + 4).
    """

    sign: Operation
    left: Expr
    right: Expr
    close: bool = field(default=False, compare=False, kw_only=True)


@dataclass(frozen=True, slots=True)
class Over:
    """A fraction whose parts are not both whole numbers: `(3 × 5)/(4 × 5)`, `□/20`."""

    top: Expr
    bottom: Expr


@dataclass(frozen=True, slots=True)
class Group:
    """An expression in brackets, as written."""

    inner: Expr


@dataclass(frozen=True, slots=True)
class Relation:
    """Two or more sides related by one sign: `3/4 = (3 × 5)/(4 × 5) = 15/20`."""

    sign: RelationSign
    sides: tuple[Expr, ...]


@dataclass(frozen=True, slots=True)
class Money:
    """An amount of dollars as it is told: `$2.50`. It stands in sentences, never in a tree."""

    amount: Whole | Decimal


Numeral = Whole | Frac | Mixed | Decimal
Expr = Numeral | WithRest | Ratio | InUnits | TimeOfDay | Blank | Neg | Op | Over | Group
Writing = Expr | Relation
Sayable = Writing | Money
Piece = str | Writing
"""Words, or mathematics that is written in symbols and spoken in words."""


def value(tree: Expr, blank: Fraction | None = None) -> Fraction:
    """The exact number a tree stands for; every `Blank` counts as `blank`.

    Raises ExactError where a denominator is zero or a blank has no value.
    """
    return _value(tree, blank)


@lru_cache(maxsize=8192)  # the same trees are asked again and again
def _value(tree: Expr, blank: Fraction | None) -> Fraction:
    match tree:
        case Whole(number):
            return Fraction(number)
        case Frac(numerator, denominator):
            return _fraction(numerator, denominator)
        case Mixed(whole, numerator, denominator):
            return whole + _fraction(numerator, denominator)
        case Decimal(whole_digits, places):
            return Fraction(f"{whole_digits or '0'}.{places or '0'}")
        case WithRest(quotient, rest, by):
            return quotient + _fraction(rest, by)
        case Ratio(first, second):
            return _fraction(first, second)
        case InUnits(large, small, size):
            return Fraction(large * size + small)
        case TimeOfDay(hours, minute):
            return Fraction(60 * hours + minute)
        case Blank():
            if blank is None:
                raise ExactError("a blank has no value")
            return blank
        case Neg(inner):
            return -value(inner, blank)
        case Group(inner):
            return value(inner, blank)
        case Over(top, bottom):
            return _divide(value(top, blank), value(bottom, blank))
        case Op(sign, left, right):
            return _apply(sign, value(left, blank), value(right, blank))


def _apply(sign: Operation, left: Fraction, right: Fraction) -> Fraction:
    match sign:
        case "+":
            return left + right
        case "−":
            return left - right
        case "×":
            return left * right
        case "÷":
            return _divide(left, right)


def _fraction(numerator: int, denominator: int) -> Fraction:
    if denominator == 0:
        raise ExactError("the denominator is zero")
    return Fraction(numerator, denominator)


def _divide(top: Fraction, bottom: Fraction) -> Fraction:
    if bottom == 0:
        raise ExactError("the denominator is zero")
    return top / bottom


def walk(tree: Writing) -> Iterator[Writing]:
    """The tree and everything inside it, left to right."""
    yield tree
    match tree:
        case Neg(inner) | Group(inner):
            yield from walk(inner)
        case Op(_, left, right):
            yield from walk(left)
            yield from walk(right)
        case Over(top, bottom):
            yield from walk(top)
            yield from walk(bottom)
        case Relation(_, sides):
            for side in sides:
                yield from walk(side)


def leaves(tree: Expr) -> tuple[Expr, ...]:
    """The numbers and unknowns that operations join, left to right; −3 is one of them."""
    match tree:
        case Op(_, left, right):
            return (*leaves(left), *leaves(right))
        case Group(inner):
            return leaves(inner)
        case _:
            return (tree,)


def has_blank(tree: Writing) -> bool:
    """Whether an unknown stands anywhere in the tree."""
    return any(isinstance(node, Blank) for node in walk(tree))


def terms(tree: Expr) -> tuple[tuple[int, Expr], ...]:
    """The signed terms of a sum, brackets opened: `1 − (1/3 + 2/5)` → +1, −1/3, −2/5."""
    return tuple(_terms(tree, 1))


def _terms(tree: Expr, sign: int) -> Iterator[tuple[int, Expr]]:
    match tree:
        case Op("+" | "−" as operation, left, right):
            yield from _terms(left, sign)
            yield from _terms(right, sign if operation == "+" else -sign)
        case Group(inner):
            yield from _terms(inner, sign)
        case Neg(inner):
            yield from _terms(inner, -sign)
        case _:
            yield sign, tree


def write_sum(signed: Sequence[tuple[int, Expr]]) -> Expr:
    """The expression of signed terms: (+1, 3/4), (−1, 1/5) is 3/4 − 1/5.

    Raises ExactError where there is no term.
    """
    if not signed:
        raise ExactError("a sum needs an amount")
    sign, first = signed[0]
    tree: Expr = first if sign > 0 else Neg(first)
    for sign, term in signed[1:]:
        tree = Op("+" if sign > 0 else "−", tree, term)
    return tree
