"""What a text names but tells no number of, so that no reading may go past it.

A 12-liter bucket does not hold 12 liters until it is full; a pen without a price is not paid for by
the price of the notebooks beside it; posts every 5 meters are one more where both ends have one.
"""

from __future__ import annotations

import re
from fractions import Fraction

from narrate.errors import ExactError
from narrate.exact.tree import Expr, Op, value
from narrate.reading.words.bare_parts import sums

_NUMBER = r"(?:\d[\d,]*(?:\.\d+)?|one|two|three|four|five|six|eight|ten|twelve|twenty)"
_COUNT = rf"(?:{_NUMBER}|an?|some|several)"


def left_untold(story: str, question: str, tree: Expr | None) -> str:
    """Why a reading by this tree goes past something that is not told, "" where it does not.

    `story` and `question` are the text's two parts in small letters.
    """
    if not isinstance(tree, Op):
        return ""
    if any(_is_room(story + question, term) for terms in sums(tree) for term in terms):
        return "what a container can hold is not what is in it"
    if _pays_for_more(story, question):
        return "a price is not told"
    if _counts_gaps(story + question, question, tree):
        return "I cannot tell whether there is one at each end"
    return ""


_CONTAINER = (
    r"(?:bucket|tank|jar|pitcher|jug|barrel|pot|pail|bottle|can|tub|drum|cooler|crate|basin|vat"
    r"|trough|bowl|dispenser|kettle|pan|keg)"
)
_SIZED = re.compile(
    rf"\b(\d[\d,]*(?:\.\d+)?|\d+ \d+/\d+|\d+/\d+)-(?:fluid-)?"
    rf"(?:liters?|litres?|gallons?|quarts?|pints?|cups?|ounces?|milliliters?|millilitres?)"
    rf" (?:[a-z]+ )?{_CONTAINER}\b(?! of\b)"
)
_FULL = re.compile(r"\b(?:full|fills?|filled|filling|room|capacity|empty|overflow\w*|brim)\b")


def _is_room(text: str, term: Expr) -> bool:
    """Whether a term of a sum is the size of a container that is not said to be full."""
    if isinstance(term, Op) or _FULL.search(text):
        return False
    sizes = {_read(size[1]) for size in _SIZED.finditer(text)}
    try:
        return value(term) in sizes
    except ExactError:
        return False


def _read(number: str) -> Fraction:
    return sum((Fraction(part) for part in number.replace(",", "").split()), Fraction(0))


_BOUGHT = re.compile(
    rf"\b(?:buys?|bought|orders?|ordered|chose|picked out)\b[^.?!$]*?\b{_COUNT} "
    rf"(?:[a-z]+ )?([a-z]+)\b(?:[^.?!]|\.\d)*?(?:,|\band) (?:an?|another|some) "
    rf"((?:(?!at\b|from\b|in\b|on\b|for\b|to\b)[a-z]+ ){{0,2}}?([a-z]+))"
    rf"(?= (?:at|from|in|on|to|yesterday|today)\b|[.?!,])([^.?!]*)"
)
_PAID = re.compile(r"\b(?:altogether|in all|total|spend|spent|pay|paid|cost)\b")


def _pays_for_more(story: str, question: str) -> bool:
    """Whether a thing bought beside others has no price, and what all cost is asked."""
    bought = _BOUGHT.search(story)
    if bought is None or "$" in bought[4] or _PAID.search(question) is None:
        return False
    first, thing = bought[1], bought[3]
    behind = story[bought.end() :] + question
    if re.search(rf"\b{re.escape(thing)}\b", behind) or "$" not in story + question:
        return False
    return re.search(rf"\b{re.escape(first.rstrip('s'))}", question) is None


_LENGTH = (
    r"(?:(?:kilo|centi)?met(?:er|re)s?|feet|foot|yards?|inch(?:es)?|miles?|k?m|cm|ft|yd|in|mi)"
)
_APART = re.compile(
    rf"\bevery {_NUMBER} {_LENGTH}\b|\b{_NUMBER} {_LENGTH} (?:apart|from (?:one|each|tree|post))\b"
    rf"|\b{_NUMBER} {_LENGTH} between\b|\b(?:each|both|either) ends?\b"
)
_HOW_MANY_THINGS = re.compile(rf"\bhow many (?!{_LENGTH}\b)[a-z]+")
_CLOSED = re.compile(
    r"\b(?:round|around|circle|circular|ring|loop|pieces?|lengths?|gaps?|spaces?)\b"
)


def _counts_gaps(text: str, question: str, tree: Op) -> bool:
    """Whether what stands so far apart along a line is counted as the gaps between."""
    return (
        tree.sign == "÷"
        and _APART.search(text) is not None
        and _HOW_MANY_THINGS.search(question) is not None
        and _CLOSED.search(text) is None
    )
