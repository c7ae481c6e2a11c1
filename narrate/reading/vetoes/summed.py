"""The sums in the work of a reading: what is joined by + and −, with its sign, and the numbers."""

from __future__ import annotations

from collections.abc import Iterator
from fractions import Fraction
from functools import lru_cache

from narrate.errors import ExactError
from narrate.exact.tree import Expr, Group, Neg, Op, value

Term = tuple[int, Expr]
"""What is joined in a sum, with +1 where it is added and −1 where it is taken away."""


@lru_cache(maxsize=64)
def sums(tree: Expr | None) -> tuple[tuple[Term, ...], ...]:
    """The terms of each sum in a tree."""
    return tuple(_sums(tree)) if isinstance(tree, Op) else ()


def worth(tree: Expr) -> Fraction | None:
    """What a tree comes to, None where it comes to nothing."""
    try:
        return value(tree)
    except ExactError:
        return None


def numbers(tree: Expr | None) -> Iterator[Fraction | None]:
    """What each number of a tree is worth."""
    match tree:
        case None:
            return
        case Group(inner) | Neg(inner):
            yield from numbers(inner)
        case Op(_, left, right):
            yield from numbers(left)
            yield from numbers(right)
        case _:
            yield worth(tree)


def factors(tree: Expr | None) -> Iterator[Fraction | None]:
    """What each number is worth that something is multiplied by, or divided by."""
    match tree:
        case Group(inner) | Neg(inner):
            yield from factors(inner)
        case Op(sign, left, right):
            if sign == "×" and is_number(left):
                yield worth(left)
            if sign in "×÷" and is_number(right):
                yield worth(right)
            yield from factors(left)
            yield from factors(right)
        case _:
            return


def is_number(tree: Expr) -> bool:
    """Whether a tree is a number and no work."""
    return not isinstance(tree, Op | Group | Neg)


def _sums(tree: Expr) -> Iterator[tuple[Term, ...]]:
    match tree:
        case Group(inner) | Neg(inner):
            yield from _sums(inner)
        case Op(sign, left, right):
            if sign in "+−":
                yield tuple(_terms(tree, 1))
            yield from _sums(left)
            yield from _sums(right)
        case _:
            return


def _terms(tree: Expr, sign: int) -> Iterator[Term]:
    match tree:
        case Group(inner):
            yield from _terms(inner, sign)
        case Op("+", left, right):
            yield from _terms(left, sign)
            yield from _terms(right, sign)
        case Op("−", left, right):
            yield from _terms(left, sign)
            yield from _terms(right, -sign)
        case _:
            yield sign, tree


def go_alike(tree: Expr | None, first: Fraction, second: Fraction) -> bool:
    """Whether two numbers are joined in a sum with the same sign."""
    return _signs_of(tree, first, second, alike=True)


def go_apart(tree: Expr | None, first: Fraction, second: Fraction) -> bool:
    """Whether two numbers are joined in a sum, the one added and the other taken away."""
    return _signs_of(tree, first, second, alike=False)


def _signs_of(tree: Expr | None, first: Fraction, second: Fraction, *, alike: bool) -> bool:
    for terms in sums(tree):
        one = [sign for sign, term in terms if worth(term) == first]
        two = [sign for sign, term in terms if worth(term) == second]
        if first == second:
            one, two = one[:1], one[1:]
        if one and two and (one[0] == two[0]) is alike:
            return True
    return False


def operations(tree: Expr | None) -> str:
    """The signs of the operations of a tree, in no order."""
    match tree:
        case Group(inner) | Neg(inner):
            return operations(inner)
        case Op(sign, left, right):
            return sign + operations(left) + operations(right)
        case _:
            return ""
