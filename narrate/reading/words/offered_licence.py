"""Which lines the words of a story license: a row for the shape of a line and what must be so.

A shape that stands in no row is not offered: of products, shares, percents, parts of a set, areas
and longer chains that are declined, too many lines were wrong. What must be so of sums, groups,
parts and relations stands in modules of their own (`offered_sum_licence` ...).
"""

from __future__ import annotations

import re
from collections.abc import Callable

from narrate.reading.words.offered_amounts import LENGTHS
from narrate.reading.words.offered_group_licence import (
    both_each,
    containers,
    groups_taken,
    joined_containers,
    pairs,
)
from narrate.reading.words.offered_kinds import holds, of_all, two_parts
from narrate.reading.words.offered_part_licence import COMPARED, part_left, percent_on
from narrate.reading.words.offered_relation_licence import COMPOSED, both_sides, one_side
from narrate.reading.words.offered_shape import Offer, fits
from narrate.reading.words.offered_sum_licence import TOTAL, chain_stands, sum_stands
from narrate.reading.words.plain import word_set


def licensed(made: Offer) -> bool:
    """Whether the words of the story license the line."""
    if made.story.says("each|every|per") and not re.search("each|groups|÷", made.shape):
        return False
    return any(fits(made.shape, shape) and stands(made) for shape, stands in _ROWS)


def _rate_for_others(made: Offer) -> bool:
    """Whether so much for so many leads to how much for others."""
    story = made.story
    plain = made.of("amount")
    beside = story.asks(f"left|remain\\w*|than|more|fewer|percent|{TOTAL}") or story.says(COMPARED)
    timed = story.head in _TIMES and story.says("lasts?|same|such|feeds?|enough|together|would")
    beside = beside or timed or story.says("shar\\w+|more|then") or any(a.told.more for a in plain)
    some = any(a.told.partitive for a in plain) or story.says("of (?:the(?:m|se)|those|which|whom)")
    moved = story.says("gave|gives?|lost|left|same") or story.asks("faster|slower|cheaper")
    return not (beside or some or moved) and len({id(a) for a in plain}) == len("abc")


_TIMES = word_set("second minute hour day week month year")


def _side(made: Offer) -> bool:
    beside = made.story.says("each|shar\\w+|divid\\w+|split|extend\\w*|equal\\w*|fence")
    return made.story.asks("long|length|wide|width|side|deep|height|tall") and not beside


def _lawn_left(made: Offer) -> bool:
    """Whether an area is told that is no part of what is left of two lengths."""
    plain = made.of("amount")
    compared = made.story.query.sign or made.story.asks("than|larger|smaller|more|less")
    lengths = len(plain) == len("ab") and all(a.unit in LENGTHS for a in plain) and not compared
    return lengths and made.story.asks("left|rest|remain\\w*|not")


def _not_so(made: Offer) -> bool:
    """Whether some of all are told, and the fraction of the others is asked for."""
    plain = made.of("amount")
    story = made.story
    some = any(a.told.partitive or a.told.before for a in plain)
    changed = story.says(r"increas\w*|decreas\w*|fell|rose|more|less|lost|bought|sold")
    return some and not changed and len(plain) == len("ab")


def _range(made: Offer) -> bool:
    return made.story.asks("range")


def _two_of_whole(made: Offer) -> bool:
    """Whether two that make a whole differ by so much, and it is said which one is asked for."""
    (amount,) = made.of("amount")
    story = made.story
    whole = (of_all(story, amount) and not story.asks(TOTAL)) or amount.told.total
    whole = whole or holds(story, "halved")
    if any(len(a.told.other & amount.told.who) > 1 for a in made.amounts):
        return False
    if story.says(COMPOSED.replace("between them", "-")) or story.asks("more|fewer|less|than"):
        return False
    return whole and two_parts(made.story) is not None


_ROWS: tuple[tuple[str, Callable[[Offer], bool]], ...] = (
    (r"amount [+−] amount", sum_stands),
    (r"amount − amount \+ amount", chain_stands),
    (r"amount − amount", _range),
    (r"amount ÷ each", containers),
    (r"\(amount(?: \+ amount)+\) ÷ each", joined_containers),
    (r"groups × each − amount|amount − groups × each(?: − groups × each)*", groups_taken),
    (r"groups × each [+−] groups × each", pairs),
    (r"groups × \(each [+−] each\)", both_each),
    (r"1 − amount/amount", _not_so),
    (r"amount(?: − part × amount)+", part_left),
    (r"amount \+ percent × amount", percent_on),
    (r"amount − (?:more|fewer)", one_side),
    (r"amount \+ (?:amount [+−] (?:more|fewer)|amount ÷ into)", both_sides),
    (r"\(amount [+−] (?:more|fewer)\) ÷ 2|amount ÷ \((?:times|into) \+ 1\).*", _two_of_whole),
    (r"amount ÷ amount × amount", _rate_for_others),
    (r"area ÷ amount", _side),
    (r"amount × amount − area", _lawn_left),
)
"""The shapes of lines, each with what the words must say for it."""
