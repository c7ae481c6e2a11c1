"""Quantities of a story: each number with what it counts, whose it is, and how it is related.

A quantity may be an amount; a rate (so many of this for each of that); a comparison (so many more
than someone's, so many times as many); or a part of a whole. An amount that is spoken of without
a number ("some more birds came") has no value.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import replace
from itertools import pairwise
from typing import Any

from narrate.exact.tree import Whole
from narrate.reading.words import lexicon
from narrate.reading.words.clauses import Clause
from narrate.reading.words.comparing import MORE, compared_of, part_of, times_of
from narrate.reading.words.lexicon import CLASS_OF, COLOURS, NAMES_NOTHING, NO_THING, VERBS, one
from narrate.reading.words.plain import word_set
from narrate.reading.words.quantity import Quantity
from narrate.reading.words.rates import rate_of
from narrate.reading.words.things import (
    SOME,
    has_number,
    low_at,
    thing_after,
)
from narrate.reading.words.token import Token
from narrate.reading.words.verbs import verb_at


def quantities(found: Sequence[Clause]) -> list[Quantity]:
    """All quantities of a story in order; one that names no thing takes that of the one before."""
    made: list[Quantity] = []
    for number, clause in enumerate(found):
        for quantity in _of_clause(number, clause):
            if not quantity.thing and made:
                last = next((q for q in reversed(made) if q.sort != "part" and q.thing), made[-1])
                thing = tuple(w for w in last.thing if w not in quantity.per)
                held = tuple(sorted(quantity.who)) if quantity.per else ()
                thing = thing or held or last.thing  # seedlings stand in 8 rows of 15
                money = quantity.money or last.money
                if last.money and last.per and quantity.verb in _BUYING:
                    thing, money = last.per, quantity.money  # pads are $1.20 each; he buys 4
                quantity = replace(quantity, thing=thing, borrowed=True, money=money)
            made.append(quantity)
    made.sort(key=lambda q: q.start)
    for at, q in enumerate(made):
        after = made[at + 1] if at + 1 < len(made) else q
        opens = not q.thing and q.more and q.sort == after.sort == "amount" and not q.money
        if opens and q.sentence == after.sentence and q.clause != after.clause:
            made[at] = replace(q, thing=after.thing, borrowed=True)  # put 36 more in; held 90 pots
        if at and not q.thing and q.sort == "amount" and made[at - 1].before:
            before = made[at - 1]
            made[at] = replace(q, thing=before.thing, borrowed=True, money=before.money)
    for at in reversed(range(len(made) - 1)):
        made[at] = _as_the_next(made[at], made[at + 1])
    made = [_whole_name(q, made[i + 1] if made[i + 1 :] else None) for i, q in enumerate(made)]
    return [_of_what_was_told(q, made[:i]) for i, q in enumerate(made)]


def _of_what_was_told(q: Quantity, before: Sequence[Quantity]) -> Quantity:
    """A quantity that names no more than what one before it is told in: packets, of seeds."""
    if len(q.thing) != 1 or q.money or set(q.thing) & lexicon.UNITS or q.sort != "amount":
        return q
    told = {p.thing for p in before if p.head == q.head}
    fuller = [thing for thing in told if len(thing) > 1]
    of_it = [p for p in before if p.thing in fuller and f"s of {p.thing[0]}" in p.text.lower()]
    whole = len(told - {q.thing}) == 1 and bool(of_it)
    return replace(q, thing=fuller[0]) if whole else q


_BUYING = word_set("buy order purchase sell need want")


def _as_the_next(q: Quantity, after: Quantity) -> Quantity:
    """A bare number counts what the number behind it does: 13 and 21 points."""
    close = q.clause == after.clause and 0 < after.start - q.end <= len(" and ")
    bare = q.borrowed and q.end - q.start == len(q.text) and not q.money
    counted = bool(after.thing) and not (after.money or after.percent)
    plain = q.sort == after.sort == "amount" and counted and not (q.more or after.more)
    return replace(q, thing=after.thing) if close and bare and plain else q


def _whole_name(q: Quantity, after: Quantity | None) -> Quantity:
    """A quantity that names only a colour or size counts what the next one does: 3 red, 2 green."""
    if after is None or after.clause != q.clause or after.start - q.end > len(" and "):
        return q
    short = q.thing and set(q.thing) <= COLOURS and set(after.thing[:-1]) & COLOURS
    return replace(q, thing=(*q.thing, after.head)) if short else q


def _of_clause(number: int, clause: Clause) -> Iterator[Quantity]:
    near = [_around(s, clause, main=i == 0) for i, s in enumerate(clause.stretches)]
    shared = frozenset().union(
        *(n for n, s in zip(near, clause.stretches, strict=True) if not has_number(s))
    )
    for words, around in zip(clause.stretches, near, strict=True):
        here = around or frozenset().union(*near)
        for place in range(len(words)):
            if (found := _at(words, place, clause)) is not None:
                yield _owned(found, number, clause, here | shared, words, place)


def _owned(
    found: Quantity,
    number: int,
    clause: Clause,
    around: frozenset[str],
    words: Sequence[Token],
    place: int,
) -> Quantity:
    """A quantity with what its clause tells of it."""
    before_verb = _before_verb(clause, words, place)
    if all_there := _is_all_there_was(words, place) and bool(clause.base):
        found, clause = replace(found, sort="amount", more=False), replace(clause, **_HAS)
        words, place = words[place:], 0
    elif all_there := before_verb and _is_of(words, place) and words is not clause.stretches[0]:
        clause = replace(clause, base="be", sort="be", passive=False)
    given = clause.base in ("give", "send", "lend", "bring")
    return replace(
        found,
        clause=number,
        verb=clause.base,
        verb_sort=clause.sort,
        passive=clause.passive,
        carried=clause.carried,
        who=frozenset() if before_verb else clause.who,
        to=_phrase(words, place, "to") or (_receiver(clause) if given else frozenset()),
        source=_phrase(words, place, "from") or _phrase(words, place, "off"),
        around=around if before_verb else around - clause.who,
        total=_is_total(words),
        left=(found.left or bool(_LEFT & clause.lows)) and clause.base != "leave",
        partitive=_points_back(words[place : place + 4]),
        equal=found.equal or bool(_EQUAL & clause.lows),
        before=_was_before(clause) or all_there,
        after=bool(_AFTER & clause.lows) or clause.link == "then",
        before_verb=before_verb,
        near=clause.lows,
        stretch=words[0].start,
        link=clause.link,
        sentence=clause.sentence,
        lead=low_at(words, place - 1),
    )


_LEFT = word_set("left remaining remained remain remains")
_EQUAL = word_set("equally equal evenly same")
_AFTER = word_set("now left remaining remained still end then")
_FIRST = word_set("initially originally first beginning start")


def _is_of(words: Sequence[Token], place: int) -> bool:
    """Whether a number is of all there was: of 200 tickets, 88 were sold."""
    lows = [w.low for w in words[:place]]
    return (lows[:1] == ["of"] and len(lows) <= len(("of", "the"))) or lows[:2] == ["out", "of"]


_HAS: dict[str, Any] = {"base": "have", "sort": "own", "passive": False}


_POSSESSIVES = word_set("his her their its")


def _is_all_there_was(words: Sequence[Token], place: int) -> bool:
    """Whether a number is what a count before it is of: 45 of his 78 tickets."""
    lows = [w.low for w in words[max(0, place - 2) : place]]
    of_all = len(lows) == 2 and lows[0] == "of" and lows[1] in _POSSESSIVES | {"the", "these"}
    first = words[place - 3] if of_all and place > 2 else None
    if first is None or first.kind != "n":
        return False
    share = first.sort in ("part", "percent")
    return share or (isinstance(first.tree, Whole) and lows[1] in _POSSESSIVES)


def _before_verb(clause: Clause, words: Sequence[Token], place: int) -> bool:
    """Whether a number belongs to the subject of its clause."""
    main = clause.stretches[0]
    in_subject = place < clause.verb if words is main else words[0].start < main[0].start
    return clause.verb >= 0 and in_subject


def _is_total(words: Sequence[Token]) -> bool:
    here = {w.low for w in words}
    return bool({"altogether", "total", "together", "combined"} & here) or {"in", "all"} <= here


def _points_back(words: Sequence[Token]) -> bool:
    """Whether a number is of what was told before: 9 of them, 3 of her plums."""
    lows = [w.low for w in words]
    return any(
        a == "of" and b in ("them", "those", "these", "the", "his", "her", "their", "its")
        for a, b in pairwise(lows)
    )


def _was_before(clause: Clause) -> bool:
    """Whether a clause tells what there was at the start."""
    there = clause.sort in ("be", "own") and not clause.who & lexicon.ORDINALS
    return there and (bool(_FIRST & clause.lows) or {"already", "had"} <= clause.lows)


def _receiver(clause: Clause) -> frozenset[str]:
    """Who is given something: the words between the verb and what is given."""
    words = clause.stretches[0][clause.verb + 1 :]
    found: list[str] = []
    for word in words:
        if word.kind == "n" or word.low in SOME | {"a", "an", "the", "all", "each", "every"}:
            break
        found.append(word.lemma)
    return frozenset(found) - lexicon.ADVERBS


def _phrase(words: Sequence[Token], place: int, opening: str) -> frozenset[str]:
    """The words of a phrase that opens with a preposition, behind the number."""
    for at in range(place + 1, len(words)):
        if words[at].low == opening and not (at + 1 < len(words) and words[at + 1].low in VERBS):
            found: list[Token] = []
            for word in words[at + 1 :]:
                if word.kind != "w" or (word.low in lexicon.PREPOSITIONS and found):
                    break
                found.append(word)
            return frozenset(w.lemma for w in found if w.low not in NO_THING - lexicon.PRONOUNS)
    return frozenset()


def _around(words: Sequence[Token], clause: Clause, *, main: bool) -> frozenset[str]:
    """The words of phrases of place and time in a stretch."""
    found: set[str] = set()
    inside = False
    for place, word in enumerate(words):
        if word.low in lexicon.PREPOSITIONS - {"of", "than", "as"} or word.low in (
            "today",
            "yesterday",
            "tomorrow",
            "after",
            "before",
        ):
            inside = True
        if word.kind == "n" or word.low in SOME or (main and place == clause.verb):
            inside = main and place == clause.verb
        if (
            inside
            and word.kind == "w"
            and not verb_at(words, place)
            and word.low not in NO_THING - {"today", "yesterday", "first", "second", "next"}
        ):
            found.add(one(word.text))
    return frozenset(found)


# -- one number


def _at(words: Sequence[Token], place: int, clause: Clause) -> Quantity | None:
    token = words[place]
    if token.kind == "n":
        return _numbered(words, place, clause)
    if _speaks_of_some(words, place):
        thing, end = thing_after(words, place + 1)
        more = any(w.low in ("more", "other", "additional", "new") for w in words[place:end])
        return Quantity(
            start=token.start,
            end=words[end - 1].end,
            tree=None,
            thing=thing,
            more=more,
            text=token.text,
        )
    return None


def _speaks_of_some(words: Sequence[Token], place: int) -> bool:
    """Whether an amount is spoken of without a number: some plums, put more plums in."""
    if words[place].low in SOME:
        return not (place and words[place - 1].kind == "n")
    behind = words[place + 1] if place + 1 < len(words) else None
    named = behind is not None and behind.kind == "w" and behind.low not in NAMES_NOTHING
    held = any(w.kind == "n" or w.low == "than" for w in words)
    acts = place > 0 and CLASS_OF.get(VERBS.get(words[place - 1].low, "")) == "gain"
    return words[place].low == "more" and named and acts and not held


def _numbered(words: Sequence[Token], place: int, clause: Clause) -> Quantity:
    token = words[place]
    if (low_at(words, place - 1) == "than" and low_at(words, place - 2) in MORE) or low_at(
        words, place - 1
    ) in ("least", "most"):
        return Quantity(
            start=token.start, end=token.end, tree=token.tree, sort="compare", text=token.text
        )
    thing, end = thing_after(words, place + 1)
    if token.sort == "money":
        thing = ("dollar",)
    within = words[place + 1 : end + 1]
    more = any(
        w.low in ("more", "additional", "extra", "another", "new", "other") for w in within
    ) or low_at(words, place - 1) in ("another", "additional", "extra")
    made = Quantity(
        start=token.start,
        end=max(token.end, words[min(end, len(words)) - 1].end if end > place else token.end),
        tree=token.tree,
        thing=thing,
        money=token.sort == "money" or thing[-1:] == ("dollar",),
        percent=token.sort == "percent",
        more=more,
        left=any(w.low == "left" for w in words[place : end + 1]),
        text=" ".join(w.text for w in words[place:end]),
    )
    for rule in (times_of, compared_of, rate_of, part_of):
        if (found := rule(made, words, place, end, clause)) is not None:
            return found
    return made


def _rest(words: Sequence[Token], at: int, clause: Clause) -> list[Token]:
    """The words behind a place, to the end of the clause's stretch."""
    return list(words[at:])
