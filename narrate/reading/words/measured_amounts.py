"""The amounts of a story of one measure, or of parts of one whole, and what is asked of them."""

from __future__ import annotations

import re
from collections.abc import Sequence

from narrate.reading.words.clauses import Clause
from narrate.reading.words.facts import Story
from narrate.reading.words.heard import beside, only_counts
from narrate.reading.words.lexicon import UNITS
from narrate.reading.words.measured_roles import STATES, is_of_all
from narrate.reading.words.plain import word_set
from narrate.reading.words.quantity import Quantity
from narrate.reading.words.query import Query

PART = "part of one whole"


def measure_of(q: Quantity) -> str:
    """The unit of an amount, "" where it has none."""
    if q.sort == "part" and not q.percent:
        return PART
    units = sorted(set(q.thing) & UNITS)
    return units[0] if len(units) == 1 else ""


def amounts_of(story: Story) -> list[Quantity]:
    """The amounts of the one measure, in the order told; none where other numbers are told."""
    known = [q for q in story.quantities if q.known and not only_counts(story, q)]
    parts = [q for q in known if measure_of(q) == PART]
    if story.query.kind == "fraction" and len(parts) > 1:
        known = [q for q in known if q in parts or q.sort != "amount" or q.percent]
    known = [q for q in known if not beside(q, story.query.thing)]
    measures = {measure_of(q) for q in known}
    one = len(measures) == 1 and ("" not in measures or _one_thing(story, known))
    plain = all(
        q.sort in ("amount", "part")
        and not (q.percent or q.asked or q.periodic or q.equal or q.parts)
        for q in known
    )
    untold = any(
        not q.known and set(q.thing) & {w for k in known for w in k.thing} for q in story.quantities
    )
    if any({"wide", "long"} <= q.near for q in known):
        return []  # sides of a rectangle
    of_rest = any(re.search(_OF_REST, story.text[q.end :]) for q in parts)
    if not one or not plain or of_rest or (untold and len(known) < 2):
        return []
    wholes = [_whole(q) for q in known if _whole(q)]
    if measures == {PART} and wholes and not frozenset.intersection(*wholes):
        return []
    return known


def _one_thing(story: Story, known: Sequence[Quantity]) -> bool:
    """Whether all amounts count one thing, and it is asked for."""
    query = story.query
    things = {q.thing for q in known}
    same = len(things) == 1 and query.kind == "many" and not any(q.of_one for q in known)
    if not same or (query.thing and query.thing[-1:] != known[0].thing[-1:]):
        return False
    if {"left", "over"} & set(query.lows) and any(q.verb_sort == "do" for q in known):
        return False  # 4 apples fit in a bag
    told = [{t.lemma for t in story.clauses[q.clause].tokens} for q in known if not q.asked]
    some, every = set().union(*told), set(known[0].thing).union(*told[:1]).intersection(*told)
    return not query.words & (some - every)  # played tag with 7 kids, cards with 20


_OF_REST = r"^ (?:of )?(?:the |what )?(?:was |is )?(?:rest|remain|left)"


def _whole(q: Quantity) -> frozenset[str]:
    """What a part is of; empty where it takes over what was said before."""
    return frozenset() if q.borrowed or not q.thing else frozenset(q.thing)


def asks_part(story: Story, amounts: Sequence[Quantity]) -> bool:
    """Whether a question about parts asks for a part of the same whole."""
    query = story.query
    wholes = {w for q in amounts for w in q.thing}
    part = query.kind == "fraction" or {"of", "full"} & set(query.lows)
    return bool(part) and bool(wholes & (query.words | set(query.thing)))


# -- what is asked


_LEFT = word_set("left remain remains remained remaining unused")
_OTHER = word_set("other rest")
_THEN = word_set("end now then afterward afterwards")
REST = word_set("rest others remaining remainder other")


def asked_of(story: Story, amounts: Sequence[Quantity]) -> str:
    """What is asked of the amounts, in a word of TABLE, "" where it is none."""
    query = story.query
    lows = set(query.lows)
    acts = {q.verb for q in amounts}
    if query.negative:
        return "left" if query.verb in acts else ""
    if query.sign > 0:
        return "more" if query.needs or _still_to_do(lows) else ""
    if query.sign:
        return ""
    if query.began:
        return "start"
    if lows & _LEFT or _still_to_do(lows) or ("still" in lows and _there(query)):
        return "left"
    if lows & _OTHER or _rest_told(story):
        return "other"
    if query.total:
        return "" if _names_one(story, amounts) else "total"
    if lows & _THEN or ("after" in lows and query.verb_sort in ("be", "own")):
        return "end"
    states = all(q.verb_sort in ("be", "own") or q.verb in STATES - {"cost"} for q in amounts)
    if query.verb in TRAVELS and walks_them(story, amounts):
        return "total"
    if states and query.verb and query.verb_sort not in ("be", "own"):
        return "change"
    if states and _asks_other_thing(story, amounts):
        return "other"
    done = acts == {query.verb} and query.verb_sort not in ("be", "own")
    return "total" if done and not _names_one(story, amounts) else ""


TRAVELS = word_set("walk ride run drive travel go hike bike jog cycle")


def walks_them(story: Story, amounts: Sequence[Quantity]) -> bool:
    """Whether the ways that are measured are all gone: from her house to the market, and on."""
    gone = {t.lemma for c in _without_number(story) for t in c.tokens} | story.query.words
    ways = all({"from", "to"} <= q.near and q.around <= gone for q in amounts)
    return ways and len({q.around for q in amounts}) == len(amounts)


def _without_number(story: Story) -> list[Clause]:
    return [c for c in story.clauses if not any(t.kind == "n" for t in c.tokens)]


def _there(query: Query) -> bool:
    """Whether it is asked what there is: what is still in the can, how much is still filled."""
    return query.verb_sort in ("be", "own") or bool({"is", "are"} & set(query.lows))


_DUE = word_set("have has must should need needs")
_YET = word_set("still left more farther further longer must should")


def _still_to_do(lows: set[str]) -> bool:
    """How much does she still have to walk?"""
    return bool(_DUE & lows) and bool({"to", "must", "should"} & lows) and bool(_YET & lows)


def _rest_told(story: Story) -> bool:
    """Whether the story says that what is asked for is the rest."""
    asked = story.query.words | set(story.query.thing)
    said = (c for c in _without_number(story) if c.lows & REST)
    return any({t.lemma for t in c.tokens} & asked for c in said)


def _asks_other_thing(story: Story, amounts: Sequence[Quantity]) -> bool:
    """Whether a total of two things is told, one of them, and the other is asked for."""
    query = story.query
    asked = set(query.thing) - UNITS or query.words - UNITS - {query.verb, "weigh", "hold"}
    totals = [q for q in amounts if is_of_all(story, q)]
    parts = {w for q in amounts if q not in totals for w in (*q.thing, *q.who)}
    named = {t.lemma for q in totals for t in story.clauses[q.clause].tokens}
    return len(totals) == 1 and bool(asked) and asked <= named and not asked & parts


def _names_one(story: Story, amounts: Sequence[Quantity]) -> bool:
    """Whether the question names some of the amounts and not the others."""
    asked = (story.query.words | set(story.query.thing)) - UNITS
    if story.query.total and all(set(q.thing) <= UNITS for q in amounts[1:]):
        asked -= set(amounts[0].thing)  # 3/8 liter of water and 1/2 liter
    telling = [behind(story, q) | q.who for q in amounts]
    shared = frozenset.intersection(*telling)
    named = [bool((words - shared) & asked) for words in telling]
    return any(named) and not all(named)


def behind(story: Story, q: Quantity) -> frozenset[str]:
    """The words behind a number up to the next one of its clause, or all where it is alone."""
    words = story.clauses[q.clause].tokens
    numbers = [t.start for t in words if t.kind == "n"]
    if len(numbers) < 2:
        return frozenset(t.lemma for t in words)
    end = next((n for n in numbers if n > q.start), words[-1].end)
    return frozenset(t.lemma for t in words if q.start < t.start < end)
