"""What a question demands beyond the value of an expression: its answer rounded, for one.

Most questions demand nothing more; then a part has none.
"""

from __future__ import annotations

from dataclasses import dataclass
from fractions import Fraction
from math import floor

from narrate.exact.tree import Expr, Whole, WithRest


@dataclass(frozen=True, slots=True, kw_only=True)
class Nearest:
    """The answer rounded to a whole number of `size` (1/10 for tenths, 100 for hundreds).

    `name` is what one of them is called: "tenth", "hundred", "whole number", "meter".
    """

    size: Fraction
    name: str

    def below(self, amount: Fraction) -> Fraction:
        """The greatest whole number of `size` that is not more than an amount of 0 or more."""
        return floor(amount / self.size) * self.size

    def answered(self, amount: Fraction) -> Fraction:
        """An amount of 0 or more, rounded; halfway rounds up (common practice in schools).

        CCSSM (2010) 3.NBT.A.1, 4.NBT.A.3 and 5.NBT.A.4 ask for rounding and leave halfway open.
        """
        return floor(amount / self.size + Fraction(1, 2)) * self.size

    def takes(self, tree: Expr) -> bool:
        """Whether a number of the right value is written as is demanded: in any form."""
        return True

    @property
    def said(self) -> str:
        """What is demanded, in words."""
        return f"to the nearest {self.name}"

    @property
    def places(self) -> int:
        """The digits behind the decimal point that it is written with."""
        return len(str(self.size.denominator)) - 1


@dataclass(frozen=True, slots=True, kw_only=True)
class Remainder:
    """A quotient of whole numbers, divided by `by`, written with its remainder: 15 remainder 3."""

    by: int

    def answered(self, amount: Fraction) -> Fraction:
        """The value stays what it is: 15 remainder 3, divided by 8, is 15 3/8."""
        return amount

    def takes(self, tree: Expr) -> bool:
        """Whether a number is so written: with a remainder smaller than `by`, or with none."""
        match tree:
            case WithRest(_, rest, by):
                return rest < by == self.by
            case _:
                return isinstance(tree, Whole)

    @property
    def said(self) -> str:
        """What is demanded, in words."""
        return "with its remainder"


Demand = Nearest | Remainder
