"""What is in one place is not what is in another, and what is moved neither comes nor goes."""

from __future__ import annotations

import re
from collections.abc import Sequence
from itertools import permutations

from narrate.exact.tree import Expr, Op
from narrate.reading.vetoes.row import Row, Rows
from narrate.reading.vetoes.summed import Term, sums, worth
from narrate.reading.vetoes.told_numbers import FIGURES, NUMBER, found_all, read_number
from narrate.reading.words.lexicon import TIMES
from narrate.reading.words.plain import word_set

_MOVED = re.compile(r"\b(?:moves?|moved|transfers?|transferred|shifts?|shifted)\b[^.?!]*\bfrom\b")
_IN_ALL = re.compile(r"\b(?:in all|altogether|in total|total)\b")


def counts_what_was_moved(story: str, question: str, tree: Expr | None) -> bool:
    """Whether some were moved from place to place, and all are asked for, or one of two places."""
    text = story + question
    moved = _MOVED.search(text) if isinstance(tree, Op) else None
    if moved is None:
        return False
    before = re.findall(NUMBER, text[: moved.start()])
    return _IN_ALL.search(question) is not None or len(before) > 1


_PLACE = re.compile(
    r"\b(?:in|on|at|inside) (?:the|an?|his|her|their|another|one) ((?:[a-z]+ )?[a-z]+)"
)
_NO_PLACE = TIMES | word_set("end start beginning first same other way total all store shop market")
_ADDED = re.compile(rf"{NUMBER} (?:[a-z]+ )?(?:more|fewer|less|extra|additional|other)\b")


def pools_two_places(story: str, question: str, tree: Expr | None) -> bool:
    """Whether amounts of two places are joined where the question names only one of them."""
    return any(_pools(story, question, terms) for terms in sums(tree))


def _pools(story: str, question: str, terms: Sequence[Term]) -> bool:
    worths = {worth(term) for _, term in terms}
    found = found_all(FIGURES, story)
    places: list[frozenset[str]] = []
    for at, number in enumerate(found):
        end = found[at + 1].start() if at + 1 < len(found) else len(story)
        told = re.split(r"[.?!;]\s", story[number.start() : end])[0]
        named = _places(told)
        if named and read_number(number[0]) in worths and not _ADDED.match(told):
            places.append(named)
    asked = _places(question)
    return any((a - b) & asked and not (b - a) & asked for a, b in permutations(places, 2))


def _places(text: str) -> frozenset[str]:
    words = {word for found in found_all(_PLACE, text) for word in found[1].split()}
    return frozenset(words) - _NO_PLACE


ROWS: Rows = (
    Row(counts_what_was_moved, "what is moved neither comes nor goes", "mov|transfer|shift"),
    Row(
        pools_two_places,
        "what is in one place is not what is in another",
        " in | on | at |inside",
    ),
)
