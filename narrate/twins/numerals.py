"""The numerals of a text, and a text with others in their places."""

from __future__ import annotations

import re
from collections.abc import Iterator, Mapping
from dataclasses import fields, is_dataclass, replace
from typing import TypeVar

from narrate.errors import ExactError
from narrate.exact import prose
from narrate.exact.caption import write
from narrate.exact.parser import parse_expr
from narrate.exact.tree import Decimal, Frac, Mixed, Whole

Numeral = Whole | Frac | Mixed | Decimal

NUMBER_WORD = re.compile(
    r"\b(?:two|three|four|five|six|seven|eight|nine|ten|eleven|twelve|twenty|hundred|thousand"
    r"|half|halves|thirds?|fourths?|quarters?|fifths?|sixths?|eighths?|tenths?|twelfths?"
    r"|twice|double|triple|thrice|dozen|couple|pair)\b",
    re.IGNORECASE,
)
"""A number in words, which cannot be exchanged; `one` most often counts nothing."""

_NAMES = re.compile(r"\b(?:grade|room|class|question|page|number|no\.|part)\s*$", re.IGNORECASE)
"""What stands before a number that is a name."""

_NUMERAL = re.compile(r"(?:\d+\s+)?\d+\s*/\s*\d+|\d[\d,]*(?:\.\d+)?|\.\d+")


def numerals_of(text: str) -> Iterator[Numeral]:
    """The numerals of a text where it is mathematics, in order."""
    yield from (numeral for _, _, numeral in _found(text))


def numerals_put(text: str, fresh: Mapping[Numeral, Numeral]) -> str:
    """The text with other numerals in the places of those that have one."""
    pieces, at = [], 0
    for start, end, numeral in _found(text):
        if numeral in fresh:
            pieces += [text[at:start], write(fresh[numeral])]
            at = end
    return "".join([*pieces, text[at:]])


def _found(text: str) -> Iterator[tuple[int, int, Numeral]]:
    for run in prose.read(text):
        if isinstance(run.piece, str):
            continue
        for match in _NUMERAL.finditer(text, run.start, run.end):
            try:
                numeral = parse_expr(match.group())
            except ExactError:
                continue
            is_name = _NAMES.search(text, 0, match.start()) is not None
            if isinstance(numeral, Numeral) and not is_name:
                yield match.start(), match.end(), numeral


Tree = TypeVar("Tree")


def replaced(tree: Tree, fresh: Mapping[Numeral, Numeral]) -> Tree:
    """The tree with other numerals in the places of those that have one."""
    if isinstance(tree, Numeral):
        return fresh.get(tree, tree)  # type: ignore[return-value]
    if isinstance(tree, tuple):
        return tuple(replaced(each, fresh) for each in tree)  # type: ignore[return-value]
    if not is_dataclass(tree) or isinstance(tree, type):
        return tree
    return replace(tree, **{f.name: replaced(getattr(tree, f.name), fresh) for f in fields(tree)})
