"""What a text names but tells no number of, so that no reading may go past it.

A pen without a price is not paid for by the price of the notebooks beside it; posts every 5 meters
are one more where both ends have one.
"""

from __future__ import annotations

import re

from narrate.exact.tree import Expr, Op
from narrate.reading.vetoes.row import Row, Rows
from narrate.reading.vetoes.told_numbers import COUNT, NUMBER

_LENGTH = (
    r"(?:(?:kilo|centi)?met(?:er|re)s?|feet|foot|yards?|inch(?:es)?|miles?|k?m|cm|ft|yd|in|mi)"
)
_BOUGHT = re.compile(
    rf"\b(?:buys?|bought|orders?|ordered|chose|picked out)\b[^.?!$]*?\b(?:{COUNT}|some|several) "
    rf"(?:[a-z]+ )?([a-z]+)\b(?:[^.?!]|\.\d)*?(?:,|\band) (?:an?|another|some) "
    rf"((?:(?!at\b|from\b|in\b|on\b|for\b|to\b)[a-z]+ ){{0,2}}?([a-z]+))"
    rf"(?= (?:at|from|in|on|to|yesterday|today)\b|[.?!,])([^.?!]*)"
)
_PAID = re.compile(r"\b(?:altogether|in all|total|spend|spent|pay|paid|cost)\b")


def pays_for_more(story: str, question: str, tree: Expr | None) -> bool:
    """Whether a thing bought beside others has no price, and what all cost is asked."""
    bought = _BOUGHT.search(story)
    if bought is None or "$" in bought[4] or _PAID.search(question) is None:
        return False
    first, thing = bought[1], bought[3]
    behind = story[bought.end() :] + question
    if re.search(rf"\b{re.escape(thing)}\b", behind) or "$" not in story + question:
        return False
    return re.search(rf"\b{re.escape(first.rstrip('s'))}", question) is None


_APART = re.compile(
    rf"\bevery {NUMBER} {_LENGTH}\b|\b{NUMBER} {_LENGTH} (?:apart|from (?:one|each|tree|post))\b"
    rf"|\b{NUMBER} {_LENGTH} between\b|\b(?:each|both|either) ends?\b"
)
_HOW_MANY_THINGS = re.compile(rf"\bhow many (?!{_LENGTH}\b)[a-z]+")
_CLOSED = re.compile(
    r"\b(?:round|around|circle|circular|ring|loop|pieces?|lengths?|gaps?|spaces?)\b"
)


def counts_gaps(story: str, question: str, tree: Expr | None) -> bool:
    """Whether what stands so far apart along a line is counted as the gaps between."""
    text = story + question
    return (
        isinstance(tree, Op)
        and tree.sign == "÷"
        and _APART.search(text) is not None
        and _HOW_MANY_THINGS.search(question) is not None
        and _CLOSED.search(text) is None
    )


ROWS: Rows = (
    Row(pays_for_more, "a price is not told", "$"),
    Row(
        counts_gaps,
        "I cannot tell whether there is one at each end",
        "every|apart|between|end|from",
    ),
)
