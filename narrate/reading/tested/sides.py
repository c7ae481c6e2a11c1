"""Equations and comparisons tested: whether both sides are as the sign between them says."""

from __future__ import annotations

import re
from collections.abc import Callable
from contextlib import suppress
from fractions import Fraction
from itertools import pairwise

from narrate.errors import ExactError
from narrate.exact.claims import STANDS
from narrate.exact.tree import (
    Blank,
    Expr,
    Frac,
    Op,
    Operation,
    Relation,
    Whole,
    Writing,
    value,
    walk,
)
from narrate.items.item import Choice
from narrate.items.spelled import in_words
from narrate.items.texts import with_times
from narrate.reading.demands import Tested
from narrate.reading.tested.said import Asked, all_tested, expression, listed, number_of, written

_SIGNS = ("<", ">", "=", "≤", "≥")


def stands(relation: Relation, blank: Fraction | None = None) -> bool | None:
    """Whether a relation is true, with a number in the place of its letter; None if not sure."""
    is_so = STANDS.get(relation.sign)
    if is_so is None:
        return None
    with suppress(ExactError):
        sides = [value(side, blank) for side in relation.sides]
        return all(is_so(a, b) for a, b in pairwise(sides))
    return None


def is_true(asked: Asked) -> Tested | None:
    """Which equation is true?"""

    def holds(choice: Choice) -> tuple[bool, tuple[Writing, ...]] | None:
        if not isinstance(choice.tree, Relation) or _names(choice.tree):
            return None
        is_so = stands(choice.tree)
        return None if is_so is None else (is_so, (choice.tree,))

    return all_tested(asked, "true", holds)


def _names(relation: Relation) -> set[str]:
    return {node.name for node in walk(relation) if isinstance(node, Blank)}


def makes(asked: Asked) -> Tested | None:
    """Which expression has a value of 24?"""
    target = expression(asked["n"])
    if target is None:
        return None

    def holds(choice: Choice) -> tuple[bool, tuple[Writing, ...]] | None:
        said = number_of(choice)
        return None if said is None else (value(said) == value(target), (said,))

    return all_tested(asked, "makes", holds, (target,))


def makes_of_words(asked: Asked) -> Tested | None:
    """Which number is four thousand, twelve? Only of a number told in words."""
    return makes(asked) if in_words(asked["n"]) is not None else None


def makes_of_work(asked: Asked) -> Tested | None:
    """As `makes`, of choices with work in them: plain numbers are judged elsewhere.

    Which is equal to 24 is read elsewhere too, where the question does not deny it.
    """
    if asked["same"] and not asked.negated:
        return None
    work = any(isinstance(n, Op) for c in asked.choices if c.tree for n in walk(c.tree))
    return makes(asked) if work else None


def solves(asked: Asked) -> Tested | None:
    """Which number is a solution of x + 3 > 10?"""
    relation = written(asked["rel"])
    if not isinstance(relation, Relation) or len(_names(relation)) != 1:
        return None
    if asked.found.groupdict().get("x") and asked["x"] not in _names(relation):
        return None

    def holds(choice: Choice) -> tuple[bool, tuple[Writing, ...]] | None:
        said = number_of(choice)
        is_so = None if said is None else stands(relation, value(said))
        return None if said is None or is_so is None else (is_so, (said,))

    return all_tested(asked, "solves", holds, (relation,))


def solved_by(asked: Asked) -> Tested | None:
    """Which equation is true when n = 5?"""
    number = expression(asked["n"])
    if number is None:
        return None

    def holds(choice: Choice) -> tuple[bool, tuple[Writing, ...]] | None:
        if not isinstance(choice.tree, Relation) or _names(choice.tree) != {asked["x"]}:
            return None
        is_so = stands(choice.tree, value(number))
        return None if is_so is None else (is_so, (choice.tree,))

    return all_tested(asked, "solves", holds, (number,))


def signs(asked: Asked) -> Tested | None:
    """Which sign makes it true: 3/8 □ 1/2?"""
    left, right = expression(asked["a"]), expression(asked["b"])
    if left is None or right is None or asked.negated:
        return None

    def holds(choice: Choice) -> tuple[bool, tuple[Writing | str, ...]] | None:
        if choice.text in "+-−–×÷*/":
            return False, (choice.text,)
        if choice.text not in _SIGNS:
            return None
        return STANDS[choice.text](value(left), value(right)), (choice.text,)

    return all_tested(asked, "sign", holds, (left, right))


_STAND_INS = tuple(map(Fraction, (2, 3, 5, 7, 11, -4, 13)))
"""Numbers put in for a letter: work of a low degree that makes the same of all is the same."""


def same_for_every(asked: Asked) -> Tested | None:
    """Which expression is equivalent to 3(x + 4)? Number after number is put in for the letter."""
    tree = written(asked["n"])
    if tree is None or isinstance(tree, Relation) or len(_letters(tree)) != 1:
        return None

    def holds(choice: Choice) -> tuple[bool, tuple[Writing, ...]] | None:
        said = choice.tree
        if said is None or isinstance(said, Relation) or not _letters(said) <= _letters(tree):
            return None
        with suppress(ExactError):
            return all(value(said, n) == value(tree, n) for n in _STAND_INS), (said,)
        return None

    return all_tested(asked, "equivalent", holds, (tree,))


def _letters(tree: Expr) -> set[str]:
    return {node.name for node in walk(tree) if isinstance(node, Blank)}


_STEP = re.compile(
    r"(?:(?P<add>add|subtract) (?P<n>[\d.,/]+) (?:to|from)|(?P<by>multiply|divide)) both sides"
    r"(?: of the equation)?(?: by (?P<m>[\d.,/]+))?",
    re.IGNORECASE,
)
_DONE: dict[str, Operation] = {"add": "+", "subtract": "−", "multiply": "×", "divide": "÷"}
_UNDOES = {"+": "−", "−": "+", "×": "÷", "÷": "×"}


def steps(asked: Asked) -> Tested | None:
    """Which step finds the value of a in 6a = 72? The one that leaves the letter alone."""
    relation = written(with_times(asked["rel"]))
    if not isinstance(relation, Relation) or len(_names(relation)) != 1 or asked.negated:
        return None
    match relation:
        case Relation("=", (Op(sign, Blank(), known) | Op("+" | "×" as sign, known, Blank()), end)):
            pass
        case _:
            return None
    if _names(Relation("=", (known, end))):
        return None

    def holds(choice: Choice) -> tuple[bool, tuple[Writing, ...]] | None:
        found = _STEP.fullmatch(choice.text.strip(" ."))
        number = expression(found["n"] or found["m"] or "") if found else None
        if found is None or number is None:
            return None
        done = _DONE[(found["add"] or found["by"]).lower()]
        alone = done == _UNDOES[sign] and value(number) == value(known)
        return alone, (Op(done, relation.sides[0], number), Op(done, relation.sides[1], number))

    return all_tested(asked, "step", holds, (relation,))


_ANGLES = {
    "acute": (0, 90), "right": (90, 90), "obtuse": (90, 180), "straight": (180, 180),
    "reflex": (180, 360),
}  # fmt: skip
"""Between which degrees an angle of a kind lies, or which it has (CCSSM 2010, 4.G.A.1)."""


def angles(asked: Asked) -> Tested | None:
    """An angle measures 112°. Which type of angle is it?"""
    size = int(asked["n"])

    def holds(choice: Choice) -> tuple[bool, tuple[Writing | str, ...]] | None:
        words = choice.text.lower().rstrip(".").split()
        name = next((word for word in words if word in _ANGLES), None)
        if name is None or not 0 < size < 360:
            return None
        low, high = _ANGLES[name]
        is_so = low < size < high or low == size == high
        return is_so, (name, Whole(low), Whole(high))

    return all_tested(asked, "angle", holds, (Whole(size),))


_OF_PAIR: dict[str, Callable[[Fraction, Fraction], Fraction | None]] = {
    "sum": lambda a, b: a + b,
    "difference": lambda a, b: abs(a - b),
    "product": lambda a, b: a * b,
    "quotient": lambda a, b: a / b if b else None,
}
_SIGN_OF = {"sum": "+", "difference": "−", "product": "×", "quotient": "÷"}


def pairs(asked: Asked) -> Tested | None:
    """Which two numbers have a sum of 15?"""
    target, name = expression(asked["n"]), asked["of"]
    if target is None:
        return None

    def holds(choice: Choice) -> tuple[bool, tuple[Writing, ...]] | None:
        both = listed(choice.text) if choice.tree is None else None
        if both is None or len(both) != 2:
            return None
        first, second = both
        if name == "difference" and value(first) < value(second):
            first, second = second, first
        made = _OF_PAIR[name](value(first), value(second))
        tree = Op(_SIGN_OF[name], first, second)  # type: ignore[arg-type]
        return None if made is None else (made == value(target), (tree,))

    return all_tested(asked, "makes", holds, (target,))


def ratios(asked: Asked) -> Tested | None:
    """Which ratio is not equivalent to 4:6?"""
    target = expression(asked["n"])
    if not isinstance(target, Frac):
        return None

    def holds(choice: Choice) -> tuple[bool, tuple[Writing, ...]] | None:
        said = number_of(choice)
        if not isinstance(said, Frac):
            return None
        return value(said) == value(target), (Relation("=", (said, target)),)

    return all_tested(asked, "true", holds)


def proportions(asked: Asked) -> Tested | None:
    """Which pair of ratios can form a proportion?"""

    def holds(choice: Choice) -> tuple[bool, tuple[Writing, ...]] | None:
        if isinstance(choice.tree, Relation):
            both: tuple[Expr, ...] | None = choice.tree.sides
        else:
            both = listed(choice.text)
        if both is None or len(both) != 2:
            return None
        equal = stands(Relation("=", both))
        return None if equal is None else (equal, (Relation("=", both),))

    return all_tested(asked, "true", holds)
