"""What nobody counted: a bag of some, how full it was, and a part that is as much as another."""

from __future__ import annotations

import re

from narrate.exact.tree import Expr
from narrate.reading.vetoes.row import Row, Rows
from narrate.reading.vetoes.summed import factors, operations, sums, worth
from narrate.reading.vetoes.told_numbers import NUMBER, read_number

_HOLDER = r"(?:bag|box|basket|crate|jar|pack|packet|sack|bunch|handful|bowl|pile|tin)"
_BAG = re.compile(rf"(?:,|\band) an? {_HOLDER} of (?:[a-z]+ )?[a-z]+(?=[.,;])")
_HELD = re.compile(rf"\b(?:each|every|the|a) {_HOLDER}\b[^.?!]*\d")
_ALL = re.compile(r"\b(?:altogether|in all|in total|total)\b")


def counts_without_a_bag(story: str, question: str, tree: Expr | None) -> bool:
    """Whether all are asked for, and some are in a bag of which nobody told how many it holds."""
    bag = _BAG.search(story)
    if bag is None or "+" not in operations(tree) or _ALL.search(question) is None:
        return False
    return _HELD.search(story[bag.end() :]) is None and "$" not in story


_WHEN_FULL = re.compile(
    rf"\b(?:holds?|takes?) (?P<n>{NUMBER}) [a-z]+(?: of [a-z]+)? when (?:it is )?full"
)


def takes_from_the_full(story: str, question: str, tree: Expr | None) -> bool:
    """Whether something is taken from what there would be, were it full: nobody says that it is."""
    found = _WHEN_FULL.search(story)
    if found is None or "full" in story[: found.start()] + story[found.end() :] + question:
        return False
    room, left = read_number(found["n"]), re.search(r"\b(?:left|remain\w*|still)\b", question)
    joined = any(sign > 0 and worth(term) == room for terms in sums(tree) for sign, term in terms)
    return joined and left is not None


_PART_IS = re.compile(
    r"\b(?:half|thirds?|fourths?|quarters?|fifths?|sixths?|eighths?|tenths?|\d/\d+) of "
    r"[^.?!,]*? (?:is|are|was|were) (?:just |exactly )?as (?:many|much|long|tall|heavy|far) as\b"
)


def takes_a_part_for_all(story: str, question: str, tree: Expr | None) -> bool:
    """Whether a part is taken of what is only that part of another: 2/3 of hers are as many."""
    del question
    below = [each for each in factors(tree) if each is not None and each < 1]
    return "×" in operations(tree) and bool(below) and _PART_IS.search(story) is not None


_HAVE_BOTH = re.compile(
    r"\bhow many\b[^?]*\b(?:ha(?:ve|d|s)|likes?|plays?|chose|do|did|in|to|use|own|wear|brought) "
    r"both\W*$"
)


def adds_those_with_both(story: str, question: str, tree: Expr | None) -> bool:
    """Whether all are added where those who have both are asked for: they are some of each."""
    del story
    return set(operations(tree)) == {"+"} and _HAVE_BOTH.search(question) is not None


ROWS: Rows = (
    Row(adds_those_with_both, "those who have both are some of each", "both"),
    Row(counts_without_a_bag, "it is not told how many are in it", " of "),
    Row(takes_from_the_full, "it is not told that it was full", "full"),
    Row(takes_a_part_for_all, "what is told is only a part of what is asked", " as "),
)
