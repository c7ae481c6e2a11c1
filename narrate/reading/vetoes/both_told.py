"""What is told of two together: a total of both, a price that is so much dearer, a first hour."""

from __future__ import annotations

import re

from narrate.exact.tree import Expr
from narrate.reading.vetoes.row import Row, Rows
from narrate.reading.vetoes.summed import numbers, operations, sums, worth
from narrate.reading.vetoes.told_numbers import NUMBER, found_all, read_number

_OF_BOTH = re.compile(
    rf"({NUMBER})(?: [a-z]+){{0,4}}? (?:were|was|are|is|lie|stand|belong)\b"
    r"[^.?!]*?\b(?:by|in|on|to|into)\b [^.?!]*?\band\b"
)
_PAID_FOR_BOTH = re.compile(
    r"\band\b[^.?!]*?\b(?:bought|ordered|paid)\b"
    rf"[^.?!]*?\$({NUMBER}) (?:in all|altogether|in total)"
)
_DIFFER = re.compile(r"\b(?:more|fewer|less|dearer|cheaper)\b[^.?!]*\bthan\b")
_TIMES = re.compile(r"\b(?:twice|times|half) as (?:many|much)\b")


def takes_both_for_one(story: str, question: str, tree: Expr | None) -> bool:
    """Whether what two made together is taken for what one of them made."""
    used = {*numbers(tree)}
    for pattern in (_OF_BOTH, _PAID_FOR_BOTH):
        for found in found_all(pattern, story):
            if read_number(found[1]) not in used:
                continue
            told = story[found.end() :] + question
            if _DIFFER.search(told) and "÷" not in operations(tree):
                return True
            if _TIMES.search(told) and not _has_one_more(tree):
                return True
    return False


def _has_one_more(tree: Expr | None) -> bool:
    """Whether work has the equal parts of one and of so many times as much: 2 + 1."""
    return any(worth(term) == 1 for terms in sums(tree) for _, term in terms)


_DEARER = re.compile(rf"\$({NUMBER}) (?:dearer|cheaper|more expensive)\b")
_PAID = re.compile(r"\b(?:both|all|altogether|total|spend|spent|pay|paid|earn|change)\b")


def pays_the_difference(story: str, question: str, tree: Expr | None) -> bool:
    """Whether by how much one is dearer is paid as if it were the price of the other."""
    used = [*numbers(tree)]
    differences = {read_number(found[1]) for found in found_all(_DEARER, story)}
    asked = _PAID.search(question) is not None
    return asked and not differences.isdisjoint(used) and len(used) == len(set(used))


_FURTHER = re.compile(r"\$[^.?!]*\b(?:each|every) (?:further|additional|extra|other)\b")


def counts_the_first_again(story: str, question: str, tree: Expr | None) -> bool:
    """Whether the price of every further hour is paid for the first, too."""
    del question
    return _FURTHER.search(story) is not None and "−" not in operations(tree)


_TWO_PRICES = re.compile(
    rf"\bcosts? \$({NUMBER}) (?:for|at) [a-z ]+? and \$({NUMBER}) (?:for|at)\b"
)


def adds_two_prices(story: str, question: str, tree: Expr | None) -> bool:
    """Whether the prices of one of each kind are added where so many of each are asked."""
    del question
    joined = [{worth(term) for _, term in terms} for terms in sums(tree)]
    return any(
        {read_number(found[1]), read_number(found[2])} <= each
        for found in found_all(_TWO_PRICES, story)
        for each in joined
    )


ROWS: Rows = (
    Row(takes_both_for_one, "the amount is of both together", "than|as many|as much"),
    Row(pays_the_difference, "an amount tells only by how much something is dearer", "er |expens"),
    Row(
        counts_the_first_again,
        "only what is further costs so much",
        "further|additional|extra|other",
    ),
    Row(adds_two_prices, "there may be more than a single one of each", "$"),
)
