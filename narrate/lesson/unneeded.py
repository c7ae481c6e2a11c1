"""What is told in a story and not needed for its answer: said, and struck thinly on the page."""

from __future__ import annotations

from collections.abc import Iterator
from itertools import pairwise
from typing import Any

from narrate.exact import prose
from narrate.exact.tree import Decimal, Money, Sayable, Whole
from narrate.lesson.solved import SolvedPart


def not_needed(solved: SolvedPart) -> dict[str, Any]:
    """The amounts that are not needed, each as words and numbers in turn; {} where all are."""
    told = [t.text for t in solved.reading.tellings if t.role == "extra"]
    if not told or solved.reading.goal.form != "value":
        return {}
    return {"amounts": tuple(tuple(_in_dollars(text)) for text in told)}


def _in_dollars(text: str) -> Iterator[str | Sayable]:
    """The words and numbers of a text, dollars with their sign."""
    pieces = ("", *prose.pieces(text))
    for before, piece in pairwise(pieces):
        coin = isinstance(before, str) and before.endswith("$")
        if coin and isinstance(piece, Whole | Decimal):
            yield Money(piece)
        else:
            yield piece.removesuffix("$") if isinstance(piece, str) else piece
