"""Patterns of the numbers of a text in small letters, and what they are worth."""

from __future__ import annotations

import re
from collections import Counter
from fractions import Fraction
from functools import lru_cache

NUMBER = r"(?:\d[\d,]*(?:\.\d+)?(?: \d+/\d+|/\d+)?|\.\d+)"
"""A number in figures."""

FIGURES = re.compile(NUMBER)

_IN_WORDS = {
    "one": 1, "two": 2, "three": 3, "four": 4, "five": 5, "six": 6, "seven": 7, "eight": 8,
    "nine": 9, "ten": 10, "eleven": 11, "twelve": 12,
}  # fmt: skip

SO_MANY = rf"(?:{NUMBER}|{'|'.join(_IN_WORDS)})"
"""A number in figures or in a word."""

COUNT = rf"(?:{SO_MANY}|an?)"
"""A number in figures or in a word; one thing."""


def read_number(said: str) -> Fraction:
    """What a number that a pattern found is worth."""
    if said in _IN_WORDS:
        return Fraction(_IN_WORDS[said])
    if said in ("a", "an"):
        return Fraction(1)
    *whole, last = said.replace(",", "").split()
    return Fraction(last) + (Fraction(whole[0]) if whole else 0)


def counted(text: str) -> Counter[Fraction | None]:
    """How often a text tells each number."""
    return Counter(read_number(said) for said in re.findall(rf"\b{COUNT}\b", text))


@lru_cache(maxsize=256)
def found_all(pattern: re.Pattern[str], text: str) -> tuple[re.Match[str], ...]:
    """What a pattern finds in a text; kept, because one text is asked about much work."""
    return tuple(pattern.finditer(text))
