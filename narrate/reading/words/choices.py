"""Whether one of an item's choices holds a value."""

from __future__ import annotations

import re
from collections.abc import Sequence
from contextlib import suppress
from fractions import Fraction

from narrate.errors import ExactError
from narrate.exact.tree import Relation, value
from narrate.items.spelled import of_place, spelled
from narrate.reading.words.arithmetic import read_arithmetic
from narrate.reading.words.tokens import tokens

_REMAINDER = re.compile(r"(\d[\d,]*)\s*(?:remainder|r)\s*\d+", re.IGNORECASE)


def held_by(wanted: Fraction, choices: Sequence[str]) -> bool:
    """Whether any choice is a number of this value, with or without its unit."""
    return any(wanted in _values(choice) for choice in choices)


def amounts_of(choices: Sequence[str]) -> list[Fraction]:
    """The values of choices that are numbers, a percent as hundredths; those of others left out."""
    found = [(min(values), values) for c in choices if (values := _values(c))]
    return [least if len(values) > 1 else values.pop() for least, values in found]


def _values(choice: str) -> set[Fraction]:
    """The values a choice may stand for: a number, a percent also as hundredths, an expression.

    5 thousands are the number that they are told by, 5: what they are worth is no choice.
    """
    if _REMAINDER.search(choice):
        return set()
    worked = read_arithmetic(choice)
    if worked is not None:
        return {worked.value}
    said = None if of_place(choice.strip()) is not None else spelled(choice)
    if said is not None and not isinstance(said, Relation):
        with suppress(ExactError):
            return {value(said)}
    numbers = [
        token
        for token in tokens(re.sub(r"(\d+) over (\d+)", r"\1/\2", choice))
        if token.kind == "n"
    ]
    if len(numbers) != 1:
        return set()
    below_zero = re.match(r"\s*[-−–]\s?[$\d.]", choice) is not None
    size = -numbers[0].value if below_zero else numbers[0].value
    return {size, size / 100} if numbers[0].sort == "percent" else {size}
