"""Whether a question asks for what a reading found, and for nothing that no story tells."""

from __future__ import annotations

import re
from itertools import pairwise

from narrate.reading.words import lexicon
from narrate.reading.words.facts import KINDS, PIECES, Answer, Story
from narrate.reading.words.heard import heard as heard_in
from narrate.reading.words.heard import only_counts
from narrate.reading.words.lexicon import UNITS, VERBS, one
from narrate.reading.words.plain import word_set
from narrate.reading.words.query import Query

_LOADED_ASKED = word_set(
    "average back forth profit tax discount percent half twice double approximately "
    "estimate least most possible nearest rounded round except besides excluding counting"
)
PERIODS = word_set("hour day week month year minute night")


def question_read(story: Story, answer: Answer) -> bool:
    """Whether the words of the question that tell amounts apart are those of what was used."""
    query = story.query
    words = _said_of_used(story, answer)
    if _asks_otherwise(story, answer) or _money_for_things(story, answer):
        return False
    if _asks_untold(story, answer, words) or _asks_for_others(story, answer, words):
        return False
    alike = [
        q
        for q in story.quantities
        if q.known
        and q.start not in answer.places
        and story.agrees(q, query.thing[-1:])
        and not only_counts(story, q)
    ]
    own = (query.words | query.than) - set(query.thing[-1:]) - {query.verb}
    if any(w in q.words and w not in words for w in own for q in alike):
        return False
    periods = _periods(story, answer)
    counted = {q.head for q in story.quantities if q.asked and only_counts(story, q)}
    if periods - counted - words - set(query.thing) and "both" not in query.lows:
        return False
    spoken = {"last"} if query.verb == "last" else set()
    ordinals = (
        lexicon.ORDINALS
        - spoken
        - ({"first"} if query.began or "first two" in query.text else set())
    )
    named = {w for w in query.words | query.than if w in ordinals or w in story.names}
    owners = {w for q in story.quantities for w in q.who | q.to} & story.names
    missing = named - words
    return not missing or (not missing & ordinals and len(owners) <= 1)


def _periods(story: Story, answer: Answer) -> frozenset[str]:
    """The days, weeks and hours that the question names and that the story has to tell of."""
    query = story.query
    periods = {one(w) for w in query.lows} & PERIODS
    if answer.unknown in ("product", "total") and _DAYTIMES & {
        w for q in answer.used for w in q.around
    }:
        periods -= {"day"}
    if "end of the day" in query.text or (answer.unknown == "change" and "during" in query.lows):
        periods -= {"day", "week", "month"}
    if query.text.endswith("that day") and not lexicon.DATES & story.known_words:
        periods -= {"day"}
    if query.began and answer.unknown == "start":
        return frozenset()  # at the beginning of the week
    return frozenset(periods)


def _said_of_used(story: Story, answer: Answer) -> frozenset[str]:
    """All words that tell the amounts used, and those of the clauses that were read."""
    words = frozenset().union(*(q.words | set(q.per) | q.other for q in answer.used))
    words |= {w for q in story.original if q.asked and q.start in answer.places for w in q.thing}
    words |= {t.lemma for n in answer.told for t in story.clauses[n].tokens}
    return words | answer.said


def _asks_otherwise(story: Story, answer: Answer) -> bool:
    """Whether the question asks in another way, as an average or at least, or of other things."""
    if story.query.began and answer.unknown == "total" and not story.query.total:
        return True  # how many were there at first?
    meant = {"mean": {"average"}, "remainder": {"possible"}}
    loaded = _LOADED_ASKED - meant.get(answer.unknown, set())
    loaded -= {"back"} if story.query.thing == ("change",) else set()
    saved = bool({"save", "saved", "saves"} & set(story.query.lows))
    told = [q for q in answer.used if not q.asked]
    if saved and not any(q.verb in ("save", "put", "set") for q in told):
        return True  # how much less is paid
    timed = story.query.lows[:2] == ("how", "long") and any(q.money for q in told)
    return bool(set(story.query.lows) & loaded) or timed or _strange(story, answer)


def _asks_for_others(story: Story, answer: Answer, words: frozenset[str]) -> bool:
    """Whether the question asks for others than the story tells of: green ones, per person."""
    query = story.query
    groups = len(query.thing) == 1 and answer.unknown == "number of groups"
    named = set(() if groups else query.thing) - ({"one"} if "ones" in query.lows else set())
    known = (
        story.known_words
        | story.owners
        | _by_question(story)
        | UNITS
        | _GENERAL
        | KINDS.keys()
        | PIECES
        | _EXTENTS
    )
    goal = query.verb == "join" and {"goal", "limit", "target"} & story.known_words
    new = {"new"} if goal and answer.unknown in ("change", "addend") else set()
    new |= _made_of_it(story, answer, named)
    if named - known - answer.said - heard_in(story, answer) - _unspoiled(answer) - new:
        return True
    behind = {one(b) for a, b in pairwise(query.lows) if a in ("per", "each", "every")}
    words -= frozenset().union(*(q.words - {q.head} for q in answer.used if q.asked))
    shared = answer.unknown in ("group size", "mean")
    if len(behind) > 1 if shared else behind - words:
        return True
    if (
        "other" in query.lows
        and answer.unknown not in ("addend", "side")
        and "other" not in story.known_words
    ):
        return True
    soon = any(a == "next" and b in PERIODS for a, b in pairwise(query.lows))
    return soon and "next" not in story.known_words


def _made_of_it(story: Story, answer: Answer, named: set[str]) -> set[str]:
    """What came to an amount may be called by where it came from: rainwater is water."""
    came = answer.unknown == "change" and "water" in story.heads
    return named & {"rainwater", "meltwater"} if came else set()


def _unspoiled(answer: Answer) -> frozenset[str]:
    """What is left may be called where some was spoiled: good radishes."""
    left = answer.situation == "take from" and answer.unknown == "result"
    return _GOOD if left and any(q.verb in _SPOILING for q in answer.used) else frozenset()


_SPOILING = word_set("spoil ruin rot break crack wilt die nibble")
_GOOD = word_set("good fresh healthy undamaged unbroken")


def _all_of_them(story: Story, answer: Answer) -> frozenset[str]:
    """A word for both things that are put together: the price of both tools."""
    named = re.search(r"\b(?:both|the two|these two|all the) ([a-z]+s)\b", story.query.text)
    every = len(answer.used) == len(story.original) == len("ab")
    return frozenset({one(named[1])}) if named and every and answer.unknown == "total" else _NONE


_NONE: frozenset[str] = frozenset()


def _by_question(story: Story) -> frozenset[str]:
    """What the question alone says is counted: how many stamps are left, if she had 85?"""
    thing = story.query.thing
    alone = all(q.borrowed and q.thing == thing for q in story.quantities)
    if alone:
        return frozenset(thing)
    behind = all(q.start > story.query.start for q in story.quantities)
    behind = behind and all(set(q.thing) <= set(thing) for q in story.quantities)
    return story.query.words if behind and story.query.began else frozenset()


def _asks_untold(story: Story, answer: Answer, words: frozenset[str]) -> bool:
    """Whether a total is made where the question names what no amount is told of.

    How much do the carrots weigh, where all of a salad and its lettuce are told?
    """
    query = story.query
    plain = answer.unknown == "total" and not (query.total or query.thing or query.also)
    untold = plain and bool((query.words - {query.verb} - words) & story.known_words)
    return untold or _asks_where_it_went(story, answer)


def _asks_where_it_went(story: Story, answer: Answer) -> bool:
    """Whether what is left is made where the question names where some went: in the glass."""
    if answer.unknown != "result" or answer.situation not in ("take from", "in and out"):
        return False
    first, *others = answer.used
    asked = story.query.words - set(story.query.thing) - first.words
    moved = [q for q in others if {"into", "to"} & q.near]
    return any((q.around | q.to) & asked for q in moved)


def _money_for_things(story: Story, answer: Answer) -> bool:
    """Whether a comparison leads to money where things are asked for."""
    compared = answer.situation in ("larger", "smaller", "times as many", "difference")
    return compared and answer.used[0].money and bool(story.query.thing) and not story.money_asked


_DAYTIMES = word_set("morning noon afternoon evening")

_ALWAYS = word_set("be have own hold contain need remain stay keep begin start fit travel total")


def _strange(story: Story, answer: Answer) -> bool:
    """Whether the question speaks of what the story does not: another thing done, another thing."""
    query = story.query
    verbs = {c.base for c in story.clauses} | {q.verb for q in story.quantities}
    done = query.verb
    known = (
        done in verbs | _ALWAYS | answer.said | heard_in(story, answer)
        or query.thing == ("change",)
        or set(lexicon.SAID_ALIKE.get(done, "").split()) & verbs
    )
    if done and not known and answer.unknown in ("total", "result", "difference"):
        return True
    if answer.situation == "area" or any(q.asked for q in answer.used):
        return False
    things = query.words - set(query.thing) - {w for t in query.also for w in t} - {done}
    heard = (
        story.known_words
        | {"first"}
        | verbs
        | _GENERAL
        | UNITS
        | frozenset(w for q in story.quantities for w in q.words)
        | ({"long", "tall", "heavy", "wide", *_as_much(query)} if query.kind == "times" else set())
        | ({"average", "mean", "score"} if answer.unknown == "mean" else set())
        | ({"alive", "living"} & ({"alive", "living"} if "die" in verbs else set()))
        | (_SIZES if query.kind == "long" else set())
        | ({"price", "cost"} if story.money_asked else set())
        | (_PACKED if answer.unknown == "number of groups" else frozenset())
        | heard_in(story, answer)
        | _unspoiled(answer)
        | _all_of_them(story, answer)
        | _by_question(story)
    )
    if query.lows[-1:] == ("whole",):
        heard -= {"whole"}  # how many are whole: not a whole day
    if answer.unknown == "start" and len(answer.used) == len("ab") and "before" in query.lows:
        things -= set(map(one, query.lows[query.lows.index("before") :]))  # before it was opened
    if "still" in query.lows[-2:-1]:
        things = frozenset(VERBS.get(word, word) for word in things)  # were still hanging
    return bool(things - heard - answer.said - _where_they_came(story))


def _where_they_came(story: Story) -> frozenset[str]:
    """Where the question says that things are which came: were at the picnic, if 16 girls came?"""
    clauses = story.clauses
    came = {"come", "arrive", "join", "attend"} >= {c.base for c in clauses}
    asks_first = re.match(r"\W*(?:if|when)\b", story.text[story.query.end :])
    lows = story.query.lows
    at = max((i for i, low in enumerate(lows) if low in ("in", "at", "on")), default=len(lows))
    placed = any(q.around or q.to for q in story.quantities)
    told = came and asks_first and not placed
    return frozenset(map(one, lows[at + 1 :])) if told else frozenset()


def _as_much(query: Query) -> list[str]:
    """What is named behind "as much": how many times as much water."""
    return [one(b) for a, b in pairwise(query.lows) if a in ("much", "many")]


_EXTENTS = word_set("long tall wide high deep heavy")
_SIZES = word_set("length height width weight size")
_PACKED = word_set("need order full complete all pack hold fill store fit carry seat")
"""What a question says of groups that a remainder makes one more of, or none."""

_GENERAL = word_set(
    "work working last take finish do school year time place number amount money way end "
    "class trip course change piece group row people person day whole beginning start "
    "beforehand"
)
