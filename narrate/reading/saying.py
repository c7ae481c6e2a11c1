"""Whether two expressions say the same work: the same operations on the same amounts.

By order they may differ: 6 + 20 says what 20 + 6 says, and 8 × 3 what 3 × 8 does. An equal value by
another operation does not say the same. An equation says what its unknown is: 6 + b = 20 says that
b is 20 − 6. Letters stand for amounts.
"""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterator
from fractions import Fraction
from functools import lru_cache

from narrate.errors import Declined, ExactError
from narrate.exact.tree import (
    Blank,
    Expr,
    Frac,
    Group,
    Neg,
    Op,
    Over,
    Relation,
    Whole,
    Writing,
    has_blank,
    terms,
    value,
    walk,
)
from narrate.reading.equations import isolate


def says_same(asked: Expr, choice: Writing | None) -> bool:
    """Whether a choice says the work that is asked for, in any order that means the same."""
    worked = None if choice is None else work_of(choice)
    return worked is not None and in_order(worked) == in_order(asked)


def work_of(choice: Writing) -> Expr | None:
    """The work that a choice says, of an equation what its unknown is; None where that fails."""
    match choice:
        case Relation(sides=(Blank(), side)) | Relation(sides=(side, Blank())) if has_blank(side):
            return side
        case Relation():
            try:
                return isolate(choice).expression
            except (Declined, ExactError):
                return None
        case Frac(top, bottom):
            return Op("÷", Whole(top), Whole(bottom))
        case _:
            return choice


def unknowns(equation: Relation) -> set[str]:
    """The letters of an equation that it finds: the one that is alone, else all that it has."""
    alone = {side.name for side in equation.sides if isinstance(side, Blank)}
    return alone or {node.name for node in walk(equation) if isinstance(node, Blank)}


def is_alone(equation: Relation) -> bool:
    """Whether an equation has its unknown by itself: b = 20 − 6."""
    return any(isinstance(side, Blank) for side in equation.sides)


@lru_cache(maxsize=2048)  # each told fact looks at each choice
def in_order(tree: Expr) -> str:
    """The work in one fixed order, brackets opened where they change nothing."""
    signed = ((sign, _product(term)) for sign, term in terms(tree))
    return "".join(sorted(f"{'+' if sign > 0 else '-'}{term}" for sign, term in signed))


def _product(tree: Expr) -> str:
    """A term without its sign, its factors in one fixed order."""
    factors = list(_factors(tree, 1))
    times = sorted(name for power, name in factors if power > 0)
    by = sorted(name for power, name in factors if power < 0)
    return "*".join(times) + "".join(f"/{name}" for name in by)


def _factors(tree: Expr, power: int) -> Iterator[tuple[int, str]]:
    match tree:
        case Op("×", left, right) if power > 0:
            yield from _factors(left, power)
            yield from _factors(right, power)
        case Op("÷", left, right) | Over(left, right) if power > 0:
            yield from _factors(left, power)
            yield from _factors(right, -power)
        case Group(Group() as inner):
            yield from _factors(inner, power)
        case Group(Op("×" | "÷", _, _) | Over() as inner) if power > 0:
            yield from _factors(inner, power)
        case Group(Op() | Neg() | Over() as inner) | (Op() | Neg() | Over() as inner):
            yield power, f"({in_order(inner)})"
        case _:
            yield power, _name(tree)


def _name(tree: Expr) -> str:
    match tree:
        case Group(inner):
            return _name(inner)
        case Blank(name):
            return name
        case _:
            return str(value(tree))


def operations(tree: Expr) -> tuple[str, ...]:
    """What the work does, each operation once: `("×", "−")` of 3 × 8 − 5."""
    signs = [sign for sign, _ in terms(tree)]
    found = {"−" if sign < 0 else "" for sign in signs}
    positive = sum(sign > 0 for sign in signs)
    found |= {"+"} if positive > 1 else set()
    for node in walk(tree):
        match node:
            case Op("×" | "÷" as sign, left, right):
                found.add(sign)
                found |= {*operations(left), *operations(right)}
            case Over(top, bottom):
                found |= {"÷", *operations(top), *operations(bottom)}
            case _:
                pass
    return tuple(sign for sign in "+−×÷" if sign in found)


def amounts(tree: Expr) -> tuple[str, ...]:
    """The amounts that stand in the work, letters by name, as often as they stand there."""
    leaves = (n for n in walk(tree) if not isinstance(n, Op | Over | Group | Neg | Relation))
    return tuple(sorted(map(_name, leaves)))


_STAND_INS = (Fraction(7), Fraction(29, 3), Fraction(1009))
"""Numbers that letters are given to see whether two expressions always make the same."""


def same_by_another_way(asked: Expr, choice: Writing) -> bool:
    """Whether a choice that does not say the work still makes the same of the same amounts.

    24 ÷ 3 for 1/3 × 24, or 8 + 8 + 8 for 3 × 8: nobody should strike it. A chance that two numbers
    make the same by two operations, such as 2 + 2 and 2 × 2, is none.
    """
    worked = work_of(choice)
    if worked is None or in_order(worked) == in_order(asked) or not _makes_same(asked, worked):
        return False
    mine, its = amounts(asked), amounts(worked)
    if len(mine) == 2 and Counter(mine) == Counter(its):
        return False
    return all(name in mine or _upside_down(name) in mine for name in its)


def _upside_down(name: str) -> str:
    return str(1 / Fraction(name)) if name[0].isdigit() and name != "0" else name


def _makes_same(asked: Expr, other: Expr) -> bool:
    letters = {n.name for tree in (asked, other) for n in walk(tree) if isinstance(n, Blank)}
    if len(letters) > 1:
        return False
    try:
        return all(value(asked, n) == value(other, n) for n in _STAND_INS)
    except ExactError:
        return False
