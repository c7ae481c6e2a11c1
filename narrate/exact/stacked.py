"""Mathematics as a row of tokens that a page draws, fractions stacked."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Literal

from narrate.exact._grouping import left_needs_brackets, opened, right_needs_brackets
from narrate.exact.caption import whole, write
from narrate.exact.tree import (
    Blank,
    Decimal,
    Expr,
    Frac,
    Group,
    InUnits,
    Mixed,
    Neg,
    Op,
    Over,
    Ratio,
    Relation,
    TimeOfDay,
    Whole,
    WithRest,
    Writing,
)

SignKind = Literal["operation", "relation", "prefix", "open", "close"]


@dataclass(frozen=True, slots=True)
class Sign:
    """A sign. A `prefix` minus and brackets stand close to what they belong to."""

    text: str
    kind: SignKind


@dataclass(frozen=True, slots=True)
class Number:
    """A whole number, decimal or letter."""

    text: str


@dataclass(frozen=True, slots=True)
class Stacked:
    """A fraction, `top` over `bottom`; `tight` where it belongs to the whole number before it."""

    top: str
    bottom: str
    tight: bool = False


@dataclass(frozen=True, slots=True)
class Empty:
    """A blank to be filled: an empty box."""


Token = Sign | Number | Stacked | Empty

_OPEN, _CLOSE = Sign("(", "open"), Sign(")", "close")


def stack(tree: Writing) -> tuple[Token, ...]:
    """The row of tokens that writes a tree; it has the brackets that `caption.write` has.

    A fraction whose parts are not single numbers keeps them as text: `3 × 5` over `4 × 5`.
    """
    match tree:
        case Relation(sign, sides):
            row = [token for side in sides for token in (Sign(sign, "relation"), *stack(side))]
            return tuple(row[1:])
        case Whole() | Decimal() | WithRest() | Ratio() | InUnits() | TimeOfDay():
            return (Number(write(tree)),)
        case Blank(name):
            return (Empty() if name == "□" else Number(name),)
        case Frac(numerator, denominator):
            return (Stacked(whole(numerator), whole(denominator)),)
        case Mixed(number, numerator, denominator):
            part = Stacked(whole(numerator), whole(denominator), tight=True)
            return Number(whole(number)), part
        case Over(top, bottom):
            return (Stacked(write(opened(top)), write(opened(bottom))),)
        case Group(inner):
            return _in_brackets(inner)
        case Neg(inner):
            row_inner = _in_brackets(inner) if isinstance(inner, Neg | Op) else stack(inner)
            return Sign("−", "prefix"), *row_inner
        case Op(right=Blank(), close=True):
            return (Number(write(tree)),)
        case Op(left=left, right=Group() as right, close=True):
            return *_left(tree, left), *_right(tree, right)
        case Op(sign, left, right):
            return *_left(tree, left), Sign(sign, "operation"), *_right(tree, right)


def _left(tree: Op, left: Expr) -> tuple[Token, ...]:
    return _in_brackets(left) if left_needs_brackets(tree.sign, left) else stack(left)


def _right(tree: Op, right: Expr) -> tuple[Token, ...]:
    needs = isinstance(right, Neg) or right_needs_brackets(tree.sign, right)
    return _in_brackets(right) if needs else stack(right)


def _in_brackets(tree: Expr) -> tuple[Token, ...]:
    return _OPEN, *stack(tree), _CLOSE
