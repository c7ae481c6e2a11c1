"""What rows of whole questions about numbers are made of: their numbers, and the row itself."""

from __future__ import annotations

import re
from collections.abc import Callable
from dataclasses import dataclass
from fractions import Fraction

from narrate.exact.tree import Expr

ANY = r"(\d+ \d+/[1-9]\d*|\d+/[1-9]\d*|\d[\d,]*(?:\.\d+)?|\.\d+)"
"""A number of any writing, in digits."""
N = r"(-?\$?\d[\d,]*(?:\.\d+)?)"
LIST = r"((?:-?\d+(?:\.\d+)?(?:/\d+)?(?:, ?and |, ?| and )){1,30}-?\d+(?:\.\d+)?(?:/\d+)?)"
ASK = (
    r"(?:(?:what|which(?: (?:number|value|of these|of the following))?) is|find|calculate|give"
    r"|determine|compute|evaluate)(?: the value of)?(?: the)?"
)

Rule = Callable[[re.Match[str]], Fraction | Expr | None]
"""What a question asks of its numbers: a value, or what to work out; None where not certain."""


@dataclass(frozen=True, slots=True)
class Row:
    """A whole question, and what it asks of its numbers.

    `name` is that of a number which is found in steps of its own, such as the median, "" where
    there is none; `why` that of a rule which says what to work out, told before the work.
    """

    question: str
    rule: Rule
    name: str = ""
    why: str = ""


def number(text: str) -> Fraction:
    """The value of a number in digits."""
    *whole, last = text.replace(",", "").replace("$", "").split()
    return Fraction(last) + (Fraction(whole[0]) if whole else 0)


def numbers(text: str) -> list[Fraction]:
    """The values of a list of numbers."""
    return [number(part) for part in re.split(r",? and |, ?", text) if part]
