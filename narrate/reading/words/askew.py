"""Readings that answer beside the question, or pass over what happened in between.

The third part of the second look (see `witness`): what was bought is not what was sold, laps are
not counted in meters, what somebody else paid for each is no price of mine, some were thrown away
in between, of a length no "2 of them" break. Such a reading does not stand.
"""

from __future__ import annotations

import re
from collections.abc import Sequence

from narrate.reading.words.facts import Answer, Story
from narrate.reading.words.lexicon import COLOURS, DATES, TIMES, UNITS, VERBS
from narrate.reading.words.plain import word_set
from narrate.reading.words.quantity import Quantity

Joined = Sequence[tuple[Quantity, str]]
_SUMS = ("+", "−")


def askew(story: Story, answer: Answer, joined: Joined) -> str:
    """What of the story a reading passes over or mistakes, "" if nothing."""
    used = [q for q, _ in joined]
    if _some_went(story, answer):
        return "nobody says how many came or went in between"
    if answer.situation in _BESIDE and _done_otherwise(story, answer, used):
        return "what was done to one is not what was done to the other"
    if answer.situation in ("larger", "smaller") and _has_what_was_done(story, used):
        return "what somebody has is not what was done"
    if answer.unknown == "change" and _in_two_places(story, used):
        return "what is in one place is not what is in another"
    later = sorted(used, key=lambda q: q.start)[1:]
    if answer.unknown in ("start", "change") and any(_is_of_another(story, q) for q in later):
        return "what is told then is of something else"
    if _counts_the_groups(story, joined):
        return f"the {story.query.head} are counted already"
    if _is_price_of_somebody_else(story, joined):
        return "the price is told of somebody else"
    if _is_of_another_sort(joined):
        return "the groups counted are of another sort"
    if any(role in _SUMS and _is_of_them(story, q) for q, role in joined) and any(
        q.money or set(q.thing) & UNITS for q in used
    ):
        return "a count is not taken from a measure"
    if answer.situation == "area" and _has_two_units(used):
        return "lengths and areas are told in unlike units"
    if answer.situation == "difference" and len({_is_of_both(q) for q in used}) > 1:
        return "what both have is not held against what one has"
    if answer.unknown in ("total", "result") and _asks_for_each(story, joined):
        return "the question asks for each"
    if _left_of_what_went(answer):
        return "what all went is not what there was"
    if len(used) == len(answer.places):
        return beside_the_question(story)
    return ""


def beside_the_question(story: Story) -> str:
    """What a story tells otherwise than its question asks, however it is read; "" if nothing."""
    if _in_another_time(story):
        return "how long it took is not told"
    if _asks_before_the_end(story):
        return "the question asks for an earlier day"
    if story.query.kind == "long" and "old" in story.query.lows:
        ages = [q for q in story.quantities if q.sort == "amount" and set(q.thing) & _AGES]
        if len({q.thing for q in ages}) > 1 and not story.query.thing:
            return "ages are told in unlike units"
    return ""


_AGES = word_set("day week month year")


# -- some came or went, nobody says how many

_COUNTED_AS_DONE = ("difference", "put together", "compare and put together")


def _some_went(story: Story, answer: Answer) -> bool:
    """Whether "some" or "a few" came or went beside what the question asks for."""
    query = story.query
    used = answer.used
    if answer.situation in _COUNTED_AS_DONE and any(q.verb == query.verb for q in used):
        return False  # how many did they pick: all the same if some are eaten
    things = {w for q in used for w in q.thing if not q.money} - UNITS
    moved = [
        q
        for q in story.original
        if not (q.known or q.asked)
        and q.verb_sort in ("lose", "gain")
        and (set(q.thing) & things or (q.borrowed and not q.thing))
    ]
    if any(q.who & used[0].who != q.who for q in moved) and answer.unknown not in _ONE_CHANGE:
        moved = [q for q in moved if q.borrowed]
    first = moved[0] is story.original[0] and moved[0].verb_sort == "gain" if moved else False
    began = answer.unknown == "start" and first  # she picked some: that is what is asked
    return len(moved) > (began or answer.unknown in _ONE_CHANGE)


_ONE_CHANGE = ("change", "addend")
"""Unknowns that one amount not told may be."""


# -- what was done

_BESIDE = (
    "take apart", "put together", "compare and put together", "difference", "larger", "smaller",
)  # fmt: skip
_ALIKE = tuple(
    word_set(row)
    for row in (
        "pick collect gather harvest find catch get",
        "make bake cook build sew knit craft prepare produce",
        "go walk run jog travel drive ride hike bike swim climb row move cover",
        "use spend need pour put add mix drink take pay cost",
        "get buy receive order win earn collect raise save make",
        "give donate hand send bring deliver",
        "sell give donate",
        "work paint weed rake clean practice read study",
        "plant sow grow",
        "eat drink finish",
        "score win get make",
        "write read draw",
        "spend go",
    )
)


def _done_otherwise(story: Story, answer: Answer, used: Sequence[Quantity]) -> bool:
    """Whether one amount was done what is asked for, another one something else."""
    if answer.unknown == "not so":
        return False
    asked = story.query.verb
    told = {q.verb for q in used if q.verb_sort not in ("be", "own", "") and q.verb}
    others = told - {asked} - story.query.words - {VERBS.get(w, w) for w in story.query.lows}
    if asked not in told or not others:
        return False
    return any(not any({asked, other} <= alike for alike in _ALIKE) for other in others)


def _has_what_was_done(story: Story, used: Sequence[Quantity]) -> bool:
    """Whether so many more were planted than of others, and what somebody has now is told."""
    compared = [q for q in used if q.sort == "compare" and q.verb_sort not in ("be", "own")]
    had = [q for q in used if q.sort == "amount" and q.verb == "have"]
    return any(p.verb == story.query.verb and p.who & q.who for p in compared for q in had)


_PLACE = re.compile(r"\b(?:in|on|at) (?:the|an?|his|her|its|their) (?:\w+ )?(\w+)")


_AT_TIME = re.compile(r"\bat the (?:end|start|beginning|close) of (?:the )?[a-z]+")


def _in_two_places(story: Story, used: Sequence[Quantity]) -> bool:
    """Whether amounts that were there are told of two places: in the kitchen, in the shed."""
    clauses = [story.clauses[q.clause].tokens for q in used if q.clause < len(story.clauses)]
    said = [_AT_TIME.sub("", story.text[c[0].start : c[-1].end]) for c in clauses]
    told = [{*_PLACE.findall(words)} - TIMES for words in said]
    return len(told) == len("ab") and all(told) and not told[0] & told[1]


def _is_of_another(story: Story, q: Quantity) -> bool:
    """Whether an amount is of a thing that is named nowhere else: and the crate held 12."""
    if q.verb_sort != "own" or not q.who or q.clause >= len(story.clauses):
        return False
    if any(p is not q and p.known and p.who & q.who for p in story.quantities):
        return False  # a jug held 2 liters at noon and only 0.65 liter at one
    others = (c.tokens for n, c in enumerate(story.clauses) if n != q.clause)
    said = {t.lemma for tokens in others for t in tokens} | story.query.words
    return not q.who & said


# -- what is counted


def _counts_the_groups(story: Story, joined: Joined) -> bool:
    """Whether the groups are asked for that are told: how many laps, in meters."""
    asked = story.query.head
    times = [q for q, role in joined if role in "×" or not role]
    if not asked or story.query.kind != "many" or not any(role == "×" for _, role in joined):
        return False
    groups = [q for q in times if q.sort == "amount" and asked in q.thing]
    ones = [q for q in times if asked in (q.per or q.of_one) and asked not in q.thing]
    return bool(groups and ones)


def _is_price_of_somebody_else(story: Story, joined: Joined) -> bool:
    """Whether a price is told of what one bought, and another's things are paid by it."""
    times = [q for q, role in joined if role == "×" or not role]
    prices = [q for q in times if q.sort == "rate" and q.money and q.who & story.names]
    counts = [q for q in times if q.sort == "amount" and q.who & story.names]
    prices = [p for p in prices if not _is_price_of_things(story, p)]
    return any(not p.who & c.who and p.clause != c.clause for p in prices for c in counts)


def _is_of_another_sort(joined: Joined) -> bool:
    """Whether the groups counted are not of the sort that is told: 5 trays of white beets."""
    times = [(q, set(q.thing) & COLOURS) for q, role in joined if role == "×" or not role]
    sizes = [colours for q, colours in times if q.sort == "rate" and colours]
    counts = [colours for q, colours in times if q.sort == "amount" and colours]
    return any(not size & count for size in sizes for count in counts)


def _is_price_of_things(story: Story, price: Quantity) -> bool:
    """Whether a price is told of things, not of whose they are: labels are $0.70 each."""
    if price.clause >= len(story.clauses):
        return False
    clause = story.clauses[price.clause]
    owned = any(word.low.endswith(("'s", "s'")) or word.low in _OWN for word in clause.subject)
    costs = clause.base in ("cost", "be") or clause.passive
    return not owned and (costs or price.who <= {*price.per, *price.of_one})


_OWN = word_set("his her their my our its")


_OF_THEM = re.compile(r"^(?:\d+|[a-z]+) of (?:them|these|those)\b")


def _is_of_them(story: Story, q: Quantity) -> bool:
    """Whether an amount is so many "of them"."""
    return q.sort == "amount" and bool(_OF_THEM.match(story.text[q.start :]))


def _has_two_units(used: Sequence[Quantity]) -> bool:
    """Whether amounts are told in two units of length."""
    return len({frozenset(set(q.thing) & UNITS - {"square", "cubic"}) for q in used} - {_NONE}) > 1


_NONE: frozenset[str] = frozenset()


def _is_of_both(q: Quantity) -> bool:
    """Whether an amount is told as what two have together."""
    return q.total and len(q.who) > 1


# -- what the question asks for


def _asks_for_each(story: Story, joined: Joined) -> bool:
    """Whether a question for each, or in each, is answered by a sum of all."""
    ends = story.query.lows[-1:] == ("each",)
    told = any("each" in clause.lows for clause in story.clauses)
    return ends and not told and {role for _, role in joined} <= {"", "+", "−"}


def _left_of_what_went(answer: Answer) -> bool:
    """Whether something is taken from what itself went: she sold 30; she gave 5 away."""
    if (answer.situation, answer.unknown) != ("take from", "result"):
        return False
    gone = all(q.verb_sort == "lose" and not q.partitive for q in answer.used)
    return gone and len({q.sentence for q in answer.used}) > 1


def _asks_before_the_end(story: Story) -> bool:
    """Whether the question asks for the end of a day or month that is not the last one told."""
    ends = re.search(r"\bat the end of (?:the )?(\w+)", story.query.text)
    days = [day for day in re.findall(r"[a-z]+", story.text[: story.query.start]) if day in DATES]
    return ends is not None and ends[1] in DATES and days[-1:] != [ends[1]]


_IN_ONE = re.compile(
    r"\bin (?:an?|one) (?:single )?(second|minute|hour|day|week|month|year|season)\W*$"
)


def _in_another_time(story: Story) -> bool:
    """Whether the question ends in a time that the story does not tell: in one month?"""
    found = _IN_ONE.search(story.query.text)
    told = story.text[: story.query.start]
    return found is not None and not re.search(rf"\b{found[1]}|\bdaily|\bper\b", told)
