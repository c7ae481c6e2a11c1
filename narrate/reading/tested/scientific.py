"""Scientific notation tested: a number from 1 to below 10, times a power of ten (8.EE.A.4)."""

from __future__ import annotations

import re

from narrate.exact.tree import Expr, Op, Writing, value
from narrate.items.item import Choice
from narrate.reading.demands import Tested
from narrate.reading.tested.said import Asked, all_tested, expression, number_of

_WRITTEN = re.compile(r"\d+(?:\.\d+)? ?[×x*·] ?10(?:\^ ?\(?[−–-]?\d{1,2}\)?|⁻?[⁰¹²³⁴⁵⁶⁷⁸⁹]+)")


def scientific(asked: Asked) -> Tested | None:
    """How is 56,000 written in scientific notation?"""
    number = expression(asked["n"])
    if number is None or value(number) <= 0:
        return None

    def holds(choice: Choice) -> tuple[bool, tuple[Writing, ...]] | None:
        said = number_of(choice)
        if said is None or not _WRITTEN.fullmatch(choice.text.strip()):
            return None
        return 1 <= value(first_of(said)) < 10 and value(said) == value(number), (said,)

    return all_tested(asked, "scientific", holds, (number,))


def first_of(tree: Expr) -> Expr:
    """The number that stands before the power of ten."""
    return tree.left if isinstance(tree, Op) else tree
