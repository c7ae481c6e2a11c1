"""Amounts held against a goal or a price: what is short, still to do, to be filled, paid back.

CCSSM (2010), glossary Table 1: add to and take apart, change or addend unknown.
"""

from __future__ import annotations

import re
from collections.abc import Iterator, Sequence

from narrate.exact.tree import Op, value, write_sum
from narrate.reading.words.facts import Answer, Story, tree_of
from narrate.reading.words.lexicon import VERBS
from narrate.reading.words.plain import word_set
from narrate.reading.words.quantity import Quantity
from narrate.reading.words.query import STILL_TO
from narrate.reading.words.seeming import falls_short


def short_of(story: Story) -> Iterator[Answer]:
    """What someone has who is so much short, or what it takes."""
    query = story.query
    known = [q for q in story.quantities if q.known]
    short = [q for q in known if q.verb == "be" and falls_short(story, q)]
    told = [q for q in known if q not in short]
    plain = all(q.sort == "amount" and not (q.asked or q.more or q.left) for q in known)
    untold = len(known) < len(story.quantities)
    if len(short) != 1 or len(told) != 1 or not plain or untold or query.negative:
        return
    if query.than or query.sign or query.per or query.total or query.began:
        return
    (missing,), (other,) = short, told
    alike = missing.money == other.money and set(missing.thing) - {"short"} == set(other.thing)
    same = not (missing.who and other.who) or missing.who == other.who or other.verb == "cost"
    needed = other.verb in _NEEDED or other.carried in ("want", "need")
    sign = -1 if needed and query.verb in _OWNED else 1 if other.verb in _OWNED else 0
    if not (alike and same and sign) or (sign > 0 and query.verb not in _NEEDED):
        return
    tree = Op("−" if sign < 0 else "+", tree_of(other), tree_of(missing))
    if value(tree) > 0:
        used = (other, missing)
        unknown = "what there is" if sign < 0 else "result"
        said = frozenset({query.verb})
        yield Answer(tree=tree, used=used, situation="needed", unknown=unknown, said=said)


def to_reach(story: Story) -> Iterator[Answer]:
    """How many more it takes to reach so many: 63 to reach 200, if she has 137 already."""
    query = story.query
    known = [q for q in story.quantities if q.known]
    goals = [q for q in known if _REACHING.search(_before(story, q))]
    there = [q for q in known if q not in goals]
    if len(goals) != 1 or len(there) != 1 or query.sign < 1 or len(known) < len(story.quantities):
        return
    if query.than or query.per or query.total or query.negative or query.began:
        return
    (goal,), (now,) = goals, there
    plain = all(q.sort == "amount" and not (q.more or q.left or q.equal) for q in known)
    alike = goal.money == now.money and _one_thing(goal, now)
    done = re.search(r"\b(?:has|have|had|already)\b[^.,;?]*$", _before(story, now))
    have = bool(done) and (now.verb in (query.verb, goal.verb) or now.verb_sort in ("be", "own"))
    whose = now.who & story.names <= goal.who | query.words
    if plain and alike and have and whose and (goal.asked or query.needs):
        tree = write_sum([(1, tree_of(goal)), (-1, tree_of(now))])
        if value(tree) > 0:
            said = word_set("reach get collect need find make save meet")
            yield Answer(
                tree=tree, used=(goal, now), situation="needed", unknown="addend", said=said
            )


_REACHING = re.compile(
    r"\b(?:to|will) (?:reach|get to|get up to|make|meet|have|total|come to"
    r"|bring (?:it|the \w+) (?:up )?to) "
    r"(?:(?:a|his|her|their|the|its) (?:total|goal|target) of |exactly )?$"
)
_NEEDED = word_set("need require cost want call take")
_OWNED = word_set("have own save collect raise")


def to_fill(story: Story) -> Iterator[Answer]:
    """How much more something holds than is in it: 74 litres in a tank that holds 120."""
    query = story.query
    known = [q for q in story.quantities if q.known]
    holding = [q for q in known if q.verb == "hold" or re.match(_ROOM, _before(story, q))]
    holding = holding if len(holding) < len(known) else holding[:1]
    there = [q for q in known if q not in holding]
    filled = re.search(_FILL, query.text) or (query.sign > 0 and re.search(_FITS, query.text))
    if len(holding) != 1 or len(there) != 1 or not filled or not _plain(story, known):
        return
    (holds,), (now,) = holding, there
    alike = _one_thing(holds, now) and not holds.money and holds.start < now.start
    if now.near & {"another", "other", "second", "different"}:
        return
    if alike and (now.verb_sort in ("be", "own") or now.verb in _PUT) and not now.partitive:
        yield from _less(story, holds, [now])


_ROOM = r".*\b(?:room|space|seats|places) for $"
_FILL = r"\bfill\b|\bto be full\b|\buntil (?:it|the \w+) is full\b"
_FITS = r"\b(?:can|could|fit|hold|room|space)\b"
_PUT = word_set("park fill")


def _one_thing(a: Quantity, b: Quantity) -> bool:
    """Whether two amounts count one thing, one of them in fewer words: litres of juice, litres."""
    return (
        bool(a.thing)
        and bool(b.thing)
        and (set(a.thing) <= set(b.thing) or set(b.thing) <= set(a.thing))
    )


def _before(story: Story, q: Quantity) -> str:
    return story.text[: q.start]


def _plain(story: Story, known: Sequence[Quantity]) -> bool:
    """Whether all amounts are told plainly, and nothing more is asked than one of them."""
    query = story.query
    odd = any(q.sort != "amount" or q.asked or q.more or q.left or q.equal for q in known)
    asked = query.than or query.per or query.total or query.negative or query.began
    return not odd and not asked and len(known) == len(story.quantities)


def _less(
    story: Story, whole: Quantity, parts: Sequence[Quantity], *, unknown: str = "addend"
) -> Iterator[Answer]:
    tree = write_sum([(1, tree_of(whole)), *((-1, tree_of(q)) for q in parts)])
    if value(tree) > 0:
        idle = {n for n, c in enumerate(story.clauses) if c.link == "when" and "full" in c.lows}
        yield Answer(
            tree=tree,
            used=(whole, *parts),
            situation="needed",
            unknown=unknown,
            told=frozenset(idle - {q.clause for q in (whole, *parts)}),
            said=_SAID,
        )


_SAID = word_set(
    "fill pour put add full need fit come park cost pay spend go shopping bill purchase"
)


def to_do(story: Story) -> Iterator[Answer]:
    """What is still to be done of all: pages still to read, chairs still to come."""
    query = story.query
    found = re.search(STILL_TO, query.text)
    known = [q for q in story.quantities if q.known]
    if found is None or len(known) < len("ab") or query.sign:
        return
    done = VERBS.get(found["verb"], "")
    parts = [q for q in known if q.verb == done]
    wholes = [q for q in known if q not in parts]
    if len(wholes) != 1 or not parts or not _plain(story, known):
        return
    whole = wholes[0]
    alike = all(q.thing == whole.thing and q.money == whole.money for q in parts)
    first = whole.start < parts[0].start or (bool(whole.who) and not whole.who & parts[0].who)
    first = first and not whole.partitive
    planned = whole.verb_sort in ("be", "own") or whole.verb in _ORDERED
    if alike and first and planned and story.agrees(whole, query.thing[-1:] or whole.thing):
        yield from _less(story, whole, parts)


_ORDERED = word_set("order need want plan expect invite buy")


def paid_back(story: Story) -> Iterator[Answer]:
    """What something cost: what was paid, less the change that came back."""
    query = story.query
    known = [q for q in story.quantities if q.known]
    if (
        query.kind != "much"
        or query.verb not in ("cost", "spend", "pay")
        or len(known) != len("ab")
    ):
        return
    back = [q for q in known if re.match(_BACK, story.text[q.start :])]
    paid = [q for q in known if q not in back and q.verb in ("pay", "give", "hand")]
    money = len(back) == 1 and len(paid) == 1 and all(q.money for q in known)
    if money and _plain(story, known) and paid[0].start < back[0].start:
        yield from _less(story, paid[0], back, unknown="result")


_BACK = r"[$\d.,]*\d(?: dollars?)? (?:(?:in|of|as) )?(?:back|change)\b"
