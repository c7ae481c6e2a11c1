"""A line that is offered, as a shape over the roles of its numbers: `amount − groups × each`."""

from __future__ import annotations

import re
from collections.abc import Sequence
from dataclasses import dataclass
from fractions import Fraction

from narrate.exact.parser import parse_expr
from narrate.exact.tree import Expr, Frac, Group, Neg, Op, Whole, value
from narrate.reading.words.offered_amounts import Amount
from narrate.reading.words.offered_asked import Told
from narrate.reading.words.offered_units import held_in


@dataclass(frozen=True, slots=True, kw_only=True)
class Offer:
    """A line for a story: its tree, its shape, and its amounts in the order of the line."""

    story: Told
    line: str
    tree: Expr
    shape: str
    amounts: Sequence[Amount]

    def of(self, role: str) -> list[Amount]:
        """The amounts of a role, in the order of the line, each once."""
        found = [a for a in self.amounts if a.role == role]
        return list({id(a): a for a in found}.values())


def offer(story: Told, line: str) -> Offer:
    """The line of a story with its shape. Raises ExactError where it is no expression."""
    tree = parse_expr(line)
    held = held_in(tree, story.amounts)
    by_place: list[Amount] = []
    shape = _shape(story, tree, held, by_place)
    return Offer(story=story, line=line, tree=tree, shape=shape, amounts=by_place)


def _shape(story: Told, tree: Expr, held: dict[int, Amount], by_place: list[Amount]) -> str:
    if (amount := held.get(id(tree))) is not None:
        by_place.append(amount)
        return amount.role
    match tree:
        case Group(inner):
            return f"({_shape(story, inner, held, by_place)})"
        case Neg(inner):
            return f"−{_shape(story, inner, held, by_place)}"
        case Op(sign, left, right):
            first = _shape(story, left, held, by_place)
            return f"{first} {sign} {_shape(story, right, held, by_place)}"
        case Whole(number):
            return str(number)
        case Frac(top, bottom):
            return _parted(tree, Fraction(top), Fraction(bottom), story, by_place)
        case _:
            return "_"


def _parted(
    tree: Expr, top: Fraction, bottom: Fraction, story: Told, by_place: list[Amount]
) -> str:
    """A percent, or one amount over another: 65/100, 21/35."""
    percents = [a for a in story.of("percent") if a.worth == _HUNDRED * value(tree)]
    if bottom == _HUNDRED and percents:
        by_place.append(percents[0])
        return "percent"
    both = [next((a for a in story.amounts if a.worth == n), None) for n in (top, bottom)]
    by_place.extend(a for a in both if a is not None)
    return "/".join("_" if a is None else a.role for a in both)


_HUNDRED = 100


def fits(shape: str, pattern: str) -> bool:
    """Whether a whole shape is as a pattern says."""
    return re.fullmatch(pattern, shape) is not None
