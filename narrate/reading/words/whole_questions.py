"""What rows of whole questions about numbers are made of: their numbers, and the row itself."""

from __future__ import annotations

import re
from collections.abc import Callable
from contextlib import suppress
from dataclasses import dataclass
from fractions import Fraction

from narrate.errors import ExactError
from narrate.exact.parser import parse_expr
from narrate.exact.tree import Expr, value

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


ASKS = r"(?:what (?:is|was)|find|calculate|determine)"
UNIT = r"(?: ?(?:square |cubic )?[a-z]+)?"


def in_plain_digits(text: str) -> str:
    """A number without its commas and its dollar sign."""
    return text.replace(",", "").replace("$", "")


def worked(form: str, *numbers: str) -> Expr | None:
    """What a form makes of numbers as they are written, None where it goes below zero."""
    made = parse_expr(form.format(*map(in_plain_digits, numbers)))
    with suppress(ExactError):
        return made if value(made) >= 0 else None
    return None


def work(form: str) -> Callable[[re.Match[str]], Expr | None]:
    """The rule that puts the numbers of a question into a form, in their order."""
    return lambda found: worked(form, *(group for group in found.groups() if group))
