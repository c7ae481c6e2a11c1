"""The two sides that a question holds against each other, and the amounts on them."""

from __future__ import annotations

from narrate.reading.words.offered_amounts import Amount
from narrate.reading.words.offered_asked import Told


def sides(told: Told) -> tuple[list[Amount], list[Amount]]:
    """The plain amounts on the two sides of a comparison that is asked for: more figs than nuts."""
    plain = told.of("amount")
    if not told.query.than or len(plain) < 2:
        return [], []
    shared = frozenset.intersection(*(a.told.words | a.names for a in plain))
    own = [(a, (a.told.words | a.names) - shared) for a in plain]
    this, that = told.query.words - told.query.than, told.query.than - told.query.words
    mine = [a for a, words in own if words & this and not words & that]
    return mine, [a for a, words in own if words & that and not words & this]
