"""Which lines the words of a story license: a row for the shape of a line and what must be so.

A shape that stands in no row is not offered. What must be so of sums, groups, parts and relations
stands in modules of their own (`offered_sum_licence` ...).
"""

from __future__ import annotations

import re
from collections.abc import Callable

from narrate.reading.words.offered_amounts import LENGTHS
from narrate.reading.words.offered_group_licence import (
    both_each,
    chained,
    containers,
    groups_and_more,
    groups_taken,
    joined_containers,
    joined_shared,
    pairs,
    product,
    regrouped,
    shared,
)
from narrate.reading.words.offered_kinds import holds, of_all, two_parts
from narrate.reading.words.offered_part_licence import (
    COMPARED,
    REST,
    before_off,
    part,
    part_and_more_left,
    part_left,
    part_of_rest,
    percent,
    percent_off,
    percent_on,
)
from narrate.reading.words.offered_relation_licence import (
    COMPOSED,
    apart,
    both_sides,
    one_side,
)
from narrate.reading.words.offered_shape import Offer, fits
from narrate.reading.words.offered_sum_licence import TOTAL, asks_all, sum_stands
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
    return not beside and len({id(a) for a in plain}) == len("abc")


_TIMES = word_set("second minute hour day week month year")


def _side(made: Offer) -> bool:
    beside = made.story.says("each|shar\\w+|divid\\w+|split|extend\\w*|equal\\w*|fence")
    return made.story.asks("long|length|wide|width|side|deep|height|tall") and not beside


def _two_lengths(made: Offer) -> bool:
    plain = made.of("amount")
    compared = made.story.query.sign or made.story.asks("than|larger|smaller|more|less")
    return len(plain) == len("ab") and all(a.unit in LENGTHS for a in plain) and not compared


def _some_of(made: Offer) -> bool:
    """Whether one amount is some of the other, for a fraction or a percent."""
    plain = made.of("amount")
    story = made.story
    some = any(a.told.partitive or a.told.before for a in plain)
    changed = story.says(r"increas\w*|decreas\w*|fell|rose|more|less|lost|bought|sold")
    return some and not changed and len(plain) == len("ab")


def _times_asked(made: Offer) -> bool:
    """Whether it is asked how many times as much one is as the other."""
    units = {a.unit for a in made.of("amount")}
    return made.story.asks("how many times (?:as|the)") and len(units - {""}) <= 1


def _square(made: Offer) -> bool:
    return made.story.says("square (?!meters?|feet|foot|inch|yards?|cent)") and made.story.asks(
        "perimeter|around"
    )


def _volume(made: Offer) -> bool:
    lengths = all(a.unit in LENGTHS or not a.unit for a in made.of("amount"))
    return lengths and made.story.asks("volume|cubic|fill")


def _lawn_left(made: Offer) -> bool:
    return made.story.asks("left|rest|remain\\w*|not") and _two_lengths(made)


def _batches(made: Offer) -> bool:
    """Whether so much for one batch is asked for several."""
    units = [a.measured for a in made.of("amount")]
    recipe = made.story.says("recipe") and made.story.asks("batch(?:es)?|times")
    return recipe and sorted(units) == [False, True]


def _ways(made: Offer) -> bool:
    return made.story.asks("ways?|combinations?|different") and not made.story.says("alike|split")


def _list(made: Offer) -> bool:
    plain = [a for a in made.amounts if a.told.start < made.story.query.start]
    if made.story.asks("range"):
        return True
    alone = len(plain) == len(made.amounts) and not made.story.says("than|apart|times|across")
    return alone and made.story.asks("mean|average|range")


def _one_share(made: Offer) -> bool:
    return made.story.asks(f"fraction|{REST}") and not made.story.says("of the (?:rest|remain)")


def _parts_joined(made: Offer) -> bool:
    story = made.story
    together = story.asks(TOTAL) or story.query.total
    return together and not story.says("of (?:the )?(?:rest|remain|what|others)")


def _part_of_part(made: Offer) -> bool:
    story = made.story
    left = story.asks(f"{REST}|than|now")
    return holds(story, "of_it") and not asks_all(story) and not left


def _is_that_part(made: Offer) -> bool:
    return holds(made.story, "is_part") and not made.story.asks(f"{REST}|than|other")


def _parts_apart(made: Offer) -> bool:
    return made.story.asks("than|difference|more|less|fewer|-er|change")


def _two_of_whole(made: Offer) -> bool:
    """Whether two that make a whole differ by so much, and it is said which one is asked for."""
    (amount,) = made.of("amount")
    story = made.story
    whole = (of_all(story, amount) and not story.asks(TOTAL)) or amount.told.total
    whole = whole or holds(story, "halved")
    if any(len(a.told.other & amount.told.who) > 1 for a in made.amounts):
        return False
    if story.says(COMPOSED.replace("between them", "-")):
        return False
    return whole and two_parts(made.story) is not None


_ROWS: tuple[tuple[str, Callable[[Offer], bool]], ...] = (
    (r"amount(?: [+−] amount)+", sum_stands),
    (r"(?:groups × each|each × groups)", product),
    (r"amount ÷ each", containers),
    (r"amount ÷ each × 100|amount ÷ amount × 100|amount/amount|1 − amount/amount", _some_of),
    (r"\(amount(?: [+−] amount)+\) ÷ each", joined_containers),
    (r"amount ÷ amount", _times_asked),
    (r"amount ÷ groups|amount ÷ amount", shared),
    (r"amount ÷ (?:part|percent)", _is_that_part),
    (r"part × part", _part_of_part),
    (r"4 × amount", _square),
    (r"amount × amount × amount", _volume),
    (r"amount × amount − area", _lawn_left),
    (r"amount × amount × each|area × each", lambda made: holds(made.story, "by_area")),
    (r"\(amount(?: [+−] amount)+\) ÷ (?:groups|amount)", joined_shared),
    (r"amount \+ groups × each|groups × each \+ amount", groups_and_more),
    (r"amount(?: \+ amount)* \+ groups × each|groups × each(?: \+ amount)+", groups_and_more),
    (r"groups × each − amount|amount − groups × each(?: − groups × each)*", groups_taken),
    (r"groups × each [+−] groups × each", pairs),
    (r"groups × \(each [+−] each\)", both_each),
    (r"(?:groups|each) × each × each|groups × each ÷ each", chained),
    (r"part × amount", part),
    (r"amount(?: − part × amount)+", part_left),
    (r"amount − part × amount − amount", part_and_more_left),
    (r"part × \(amount − part × amount\)", part_of_rest),
    (r"percent × amount", percent),
    (r"amount − percent × amount", percent_off),
    (r"amount \+ percent × amount", percent_on),
    (r"amount ÷ \(1 − percent\)", before_off),
    (r"amount [+−] (?:more|fewer)|times × amount|amount ÷ into", one_side),
    (r"amount \+ (?:amount [+−] (?:more|fewer)|times × amount|amount ÷ into)", both_sides),
    (r"times × amount − amount|amount − amount ÷ into", apart),
    (r"\(amount [+−] (?:more|fewer)\) ÷ 2|amount ÷ \((?:times|into) \+ 1\).*", _two_of_whole),
    (r"amount ÷ amount × amount", _rate_for_others),
    (r"area ÷ amount|round ÷ 4|round ÷ 2 − amount", _side),
    (r"amount × amount|2 × \(amount \+ amount\)", _two_lengths),
    (r"amount × amount(?: × amount)?", _ways),
    (r"amount × amount", _batches),
    (r"groups × each ÷ each", regrouped),
    (r"\(?amount(?: \+ amount)+\)? ÷ \d+|amount − amount", _list),
    (r"1(?: − part)+", _one_share),
    (r"part(?: \+ part)+", _parts_joined),
    (r"part − part", _parts_apart),
)
"""The shapes of lines, each with what the words must say for it."""
