"""Whole questions about two numbers that name the work to do: halfway between, subtracted from."""

from __future__ import annotations

import re
from collections.abc import Callable

from narrate.exact.parser import parse_expr
from narrate.exact.tree import Expr, value
from narrate.reading.words.whole_questions import ANY, ASK, Row

_WHICH = r"which (?:number|value|of these|of the following)"
_ANGLE = rf"{ANY}(?:°| degrees)"


def _work(form: str) -> Callable[[re.Match[str]], Expr | None]:
    """What a form makes of the numbers of a question, None where it goes below zero."""

    def rule(found: re.Match[str]) -> Expr | None:
        made = parse_expr(form.format(*(text.replace(",", "") for text in found.groups())))
        return made if value(made) >= 0 else None

    return rule


_COUNTS = ("one", "two", "three", "four", "five", "six", "seven")
_NAMED = {
    "half": 2, "third": 3, "fourth": 4, "quarter": 4, "fifth": 5, "sixth": 6, "eighth": 8,
    "tenth": 10,
}  # fmt: skip
_COUNT = rf"({'|'.join(_COUNTS)})"
_PARTS = rf"({'|'.join((*_NAMED, *(f'{name}s' for name in _NAMED)))})"


def _part_of(found: re.Match[str]) -> Expr | None:
    """One fourth of 12, two thirds of 3/4: a fraction told in words, of a number."""
    count, parts, of = (text.lower().replace(",", "") for text in found.groups())
    fraction = f"{_COUNTS.index(count) + 1}/{_NAMED[parts.removesuffix('s')]}"
    return parse_expr(f"{fraction} × {of}")


ROWS = (
    Row(
        rf"(?:what|which) number is (?:exactly )?(?:halfway|midway) between {ANY} and {ANY}"
        r"(?: on (?:a|the) number line)?",
        _work("({} + {}) ÷ 2"),
    ),
    Row(
        rf"(?:what|which) number is {ANY} times as (?:great|large|big|much) as {ANY}",
        _work("{} × {}"),
    ),
    Row(
        rf"{ASK} (?:difference|result|number you get) when {ANY} is (?:subtracted|taken away) "
        rf"from {ANY}",
        _work("{1} − {0}"),
    ),
    Row(rf"{ASK} (?:sum|result) when {ANY} is added to {ANY}", _work("{1} + {0}")),
    Row(rf"{ASK} (?:product|result) when {ANY} is multiplied by {ANY}", _work("{} × {}")),
    Row(rf"{ASK} (?:quotient|result) when {ANY} is divided by {ANY}", _work("{} ÷ {}")),
    Row(rf"{_WHICH} is the sum of {ANY} and {ANY}", _work("{} + {}")),
    Row(rf"{_WHICH} is the difference (?:of|between) {ANY} and {ANY}", _work("{} − {}")),
    Row(rf"{_WHICH} is the product of {ANY} and {ANY}", _work("{} × {}")),
    Row(rf"{_WHICH} is the quotient of {ANY} and {ANY}", _work("{} ÷ {}")),
    Row(rf"(?:what is|find) {_COUNT}[ -]{_PARTS} of {ANY}", _part_of),
    Row(
        rf"two (?:of the )?angles (?:of|in) a triangle (?:measure|are) {_ANGLE} and {_ANGLE}[.] "
        r"(?:what is|find) the (?:measure|size) of the (?:third|other|remaining|last) angle",
        _work("180 − {} − {}"),
    ),
)
