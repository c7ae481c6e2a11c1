"""Situations of equal groups, arrays, areas, rates and of so many times as many.

CCSSM (2010), glossary Table 2: equal groups, arrays and areas, compare (unknown product, group
size, number of groups).
"""

from __future__ import annotations

import re
from collections.abc import Iterator, Sequence
from dataclasses import replace
from itertools import pairwise, permutations

from narrate.exact.tree import Whole, value
from narrate.reading.words.clauses import Clause
from narrate.reading.words.facts import Answer, Story, joined, told_apart, tree_of
from narrate.reading.words.lexicon import UNITS
from narrate.reading.words.plain import word_set
from narrate.reading.words.quantity import Quantity


def product(story: Story) -> Iterator[Answer]:
    """So many in each of so many: how many in all."""
    query = story.query
    fitting = _fitting(story)
    if not fitting or query.sign or query.than or query.also or query.ended:
        return
    rate = fitting[0]
    others = [r for r in rates(story) if r.money == rate.money and r not in fitting]
    if others and not set(rate.per) & query.words:
        return
    known = [q for q in story.quantities if q.sort == "amount" and q.known]
    counted = [q for q in known if q.start != rate.start and counts(q.thing, rate.per)]
    counted = told_apart(counted, query.words)
    if not counted or any(q.left or q.more for q in counted) or not _one_kind(counted):
        return
    if len(counted) > 1 and (len(fitting) > 1 or counts(rate.thing, rate.per)):
        return
    if any({"long", "wide"} <= q.near for q in counted) or _BY.search(story.text):
        return  # the sides of one thing are no lengths to be put together
    each, count = (joined("+", *map(tree_of, found)) for found in (fitting, counted))
    tree, used = joined("×", count, each), (*counted, *fitting)
    yield Answer(tree=tree, used=used, situation="equal groups", unknown="product")


_BY = re.compile(r"\d (?:[a-z]+ )?by \d")


def _fitting(story: Story) -> list[Quantity]:
    """The rates of what is asked for, all told together for each of one thing."""
    query = story.query
    found = [
        r
        for r in rates(story)
        if is_of(story, r) or (story.money_asked and r.money) or _measures(story, r)
    ]
    found = [r for r in found if not (query.per and counts(r.per, query.per))]
    found = told_apart(found, query.words) if len({r.per for r in found}) > 1 else found
    if len({(r.per, r.clause) for r in found}) > 1:
        return []
    several = len(found) > 1
    return [] if several and not (query.thing and all(is_of(story, r) for r in found)) else found


def is_of(story: Story, rate: Quantity) -> bool:
    """Whether a rate is of what the question asks for."""
    return story.agrees(replace(rate, sort="amount"), story.query.thing)


def _one_kind(counted: Sequence[Quantity]) -> bool:
    """Whether counts of groups may be put together: 34 cups on Friday and 28 on Saturday."""
    first = counted[0]
    if any(q.percent or q.partitive or q.link == "but" for q in counted) and len(counted) > 1:
        return False  # 12 bags, but 3 bags are empty
    return all(
        q.verb == first.verb and q.thing == first.thing and q.who == first.who for q in counted
    )


def _measures(story: Story, rate: Quantity) -> bool:
    """Whether a rate measures what is asked for: 6 inches in each length of string."""
    return rate.head in UNITS and bool(set(rate.per) & set(story.query.thing))


def same_rate(story: Story) -> Iterator[Answer]:
    """So many of this for so many of that: how many for another number of that."""
    query = story.query
    known = [q for q in story.quantities if q.known]
    told, asked = [q for q in known if not q.asked], [q for q in known if q.asked]
    plain = all(q.sort == "amount" and q.value for q in known) and not (query.sign or query.than)
    if len(told) != 2 or len(asked) != 1 or told[0].clause != told[1].clause or not plain:
        return
    other = [q for q in told if _counts_alike(q, asked[0])]
    wanted = [q for q in told if q not in other and story.agrees(q, query.thing)]
    if len(other) == len(wanted) == 1:
        used = (wanted[0], other[0], asked[0])
        yield _at_that_rate(*used)


def _counts_alike(q: Quantity, asked: Quantity) -> bool:
    """Whether two amounts count one thing: 6 pounds of potatoes, one pound."""
    return q.head == asked.head or bool(asked.thing and set(asked.thing) <= UNITS & set(q.thing))


def _at_that_rate(amount: Quantity, told: Quantity, asked: Quantity) -> Answer:
    """7.50 for 6, then for one: divided; 3/4 for one, then for 6: multiplied; else both."""
    used = (amount, told, asked)
    if told.value != 1 and asked.value == 1:
        tree = joined("÷", tree_of(amount), tree_of(told))
        return Answer(tree=tree, used=used, situation="equal groups", unknown="for one")
    if told.value == 1:
        tree = joined("×", tree_of(asked), tree_of(amount))
    else:
        tree = joined("×", joined("÷", tree_of(amount), tree_of(told)), tree_of(asked))
    return Answer(tree=tree, used=used, situation="equal groups", unknown="product")


def array(story: Story) -> Iterator[Answer]:
    """So many rows and so many columns."""
    query = story.query
    known = [q for q in story.quantities if q.known]
    if (
        len(known) == 2
        and {q.head for q in known} == {"row", "column"}
        and not (query.sign or query.than or query.per)
        and query.head not in ("row", "column")
    ):
        yield Answer(
            tree=joined("×", *map(tree_of, known)),
            used=tuple(known),
            situation="equal groups",
            unknown="product",
        )


def chained(story: Story) -> Iterator[Answer]:
    """So many of this for each of that, so many of that for each of another, and so on."""
    query = story.query
    told = rates(story)
    if not 2 <= len(told) <= 3 or query.sign or query.than or query.also or query.ended:
        return
    for chain in permutations(told):
        first, last = chain[0], chain[-1]
        fits = is_of(story, first) or (story.money_asked and first.money)
        if not fits or not all(counts(b.thing, a.per) for a, b in pairwise(chain)):
            continue
        counted = [q for q in story.quantities if q.sort == "amount" and q.known]
        counted = [q for q in counted if counts(q.thing, last.per)]
        groups = counted if len(counted) == 1 and not query.per else []
        if groups or counts(last.per, query.per):
            used = (*groups, *reversed(chain))
            tree = joined("×", *map(tree_of, used))
            yield Answer(tree=tree, used=used, situation="equal groups", unknown="product")


def rates(story: Story) -> list[Quantity]:
    """The rates told, also those told of one thing that is counted elsewhere."""
    return [
        replace(q, sort="rate", per=q.per or q.of_one)
        for q in story.quantities
        if q.known and (q.sort == "rate" or (q.of_one and _counted(story, q.of_one, q)))
        if not ("recipe" in q.of_one and _makes_batches(story, q))
    ]


def _makes_batches(story: Story, q: Quantity) -> bool:
    """Whether a recipe is for so many batches, not for one."""
    batches = [p for p in story.quantities if "batch" in p.thing]
    return any("recipe" in p.who or p.clause == q.clause for p in batches)


def _counted(story: Story, group: tuple[str, ...], q: Quantity) -> bool:
    """Whether groups of a kind are counted or asked for somewhere else in the story."""
    others = (p.thing for p in story.quantities if p.start != q.start and p.sort == "amount")
    return any(counts(thing, group) for thing in (*others, story.query.thing))


def counts(thing: Sequence[str], group: Sequence[str]) -> bool:
    """Whether an amount of one thing counts groups of the other."""
    if len(thing) > 1 and set(thing) <= UNITS:
        thing = thing[:1]  # days of the week are days
    if "batch" in thing and "recipe" in group:
        return True  # a recipe makes one batch
    if not thing or not group or (thing[-1] != group[-1] and group[-1] not in thing):
        return False
    if "square" in group and "square" not in thing:
        return False  # a length covers nothing
    return not (set(thing) - set(group) and set(group) - set(thing))  # small seats, large seats


def number_of_groups(story: Story) -> Iterator[Answer]:
    """All there is, and how many are in each: how many groups."""
    query = story.query
    if query.sign or query.than or query.per or query.also or query.ended:
        return
    for rate in rates(story):
        asked_for_groups = counts(query.thing, rate.per) or (not rate.per and query.thing)
        counted = story.agrees(replace(rate, sort="amount"), query.thing)
        if not asked_for_groups or (counted and query.head not in rate.per):
            continue
        totals = [
            q
            for q in story.quantities
            if q.sort == "amount"
            and q.known
            and counts(q.thing, rate.thing)
            and q.start != rate.start
        ]
        totals = told_apart(totals, query.words)
        if len(totals) == 1:
            found = _divided(story, totals[0], rate, "number of groups")
            yield replace(found, rounding=_rounding(story, totals[0], rate))


def _rounding(story: Story, total: Quantity, size: Quantity) -> str:
    """How a remainder is read: "up" where all must go in, "down" for full groups only."""
    if story.query.head in UNITS or not size.value or total.value % size.value == 0:
        return ""
    lows = set(story.query.lows)
    filled = re.search(r"\b(?:completely|all the way) (?:filled|full)\b", story.query.text)
    if filled or {"full", "complete", "completely", "whole"} & lows or can_buy(story.query.text):
        return "down"
    if not total.value.denominator == size.value.denominator == 1:
        return ""
    needed = story.query.verb in ("buy", "order", "get") and total.verb == "need"
    return "up" if needed or {"need", "needed", "needs", "should", "must"} & lows else ""


_CAN_BUY = re.compile(
    r"\bhow many (?!more\b|extra\b|other\b)(?:[a-z-]+ ){1,3}can (?!only\b)(?:[a-z]+ ){1,3}"
    r"(?:buy|afford)(?! enough\b)[^,;]*$",
    re.IGNORECASE,
)


def can_buy(question: str) -> bool:
    """Whether it is asked how many of a thing somebody can buy: no part of one is sold."""
    return _CAN_BUY.search(question.strip()) is not None


def left_over(story: Story) -> Iterator[Answer]:
    """What is left when all is put in groups of one size."""
    query = story.query
    asked = "left" in query.lows and (
        "over" in query.lows or any({"into", "each", "fit"} & c.lows for c in story.clauses)
    )
    known = [q for q in story.quantities if q.known]
    if not asked or len(known) != 2 or any(q.value.denominator != 1 or not q.value for q in known):
        return
    total, size = max(known, key=lambda q: q.value), min(known, key=lambda q: q.value)
    grouped = size.sort == "rate" or size.equal or "fit" in size.near
    if (
        not grouped
        or not story.agrees(replace(total, sort="amount"), query.thing)
        or total.value % size.value == 0
    ):
        return
    full = Whole(int(total.value // size.value))
    tree = joined("−", tree_of(total), joined("×", tree_of(size), full))
    said = frozenset({"possible"})  # as many full boxes as possible
    used = (total, size)
    yield Answer(tree=tree, used=used, situation="equal groups", unknown="remainder", said=said)


def and_left_over(story: Story) -> Iterator[Answer]:
    """So many in each of so many, and so many left over: how many in all."""
    query = story.query
    known = [q for q in story.quantities if q.known]
    over = [q for q in known if q.left and q.sort == "amount"]
    over = [q for q in over if "over" in q.near or (query.began and not q.asked)]
    told = [r for r in rates(story) if is_of(story, r)]
    asked = query.sign or query.than or query.per or query.also or query.ended or query.negative
    asked = asked or (not query.began and query.verb in {r.verb for r in told})
    if len(over) != 1 or len(told) != 1 or len(known) != len("abc") or asked:
        return
    each, rest = told[0], over[0]
    counted = [q for q in known if q.sort == "amount" and counts(q.thing, each.per)]
    counted = [q for q in counted if q.start not in (each.start, rest.start)]
    last = max(known, key=lambda q: q.start).start == rest.start
    if len(counted) == 1 and last and story.agrees(rest, query.thing):
        product = joined("×", tree_of(counted[0]), tree_of(each))
        tree, used = joined("+", product, tree_of(rest)), (counted[0], each, rest)
        yield Answer(tree=tree, used=used, situation="put together", unknown="total")


def group_size(story: Story) -> Iterator[Answer]:
    """All there is, and how many groups share it equally: how many in each."""
    query = story.query
    told = {q.start for q in rates(story)}
    single = {q.start for q in story.quantities if _is_of_a_single(story, q)}
    if query.sign or query.than or told - single:
        return
    known = [q for q in story.quantities if q.known and (q.sort == "amount" or q.start in single)]
    shared = any(q.equal for q in known) or any(
        c.base in ("share", "split", "divide", "distribute") for c in story.clauses
    )
    if not (
        query.per or {"each", "every", "per"} & set(query.lows) or (shared and query.kind == "long")
    ):
        return
    if query.kind == "long":
        totals = [q for q in known if q.head in UNITS or (q.thing[:1] and q.thing[0] in UNITS)]
    elif story.money_asked:
        totals = [q for q in known if q.money]
    else:
        totals = [q for q in known if story.agrees(q, query.thing)]
    sharing = [q for q in known if counts(q.thing, query.per)]
    if not sharing and shared and set(query.per) <= _EACH_ONE:
        sharing = [q for q in known if q.lead in _AMONG] or [q for q in known if _shares(q)]
    totals = told_apart([q for q in totals if query.thing or q not in sharing], query.words)
    groups = told_apart([q for q in sharing if q not in totals], query.words)
    if len(totals) == 1 and len(groups) == 1:
        parts = [q for q in story.original if q.start in {totals[0].start, *totals[0].parts}]
        kinds = (
            frozenset(q.head for q in parts) if len({q.head for q in parts}) > 1 else frozenset()
        )
        said = frozenset(n for n, c in enumerate(story.clauses) if _shares_all(c, kinds))
        yield replace(_divided(story, totals[0], groups[0], "group size"), told=said)


def _shares_all(clause: Clause, kinds: frozenset[str]) -> bool:
    """Whether a clause without a number says that all is shared: they shared the fruit equally."""
    plain = not any(t.kind == "n" for t in clause.tokens) and clause.base in _SHARING
    kept = clause.lows & {"half", "some", "rest", "except", "only", "ripe", "not"}
    return plain and not kept and not kinds & {t.lemma for t in clause.tokens}


def _is_of_a_single(story: Story, q: Quantity) -> bool:
    """Whether a number is of one group, which is all there is: a pack of 6 yogurts costs $4.50."""
    opened = re.search(r"(?:^|[.?!] )(?:an?|one|the) \w+ of $", story.text[: q.start])
    others = (p for p in story.quantities if p is not q and p.sort == "amount")
    counted = any(counts(p.thing, q.per) for p in others)
    return q.sort == "rate" and opened is not None and not (q.asked or counted)


_EACH_ONE = word_set("one share part portion person")
_AMONG = word_set("among between into by")
_SHARING = word_set("share split divide")


def _shares(q: Quantity) -> bool:
    """Whether a number counts those that share: 3 pupils share."""
    return q.before_verb and q.verb in _SHARING and not q.passive


def _divided(story: Story, total: Quantity, by: Quantity, unknown: str) -> Answer:
    tree = joined("÷", tree_of(total), tree_of(by))
    return Answer(tree=tree, used=(total, by), situation="equal groups", unknown=unknown)


def how_many_times(story: Story) -> Iterator[Answer]:
    """Two amounts of one thing: how many times as many one is."""
    query = story.query
    if query.kind != "times":
        return
    known = [q for q in story.quantities if q.sort in ("amount", "rate") and q.known]
    if (
        len(known) == 2
        and value(tree_of(known[0])) != value(tree_of(known[1]))
        and known[0].head == known[1].head
    ):
        first, second = sorted(known, key=lambda q: q.value, reverse=True)
        yield Answer(
            tree=joined("÷", tree_of(first), tree_of(second)),
            used=(first, second),
            situation="times as many",
            unknown="number of groups",
            told=frozenset(n for n, c in enumerate(story.clauses) if _opens_question(story, c)),
        )


def _opens_question(story: Story, clause: Clause) -> bool:
    """Whether a clause is how the question begins: Class 5A sold how many times as many?"""
    words = clause.tokens
    behind = story.text[words[-1].end : story.query.start] if words else "."
    return not behind.strip() and all(word.kind == "w" for word in words)
