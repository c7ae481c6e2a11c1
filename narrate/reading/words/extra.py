"""Numbers that a reading does not need: told apart from all that it uses.

A number is extra only where the question says so: it is another's, of another thing or time, came
about in another way, or tells again what is told already.
"""

from __future__ import annotations

from narrate.reading.words.facts import Answer, Story
from narrate.reading.words.heard import beside, only_counts, stands_by
from narrate.reading.words.lexicon import NOUNS_FIRST, UNITS, VERBS
from narrate.reading.words.quantity import Quantity
from narrate.reading.words.relations import is_told_twice
from narrate.reading.words.verbs import verb_at


def is_extra(story: Story, q: Quantity, answer: Answer) -> bool:
    """Whether a quantity that a reading does not use is told apart from all that it uses."""
    if _is_of_a_verb(q) or _is_aftermath(q, answer):
        return False
    asked = story.query.words | story.query.than | frozenset(story.query.thing)
    parts = [used for used in answer.used if used.sort == "part" and not used.percent]
    fractions = story.query.kind == "fraction" and len(parts) == len(answer.used) > 1
    if beside(q, story.query.thing) or (
        fractions and q.sort == "amount" and not (q.percent or q.asked)
    ):
        return True
    if q.money and _is_price_of_another(q, answer, asked):
        return True
    if only_counts(story, q):
        return all(used.sort in ("amount", "part", "compare") for used in answer.used)
    if stands_by(story, q):
        return all(used.sort == "amount" and not used.parts for used in answer.used)
    if not q.known:
        return answer.unknown not in ("result", "total") or not story.agrees(q, story.query.thing)
    counts_owners = q.sort == "amount" and any(q.head in used.who for used in answer.used)
    if answer.situation == "difference" and counts_owners:
        return True  # a book has 2 chapters: it counts whose amounts are compared
    if q.sort in ("compare", "times"):
        return _is_aside(story, q, answer) or is_told_twice(story, q)
    if any(u.parts for u in answer.used) or any(
        u.sort in ("compare", "times") for u in answer.used
    ):
        return False
    if q.sort != "amount" or q.asked or q.percent or _is_purpose(story, q, answer):
        return False
    return any(
        _apart(used, q, asked) or _by_verb(used, q, story, answer) or _by_time(used, q, story)
        for used in answer.used
    )


def _is_price_of_another(q: Quantity, answer: Answer, asked: frozenset[str]) -> bool:
    """Whether a price is of another thing than the one that the question asks the cost of."""
    group = set(q.per or q.of_one)
    prices = [set(u.per) for u in answer.used if u.sort == "rate" and u.money]
    named = bool(prices) and all(per & asked - group for per in prices)
    return answer.unknown == "product" and bool(group) and named and not group & asked


def _is_of_a_verb(q: Quantity) -> bool:
    """Whether what seems to be counted is what was done: then two go home."""
    first = q.thing[0] if q.thing else ""
    return first in VERBS and first not in NOUNS_FIRST and not first.endswith(("ed", "ing"))


def _is_aftermath(q: Quantity, answer: Answer) -> bool:
    """Whether a number of what was told before it may change that: later 3 of them broke."""
    of_itself = bool(q.thing) and not q.borrowed
    return (
        q.sort == "amount"
        and not (of_itself or q.asked)
        and q.clause > max((used.clause for used in answer.used if not used.asked), default=0)
    )


def _is_purpose(story: Story, q: Quantity, answer: Answer) -> bool:
    """Whether an amount says what one that is used is for: 16 tins to cover the four walls."""
    if q.clause >= len(story.clauses):
        return False
    before = (u for u in answer.used if u.clause == q.clause and u.end <= q.start)
    words = story.clauses[q.clause].tokens
    return any(
        a.low == "to" and verb_at(words, i + 1)
        for u in before
        for i, a in enumerate(words[:-1])
        if u.start < a.start < q.start
    )


def _is_aside(story: Story, q: Quantity, answer: Answer) -> bool:
    """Whether a relation leads to someone whose amount is neither told nor asked for."""
    query = story.query
    asked = query.words | query.than | set(query.thing)
    if not q.other or not any(
        u.sort in ("compare", "times") or answer.situation == "difference" for u in answer.used
    ):
        return False
    heads = frozenset(q.thing)
    sides = (q.who - q.other - heads, q.other - q.who - heads)
    used = frozenset().union(*(u.who | u.other for u in answer.used))
    told = frozenset().union(*(a.who for a in story.quantities if a.sort == "amount" and a.known))
    return any(side and not side & (asked | used | told) for side in sides) or (
        bool(heads) and not heads & asked
    )


def _by_time(used: Quantity, q: Quantity, story: Story) -> bool:
    """Whether the question asks for now, and another amount was there before."""
    return (
        story.query.ended
        and used.after
        and not q.after
        and used.verb_sort in ("be", "own")
        and bool(set(used.thing) & set(q.thing) or q.clause < used.clause)
    )


def _by_verb(used: Quantity, q: Quantity, story: Story, answer: Answer) -> bool:
    """Whether the question's verb says that another happening is not asked about."""
    query = story.query
    verbs = query.words | query.than | {query.verb}
    happened = used.verb_sort not in ("be", "own") and used.verb in verbs
    if used.verb_sort == "gain" and q.verb_sort == "lose" and answer.unknown == "total":
        return False
    if answer.unknown not in ("total", "difference") or not used.sort == q.sort == "amount":
        return False
    return (
        happened
        and used.head == q.head
        and q.verb not in verbs
        and not (query.ended or query.began)
    )


def _apart(used: Quantity, q: Quantity, asked: frozenset[str]) -> bool:
    """Whether two amounts of one sort are told apart by what the question names."""
    alike = used.verb == q.verb or {used.verb_sort, q.verb_sort} <= {"be", "own"}
    if not alike:
        return False
    if used.parts or used.sort == "rate":
        return False
    beside = (used.clause == q.clause and used.stretch != q.stretch) or (
        used.who == q.who and used.who and used.verb == q.verb
    )
    if set(used.thing) - asked - UNITS and q.head != used.head and not set(q.thing) & asked:
        beside = False  # ferns, palms and succulent plants: all may be plants
    kinds = (
        (set(used.thing) - UNITS, set(q.thing) - UNITS)
        if beside or used.head == q.head
        else (set(), set())
    )
    for one_side, other in (
        kinds,
        (set(used.who), set(q.who)),
        (set(used.around), set(q.around))
        if q.head == used.head and q.verb == used.verb
        else (set(), set()),
    ):
        if (one_side - other) & asked and other - one_side and not (other - one_side) & asked:
            return True
    return False
