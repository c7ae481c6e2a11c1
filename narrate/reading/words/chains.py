"""Steps before the last: a story in which one amount is worked out first and then told.

Each rule makes of a story a shorter one: groups and their size become one amount, a comparison
becomes the amount it leads to, amounts of one sort become their total. The rows then read the
shorter story, so that two steps need no rows of their own.
"""

from __future__ import annotations

import re
from collections.abc import Iterator
from dataclasses import replace
from typing import Any

from narrate.exact.tree import Expr, value
from narrate.reading.words import grouped, groups, lexicon, relations, shapes
from narrate.reading.words.facts import Story, joined, tree_of
from narrate.reading.words.plain import word_set
from narrate.reading.words.quantity import Quantity
from narrate.reading.words.seeming import STILL_THERE


def derived(story: Story) -> Iterator[Story]:
    """The shorter stories that a story leads to."""
    for rule in RULES:
        shorter = rule(story)
        if shorter is not None:
            yield shorter
            yield from (s for again in RULES if again is not rule and (s := again(shorter)))


def _products(story: Story) -> Story | None:
    """Every rate whose groups are counted in its own or the clause before becomes an amount."""
    made: list[Quantity] = []
    gone: set[int] = set()
    for rate in groups.rates(story):
        counted = [q for q in story.quantities if _counts_groups(q, rate)]
        near = [q for q in counted if abs(q.clause - rate.clause) <= 1]
        counted = [q for q in counted if q.asked or q in near or (rate.money and rate.of_one)]
        counted = [q for q in counted if rate.who and q.who == rate.who] or counted
        if len(counted) != 1 or counted[0].start in gone or rate.asked or rate.periodic:
            return None
        if story.query.per and _is_priced(story, rate):
            return None
        count = counted[0]
        if rate.money and re.match(_PRICED_THERE, story.text[count.end :]):
            return None
        verb = (
            count if count.verb_sort not in ("be", "own") or rate.clause == count.clause else rate
        )
        made.append(
            replace(
                verb,
                start=count.start,
                tree=joined("×", tree_of(count), tree_of(rate)),
                sort="amount",
                thing=rate.thing,
                money=rate.money,
                per=(),
                of_one=(),
                equal=False,
                parts=(count.start, rate.start, *count.parts, *rate.parts),
                who=count.who or (rate.who - set(rate.per)),
                around=count.around | rate.around,
                made_by="equal groups",
            )
        )
        gone |= {count.start, rate.start}
    return story.with_made(made, gone) if made else None


_PRICED_THERE = r"(?: of \w+)? for \$[\d.,]*\d(?![.,]?\d|,? (?:each|an?|per|apiece|every)\b)"
"""What counts the groups and is told a price of its own: 4 bags for $14."""


def _is_priced(story: Story, rate: Quantity) -> bool:
    """Whether the price of one group is told with its size: a pack of 6 costs $4.50."""
    others = (q for q in story.quantities if q.clause == rate.clause and q is not rate)
    return not rate.money and any(q.money and q.sort == "amount" for q in others)


def _counts_groups(q: Quantity, rate: Quantity) -> bool:
    """Whether an amount counts the groups of a rate."""
    told = q.sort == "amount" and q.known and q.start != rate.start
    near = q.clause == rate.clause or not groups.counts(q.thing, rate.thing[-1:])
    return told and near and groups.counts(q.thing, rate.per)


def _related(story: Story) -> Story | None:
    """Every comparison that leads to an amount becomes that amount."""
    links = relations.links_of(story)
    made: list[Quantity] = []
    gone: set[int] = set()
    for link in links:
        found = relations.amount_of(story, links, link.subject)
        if (
            found is None
            or value(found.tree) <= 0
            or link.quantity not in found.used
            or not link.quantity.who
        ):
            return None
        base = found.used[0]
        thing = link.quantity.thing or base.thing
        made.append(
            replace(
                link.quantity,
                tree=found.tree,
                sort="amount",
                sign=0,
                other=frozenset(),
                thing=base.thing if not set(thing) - set(base.thing) else thing,
                money=base.money,
                parts=tuple(q.start for q in found.used if q.sort != "amount"),
                made_by=_MADE_BY.get(found.sign, ""),
            )
        )
        gone.add(link.quantity.start)
    return story.with_made(made, gone) if made else None


_MADE_BY = {"+": "larger", "−": "smaller", "×": "times as many", "÷": "times fewer"}
"""The situation of an amount that a comparison leads to, by what is done."""


def _shares(story: Story) -> Story | None:
    """Every fraction or percent of one amount told before becomes an amount of its own."""
    parts = [q for q in story.quantities if q.sort == "part" and q.known and not q.asked]
    made: list[Quantity] = []
    gone = {q.start for q in parts}
    if len({q.who for q in parts if q.who}) > 1 or any(q.near & _OFF for q in parts):
        return None
    for part in parts:
        share, behind = shapes.as_fraction(part), _behind(story, part)
        before = [q for q in story.quantities if _is_whole(q, part)]
        wholes = behind or before
        if share is None or part.left or part.more or part.equal or len(wholes) != 1:
            return None
        if STILL_THERE.match(story.text[part.start :]):
            return None  # half of those that she has left
        gone |= {q.start for q in behind} if before else set()
        made.append(_share(part, wholes[0], joined("×", share, tree_of(wholes[0]))))
    return story.with_made(made, gone) if made else None


_OFF = word_set("off discount tax tip interest sale commission")
"""Words that make a percent more than a share: 40% off, 8% tax."""


def _share(part: Quantity, whole: Quantity, tree: Expr) -> Quantity:
    return replace(
        part,
        sort="amount",
        tree=tree,
        percent=False,
        partitive=True,
        parts=(whole.start, part.start),
        thing=whole.thing,
        money=whole.money,
        borrowed=True,
        made_by="part of",
    )


def _behind(story: Story, part: Quantity) -> list[Quantity]:
    """The amount a fraction stands right before: half of his 40 beans."""
    close = (q for q in story.quantities if q.known and part.start < q.start <= part.end + 1)
    return [q for q in close if q.sort == "amount"]


def _is_whole(q: Quantity, part: Quantity) -> bool:
    """Whether an amount told before can be what a fraction is of."""
    told = q.sort == "amount" and q.known and not q.asked and q.start < part.start
    named = bool(set(q.thing) & set(part.thing)) or (q.money and part.thing == ("money",))
    return told and (part.borrowed or not part.thing or named)


def _one_whole(story: Story) -> Story | None:
    """What one group holds that nobody counts becomes an amount: a bag of 30 marbles."""
    rates = [q for q in story.quantities if q.sort == "rate" and q.known]
    found = [q for q in rates if re.search(_ONE, story.text[: q.start]) and not q.asked]
    told = [q for q in rates if not (q.near & _FOR_EACH and q not in found)]
    if len(told) != 1 or not found or found[0].near & {"each", "every", "per"} or found[0].money:
        return None
    group = lexicon.one(re.search(_ONE, story.text[: found[0].start])["group"])  # type: ignore[index]
    if any(group in q.thing for q in story.quantities) or group in story.query.thing:
        return None
    if story.query.per or group in story.heads:
        return None
    made = replace(found[0], sort="amount", per=(), of_one=(), total=True, **_HELD)
    return story.with_made([made], {made.start})


_FOR_EACH = word_set("each every per")
_HELD: dict[str, Any] = {"verb": "have", "verb_sort": "own"}
_ONE = r"\b(?:an?|the|this|his|her) (?:[a-z]+ )?(?P<group>[a-z]+) of $"


RULES = (_one_whole, _products, _related, grouped.totals, _shares, grouped.rest)
"""The steps that may come before the last."""
