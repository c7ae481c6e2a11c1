"""A look back at an equation with a letter: the number is put in the letter's place."""

from __future__ import annotations

import re
from collections.abc import Iterator

from narrate.exact.tree import Blank, Expr, Frac, Group, Neg, Op, Over, Relation, Whole, value, walk
from narrate.items.item import Part
from narrate.reading.tested.said import written
from narrate.solution.steps import Detail, Step

_SIDE = r"(?:(?<![A-Za-z])[a-z](?![A-Za-z])|[\d./()+−–×÷·* -])+"
_EQUATION = re.compile(rf"{_SIDE}={_SIDE}")


def put_back(part: Part, result: Expr) -> Step | None:
    """The one equation of a question, true with the number in it; None where there is none."""
    found = list(_equations(part.ask))
    if len(found) != 1:
        return None
    (equation,) = found
    name = next(node for node in walk(equation) if isinstance(node, Blank))
    if len({value(side, value(result)) for side in equation.sides}) != 1:
        return None
    line = Relation("=", tuple(put_in(side, result) for side in equation.sides))
    details: dict[str, Detail] = {"how": "put in", "line": line, "result": result, "name": name}
    return Step(move="look back", line=line, details=details)


def _equations(text: str) -> Iterator[Relation]:
    """The equations of a text that have one letter, with two sides that are no fractions of it."""
    for found in _EQUATION.finditer(text):
        tree = written(found[0])
        if not isinstance(tree, Relation) or len(tree.sides) != 2:
            continue
        nodes = list(walk(tree))
        names = {node.name for node in nodes if isinstance(node, Blank)}
        odd = any(isinstance(n, Over) and not isinstance(n.bottom, Whole) for n in nodes)
        if len(names) == 1 and names.pop().isalpha() and not odd:
            yield tree


def put_in(tree: Expr, blank: Expr) -> Expr:
    """The tree with a number in the place of its blank."""
    match tree:
        case Blank():
            return blank
        case Neg(inner):
            return Neg(put_in(inner, blank))
        case Group(inner):
            return Group(put_in(inner, blank))
        case Op(sign, left, right):
            return Op(sign, put_in(left, blank), put_in(right, blank))
        case Over(top, bottom):
            inside = put_in(top, blank), put_in(bottom, blank)
            if isinstance(inside[0], Whole) and isinstance(inside[1], Whole):
                return Frac(inside[0].number, inside[1].number)
            return Over(*inside)
        case _:
            return tree
