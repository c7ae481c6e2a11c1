"""Equalities told whole: "5/6 = 1/6 + 4/6", "2 × (3/4) as 6 × (1/4)", "wrong: 1/4 + 1/3 = 2/7".

What is to be worked out is the side that is work. An equality that does not hold is read only where
the words say that it is wrong; then its left side is what should have been worked out.
"""

from __future__ import annotations

import re
from contextlib import suppress

from narrate.errors import ExactError
from narrate.exact.parser import parse
from narrate.exact.tree import Expr, Op, Relation, has_blank, value, walk
from narrate.reading.words.arithmetic import Sum, read_arithmetic
from narrate.reading.words.plain import plain

_WRONG = re.compile(
    r"(?:the |an? )?(?:incorrect|wrong|false)(?: (?:result|answer|sum|difference|line|work))?:? ",
    re.IGNORECASE,
)


def read_equality(text: str) -> Sum | None:
    """What an equality works out, None where the words are not one for certain."""
    *told, asked = " ".join(plain(text).split()).rstrip(" .").split(";")
    if told:
        held = all(_worked(part.strip(), wrong=False) for part in told)
        return read_arithmetic(asked.strip()) if held else None
    wrong = _WRONG.match(asked)
    return _worked(asked[wrong.end() :] if wrong else asked, wrong=wrong is not None)


def _worked(told: str, *, wrong: bool) -> Sum | None:
    sides = _sides(told)
    if len(sides) < 2 or not any(isinstance(node, Op) for side in sides for node in walk(side)):
        return None
    if wrong:
        found = sides[0] if isinstance(sides[0], Op) else None
    else:
        alike = len({value(side) for side in sides}) == 1
        found = next((s for s in sides if isinstance(s, Op)), None) if alike else None
    return Sum(found, value(found)) if found is not None else None


def _sides(told: str) -> tuple[Expr, ...]:
    """The sides of "a = b" or "a as b"; none where one is no number or sum."""
    with suppress(ExactError, RecursionError):
        if " as " in told:
            return tuple(_side(part) for part in told.split(" as "))
        tree = parse(told)
        if isinstance(tree, Relation) and tree.sign == "=" and not has_blank(tree):
            return tree.sides
    return ()


def _side(text: str) -> Expr:
    """A side in digits or words. Raises ExactError where it is neither."""
    worked = read_arithmetic(text)
    tree = worked.expression if worked is not None else parse(text)
    if isinstance(tree, Relation):
        raise ExactError("a relation", 0)
    return tree
