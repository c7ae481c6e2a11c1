"""Situations in which an amount of all together is told or asked for: averages, parts of a total.

CCSSM (2010) 6.SP.A.3 (mean), 6.RP.A.3.c (the whole of which a percent is told), 4.OA.A.2 and 6.RP
(so many times as many, and both together told).
"""

from __future__ import annotations

from collections.abc import Iterator

from narrate.exact.tree import Expr, Group, Op, Whole, value
from narrate.reading.words import relations
from narrate.reading.words.facts import Answer, Story, joined, tree_of
from narrate.reading.words.lexicon import UNITS
from narrate.reading.words.plain import word_set
from narrate.reading.words.quantity import Quantity
from narrate.reading.words.shapes import as_fraction


def mean(story: Story) -> Iterator[Answer]:
    """The average of amounts told one by one, whose count may be told too."""
    query = story.query
    if query.kind != "average" and "average" not in query.lows:
        return
    known = [q for q in story.quantities if q.known]
    if any(q.sort != "amount" or q.percent or q.more or q.left for q in known):
        return
    if set(query.lows) & _SOME_OF_THEM or any(q.asked for q in known):
        return
    if any(q.made_by == "equal groups" for q in known):
        return  # 12 beans at $2 and 4 at $1: there are 16 of them
    counting = [q for q in known if q.value == len(known) - 1]
    counting = [q for q in counting if q.thing and not (q.borrowed or set(q.thing) & UNITS)]
    for counts in (counting, []) if len(counting) < 2 else ():
        found = [q for q in known if q not in counts]
        heads = {(q.head, q.money) for q in found if q.head}
        owns = [bool(q.thing) and not q.borrowed for q in found]
        named = all(owns) or not (
            any(owns[1:-1]) or (len(found) > 1 and _is_subject(story, *found[:2]))
        )
        alike = len(heads) <= 1 and len({q.verb for q in found}) == 1 and named
        if len(found) > 1 and alike and (not counts or counts[0].head != found[0].head):
            total: Expr = Group(joined("+", *map(tree_of, found)))
            tree = Op("÷", total, Whole(len(found)))
            used = (*found, *counts)
            yield Answer(tree=tree, used=used, situation="equal groups", unknown="mean")
            return


def _is_subject(story: Story, first: Quantity, second: Quantity) -> bool:
    """Whether the first of two amounts is told of, and no part of the list: on 5 tests were 84."""
    between = set(story.text[first.end : second.start].split())
    return first.clause == second.clause and bool(between & {"is", "are", "was", "were"})


_SOME_OF_THEM = word_set("first second third last other others two best highest")


def whole_of(story: Story) -> Iterator[Answer]:
    """So much is a fraction or percent of all: all there is."""
    query = story.query
    known = [q for q in story.quantities if q.known]
    parts = [q for q in known if q.sort == "part"]
    amounts = [q for q in known if q.sort == "amount"]
    if len(parts) != 1 or len(amounts) != 1 or query.sign or query.than or query.per:
        return
    part, amount = parts[0], amounts[0]
    share = as_fraction(part)
    said = (
        part.link in ("said", "which", "that") and part.verb == "be" and part.start > amount.start
    )
    counts = story.agrees(amount, query.thing[-1:]) and bool(set(query.thing) - UNITS)
    if share is not None and said and counts and query.total and value(share) > 0:
        tree = joined("÷", tree_of(amount), share)
        yield Answer(tree=tree, used=(amount, part), situation="part of", unknown="whole")


def both_told(story: Story) -> Iterator[Answer]:
    """So many times as many, or so many more, and how many both have together: how many one has."""
    query = story.query
    links = relations.links_of(story)
    totals = [q for q in story.quantities if q.known and q.total and q.sort == "amount"]
    if len(links) != 1 or len(totals) != 1 or query.total or query.sign or query.than:
        return
    link, total = links[0], totals[0]
    asked = relations.named_side(links, query.words | set(query.thing))
    if asked is None or total.who & (link.subject ^ link.other) or not _one_count(link, total):
        return
    yield Answer(
        tree=_of_both(link, tree_of(total), own=asked == link.subject),
        used=(total, link.quantity),
        situation="put together",
        unknown="addend",
    )


def _one_count(link: relations.Link, total: Quantity) -> bool:
    """Whether a total counts what a relation counts: not 70 cents where dimes are counted."""
    thing = set(link.quantity.thing)
    if total.money:
        return link.quantity.money or thing <= {"money", "dollar"}
    return total.head in thing or not thing


def _of_both(link: relations.Link, total: Expr, *, own: bool) -> Expr:
    """One of two amounts of which the total and a relation are told."""
    told = tree_of(link.quantity)
    if link.sign == "×":
        one = Op("÷", total, Group(Op("+", told, Whole(1))))
        return joined("×", one, told) if own else one
    more = (link.sign == "+") == own
    both = Group(joined("+" if more else "−", total, told))
    return Op("÷", both, Whole(2))
