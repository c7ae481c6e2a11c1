"""What a question demands beyond the value of an expression: its answer rounded, for one.

Most questions demand nothing more; then a part has none.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from fractions import Fraction
from math import floor, isqrt
from typing import Literal

from narrate.exact.measures import several
from narrate.exact.tree import (
    Expr,
    InUnits,
    Op,
    TimeOfDay,
    Whole,
    WithRest,
    Writing,
    value,
)


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


ConditionName = Literal[
    "greater", "less", "at least", "at most", "equal", "multiple", "factor", "even", "odd",
    "prime", "composite", "rounds", "greatest", "least",
]  # fmt: skip


@dataclass(frozen=True, slots=True, kw_only=True)
class Condition:
    """What a number has to be, such as greater than 2/5; `negated` where it must not be so.

    `than` is the number that it names, as written, None where it names none; `nearest` what is
    rounded to.
    """

    name: ConditionName
    than: Expr | None = None
    negated: bool = False
    nearest: Nearest | None = None

    def holds(self, amount: Fraction, among: Sequence[Fraction]) -> bool:
        """Whether a number of 0 or more, one `among` several, is as it has to be."""
        named = Fraction(0) if self.than is None else value(self.than)
        return self._is_so(amount, named, among) != self.negated

    def _is_so(self, amount: Fraction, named: Fraction, among: Sequence[Fraction]) -> bool:
        whole = amount.denominator == 1
        match self.name:
            case "greater":
                return amount > named
            case "less":
                return amount < named
            case "at least":
                return amount >= named
            case "at most":
                return amount <= named
            case "equal":
                return amount == named
            case "multiple":
                return whole and amount % named == 0
            case "factor":
                return whole and amount > 0 and named % amount == 0
            case "even" | "odd":
                return whole and amount % 2 == (self.name == "odd")
            case "prime" | "composite":
                return (
                    whole and amount > 1 and (least_factor(amount) == 0) == (self.name == "prime")
                )
            case "rounds":
                return self.nearest is not None and self.nearest.answered(amount) == named
            case "greatest":
                return amount == max(among)
            case "least":
                return amount == min(among)


def least_factor(number: Fraction | int) -> int:
    """The least factor of a whole number besides 1 and itself, 0 where there is none."""
    whole = int(number)
    return next((n for n in range(2, isqrt(whole) + 1) if whole % n == 0), 0)


@dataclass(frozen=True, slots=True, kw_only=True)
class Judged:
    """Which of some numbers are as all `conditions` say; `offered` are they, with their letters."""

    conditions: tuple[Condition, ...]
    offered: tuple[tuple[str, Expr], ...]

    def answered(self, amount: Fraction) -> Fraction:
        """The right number as it is."""
        return amount

    @property
    def values(self) -> tuple[Fraction, ...]:
        """The numbers offered."""
        return tuple(value(tree) for _, tree in self.offered)

    def takes(self, tree: Expr) -> bool:
        """Whether a number is as all conditions say."""
        return all(each.holds(value(tree), self.values) for each in self.conditions)


class AsItIs:
    """A demand that changes neither what comes out nor the form in which it is written."""

    __slots__ = ()

    def answered(self, amount: Fraction) -> Fraction:
        """The value as it is."""
        return amount

    def takes(self, tree: Expr) -> bool:
        """Whether a number of the right value is written as is demanded: in any form."""
        return True


TestName = Literal[
    "true", "makes", "solves", "ordered", "all factors", "multiples", "prime factors",
    "scientific", "property", "sign", "digit", "rule", "between", "extreme",
    "equivalent", "step", "angle", "roots",
]  # fmt: skip


@dataclass(frozen=True, slots=True, kw_only=True)
class Offer:
    """A choice that is tested by itself: what it says, and whether it is as the question asks."""

    letter: str
    holds: bool
    said: tuple[Writing | str, ...]


@dataclass(frozen=True, slots=True, kw_only=True)
class Tested(AsItIs):
    """Which of the choices stand a test of their own, such as that an equation is true.

    `about` is what the question names; `negated` where the choice is wanted that does not stand it.
    """

    name: TestName
    offers: tuple[Offer, ...]
    about: tuple[Writing | str, ...] = ()
    negated: bool = False

    @property
    def right(self) -> tuple[str, ...]:
        """The letters of the right choices."""
        return tuple(offer.letter for offer in self.offers if offer.holds)


@dataclass(frozen=True, slots=True, kw_only=True)
class Named(AsItIs):
    """A number asked for by its `name`, such as the median, `of` some numbers.

    `place` is the place of a digit that is asked for, "" where none is.
    """

    name: str
    of: tuple[Expr, ...]
    place: str = ""


@dataclass(frozen=True, slots=True, kw_only=True)
class Ruled(AsItIs):
    """A number that follows by a rule, named `rule`, which says what to work out."""

    rule: str

    @property
    def said(self) -> str:
        """What is demanded, in words."""
        return f"by the rule for {self.rule}"


@dataclass(frozen=True, slots=True, kw_only=True)
class Conversion(AsItIs):
    """An amount in another unit; `size` of the `small` unit make one of the `large` one.

    `smaller` says that it is converted to the small unit. `first` is the line that converts, where
    more is worked out after it.
    """

    small: str
    large: str
    size: int
    smaller: bool
    first: Op

    @property
    def said(self) -> str:
        """What is demanded, in words."""
        return f"{self.size} {several(self.small)} to the {self.large}"


@dataclass(frozen=True, slots=True, kw_only=True)
class Estimated:
    """About how much it is; `pairs` are the numbers that are told, each with its easy one."""

    pairs: tuple[tuple[Expr, Expr], ...]

    def answered(self, amount: Fraction) -> Fraction:
        """What the easy numbers make."""
        return amount

    def takes(self, tree: Expr) -> bool:
        """Whether a number of the right value is written as is demanded: in any form."""
        return True

    @property
    def said(self) -> str:
        """What is demanded, in words."""
        return "about how much it is"


def is_exchanged(tree: Expr) -> bool:
    """Whether no small units or minutes are left that make a large one: not 2 feet 14 inches."""
    match tree:
        case InUnits(_, small, size):
            return small < size
        case TimeOfDay(_, minute):
            return minute < 60
        case _:
            return True


@dataclass(frozen=True, slots=True, kw_only=True)
class InTwoUnits(AsItIs):
    """An amount in a `large` and a `small` unit; `size` of the small one make a large one."""

    large: str
    small: str
    size: int

    def takes(self, tree: Expr) -> bool:
        """Whether an amount is so written, with fewer small units than make a large one."""
        return isinstance(tree, InUnits) and is_exchanged(tree) and self.size == tree.size

    @property
    def said(self) -> str:
        """What is demanded, in words."""
        return f"in {several(self.large)} and {several(self.small)}"


@dataclass(frozen=True, slots=True, kw_only=True)
class OnTheClock(AsItIs):
    """A time of day "later" or "earlier" than another, or the time "between" two."""

    name: Literal["later", "earlier", "between"]

    def takes(self, tree: Expr) -> bool:
        """Whether a time or a length is so written, with fewer minutes than make an hour."""
        asked = InUnits if self.name == "between" else TimeOfDay
        return is_exchanged(tree) and isinstance(tree, asked)

    @property
    def said(self) -> str:
        """What is demanded, in words."""
        return "told by the clock"


@dataclass(frozen=True, slots=True, kw_only=True)
class InRatio(AsItIs):
    """A ratio of two amounts, each with `names` of what it counts; `sign` as choices write it."""

    names: tuple[str, str]
    sign: str

    @property
    def said(self) -> str:
        """What is demanded, in words."""
        return f"the ratio of {self.names[0]} to {self.names[1]}"


Demand = (
    InRatio
    | InTwoUnits
    | OnTheClock
    | Nearest
    | Remainder
    | Judged
    | Tested
    | Named
    | Ruled
    | Conversion
    | Estimated
)
