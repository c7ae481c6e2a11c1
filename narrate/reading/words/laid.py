"""What it costs to cover or to go around something whose sides are told, at a price for each unit.

CCSSM (2010) 4.MD.A.3: area and perimeter of rectangles in real situations. A price for a square
metre is one of the area; a price for a metre is one of all the way around, where the story says
that it goes around.
"""

from __future__ import annotations

import re
from collections.abc import Iterator, Sequence

from narrate.exact.tree import Expr, Group, Op, Whole
from narrate.reading.words.facts import Answer, Story, joined, tree_of
from narrate.reading.words.plain import word_set
from narrate.reading.words.quantity import Quantity

_LENGTHS = word_set("inch foot yard mile meter centimeter kilometer millimeter")
_AROUND = re.compile(
    r"\b(?:(?:all )?(?:the way )?(?:a?round)|perimeter|surrounds?|encloses?|to enclose)\b"
)
_BOUND = re.compile(r"\b(?:fenc(?:e|ing)|edging|border|trim|ribbon|rope|netting|railing)\b")
_OTHERWISE = re.compile(
    r"\b(?:half|twice|double|except|without|not|n't|gate|door\w*|already|path|strip|only|one side"
    r"|sides? of (?:the )?(?:house|wall|barn)|against|walls?|another|each of|discount|off|extra"
    r"|tax|both|high|tall|deep|triang\w+|circ\w+|round (?:table|pond|bed|plot))\b"
)


def laid(story: Story) -> Iterator[Answer]:
    """The cost of what covers, or goes around, one rectangle or square."""
    query = story.query
    known = [q for q in story.quantities if q.known]
    prices = [q for q in known if q.money and q.sort == "rate"]
    sides = [q for q in known if q not in prices]
    if not story.money_asked or query.sign or query.than or query.per or len(prices) != 1:
        return
    if _OTHERWISE.search(story.text) or not _are_sides(story, sides, prices[0].per[-1:]):
        return
    measure = _measure(story, sides, prices[0])
    if measure is not None:
        used = (*sides, prices[0])
        tree = joined("×", measure, tree_of(prices[0]))
        yield Answer(tree=tree, used=used, situation="equal groups", unknown="product", said=_DONE)


_DONE = word_set(
    "put lay build go buy fence fencing carpet cover tile turf pave surround enclose edge edging"
)


def _measure(story: Story, sides: Sequence[Quantity], price: Quantity) -> Expr | None:
    """The area or all the way around, by what the price is for; None where neither is told."""
    trees = [tree_of(q) for q in sides]
    square = len(sides) == 1
    if "square" in price.per[:-1]:
        return joined("×", trees[0], trees[-1])
    if len(price.per) != 1 or not (_AROUND.search(story.text) and _BOUND.search(story.text)):
        return None
    if square:
        return Op("×", Whole(4), trees[0])
    return Op("×", Whole(2), Group(joined("+", *trees)))


def _are_sides(story: Story, sides: Sequence[Quantity], unit: tuple[str, ...]) -> bool:
    """Whether amounts are the two sides of a rectangle, or the side of a square, in that unit."""
    measured = all(q.thing == unit and q.sort in ("amount", "rate") for q in sides)
    if not measured or not unit or unit[0] not in _LENGTHS:
        return False
    if len(sides) == 1:
        named = re.search(
            r"\bsquare (?!\w*(?:feet|foot|yards? of|met|inch|mile|centi|kilo)|yard\b)", story.text
        )
        return bool(named) and bool({"side", "sides"} & sides[0].near)
    return len(sides) == 2 and are_two_sides(story, sides)


def are_two_sides(story: Story, sides: Sequence[Quantity]) -> bool:
    """Whether two lengths are those of one rectangle: 9 m by 8 m, 9 m long and 8 m wide."""
    first, second = sorted(sides, key=lambda q: q.start)
    between = story.text[first.start : second.start]
    by = re.fullmatch(r"[\d.,/ ]+(?:[a-z]+ )?(?:by|x|×) ", between) is not None
    named = {"long", "wide"} <= first.near & second.near or {"length", "width"} <= (
        first.near | second.near
    )
    return first.clause == second.clause and (by or named)
