"""How a quotient that does not come out even is to be read, where the words have not told yet.

Stories of whole numbers that are read from their words bring their own reading of the remainder
(`words/groups.py`). Here only the question is looked at: where the expression is the teacher's
`model:`, and where there are fractions in it. What asks for whole things and comes to no whole
number of them is refused.
"""

from __future__ import annotations

import re

from narrate.errors import Declined
from narrate.exact.caption import write
from narrate.exact.tree import Decimal, Expr, Frac, Mixed, Op, Whole, value, walk
from narrate.items.item import Part
from narrate.reading.reading import Rounding
from narrate.reading.tellings import question_of
from narrate.reading.words.groups import can_buy
from narrate.reading.words.lexicon import UNITS, one
from narrate.reading.words.plain import word_set

_LEFT = r"\b(?:left over|leftover|left|remain(?:s|ing)?)\b"
_IS_LEFT = r"\b(?:is|are|will be) (?:left|left over|leftover)\s*\?$"
_FULL = r"\b(?:full|complete|whole|entire)\b|\bat most\b|\b(?:greatest|largest|maximum)\b"
_UP = r"\b(?:needs?|needed|must|at least|fewest|least|smallest)\b"
_HOW_MANY = (
    r"\b(?:how many|(?:greatest|largest|maximum|least|smallest) number of) "
    r"(?:(?:more|full|complete|whole|extra|(?P<sized>[\d./ ]*\d[- ][a-z]+)) )?(?P<things>[a-z]+)"
)
_CAN = r"\bcan\b.*\b(?:cut|saw|fill(?:ed)?|made|make|pack(?:ed)?|tied?|sewn?|built|build)\b"
_IN_PART = word_set("servings portions batches groups loads helpings recipes")
"""What may be made in part, so that what can be made need not be whole."""


def rounding_in(expression: Expr, words: str, part: Part) -> Rounding:
    """How the remainder of a quotient is read; "" where there is none, or parts count too.

    Raises Declined where whole things are asked for and the words do not tell.
    """
    if not _leaves_some(expression):
        return ""
    question = question_of(part.ask)
    if _is_of_two(expression) and re.search(_IS_LEFT, question, re.IGNORECASE):
        return "remainder"
    asked = _things_asked(part, question)
    if not asked or _takes_parts(part):
        return ""
    for rounding, pattern in _ROWS:
        if re.search(pattern, question, re.IGNORECASE):
            return rounding
    if asked in _IN_PART and re.search(r"\b(?:is|are)(?: there)? in\b", question):
        return ""
    can = can_buy(question) or re.search(_CAN, question, re.IGNORECASE)
    if asked not in _IN_PART and can:
        return "down"
    raise Declined(
        f"I read {write(expression)}, which leaves a remainder",
        f"ask what is to be done with it, such as “How many {asked} are needed?”, "
        f"“How many full {asked} ...?” or “How many are left over?”",
    )


def refuse_part_of_things(expression: Expr, part: Part) -> None:
    """Raises Declined where a product asks how many things there are and is no whole number."""
    has_product = any(isinstance(node, Op) and node.sign == "×" for node in walk(expression))
    if not has_product or value(expression).denominator == 1 or _takes_parts(part):
        return
    if asked := _things_asked(part, part.ask):
        raise Declined(
            f"I read {write(expression)}, which is no whole number of {asked}",
            "correct the numbers, or give boxes or choices for a fraction if parts count too",
        )


def _things_asked(part: Part, question: str) -> str:
    """What is counted one by one, in a question that asks how many; "" for a measure."""
    asked = re.search(_HOW_MANY, question, re.IGNORECASE)
    if asked is None or asked["things"].lower() in ("times", "square", "cubic"):
        return ""
    return asked["things"] if asked["sized"] or one(asked["things"]) not in UNITS else ""


_ROWS: tuple[tuple[Rounding, str], ...] = (("remainder", _LEFT), ("down", _FULL), ("up", _UP))


def _leaves_some(expression: Expr) -> bool:
    """Whether it is a quotient that does not come out even."""
    quotient = isinstance(expression, Op) and expression.sign == "÷"
    return quotient and value(expression).denominator != 1


def _is_of_two(expression: Expr) -> bool:
    """Whether one number is divided by another, with nothing worked out before."""
    number = Whole | Decimal
    return (
        isinstance(expression, Op)
        and isinstance(expression.left, number)
        and isinstance(expression.right, number)
    )


def _takes_parts(part: Part) -> bool:
    """Whether the answer may be a fraction: its boxes or all choices but whole ones say so."""
    trees = [choice.tree for choice in part.choices if choice.tree is not None]
    parts = sum(isinstance(n, Frac | Mixed | Decimal) for tree in trees for n in walk(tree))
    return "numerator" in part.boxes or (bool(trees) and parts == len(trees))
