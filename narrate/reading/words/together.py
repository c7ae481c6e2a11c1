"""Amounts put together and taken apart: total unknown, part unknown; what is still needed.

CCSSM (2010), glossary Table 1: put together, take apart; add to with the change unknown.
"""

from __future__ import annotations

import re
from collections.abc import Iterator, Sequence

from narrate.exact.tree import value, write_sum
from narrate.reading.words.facts import Answer, Story, joined, told_apart, tree_of
from narrate.reading.words.lexicon import CLASS_OF, SAID_ALIKE, UNITS
from narrate.reading.words.plain import word_set
from narrate.reading.words.quantity import Quantity
from narrate.reading.words.whom import PEOPLE


def together(story: Story) -> Iterator[Answer]:
    """All the amounts asked for, put together; or the one part that is not told."""
    query = story.query
    if query.than or query.sign or query.per or query.kind not in ("many", "much", "long"):
        return
    things = (query.thing, *query.also)
    found = [
        q
        for q in story.quantities
        if q.sort == "amount" and not q.percent and any(story.agrees(q, t) for t in things)
    ]
    if story.money_asked:
        found = [q for q in found if q.money]
    elif not query.thing and len({q.head for q in found}) > 1:
        return
    totals = [q for q in found if q.total and q.known]
    asked = told_apart(
        [q for q in found if not q.total], query.words - {w for t in things for w in t}
    )
    if len(asked) < 2 or totals or any(not q.known or q.left or q.equal for q in asked):
        return
    if _partly_asked(story, asked):
        return
    if {"long", "wide"} <= {word for q in asked for word in q.near}:
        return  # the sides of one thing: all the way around is no sum of two of them
    if _one_sort(asked) and (query.total or query.also or _plainly_all(story, asked)):
        yield Answer(
            tree=joined("+", *map(tree_of, asked)),
            used=tuple(asked),
            situation="put together",
            unknown="total",
        )


def _partly_asked(story: Story, found: Sequence[Quantity]) -> bool:
    """Whether the question itself tells some of the amounts, and not others: 2 pens, a pad."""
    within = {q.start for q in story.original if q.asked}
    told = [bool(within & {q.start, *q.parts}) for q in found]
    return any(told) and not all(told)


def _one_sort(found: Sequence[Quantity]) -> bool:
    """Whether amounts were all there, or all came about in one way."""
    verbs = {"be" if q.verb_sort in ("be", "own") else q.verb for q in found}
    sorts = {q.verb_sort for q in found}
    return (
        len(verbs) == 1
        or sorts <= {"lose"}
        or sorts <= {"gain"}
        or (sorts <= {"be", "own", "do"} and len(verbs) == 2 and not any(q.more for q in found))
    )


def _plainly_all(story: Story, asked: Sequence[Quantity]) -> bool:
    """Whether the question asks for one amount of just these: "how many did she read?"."""
    query = story.query
    sort = CLASS_OF.get(query.verb, "")
    if sort in ("be", "own"):
        kinds = {q.thing for q in asked}
        if _in_one_breath(asked) and not query.ended:
            return True
        return len(kinds) == len(asked) and not query.ended
    if "left" in query.lows:
        return False
    alike = {query.verb, *(SAID_ALIKE.get(query.verb, "").split() if story.money_asked else ())}
    alike |= {"mix"} if query.verb == "make" else set()
    return all(q.verb in alike for q in asked)


def _in_one_breath(asked: Sequence[Quantity]) -> bool:
    """Whether one has groups and some more, told together: 5 bags of 8 walnuts and 4 more."""
    first, *others = asked
    one = len({(q.clause, q.who, q.verb) for q in asked}) == 1
    return one and bool(first.parts) and all(q.parts or q.more for q in others)


def apart(story: Story) -> Iterator[Answer]:
    """A whole and all its parts but one: the part that is asked for."""
    query = story.query
    named = query.thing or _rest_told(story) or any(q.total for q in story.quantities)
    if query.than or query.sign or query.per or not named:
        return
    head = query.thing[-1:] or _first_thing(story)
    strange = head[0] not in story.heads and not story.money_asked and not set(query.thing) & UNITS
    found = [
        q
        for q in story.quantities
        if q.sort == "amount" and q.known and (story.agrees(q, head) or (strange and _counted(q)))
    ]
    rest = _rest_told(story)
    wholes = [q for q in found if q.total] or _joint(story, found) or (found[:1] if rest else [])
    parts = [q for q in found if q not in wholes]
    if len(wholes) != 1 or not parts or any(_repeats(q) for q in found):
        return
    if not rest and (strange or query.total):
        return
    if rest or _one_part_missing(story, wholes[0], parts):
        yield from _less(story, wholes[0], parts)


def _first_thing(story: Story) -> tuple[str, ...]:
    """What the first amount counts, where the question names no thing: how many drink water?"""
    return next((q.thing[-1:] for q in story.quantities if q.known and q.thing), ("",))


def _less(story: Story, whole: Quantity, parts: Sequence[Quantity]) -> Iterator[Answer]:
    asked = story.query.words | set(story.query.thing)
    tree = write_sum([(1, tree_of(whole)), *((-1, tree_of(q)) for q in parts)])
    if value(tree) > 0 and not any(_is_asked(q, whole, asked) for q in parts):
        yield Answer(tree=tree, used=(whole, *parts), situation="take apart", unknown="addend")


def _repeats(q: Quantity) -> bool:
    """Whether an amount is what is left, comes again and again, or was a product."""
    return q.left or bool(q.periodic) or (bool(q.parts) and not q.partitive)


def _counted(q: Quantity) -> bool:
    """Whether a quantity counts things, not a measure."""
    return bool(q.thing) and q.head not in UNITS


def _rest_told(story: Story) -> bool:
    """Whether the story says that what is asked for is the rest."""
    asked = story.query.words | set(story.query.thing)
    return any(c.lows & _REST and {t.lemma for t in c.tokens} & asked for c in story.clauses)


def _joint(story: Story, found: Sequence[Quantity]) -> list[Quantity]:
    """The amount of two owners together, where one is told and the other is asked about."""
    words = story.query.words
    return [
        q
        for q in found
        if not q.who <= words
        and any(p.who and p.who < q.who and q.who - p.who <= words for p in found)
    ]


def _one_part_missing(story: Story, whole: Quantity, parts: Sequence[Quantity]) -> bool:
    """Whether one part is spoken of without a number, or the question names one not told."""
    head, asked = story.query.thing[-1:], story.query.words | set(story.query.thing)
    untold = any(not q.known and story.agrees(q, head) for q in story.quantities)
    rest = whole.who - parts[0].who if parts[0].who < whole.who else frozenset()
    if len(parts) == 1 and rest and rest <= asked:
        return True  # of what Abel and Mina picked, what Mina did
    return untold or (len(parts) == 1 and _names_a_part(asked, whole, parts))


_REST = frozenset({"rest", "others", "other", "remaining", "remainder"})


def _names_a_part(asked: frozenset[str], whole: Quantity, parts: Sequence[Quantity]) -> bool:
    return bool(asked - whole.words - frozenset().union(*(q.words for q in parts)))


def _is_asked(q: Quantity, whole: Quantity, asked: frozenset[str]) -> bool:
    """Whether a part that is told is itself what is asked for."""
    own = (set(q.thing) | q.who | q.around) - whole.words
    return bool(own & asked)


def change_back(story: Story) -> Iterator[Answer]:
    """The change from what was paid with."""
    if story.query.thing != ("change",):
        return
    money = [q for q in story.quantities if q.known]
    paid = [q for q in money if _handed_over(story, q)]
    paid = paid or [q for q in money if q.verb in ("pay", "give", "hand") or "bill" in q.near]
    costs = [q for q in money if q not in paid]
    if (
        len(paid) == 1
        and costs
        and all(
            q.money
            and q.sort == "amount"
            and q.verb in ("buy", "cost", "spend", "purchase", "be", "pay")
            for q in costs
        )
        and paid[0].money
    ):
        tree = write_sum([(1, tree_of(paid[0])), *((-1, tree_of(q)) for q in costs)])
        yield Answer(tree=tree, used=(paid[0], *costs), situation="take from", unknown="result")


def _handed_over(story: Story, q: Quantity) -> bool:
    """Whether an amount is a bill: with a $10 bill, with $20."""
    bill = re.match(r"^[\d.,$]+(?: dollar)?[ -](?:bill|note)\b", story.text[q.start :])
    return bool(bill or re.search(r"\bwith (?:an? |his |her )?$", story.text[: q.start]))


def asked_more(story: Story) -> Iterator[Answer]:
    """How many more are needed: what is wanted less what is there."""
    query = story.query
    if not query.sign or query.than or not query.needs:
        return
    found = [q for q in story.of(query.thing) if q.known]
    wanted = [
        q
        for q in found
        if q.verb in ("need", "want", "require", "call")
        or q.carried in ("need", "want")
        or q.total
        or "goal" in q.near
        or (q.verb == "cost" and not q.per)
        or any(_stands_of(story, p, q) for p in found)
        or (q.verb == query.verb and re.search(_HOPED, story.text[: q.start]))
    ]
    same = {q.verb for q in wanted if q.verb_sort != "lose" or q.verb == "spend"}
    needing = [c.who & PEOPLE for c in story.clauses if c.base in ("need", "want")]
    if any(who and not who & query.words for who in needing):
        return  # what her brother needs
    there = [q for q in found if q not in wanted]
    if (
        len(wanted) == 1
        and there
        and all(_is_got(q) or q.verb in same for q in there)
        and len(found) == len(there) + 1
    ):
        tree = write_sum([(1, tree_of(wanted[0])), *((-1, tree_of(q)) for q in there)])
        used = (wanted[0], *there)
        if value(tree) > 0:
            yield Answer(tree=tree, used=used, situation="needed", unknown="addend", said=_REACHING)


_BROUGHT = word_set("carried brought fetched hauled")
_AWAY = word_set("away off from back")
_HOPED = r"\b(?:hop|aim|plann?|try|tri)(?:e?s|e?d|ing|e)? to \w+ $"


def _is_got(q: Quantity) -> bool:
    """Whether an amount is there for what is needed: he has it, or his aunt gives it to him."""
    given = q.verb in ("give", "send", "lend") and bool(q.to) and q.to <= {"him", "her", "them"}
    brought = q.verb == "take" and bool(q.near & _BROUGHT) and not q.near & _AWAY
    return given or brought or q.verb_sort in ("be", "own", "gain", "do")


def _stands_of(story: Story, part: Quantity, whole: Quantity) -> bool:
    """Whether an amount is told as some of another: $38 of the $55 that she needs."""
    between = story.text[part.end : whole.start] if part.start < whole.start else ""
    close = story.text[part.start : whole.start] if part.start < whole.start else ""
    of_all = r"[$\d.,/ ]+(?: [a-z]+)? of (?:the|his|her|their) "
    return bool(between or close) and re.fullmatch(of_all, close) is not None


_REACHING = word_set("need reach goal meet get make fill complete finish order")
"""What a question may say of a goal: how many more are needed to reach it."""
