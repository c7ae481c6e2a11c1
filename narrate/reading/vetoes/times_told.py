"""So many times as much, which counts nothing by itself: twice that many is no two."""

from __future__ import annotations

import re

from narrate.exact.tree import Expr
from narrate.reading.vetoes.row import Row, Rows
from narrate.reading.vetoes.summed import is_number, sums, worth
from narrate.reading.vetoes.told_numbers import SO_MANY, found_all, read_number

_TIMES = re.compile(
    rf"\b(?:(?P<once>twice|thrice)|(?P<n>{SO_MANY}) times)"
    r" (?:as (?:much|many)|th(?:at|is|e) (?:much|many|number|amount))\b"
)
_ONCE = {"twice": "2", "thrice": "3"}


def takes_times_for_so_many(story: str, question: str, tree: Expr | None) -> bool:
    """Whether a sum holds as an amount what only says how many times as much: 60 − 14 − 2."""
    text = f"{story} {question}"
    said = {read_number(_ONCE.get(t["once"], "") or t["n"]) for t in found_all(_TIMES, text)}
    if not said:
        return False
    own = {read_number(number) for number in re.findall(SO_MANY, _TIMES.sub(" ", text))}
    joined = [{worth(term) for _, term in terms if is_number(term)} for terms in sums(tree)]
    bare = {each for amounts in joined if 1 not in amounts for each in amounts}
    return bool(bare & (said - own))  # 3 + 1 are the equal parts of one and of 3 times as much


ROWS: Rows = (
    Row(
        takes_times_for_so_many,
        "so many times as much is no amount",
        "times|twice|thrice",
    ),
)
