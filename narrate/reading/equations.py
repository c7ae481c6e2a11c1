"""Equations with one blank: taken apart into what to work out."""

from __future__ import annotations

from dataclasses import dataclass
from fractions import Fraction

from narrate.errors import Declined, ExactError
from narrate.exact._grouping import opened
from narrate.exact.caption import write
from narrate.exact.tree import (
    Blank,
    Decimal,
    Expr,
    Group,
    Op,
    Operation,
    Over,
    Relation,
    Whole,
    has_blank,
    terms,
    value,
    walk,
    write_sum,
)

Signed = tuple[int, Expr]


@dataclass(frozen=True, slots=True, kw_only=True)
class Isolated:
    """An equation with its blank alone: `expression` equals the term that holds the blank.

    `target` is that term where the blank is only a part of it (`□/20`), None where it is all of
    it; `answer` is the number in the blank. `alone` says that the equation already stood so.
    """

    expression: Expr
    target: Over | None
    answer: Fraction
    alone: bool


def isolate(equation: Relation) -> Isolated:
    """The blank of an equation, alone. Raises Declined where it cannot be with certainty."""
    side, other = _sides(equation)
    found = [(sign, term) for sign, term in terms(side) if has_blank(term)]
    if len(found) != 1:
        raise _declined(equation)
    sign, holder = found[0]
    if len(terms(side)) == 1 and sign > 0 and (undone := _undone(opened(holder), other)):
        return _by_inverse(equation, undone)
    rest = [(s, t) for s, t in terms(side) if t is not holder]
    signed = [(sign * s, t) for s, t in terms(other)] + [(-sign * s, t) for s, t in rest]
    signed.sort(key=lambda pair: pair[0] < 0)
    expression = write_sum(signed)
    try:
        target, answer = _in_blank(holder, value(expression))
    except ExactError as error:
        raise _declined(equation) from error
    if answer is None:
        raise _declined(equation)
    return Isolated(
        expression=expression, target=target, answer=answer, alone=not rest and sign > 0
    )


def _by_inverse(equation: Relation, undone: Expr) -> Isolated:
    try:
        return Isolated(expression=undone, target=None, answer=value(undone), alone=False)
    except ExactError as error:
        raise _declined(equation) from error


def _undone(holder: Expr, other: Expr) -> Expr | None:
    """What a factor, a dividend or a divisor must be: 8 × □ = 48 leaves 48 ÷ 8."""
    match holder:
        case Op("×", Blank(), known) | Op("×", known, Blank()) if not has_blank(known):
            return Op("÷", _held(other), _held(known))
        case Op("÷", Blank(), known) if not has_blank(known):
            return Op("×", _held(other), _held(known))
        case Over(Blank(), Decimal() as known):
            return Op("×", _held(other), known)
        case Op("÷", known, Blank()) if not has_blank(known):
            return Op("÷", _held(known), _held(other))
        case _:
            return None


def worked_back(equation: Relation) -> Expr | None:
    """What the one blank of an equation is, its steps undone from the last: (33 − 5) ÷ 4.

    None where it stands in a way that this does not undo.
    """
    side, made = _sides(equation)
    while not isinstance(side, Blank):
        match side:
            case Group(inner):
                side = inner
                continue
            case Op(sign, left, right):
                known, side = (right, left) if has_blank(left) else (left, right)
                undone = _undo(sign, known, made, first=side is left)
            case Over(top, Whole() as size) if has_blank(top):
                undone, side = Op("×", _held(made), size), top
            case _:
                return None
        if undone is None:
            return None
        made = undone
    return made


def _undo(sign: Operation, known: Expr, made: Expr, *, first: bool) -> Expr | None:
    """What the first or second number of an operation is, of which the other and all is known."""
    match sign, first:
        case ("+", _):
            return Op("−", made, _held(known))
        case ("−", True):
            return Op("+", made, known)
        case ("−", False):
            return Op("−", known, _held(made))
        case ("×", _):
            return Op("÷", _held(made), _held(known))
        case ("÷", True):
            return Op("×", _held(made), _held(known))
        case _:
            return Op("÷", _held(known), _held(made))


def _held(tree: Expr) -> Expr:
    return Group(tree) if isinstance(tree, Op) else tree


def _sides(equation: Relation) -> tuple[Expr, Expr]:
    blanks = sum(isinstance(node, Blank) for node in walk(equation))
    if equation.sign != "=" or len(equation.sides) != 2 or blanks != 1:
        raise _declined(equation)
    left, right = equation.sides
    return (left, right) if has_blank(left) else (right, left)


def _in_blank(holder: Expr, amount: Fraction) -> tuple[Over | None, Fraction | None]:
    """The number in the blank of a term that equals `amount`; None where it is not whole."""
    match holder:
        case Blank():
            return None, amount
        case Over(Blank(), Whole(size)):
            return holder, _whole(amount * size, least=0)
        case Over(Whole(count), Blank()) if amount:
            return holder, _whole(count / amount)
        case _:
            return None, None


def _whole(number: Fraction, least: int = 1) -> Fraction | None:
    return number if number.denominator == 1 and number >= least else None


def _declined(equation: Relation) -> Declined:
    return Declined(
        f"I read the equation {write(equation)}",
        "give one equation with one □ that stands alone or as the numerator or denominator of a "
        "fraction with a whole number in its place, such as `model: 3/4 + □ = 19/20`",
    )
