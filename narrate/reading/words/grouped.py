"""What is put in groups or shared once it has been worked out: the rest of it, or all of it.

"5 rolled under the sofa; the others were threaded onto 5 strings" shares what was left, "they put
all the daisies in bunches of 8" what they had together. Each rule makes of a story a shorter one
(see `chains`).
"""

from __future__ import annotations

import re
from collections.abc import Sequence
from dataclasses import replace

from narrate.exact.tree import Group, write_sum
from narrate.reading.words import changes, groups
from narrate.reading.words.facts import Story, joined, tree_of
from narrate.reading.words.lexicon import NO_THING, UNITS, VERBS, one
from narrate.reading.words.plain import word_set
from narrate.reading.words.quantity import Quantity

# -- the rest


def rest(story: Story) -> Story | None:
    """What is left after some went becomes one amount, where the rest of it is put in groups."""
    told = [n for n, c in enumerate(story.clauses) if _says_rest(story, n) and _grouped(story, n)]
    thing = _shared_thing(story, told)
    if len(told) != 1 or not thing:
        return None
    before = story.clauses[told[0]].stretches[0][0].start
    found = [q for q in story.of(thing) if q.start < before and not q.asked]
    if story.query.verb in {q.verb for q in found} - {story.clauses[told[0]].base, "be", "have"}:
        return None
    chain: list[tuple[str, Quantity]] = []
    for q in found:
        chain.append((_mark(story, q, chain), q))
    if not re.fullmatch("[bg]l+", "".join(mark for mark, _ in chain)):
        return None
    signed = [(-1 if mark == "l" else 1, tree_of(q)) for mark, q in chain]
    first = chain[0][1]
    own = frozenset().union(*(q.near for q in found[1:])) - first.near - story.clauses[told[0]].lows
    if own & set(story.query.lows) - NO_THING - set(VERBS):
        return None  # how many bad ones are in each bag?
    made = replace(
        first,
        tree=Group(write_sum(signed)),
        parts=tuple(q.start for q in found),
        verb="have",
        verb_sort="own",
        made_by="take from",
    )
    return story.with_made([made], {q.start for q in found} | _one_asked(story))


def _one_asked(story: Story) -> set[int]:
    """The place of a "one" of the question that is each of the groups: into one of the 8 pies."""
    told = [q for q in story.quantities if q.equal and q.thing == story.query.per]
    asked = [q for q in story.quantities if q.asked and q.thing == story.query.per]
    return {q.start for q in asked if q.value == 1 and len(told) == 1}


def _mark(story: Story, q: Quantity, chain: Sequence[tuple[str, Quantity]]) -> str:
    """Whether an amount was there or went (see `changes.Chain`); "?" where that is not certain."""
    if chain and q.verb in ("keep", "save") and q.known:
        return "l"
    mark = changes.mark_of(q, story.query, chain, set()) or "?"
    return "l" if chain and mark in "?a" and _is_some_of(q, chain[0][1]) else mark


def _is_some_of(q: Quantity, whole: Quantity) -> bool:
    """Whether an amount is some of what was told first, whatever happened to it: 5 were sick."""
    plain = q.known and q.sort == "amount" and not (q.more or q.total or q.equal or q.left)
    theirs = not q.who or q.who <= whole.who
    named = (q.borrowed or q.partitive) and (q.verb_sort != "be" or q.before_verb)
    return plain and theirs and named and q.value < whole.value and q.verb_sort in _AS_IT_WAS


_AS_IT_WAS = ("be", "do", "lose", "")
_REST = word_set("rest remaining remainder left others")
_GOOD = re.compile(r"\b(?P<how>good|whole|ripe|fresh|clean|dry|sound|healthy|other) ones\b")
_SHARED = word_set("share split divide distribute separate put place pack sort give arrange")


def _says_rest(story: Story, number: int) -> bool:
    """Whether a clause speaks of the rest: the others, or the good ones where some were not."""
    clause = story.clauses[number]
    good = _GOOD.search(" ".join(t.low for t in clause.tokens))
    before = frozenset().union(*(c.lows for c in story.clauses[:number]))
    return bool(clause.lows & _REST) or (good is not None and good["how"] not in before)


def _grouped(story: Story, number: int) -> bool:
    """Whether a clause says that something is put in groups or shared."""
    clause = story.clauses[number]
    grouped = any(q.sort == "rate" or q.equal for q in story.quantities if q.clause == number)
    return clause.base in _SHARED or grouped


def _shared_thing(story: Story, told: Sequence[int]) -> tuple[str, ...]:
    """What is shared, where each share or the number of groups is asked for."""
    if story.query.per:
        return story.query.thing or (_measure(story) if story.query.kind == "long" else ())
    sizes = [q for q in groups.rates(story) if q.clause in told and not q.money]
    asked = len(sizes) == 1 and groups.counts(story.query.thing, sizes[0].per)
    return sizes[0].thing if asked else ()


def _measure(story: Story) -> tuple[str, ...]:
    """The unit of the first amount, where it is one: 100 centimeters."""
    first = next((q.thing for q in story.quantities if q.known), ())
    return first if len(first) == 1 and set(first) <= UNITS else ()


# -- all of it


def totals(story: Story) -> Story | None:
    """Amounts told side by side become their total, where it is shared or put in groups."""
    thing = story.query.thing if story.query.per else _all_in_groups(story)
    if not thing:
        return None
    found = [
        q
        for q in story.quantities
        if q.sort == "amount" and q.known and story.agrees(q, thing) and not q.total and not q.more
    ]
    found = found or _all_of_them(story)
    apart = len({q.clause for q in found}) > 1 and not _shared_together(story, found)
    if len(found) < 2 or apart or any(q.equal for q in found):
        return None
    made = replace(
        found[0],
        tree=joined("+", *map(tree_of, found)),
        thing=thing,
        parts=tuple(q.start for q in found),
        made_by="put together",
    )
    return story.with_made([made], {q.start for q in found} | _one_asked(story))


def _all_of_them(story: Story) -> list[Quantity]:
    """The amounts of one clause that "all of them" in the next one are: 48 girls and 36 boys."""
    told = [n for n, c in enumerate(story.clauses) if n and _ALL_OF_THEM.search(_text_of(story, n))]
    if len(told) != 1:
        return []
    before = [q for q in story.quantities if q.clause == told[0] - 1]
    plain = all(q.sort == "amount" and q.known and not (q.more or q.left) for q in before)
    named = _ALL_OF_THEM.search(_text_of(story, told[0]))
    plain = plain and not (named and named[1] and any(one(named[1]) in q.thing for q in before))
    alone = len(before) == sum(q.clause < told[0] for q in story.quantities)
    return before if plain and alone else []


_ALL_OF_THEM = re.compile(r"\b(?:all of them|them all|all of the ([a-z]+))\b")


def _text_of(story: Story, number: int) -> str:
    words = story.clauses[number].tokens
    return story.text[words[0].start : words[-1].end] if words else ""


def _all_in_groups(story: Story) -> tuple[str, ...]:
    """What is all put in groups of one size, where it is asked how many groups."""
    sizes = [
        q for q in groups.rates(story) if not q.money and groups.counts(story.query.thing, q.per)
    ]
    if len(sizes) != 1 or sizes[0].asked:
        return ()
    here = story.clauses[sizes[0].clause].sentence
    said = frozenset().union(*(c.lows for c in story.clauses if c.sentence == here))
    return sizes[0].thing if said & _ALL else ()


def _shared_together(story: Story, found: Sequence[Quantity]) -> bool:
    """Whether amounts of one kind, told apart, are then shared as one: they shared them all."""
    last = max(q.clause for q in found)
    after = [c for c in story.clauses[last + 1 :] if c.base in _SHARED | _FILLED]
    alike = len({(q.verb, q.head, bool(q.near & _OUT)) for q in found}) == 1
    alike = alike and not any(q.left for q in found)
    one_owner = len({q.who for q in found}) == 1
    theirs = len(after) == 1 and (
        one_owner or "they" in after[0].lows or after[0].passive or "be" in after[0].lows
    )
    return alike and theirs and bool(after[0].lows & _ALL)


_OUT = word_set("out off away")
_FILLED = word_set("fill pour use")
_ALL = word_set("all altogether together them mixture mix whole")
