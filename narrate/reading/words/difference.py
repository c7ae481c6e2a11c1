"""How many more or fewer: two amounts told apart by the words of the question.

CCSSM (2010), glossary Table 1: compare, difference unknown.
"""

from __future__ import annotations

import re
from collections.abc import Iterator, Sequence

from narrate.exact.tree import value, write_sum
from narrate.reading.words.changes import mark_of
from narrate.reading.words.facts import Answer, Story, joined, told_apart, tree_of
from narrate.reading.words.lexicon import DATES, NO_THING, UNITS, VERBS, one
from narrate.reading.words.quantity import Quantity


def difference(story: Story) -> Iterator[Answer]:
    """How many more, fewer, longer: two amounts told apart by the question's own words."""
    query = story.query
    if not query.sign or not query.than:
        return
    compared = {q.verb for q in story.quantities} & query.than
    verb = (
        {query.verb}
        if (query.shared or not compared)
        and any(q.verb == query.verb and q.verb_sort not in ("be", "own") for q in story.quantities)
        else set()
    )
    left = _side(story, query.words | verb)
    right = _side(story, query.than | verb)
    if left is None or right is None or left.places & right.places:
        return
    first, second = (left, right) if query.sign > 0 else (right, left)
    if value(first.tree) <= value(second.tree):
        return
    yield Answer(
        tree=joined("−", first.tree, second.tree),
        used=(*first.used, *second.used),
        situation="difference",
        unknown="difference",
    )


def of_two(story: Story) -> Iterator[Answer]:
    """How many more one has than the only other one: "how many more did Ines pick?"."""
    query = story.query
    known = [q for q in story.quantities if q.known]
    alike = len(known) == 2 and known[0].sort == known[1].sort and known[0].verb == known[1].verb
    if not alike or not query.sign or query.than or query.needs or known[0].sort == "rate":
        return
    counted = all(story.agrees(q, query.thing) for q in known) and _one_thing(*known)
    named = [q for q in known if query.words & (q.words - _other(known, q).words)]
    if not counted or len(named) != 1 or any(q.more or q.left for q in known):
        return
    if _is_elsewhere(named[0], [_other(known, named[0])], query.words):
        return
    larger, smaller = (named[0], _other(known, named[0]))[:: query.sign]
    if larger.value > smaller.value and known[0].sort in ("amount", "part"):
        tree = joined("−", tree_of(larger), tree_of(smaller))
        used = (larger, smaller)
        yield Answer(tree=tree, used=used, situation="difference", unknown="difference")


def _one_thing(first: Quantity, second: Quantity) -> bool:
    """Whether two amounts count one thing, also where the second names the measure alone."""
    measured = set(first.thing) & UNITS == set(second.thing) & UNITS
    return first.head == second.head or (measured and set(second.thing) <= UNITS)


def _other(known: Sequence[Quantity], q: Quantity) -> Quantity:
    return known[1] if q is known[0] else known[0]


def _side(story: Story, words: frozenset[str]) -> Answer | None:
    """The amount that one side of a comparison names."""
    thing = story.query.thing
    head = set(thing) if thing else set()
    amounts = [q for q in story.quantities if q.sort == "amount" and not q.percent]
    found = _named_amounts(story, amounts, words)
    verb = story.query.verb
    found = _of_the_day(found, words) or told_apart(found, words)
    strange = [
        w
        for w in words
        if not any(w in q.words for q in story.quantities) and w not in head and w != verb
    ]
    if strange and any(w not in story.known_words for w in strange):
        return None
    if len(found) == 1 and found[0].known:
        others = [q for q in amounts if q is not found[0] and story.agrees(q, thing)]
        if words & DATES and _is_elsewhere(found[0], others, words):
            return None
        return Answer(tree=tree_of(found[0]), used=(found[0],), situation="", unknown="")
    if len(found) > 1:
        return _combined(story, found)
    return None


def _of_the_day(found: Sequence[Quantity], words: frozenset[str]) -> list[Quantity]:
    """The one amount of the day that is named, where nothing else tells it apart: on Sunday."""
    days = words & DATES
    named = [q for q in found if days & q.around]
    if len(named) != 1 or len(found) != 2 or len({q.verb for q in found}) > 1:
        return []
    q = named[0]
    return named if _said_of(q) <= {*q.thing, q.verb, "there"} | words else []


def _said_of(q: Quantity) -> set[str]:
    """The words of the clause in which an amount stands, verbs in their plain form."""
    return {VERBS.get(low, one(low)) for low in q.near if low not in NO_THING and low.isalpha()}


def _is_elsewhere(q: Quantity, others: Sequence[Quantity], words: frozenset[str]) -> bool:
    """Whether the question names what only another amount is told of, and this one tells its own.

    In June they toured the kitchen: how many toured the garden in June?
    """
    own = {*q.thing, q.verb} | DATES
    asked = words - own - q.who.union(*(p.who for p in others))
    named = frozenset().union(*(_said_of(p) for p in others)) - _said_of(q)
    return bool(asked & named) and bool(_said_of(q) - own - words)


def _named_amounts(
    story: Story, amounts: Sequence[Quantity], words: frozenset[str]
) -> list[Quantity]:
    """The amounts of the thing that is asked for, or of the other thing that one side names."""
    thing = story.query.thing
    found = [q for q in amounts if story.agrees(q, thing)]
    kinds = [w for w in sorted(words - set(thing)) if any(w in q.thing for q in amounts)]
    if any(words & (q.words - set(thing)) for q in found) and all(
        any(w in q.words for q in found) for w in kinds
    ):
        return found
    if kinds:
        return [q for q in amounts if all(w in q.thing for w in kinds)] or [
            q for q in amounts if kinds[0] in q.thing
        ]
    return found


def _combined(story: Story, found: Sequence[Quantity]) -> Answer | None:
    """Several amounts of one side: there and come or gone since, or all of one sort."""
    query = story.query
    after = [q for q in found if q.known and q.verb_sort in ("be", "own") and (q.after or q.left)]
    if len(after) == 1 and query.ended:
        return Answer(tree=tree_of(after[0]), used=(after[0],), situation="", unknown="")
    if any(not q.known for q in found) or after:
        return None
    chain: list[tuple[str, Quantity]] = []
    for q in found:
        mark = mark_of(q, story.query, chain, set())
        if mark is None:
            break
        chain.append((mark, q))
    marks = "".join(mark for mark, _ in chain)
    if len(chain) == len(found) and re.fullmatch(r"b[gl]+", marks):
        tree = write_sum([(1 if m in "bg" else -1, tree_of(q)) for m, q in chain])
        return Answer(tree=tree, used=tuple(found), situation="in and out", unknown="result")
    verbs = {q.verb for q in found}
    if len(verbs) == 1 and all(q.thing == found[0].thing for q in found):
        return Answer(
            tree=joined("+", *map(tree_of, found)),
            used=tuple(found),
            situation="put together",
            unknown="total",
        )
    return None
