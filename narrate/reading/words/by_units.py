"""Stories that their units put together: so much for each, times how many, and what joins that.

Every number is used once. A rate is multiplied by what counts its groups (8 lockers in a room, 6
rooms on a floor, 5 floors), until nothing but what is asked for is left; such products and the
amounts of the same thing are added or taken away as the question says. Where the units leave more
than one way, there is no reading.
"""

from __future__ import annotations

import re
from collections.abc import Iterator, Sequence
from dataclasses import dataclass, replace

from narrate.exact.tree import Expr, value
from narrate.reading.words.facts import Answer, Story, joined, tree_of
from narrate.reading.words.groups import counts
from narrate.reading.words.plain import word_set
from narrate.reading.words.quantity import Quantity
from narrate.reading.words.query import STILL_TO


@dataclass(frozen=True, slots=True)
class Term:
    """An amount of what is asked for: told, or a product of a rate and what counts its groups."""

    tree: Expr
    used: tuple[Quantity, ...]

    @property
    def first(self) -> Quantity:
        """The amount that tells what was done: the count of the groups, or the amount itself."""
        return self.used[0]


def by_units(story: Story) -> Iterator[Answer]:
    """The one way in which the units of all the numbers go together."""
    query = story.query
    if query.per or query.negative or query.began or query.kind not in ("many", "much", "long"):
        return
    known = [q for q in story.quantities if q.known]
    plain = all(q.sort in ("amount", "rate") and not q.percent and not q.left for q in known)
    if not plain or not 2 < len(known) < MOST or any(q.equal and q.sort == "amount" for q in known):
        return
    terms = _terms(story, known)
    if terms is None or len([q for t in terms for q in t.used]) != len(known):
        return
    if len(terms) == 1:
        yield Answer(
            tree=terms[0].tree, used=terms[0].used, situation="equal groups", unknown="product"
        )
    elif any(len(t.used) > 1 for t in terms):
        yield from _put_together(story, terms)


MOST = 6
"""Stories of as many numbers are not put together by units alone."""


def _terms(story: Story, known: Sequence[Quantity]) -> list[Term] | None:
    """The amounts of what is asked for and the products that lead to it; None where not certain."""
    asked = [q for q in known if _is_asked_for(story, q)]
    rates = [q for q in asked if _groups(q)]
    free = [q for q in known if q not in asked]
    terms = [Term(tree_of(q), (q,)) for q in asked if not _groups(q)]
    for rate in rates:
        chain = _chain(rate, free)
        if chain is None:
            return None
        free = [q for q in free if q not in chain]
        used = (*reversed(chain), rate)
        terms.append(Term(joined("×", *map(tree_of, used)), used))
    return sorted(terms, key=lambda term: min(q.start for q in term.used))


def _groups(q: Quantity) -> tuple[str, ...]:
    """What an amount is told for each of, () where it is told once."""
    alone = not (q.total or q.near & {"and", "both", "together"})  # a small and a large pot
    priced = q.of_one if q.money and q.verb in ("be", "cost") and alone else ()
    told = q.per or ((q.periodic,) if q.periodic else ()) or priced
    return told or (("",) if q.sort == "rate" else ())


def _is_asked_for(story: Story, q: Quantity) -> bool:
    if story.money_asked or q.money:
        return story.money_asked and q.money
    return bool(story.query.thing) and story.agrees(replace(q, sort="amount"), story.query.thing)


def _chain(rate: Quantity, free: Sequence[Quantity]) -> list[Quantity] | None:
    """What counts the groups of a rate, and the groups of that, to one that is told once."""
    found = [q for q in free if counts(q.thing, _groups(rate))]
    if len(found) != 1:
        return None
    if not _groups(found[0]):
        return found
    rest = _chain(found[0], [q for q in free if q is not found[0]])
    return None if rest is None else [found[0], *rest]


_LEFT = re.compile(r"\b(?:left|remain\w*|still|change|unsold|unused)\b")
_TOTAL = re.compile(r"\b(?:in all|altogether|total|together|combined|both|in the end)\b")
_REDUCED = re.compile(r"\b(?:discount\w*|coupon\w*|refund\w*|off|tax|tip|free)\b")
_GOES = word_set("lose take")


def _put_together(story: Story, terms: Sequence[Term]) -> Iterator[Answer]:
    """Two or more amounts of what is asked for, added or taken away as the question says."""
    query = story.query
    goes = [t for t in terms if t.first.verb_sort in _GOES and not t.first.money]
    used = tuple(q for t in terms for q in t.used)
    alike = len({t.first.verb for t in terms}) == 1 or not goes
    if query.sign or query.than or {"need", "needs", "needed"} & set(query.lows):
        return
    if _REDUCED.search(story.text) or any(_is_told_price(story, t, used) for t in terms):
        return
    if _LEFT.search(query.text):
        if len(terms) == 2 and not _TOTAL.search(query.text):
            yield from _taken(story, terms, used)
        return
    if alike and (_TOTAL.search(query.text) or query.total or _asks_all(story, terms)):
        tree = joined("+", *(t.tree for t in terms))
        yield Answer(tree=tree, used=used, situation="put together", unknown="total", said=_HERE)


def _is_told_price(story: Story, term: Term, used: Sequence[Quantity]) -> bool:
    """Whether money told by itself is what those that are counted cost: 4 bags for $14."""
    ends = [q.end for q in used if q.clause == term.first.clause and not q.money]
    between = (story.text[end : term.first.start] for end in ends)
    told = len(term.used) == 1 and term.first.money
    return told and any(re.fullmatch(r"(?: of \w+)? (?:for|at) ", words) for words in between)


def _asks_all(story: Story, terms: Sequence[Term]) -> bool:
    """Whether all amounts are asked for in one: all counted in the question, or all just there."""
    query = story.query
    if all(t.first.asked for t in terms):
        return story.money_asked and bool(_COST.search(query.text))
    there = all(t.first.verb_sort == "be" or t.first.verb in _THERE for t in terms)
    said = query.words - set(query.thing)
    there = there and not any(t.first.near & {"outside", "inside", "elsewhere"} for t in terms)
    return there and query.verb == "be" and not (said & story.known_words or query.ended)


_HERE = word_set("room hall classroom kitchen garden cost")
_COST = re.compile(r"\b(?:costs?|price|pay|bill|spend)\b")
_THERE = word_set("be stand sit lie wait grow")


def _taken(story: Story, terms: Sequence[Term], used: tuple[Quantity, ...]) -> Iterator[Answer]:
    """What is left of the larger amount, which is told once, when the other is gone."""
    larger, smaller = sorted(terms, key=lambda t: value(t.tree), reverse=True)
    came = smaller.first.more or (len(smaller.used) == 1 and smaller.first.verb_sort == "gain")
    if value(larger.tree) > value(smaller.tree) and not came:
        tree = joined("−", larger.tree, smaller.tree)
        said = frozenset({story.query.verb} if re.search(STILL_TO, story.query.text) else ())
        yield Answer(tree=tree, used=used, situation="take from", unknown="result", said=said)
