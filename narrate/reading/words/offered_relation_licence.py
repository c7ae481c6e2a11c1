"""Which lines of more, fewer and times as many the words license."""

from __future__ import annotations

import re

from narrate.reading.words.lexicon import UNITS, one
from narrate.reading.words.offered_amounts import Amount
from narrate.reading.words.offered_kinds import of_all
from narrate.reading.words.offered_part_licence import SMALL
from narrate.reading.words.offered_shape import Offer
from narrate.reading.words.offered_sum_licence import KINDS, asks_all


def _anchored(made: Offer) -> bool:
    """Whether the amount that is told is that of one of the two who are compared."""
    story = made.story
    (amount,) = made.of("amount")
    relation = next(a for a in made.amounts if a.role in _RELATIONS)
    if amount.told.total or of_all(story, amount) or story.says(COMPOSED):
        return False
    if not _is_of_kind(made, amount, relation):
        return False
    q = relation.told
    mine, other = (
        frozenset(one(w) for w in words) - SMALL
        for words in (q.who | q.around | frozenset(q.thing), q.other)
    )
    told = amount.told.who | amount.names | amount.told.around | amount.told.to
    sides = (mine ^ other) - UNITS
    linked = re.search(r"\b(?:which|that|this|it|these|those) (?:is|was|are|were)\b", story.text)
    if mine - other & told and other - mine & told and amount.told.who & mine & other:
        return False
    compared = (relation.names | relation.told.other) - {"time"}
    if compared and amount.names & KINDS and not amount.names & compared:
        return False
    if (mine - other) & amount.told.who and (other - mine) & amount.told.who:
        return False
    if told & sides or (not other and amount.told.start < relation.told.start):
        return True
    return bool(linked) and not other & {one(w) for w in amount.names}


def _is_of_kind(made: Offer, amount: Amount, relation: Amount) -> bool:
    """Whether what is asked for is what the amount or the relation counts."""
    story = made.story
    names = amount.names | relation.names | relation.told.other
    return not story.head or story.head in names | UNITS | KINDS


_RELATIONS = ("more", "fewer", "times", "into")
COMPOSED = (
    r"(?:more|less|fewer) than (?:twice|half|\w+ times|\d+ times|that|thrice)|between them"
    r"|times (?:less|fewer|smaller|shorter)|difference"
    r"|\d/\d times more"
)


def one_side(made: Offer) -> bool:
    """Whether one of the two who are compared is asked about, and not both."""
    story = made.story
    relation = next(a for a in made.amounts if a.role in _RELATIONS)
    (amount,) = made.of("amount")
    if amount.told.lead == "than":
        return not asks_all(story)
    shared = amount.told.who & relation.told.who
    both = story.asks("both|one of each|of each|until|than|area|around") or asks_all(story)
    if both or (story.asks("they") and not shared) or not _anchored(made):
        return False
    known = amount.told.who | amount.told.around | amount.names
    side = relation.told.who | relation.told.other | frozenset(relation.told.thing)
    side = (side | relation.told.around) - (known if not shared else amount.names | shared)
    asked = story.query.words | {story.head, *story.query.thing}
    if not relation.told.other and story.says(r"(?:that|this|which|it) (?:is|was)"):
        return bool(asked - known - UNITS - {story.query.verb})
    side |= relation.told.to
    return bool(side & asked - UNITS) or story.asks(r"last|yesterday|first|second|next|this")


def both_sides(made: Offer) -> bool:
    """Whether the two who are compared are asked for together."""
    story = made.story
    both = story.asks("both|they|one of each|everything|siblings") or asks_all(story)
    return both and _anchored(made) and not story.query.sign and not story.asks("than|difference")
