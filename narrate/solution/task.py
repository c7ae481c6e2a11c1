"""What a kind of problem is given to work out: a sum of signed amounts, and how it is wanted."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, field
from fractions import Fraction
from functools import cached_property
from math import lcm
from typing import Literal

from narrate.errors import ExactError
from narrate.exact.tree import Decimal, Expr, Frac, Mixed, Neg, Over, Whole, terms, value
from narrate.items.item import StripGiven, Way
from narrate.reading.demands import Demand
from narrate.reading.reading import Counted, Rounding, Situation, rounded

Numeral = Whole | Frac | Mixed
ResultForm = Literal["improper", "mixed"]


@dataclass(frozen=True, slots=True, kw_only=True)
class Term:
    """One amount of a sum: its sign (+1 or −1) and the numeral as written, 0 or more."""

    sign: int
    numeral: Numeral

    @property
    def size(self) -> Fraction:
        """The amount without its sign."""
        return value(self.numeral)

    @property
    def signed(self) -> Fraction:
        """The amount with its sign."""
        return self.sign * self.size

    @property
    def whole(self) -> int:
        """The whole number of a mixed or whole numeral as written, 0 for a fraction."""
        match self.numeral:
            case Whole(number) | Mixed(number, _, _):
                return number
            case Frac():
                return 0

    @property
    def fraction(self) -> Frac | None:
        """The fraction of the numeral as written, None for a whole number."""
        match self.numeral:
            case Frac():
                return self.numeral
            case Mixed(_, numerator, denominator):
                return Frac(numerator, denominator)
            case Whole():
                return None


@dataclass(frozen=True, kw_only=True)  # without slots: what is cached needs a place
class Task:
    """What is to be worked out: an expression, and where it is a sum of amounts, those as `terms`.

    `terms` are whole numbers, fractions and mixed numbers; a task that is no sum of such has none.
    `result` is the form that the answer goes in (a mixed number, or improper as it is), `simplest`
    whether it is asked in simplest form, `ways` the class's ways of solving, `strip` the diagram
    given, `carried` the equivalent fractions that an earlier part of the item left on the board,
    `situation` what the story is, "bare" where there is none, `target` the fraction with a blank in
    it that the sum equals, if any. `rounding` says how a remainder is read, `decimals` that the
    answer is written as a decimal, `money` that it is dollars; `counted` is what the numbers and
    the steps between them count. `demand` is what is asked beyond the expression's value.
    """

    expression: Expr
    terms: tuple[Term, ...]
    result: ResultForm = "improper"
    simplest: bool = False
    ways: tuple[Way, ...] = ()
    strip: StripGiven | None = None
    carried: Mapping[Frac, Frac] = field(default_factory=dict)
    situation: Situation = "bare"
    target: Over | None = None
    rounding: Rounding = ""
    decimals: bool = False
    money: bool = False
    counted: tuple[Counted, ...] = ()
    demand: Demand | None = None

    @cached_property
    def answer(self) -> Fraction:
        """The exact value of the expression, its remainder read as is asked, or rounded."""
        exact = rounded(value(self.expression), self.expression, self.rounding)
        return exact if self.demand is None else self.demand.answered(exact)

    @cached_property
    def denominators(self) -> tuple[int, ...]:
        """The denominators of the fractions, each once, in the order they come."""
        return tuple(dict.fromkeys(f.denominator for t in self.terms if (f := t.fraction)))

    @cached_property
    def least_common(self) -> int:
        """The least common denominator, 1 where there is no fraction."""
        return lcm(*self.denominators)

    @cached_property
    def natural(self) -> bool:
        """Whether nothing in it is below zero: no amount, no running total."""
        total = Fraction(0)
        for term in self.terms:
            total += term.signed
            if total < 0:
                return False
        return True

    @property
    def adds_only(self) -> bool:
        """Whether every amount is added."""
        return all(term.sign > 0 for term in self.terms)

    @property
    def takes_only(self) -> bool:
        """Whether every amount after the first is taken away from it."""
        return len(self.terms) > 1 and [t.sign > 0 for t in self.terms] == [True] + [False] * (
            len(self.terms) - 1
        )


def sum_terms(expression: Expr) -> tuple[Term, ...] | None:
    """The amounts of a sum of whole numbers, fractions and mixed numbers, None if it is none."""
    found = []
    signed = terms(expression)
    for sign, tree in signed:
        if not isinstance(tree, Whole | Frac | Mixed):
            return None
        found.append(Term(sign=sign, numeral=_counted(tree) if len(signed) > 1 else tree))
    return tuple(found)


def _counted(numeral: Numeral) -> Numeral:
    """A numeral as it is counted in a sum: 3/1 and 2 1/1 are three wholes, with no pieces."""
    match numeral:
        case Frac(_, 1) | Mixed(_, _, 1):
            return Whole(value(numeral).numerator)
        case _:
            return numeral


def signed_numeral(sign: int, numeral: Numeral) -> Expr:
    """A numeral with its sign."""
    return numeral if sign > 0 else Neg(numeral)


def over(amount: Fraction, denominator: int) -> Frac:
    """An amount of 0 or more counted in pieces: 3/4 in twentieths is 15/20.

    Raises ExactError where the pieces do not fit.
    """
    count = amount * denominator
    if count.denominator != 1:
        raise ExactError("the pieces do not fit")
    return Frac(count.numerator, denominator)


def as_numeral(amount: Fraction) -> Numeral:
    """An amount of 0 or more as a whole number or a fraction in lowest terms."""
    if amount.denominator == 1:
        return Whole(amount.numerator)
    return Frac(amount.numerator, amount.denominator)


def as_decimal(amount: Fraction, places: int = 0) -> Decimal | None:
    """An amount of 0 or more as a decimal of `places` at least, None where it never ends."""
    while (amount * 10**places).denominator != 1:
        if places == LONGEST_DECIMAL:
            return None
        places += 1
    whole, rest = divmod(int(amount * 10**places), 10**places)
    return Decimal(str(whole), f"{rest:0{places}}") if places else None


LONGEST_DECIMAL = 9
"""A decimal with more places is not written."""


def as_expr(amount: Fraction) -> Expr:
    """Any amount as a whole number or a fraction in lowest terms, with its sign."""
    return as_numeral(amount) if amount >= 0 else Neg(as_numeral(-amount))


def mixed(amount: Fraction, denominator: int) -> Numeral:
    """An amount of 0 or more as a mixed number with a given denominator: 29/10 is 2 9/10."""
    whole = int(amount)
    rest = over(amount - whole, denominator)
    if rest.numerator == 0:
        return Whole(whole)
    return Mixed(whole, rest.numerator, denominator) if whole else rest
