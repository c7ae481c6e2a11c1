"""Stories of two steps of which one is a product or quotient of equal groups.

What is left once some went is put in groups; what was paid, less the price of all; all that the
groups hold, less what went, or with what is told beside them.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import replace
from itertools import pairwise

from narrate.exact.tree import Group, value
from narrate.reading.equal_groups.amounts import Amount, Line, goes_with
from narrate.reading.equal_groups.work import Told, Worked, is_asked, work
from narrate.reading.words.facts import joined
from narrate.reading.words.lexicon import VERBS
from narrate.reading.words.plain import word_set

_REST = word_set("rest others remaining remainder")
_GOOD = word_set("good sound surviving whole healthy fresh unbroken ripe")
_WENT = word_set(
    "burn throw give eat sell use keep save drop break crack destroy spoil rot die spill lose "
    "discard donate damage ruin wilt bruise fall cut remove"
)
_BAD = word_set(
    "destroyed dropped discarded donated ruined dried bad rotten soft broken cracked moldy wilted "
    "bruised spoiled unripe dead damaged aside away too"
)
_BESIDE = word_set("but then after so had have having back out off up themselves herself himself")
_LEFT = word_set("left remain remains remained remaining still yet unsold lived survived")


def steps(told: Told) -> Iterator[Worked]:
    """What a story of two steps comes to, by each way that fits it."""
    if len(told.amounts) < _LEAST:
        return
    for way in (_rest_in_groups, _change, _left, _together):
        if (found := way(told)) is not None:
            yield found


_LEAST = 3
"""Amounts of a story of two steps."""


def _rest_in_groups(told: Told) -> Worked | None:
    """34 of 250 rolls were burned, and the good ones are packed 8 to a basket."""
    at = _rest_at(told)
    before = [a for a in told.amounts if a.start < at and not a.asked]
    if len(before) != 2 or not all(a.alone or a.loose for a in before):
        return None
    first, went = before
    alike = not went.thing or goes_with(went.thing, first.thing)
    if not (first.thing and alike and value(went.tree) < value(first.tree)):
        return None
    went = replace(went, thing=first.thing)
    went_by = _says_went(told.lines, first.end, at)
    if not went_by or went_by & {VERBS.get(w.low, w.low) for w in told.asked.line.words}:
        return None
    made = replace(
        first,
        per=None,
        loose=False,
        tree=Group(joined("−", first.tree, went.tree)),
        parts=(first, went),
        made_by="take from",
    )
    shorter = Told(told.lines, told.asked, [made, *(a for a in told.amounts if a not in before)])
    return work(shorter)


def _rest_at(told: Told) -> int:
    """Where a story first speaks of what is left, -1 where it does not; those words are read."""
    for line in told.lines:
        for at, word in enumerate(line.words):
            good = word.low in _GOOD and line.low(at - 1) == "the" and at < len(line.words) - 1
            left = word.low == "left" and line.low(at - 1) in ("was", "were", "is", "are")
            if word.low in _REST or good or left:
                line.read |= {at} | ({at - 1, at - 2, at - 3} if left else set())
                return word.start
    return -1


def _says_went(lines: Sequence[Line], start: int, end: int) -> set[str]:
    """The words between two places that say that some went; they are read."""
    found: set[str] = set()
    for line in lines:
        for at, word in enumerate(line.words):
            if not start < word.start < end:
                continue
            base = VERBS.get(word.low, word.low)
            went = base in _WENT or word.low in _BAD
            found |= {base} if went else set()
            if went or word.low in _BESIDE or (word.low == "set" and line.low(at + 1) != "in"):
                line.read.add(at)
    return found


def _change(told: Told) -> Worked | None:
    """Four jars at $3.69 are paid with a 20-dollar bill: the change."""
    paid = [a for a in told.amounts if a.money and a.alone]
    asked = told.asked
    left = (
        asked.money and bool({w.low for w in asked.rest} & _LEFT) and paid[:1] == told.amounts[:1]
    )
    if not (asked.change or left) or len(paid) != 1:
        return None
    asked.rest[:] = [w for w in asked.rest if w.low not in _LEFT]
    price = _product_of(told, paid)
    if price is None or value(price.tree) >= value(paid[0].tree):
        return None
    tree = joined("−", paid[0].tree, price.tree)
    return Worked(tree, (paid[0], *price.used), "result", "take from", (*price.made, _made(price)))


def _product_of(told: Told, without: Sequence[Amount]) -> Worked | None:
    """What the groups hold in all, without some amounts."""
    rest = Told(told.lines, told.asked, [a for a in told.amounts if a not in without])
    found = work(rest)
    return found if found is not None and found.unknown == "product" else None


def _made(step: Worked) -> Amount:
    """A first step as an amount of its own."""
    return replace(step.used[-1], tree=step.tree, per=None, parts=step.used, made_by="equal groups")


def _left(told: Told) -> Worked | None:
    """There were 3 trays of 24, but 9 dried up: what is left."""
    said = {w.low for w in told.asked.rest} & _LEFT
    last = told.amounts[-1]
    if not said or not last.alone or last.asked or told.asked.money:
        return None
    if last.thing and not is_asked(told, last):
        return None
    inside = _product_of(told, [last])
    before = told.amounts[-2].end
    end = max(w.end for line in told.lines for w in line.words) + 1
    if inside is None or value(inside.tree) <= value(last.tree):
        return None
    if not _says_went(told.lines, before, end):
        return None
    told.asked.rest[:] = [w for w in told.asked.rest if w.low not in _LEFT]
    first = [VERBS.get(w.low) for line in told.lines for w in line.words if w.start < before]
    if set(first) & _WENT - {"keep", "save", "use"}:
        return None  # she sold 24 packs of 6
    tree = joined("−", inside.tree, last.tree)
    return Worked(tree, (*inside.used, last), "result", "take from", (_made(inside),))


_ALL = word_set("altogether total all")
_SPENDING = word_set("cost pay spend come take collect earn make")


def _together(told: Told) -> Worked | None:
    """Three bags at $8.40 apiece and a rake for $12: all of it."""
    asked = told.asked
    said = {w.low for w in asked.line.words}
    spent = asked.money and {VERBS.get(low, "") for low in said} & _SPENDING
    others = [a for a in told.amounts if a.alone and is_asked(told, a)]
    if not (said & _ALL or spent) or len(others) != 1 or asked.change or others[0].asked:
        return None
    inside = _product_of(told, others)
    if _asks_for_groups(told) or _enters_together(told):
        return None
    if inside is None or not _is_beside(told, others[0], inside.used):
        return None
    terms = sorted((_made(inside), others[0]), key=lambda a: min(p.start for p in a.parts or (a,)))
    used = (*inside.used, others[0])
    tree = joined("+", *(t.tree for t in terms))
    return Worked(tree, used, "total", "put together", (_made(inside),))


def _asks_for_groups(told: Told) -> bool:
    """Whether a question asks what was paid for the groups alone: for the rides."""
    words = [w for w in told.asked.line.words if w.kind == "w"]
    at = next((i for i, w in enumerate(words) if w.low == "for"), len(words))
    named = {w.lemma for w in words[at + 1 :]} - {"the", "all", "of", "and", "in"}
    groups = {word for a in told.amounts for word in a.per or ()}
    return bool(named) and named <= groups


def _enters_together(told: Told) -> bool:
    """Whether several pay to get in, and one price is told: Mei and Bo, $8.75 to get in."""
    words = [w for line in (*told.lines, told.asked.line) for w in line.words]
    lows = [w.low for w in words]
    paid = any(a == "to" and b in ("enter", "get", "go") for a, b in pairwise(lows))
    entered = paid or bool({"entry", "entrance", "admission"} & {*lows})
    names = [(a, b, c) for a, b, c in zip(words, words[1:], words[2:], strict=False)]
    pair = any(
        b.low == "and" and a.text[:1].isupper() and c.text[:1].isupper() for a, b, c in names
    )
    return entered and (pair or "they" in lows)


def _is_beside(told: Told, other: Amount, used: Sequence[Amount]) -> bool:
    """Whether an amount is told in one sentence with the groups, of none and of nobody apart."""
    if other.sentence not in {a.sentence for a in used}:
        return False
    for line in told.lines:
        at = next((i for i, a in line.amounts.items() if a is other), None)
        if at is not None:
            priced = line.low(at - 1) in ("for", "at") and line.low(at - 2) == "#"
            before = {w.low for w in line.words if w.start < other.start}
            return not (priced or before & (_EACH | _OWNING))
    return False


_EACH, _OWNING = word_set("each every"), word_set("had has have paid gave")
