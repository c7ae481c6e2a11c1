"""Words of a question that say nothing new: names of measures, of several things, of several days.

"The total weight of the vegetables" asks for the pounds of peas and of carrots. A number can say
nothing new either: "the two days" counts the days that are told.
"""

from __future__ import annotations

import re
from collections.abc import Sequence

from narrate.reading.words.facts import KINDS, Answer, Story
from narrate.reading.words.lexicon import UNITS, one
from narrate.reading.words.plain import word_set
from narrate.reading.words.quantity import Quantity

_LENGTHS = "inch foot yard mile meter centimeter kilometer millimeter"
_LONG = "length distance long far"
_MEASURES = {
    **dict.fromkeys(
        word_set(_LENGTHS), word_set(f"{_LONG} height width depth tall wide deep high")
    ),
    **dict.fromkeys(
        word_set("gram kilogram pound ounce ton milligram"), word_set("weight mass heavy")
    ),
    **dict.fromkeys(
        word_set("liter milliliter gallon quart pint cup tablespoon teaspoon"),
        word_set("volume liquid capacity full"),
    ),
    **dict.fromkeys(word_set("second minute hour"), word_set("time long")),
}
"""Words that ask for a measure, by its units."""

_OF_ALL = word_set("sum total combine amount fraction part difference between")
_REACHED = word_set(
    "reach goal meet finish get make go need use way beginning end start begin yet far"
)
_SEVERAL = word_set(
    "ingredient food liquid drink job chore weekend trip edging trimming mixture vegetable fruit"
    " day piece side section mix dressing salad punch material"
)
"""Words for all the amounts of a story together."""


def heard(story: Story, answer: Answer) -> frozenset[str]:
    """The words a question may add where every amount told is of one measure."""
    units = {w for q in answer.used for w in q.thing if w in UNITS}
    parts = all(q.sort == "part" for q in answer.used)
    if len(units) != 1 and not parts:
        return frozenset()
    measures = frozenset().union(*(_MEASURES.get(unit, frozenset()) for unit in units))
    every = len(answer.used) == sum(q.known and q.sort != "times" for q in story.original)
    things = {w for q in answer.used for w in q.thing}
    kinds = {kind for kind, members in KINDS.items() if members & things}
    several = _SEVERAL | kinds if every and answer.unknown == "total" else frozenset()
    return measures | several | _OF_ALL | _REACHED


_GROUPS = word_set(
    "piece part section side stretch leg trip job chore kind ingredient thing day week bag friend "
    "pupil way person"
)


_SPANS = word_set("day week month morning afternoon evening class grade trip")
_DEFINITE = word_set("the these those all both his her their our my its")
_FOR_EACH = word_set("each every all per both")


def only_counts(story: Story, q: Quantity) -> bool:
    """Whether a number counts only the amounts that are told: two pieces, the three days."""
    others = [p for p in story.original if p is not q and p.known and _is_measured(p)]
    told = [p for p in story.original if p.known and not p.asked]
    of_them = q.asked and "of them" in q.text
    if q.asked and not others and (of_them or q.head in _SPANS | _named(told, by_all=True)):
        whose = all(p.who for p in told if p.sort == "compare")
        others = told if whose and len({p.thing for p in told}) == 1 else []
    here = [p for p in others if p.clause == q.clause and "one" not in q.near and not q.asked]
    owners = _named(others, by_all=q.asked) | _GROUPS
    said = frozenset().union(*(p.near for p in others))
    if {"one", "other"} <= said or {"one", "another"} <= said:
        owners |= {q.head}  # two pumpkins: one weighs 6 pounds, and the other weighs 4 pounds
    many = q.value.denominator == 1 and q.value > 1 and q.sort == "amount" and not q.money
    if q.asked and q.lead not in _DEFINITE and not of_them:
        return False  # pads for two pupils, but: in the two days
    if any(p.near & _FOR_EACH for p in others) or any(p.sort in ("rate", "times") for p in others):
        return False
    beside_it = sum(p.clause == q.clause for p in others)  # cuts two pieces, one 3 feet long and
    told_here = {beside_it} if "one" in q.near and not q.asked else set()
    bare = of_them or (q.asked and q.borrowed)  # how long are the two together
    named = q.value == len(others) if bare else q.head in owners
    counts = q.value in {len(others), len(others) + 1} | told_here and named
    return many and counts and not here and (q.asked or q.head not in UNITS)


_SHARING = re.compile(
    r"\b(?:each|every|per|apiece|both|same|equal\w*|half|twice|times|share\w*|split|divide\w*|an?"
    r" (?:day|week|hour|month|minute|year))\b"
)


def stands_by(story: Story, q: Quantity) -> bool:
    """Whether a number counts who acts or what is there besides: 14 pupils planted 58 bulbs.

    So it is where two amounts or more are of what is asked for, this one is of something else,
    and what they are of is told apart by nothing that it counts.
    """
    query = story.query
    odd = q.money or q.percent or q.more or q.left or q.asked or q.borrowed or q.partitive
    if not q.known or q.sort != "amount" or odd or q.parts or not q.thing or not query.thing:
        return False
    others = [p for p in story.original if p is not q and p.known and _is_asked(story, p)]
    named = frozenset(query.thing) | query.words | query.than | {w for p in others for w in p.thing}
    if len(others) < 2 or story.agrees(q, query.thing) or named & set(q.thing):
        return False
    if _SHARING.search(story.text) or any(p.sort != "amount" or p.periodic for p in others):
        return False
    alone = all(p.clause != q.clause for p in others)
    units = {w for p in others for w in p.thing} & UNITS
    if set(q.thing) & _LASTING:
        within = query.total and q.lead in ("in", "within", "over")
        return (alone or within) and not units & _LASTING
    if set(q.thing) & UNITS:
        return not units
    there = alone and q.verb_sort in ("be", "own")
    apart = all(q.head not in {*map(one, p.near), *p.who} for p in others)
    doers = {frozenset({q.head})} <= {p.who for p in others} <= {frozenset({q.head}), frozenset()}
    return (there and (apart or doers)) or (q.before_verb and doers)


_LASTING = word_set("second minute hour day week month year")


def _is_asked(story: Story, q: Quantity) -> bool:
    return story.agrees(q, story.query.thing)


def _named(amounts: Sequence[Quantity], *, by_all: bool) -> frozenset[str]:
    """The words that stand by the amounts; by all of them: 3 pens and 2 pads cost more than one."""
    words = [frozenset((*p.who, *p.around, *p.thing)) for p in amounts]
    if by_all and words:
        return frozenset.intersection(*words)
    return frozenset().union(*words)


def _is_measured(q: Quantity) -> bool:
    return (q.sort == "part" and not q.percent) or bool(set(q.thing) & UNITS)


def beside(q: Quantity, asked: tuple[str, ...]) -> bool:
    """Whether a number is of an age, or of what a recipe makes, and neither is asked for."""
    age = q.head == "year" and "old" in q.near and "year" not in asked
    makes = q.before_verb and "recipe" in q.near and q.head not in (*UNITS, *asked)
    return q.sort == "amount" and (age or makes)
