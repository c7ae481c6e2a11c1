"""Amounts told by how they stand to another: so many more or fewer, so many times as many.

CCSSM (2010), glossary Tables 1 and 2, compare: larger or smaller unknown; product or group size
unknown. Several such relations make a chain, from the amount that is told to the one asked for.
"""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass

from narrate.exact.tree import Expr, Operation, value
from narrate.reading.words.facts import Answer, Story, joined, tree_of
from narrate.reading.words.lexicon import COLOURS, DATES, ORDINALS, PRONOUNS, TIMES, UNITS
from narrate.reading.words.quantity import Quantity

_UNDO: dict[Operation, Operation] = {"+": "−", "−": "+", "×": "÷", "÷": "×"}


@dataclass(frozen=True, slots=True)
class Link:
    """`subject` is `other` with `quantity` added, taken away, or times it."""

    subject: frozenset[str]
    other: frozenset[str]
    sign: Operation
    quantity: Quantity


@dataclass(frozen=True, slots=True)
class Found:
    """An amount worked out, and what it used."""

    tree: Expr
    used: tuple[Quantity, ...]
    sign: str = ""


def related(story: Story) -> Iterator[Answer]:
    """The amount of who is asked about, found through the relations told."""
    query = story.query
    links = links_of(story)
    if not links:
        yield from _of_itself(story)
    if not links or query.per or (query.also and not query.total):
        return
    asked = query.words | set(query.thing)
    if query.than and query.sign:
        yield from _difference(story, links, asked)
        return
    if query.than or query.sign:
        return
    if query.total:
        yield from _total(story, links)
        return
    named = _named(links, asked)
    if named is None:
        return
    found = _amount(story, links, named, ())
    if found is not None and value(found.tree) > 0:
        yield _answer(found)


def _of_itself(story: Story) -> Iterator[Answer]:
    """So many times as long as it was: the amount then or now."""
    query = story.query
    times = [q for q in story.quantities if q.sort == "times" and q.known and q.other <= _ITSELF]
    known = [q for q in story.quantities if q.known and q not in times]
    alike = (
        len(times) == len(known) == 1
        and known[0].sort == "amount"
        and {"as", "long"} <= times[0].near
    )
    if (
        not alike
        or not (known[0].who or known[0].before_verb)
        or query.sign
        or query.than
        or query.total
        or query.per
        or not (known[0].who & query.words or query.words <= _MEASURES)
    ):
        return
    sign: Operation = "÷" if query.began else "×"
    tree = joined(sign, tree_of(known[0]), tree_of(times[0]))
    yield Answer(
        tree=tree,
        used=(known[0], times[0]),
        situation="times as many",
        unknown="group size" if query.began else "product",
    )


def _is_there(q: Quantity) -> bool:
    """Whether a relation tells what there is, not what "that is" takes up."""
    return q.verb_sort in ("be", "own") and q.link != "said"


_ITSELF = frozenset({"it", "first"})
"""What is held against itself: 3 times as long as it was, as at first."""
_MEASURES = frozenset({"length", "long", "first"})


def _answer(found: Found) -> Answer:
    situations = {
        "+": ("larger", "larger"),
        "−": ("smaller", "smaller"),
        "×": ("times as many", "product"),
        "÷": ("times as many", "group size"),
    }
    situation, unknown = situations.get(found.sign, ("compare", ""))
    return Answer(tree=found.tree, used=found.used, situation=situation, unknown=unknown)


def links_of(story: Story) -> list[Link]:
    """The relations a story tells, with the two sides of each."""
    links = []
    for q in story.quantities:
        if q.sort not in ("compare", "times") or not q.known:
            continue
        other = (q.other - PRONOUNS or q.other) or _only_other(story, q)
        if not other or (other <= _ITSELF and not q.who & ORDINALS):
            continue
        if other <= ORDINALS and q.who & ORDINALS:
            other |= q.who - ORDINALS  # the second race was longer than the first
        own = _own_side(story, q, other)
        sign: Operation = ("+" if q.sign > 0 else "−") if q.sort == "compare" else "×"
        subject = own - other
        links.append(Link(subject, other - own, sign, q))
    return links


def _own_side(story: Story, q: Quantity, other: frozenset[str]) -> frozenset[str]:
    """The words of whose amount a relation tells, by owner, thing, or time and place."""
    before = [p for p in story.quantities if p.start < q.start and p.sort == "amount"]
    told = before[-1] if q.link == "said" and before else q
    things = story.heads | set(story.query.thing)
    if told is q and other & things and not other & story.owners:
        return frozenset(q.thing)
    placed = other & TIMES.union(*(p.around for p in story.quantities if p is not q))
    if placed and not other & story.owners and told.around - other:
        return (told.around - other) & DATES or told.around - other
    return told.who or frozenset(told.thing)


def _only_other(story: Story, q: Quantity) -> frozenset[str]:
    """The only other owner of an amount, where "3 times as much" does not say as whose."""
    if not q.who or (q.sign > 0 and q.sort != "compare") or "than" in q.near:
        return frozenset()  # 3 times more than: says two things
    found = {p.who for p in story.quantities if p is not q and p.sort == "amount" and p.known}
    return found.pop() if len(found) == 1 and q.who not in found else frozenset()


def is_told_twice(story: Story, q: Quantity) -> bool:
    """Whether a relation tells nothing new: both its amounts are told, and it is true of them."""
    for link in links_of(story):
        if link.quantity is q:
            own = _amount(story, [link], link.subject, (link,))
            other = _amount(story, [link], link.other, (link,))
            if own is None or other is None or own.used == other.used:
                return False
            return value(own.tree) == value(joined(link.sign, other.tree, tree_of(q)))
    return False


def _named(links: list[Link], asked: frozenset[str]) -> frozenset[str] | None:
    """The one side of a relation that the question names."""
    sides = {side for link in links for side in (link.subject, link.other) if side}
    every = [side for side in sides if side & asked and not (_telling(side, sides) - asked)]
    return every[0] if len(every) == 1 else None


def _telling(side: frozenset[str], sides: set[frozenset[str]]) -> frozenset[str]:
    """The words of one side that no other side has."""
    others = frozenset().union(*(s for s in sides if s != side))
    return (side - others) or side


def _amount(
    story: Story, links: list[Link], named: frozenset[str], passed: tuple[Link, ...]
) -> Found | None:
    """The amount of one side: told outright, or through a relation not used yet."""
    told = _told_outright(story, links, named)
    if len(told) == 1:
        return Found(tree_of(told[0]), (told[0],))
    if told or len(passed) > 2:
        return None
    for link in links:
        if link in passed:
            continue
        for side, other, sign in (
            (link.subject, link.other, link.sign),
            (link.other, link.subject, _UNDO[link.sign]),
        ):
            if side != named:
                continue
            base = _amount(story, links, other, (*passed, link))
            if base is not None:
                return Found(
                    joined(sign, base.tree, tree_of(link.quantity)),
                    (*base.used, link.quantity),
                    sign,
                )
    return None


def _told_outright(story: Story, links: list[Link], named: frozenset[str]) -> list[Quantity]:
    """The amounts that are told of one side, by what tells it from the others."""
    telling = _telling(named, {side for link in links for side in (link.subject, link.other)})
    telling = telling.difference(*(q.around for q in story.quantities)) or telling
    told = (
        q
        for q in story.quantities
        if q.sort == "amount"
        and q.known
        and not q.total
        and not q.asked
        and not (q.verb_sort == "lose" and all(_is_there(li.quantity) for li in links))
        and telling & (q.who | q.around | set(q.thing) | (q.words if not q.who else frozenset()))
        and not _of_another(q, links, named)
        and not _of_other_owner(q, links)
        and not _of_both(story, q, named)
    )
    return [q for q in told if _one_measure(q, links)]


def _of_another(q: Quantity, links: list[Link], named: frozenset[str]) -> bool:
    """Whether an amount belongs to another side of a relation."""
    sides = {side for link in links for side in (link.subject, link.other) if side != named}
    return any(
        (side & q.who and not named & q.who)
        or (side & set(q.thing) and not named & (q.who | set(q.thing)))
        or (side & q.around and not named & q.around)
        for side in sides
    )


def _of_other_owner(q: Quantity, links: list[Link]) -> bool:
    """Whether things are compared that one has, and an amount is of those that another has."""
    return any(
        q.who
        and link.quantity.who
        and not q.who & link.quantity.who
        and not (link.subject | link.other) & (q.who | link.quantity.who)
        for link in links
    )


def _of_both(story: Story, q: Quantity, named: frozenset[str]) -> bool:
    """Whether an amount is of several together, one of which is named: the red and the blue pot."""
    subject = story.clauses[q.clause].subject if q.clause < len(story.clauses) else ()
    said = story.text[subject[0].start : subject[-1].end] if subject else ""
    return " and " in said and not q.who <= named and q.who <= {t.lemma for t in subject}


def _one_measure(q: Quantity, links: list[Link]) -> bool:
    """Whether an amount counts what the relations count."""
    if any(_of_extent(link.quantity) for link in links) and q.thing and not _is_size(q):
        return False  # 3 times as long, of 8 ribbons
    if any(link.quantity.verb == "take" for link in links):
        return q.head in ("minute", "hour", "second", "day")
    colours = set(q.thing) & COLOURS
    named = frozenset().union(*(li.subject | li.other for li in links))
    others = any(set(li.quantity.thing) & COLOURS - colours for li in links)
    if colours and others and not colours & named:
        return False  # 5 more blue beads, of 14 red ones
    return any(
        not link.quantity.thing
        or q.head in link.quantity.thing
        or link.quantity.head in q.thing
        or (link.quantity.money and q.money)
        for link in links
    )


_EXTENTS = frozenset(["long", "tall", "high", "wide", "deep", "heavy", "old", "thick"])


def _of_extent(q: Quantity) -> bool:
    """Whether a relation is of how long or heavy something is."""
    return q.sort == "times" and "as" in q.near and bool(q.near & _EXTENTS)


def _is_size(q: Quantity) -> bool:
    return bool(set(q.thing) & UNITS or q.near & _EXTENTS or q.verb in ("weigh", "measure"))


def _difference(story: Story, links: list[Link], asked: frozenset[str]) -> Iterator[Answer]:
    left, right = _named(links, asked - story.query.than), _named(links, story.query.than)
    if left is None or right is None or left == right:
        return
    first, second = _amount(story, links, left, ()), _amount(story, links, right, ())
    if first is None or second is None:
        return
    larger, smaller = (first, second) if story.query.sign > 0 else (second, first)
    used = tuple(dict.fromkeys((*first.used, *second.used)))
    tree = joined("−", larger.tree, smaller.tree)
    if value(tree) > 0:
        yield Answer(tree=tree, used=used, situation="difference", unknown="difference")


def _total(story: Story, links: list[Link]) -> Iterator[Answer]:
    """All sides of the relations together, each found."""
    sides = list(dict.fromkeys(side for link in links for side in (link.other, link.subject)))
    if len(links) != len(sides) - 1:
        return
    asked = story.query.words
    named = [side for side in sides if _telling(side, set(sides)) & asked]
    if len(named) == 1:
        return
    sides = named or sides
    found = [_amount(story, links, side, ()) for side in sides]
    parts = [f for f in found if f is not None]
    if len(parts) != len(sides):
        return
    used = tuple(dict.fromkeys(q for f in parts for q in f.used))
    yield Answer(
        tree=joined("+", *(f.tree for f in parts)),
        used=used,
        situation="put together",
        unknown="total",
    )


def named_side(links: list[Link], asked: frozenset[str]) -> frozenset[str] | None:
    """The one side of the relations that a question names."""
    return _named(links, asked)


def amount_of(story: Story, links: list[Link], named: frozenset[str]) -> Found | None:
    """The amount of one side of a relation, with all that it used."""
    return _amount(story, links, named, ())
