"""What is made or done several times: a recipe made twice, a lap run 6 times, so many days a week.

CCSSM (2010), glossary Table 2: equal groups, product unknown. How many are in a larger unit of time
is said by no number: 7 days are a week (CCSSM 2010, glossary; 4.MD.A.1).
"""

from __future__ import annotations

import re
from collections.abc import Iterator, Sequence

from narrate.exact.tree import Expr, Frac, Group, Op, Whole
from narrate.reading.words import groups
from narrate.reading.words.facts import Answer, Story, joined, tree_of
from narrate.reading.words.lexicon import UNITS
from narrate.reading.words.plain import word_set
from narrate.reading.words.quantity import Quantity


def made_again(story: Story) -> Iterator[Answer]:
    """What is needed for making it once, and how many times it is made."""
    query = story.query
    if query.sign or query.than or query.per or query.ended or query.negative or query.also:
        return
    known = [q for q in story.quantities if q.known]
    counts = [q for q in known if _is_count(story, q)]
    verbs = {n: _BY_VERB[c.base] for n, c in enumerate(story.clauses) if _is_doubled(story, n)}
    once = [q for q in known if q not in counts]
    if len(counts) + len(verbs) != 1 or not all(q.sort == "amount" and not q.more for q in once):
        return
    made = _once(story, once, counts)
    if made is None or any(q.asked or q.percent or q.total for q in once):
        return
    times: Expr = tree_of(counts[0]) if counts else next(iter(verbs.values()))
    tree = joined("×", times, made)
    used, told = (*once, *counts), frozenset(verbs)
    yield Answer(tree=tree, used=used, situation="equal groups", unknown="product", told=told)


_BY_VERB: dict[str, Expr] = {"double": Whole(2), "triple": Whole(3), "halve": Frac(1, 2)}
_DOING = word_set(
    "make bake cook prepare do repeat use run walk swim ride drive jog cycle hike mix skip row"
)


def _is_doubled(story: Story, number: int) -> bool:
    """Whether a clause says that a recipe is made twice as large: she doubles the recipe."""
    clause = story.clauses[number]
    whole = bool({"recipe", "it"} & clause.lows) and not clause.negative
    numbered = any(q.clause == number and q.known for q in story.quantities)
    return clause.base in _BY_VERB and whole and not numbered and _is_of_recipe(story)


def _is_of_recipe(story: Story) -> bool:
    return "recipe" in story.text


def _is_count(story: Story, q: Quantity) -> bool:
    """Whether a number says how many times it is done: makes it twice, runs around it 3 times."""
    if q.clause >= len(story.clauses) or q.sort not in ("amount", "part", "times"):
        return False
    clause = story.clauses[q.clause]
    said = q.text.lower() in ("twice", "thrice") or q.thing == ("time",)
    named = bool({"it", "recipe", "lap"} & clause.lows) and not clause.negative
    done = clause.base in _DOING and not clause.lows & {"than", "as", "each", "every"}
    share = q.sort == "part" and q.thing == ("recipe",)
    return done and ((said and named and q.sort != "part") or share)


def _once(story: Story, once: Sequence[Quantity], counts: Sequence[Quantity]) -> Expr | None:
    """What making or doing it once takes, None where it is not told for sure."""
    if counts and {"around", "round"} & counts[0].near:
        if {"half", "halfway", "quarter", "part", "most"} & counts[0].near:
            return None
        return _around(story, once)
    one = once[0] if len(once) == 1 else None
    wanted = one is not None and (
        story.agrees(one, story.query.thing)
        or (story.query.kind == "long" and bool(set(one.thing) & UNITS))
    )
    if one is None or not wanted or not {"recipe", "lap", "once"} & {*one.near, *one.of_one}:
        return None
    return tree_of(one)


def _around(story: Story, sides: Sequence[Quantity]) -> Expr | None:
    """How long it is around a rectangle whose two sides are told."""
    units = {frozenset(set(q.thing) & UNITS) for q in sides}
    told = len(sides) == 2 and len(units) == 1 and {"wide", "long"} <= sides[0].near
    asked = set(story.query.thing) <= {w for q in sides for w in q.thing}
    if not told or not asked or sides[0].clause != sides[1].clause:
        return None
    return Op("×", Whole(2), Group(joined("+", *map(tree_of, sides))))


_SPANS = {
    ("day", "week"): 7,
    ("minute", "hour"): 60,
    ("second", "minute"): 60,
    ("month", "year"): 12,
}
_IN_ONE = re.compile(
    r"\b(?:in|for|during|over|each|every|per|a) (?:(?:an?|one|each|every|full|whole) )*"
    r"(?P<span>minute|hour|week|year)$"
)
_NOT_ALL = re.compile(
    r"\b(?:work|school|weekday|weekend|shift|except|only|open|rest|off|free|but|none|no|never"
    r"|usually|about|(?:sun|mon|tues|wednes|thurs|fri|satur)day)"
)


def in_a_span(story: Story) -> Iterator[Answer]:
    """So many a day: how many in a week, whose days are told by no number."""
    query = story.query
    asked = _IN_ONE.search(query.text)
    known = [q for q in story.quantities if q.known]
    if not asked or query.sign or query.than or len(known) != 1 or _NOT_ALL.search(story.text):
        return
    rate = known[0]
    fits = rate.sort == "rate" and not rate.asked and len(rate.per) == 1
    fits = fits and (groups.is_of(story, rate) or (story.money_asked and rate.money))
    count = _SPANS.get((rate.per[0], asked["span"])) if fits else None
    if count is None:
        return
    at = query.start
    days = Quantity(
        start=at, end=at, tree=Whole(count), thing=(asked["span"], rate.per[0]), asked=True
    )
    tree = joined("×", tree_of(days), tree_of(rate))
    yield Answer(tree=tree, used=(rate, days), situation="equal groups", unknown="product")
