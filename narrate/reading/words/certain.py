"""What makes a reading sure: nothing of the story that could matter is left unread.

A reading is refused where a number is not used and not told apart from those used, where a sentence
says more than was read, where the question asks about something else, or where the answer would be
no sensible number.
"""

from __future__ import annotations

from collections.abc import Sequence
from itertools import pairwise

from narrate.errors import ExactError
from narrate.exact.caption import write
from narrate.exact.tree import Blank, value
from narrate.reading.words import lexicon
from narrate.reading.words.changes import is_what_went
from narrate.reading.words.clauses import Clause
from narrate.reading.words.extra import is_extra
from narrate.reading.words.facts import KINDS, PIECES, Answer, Story
from narrate.reading.words.heard import beside, only_counts
from narrate.reading.words.heard import heard as heard_in
from narrate.reading.words.lexicon import UNITS, one
from narrate.reading.words.plain import word_set
from narrate.reading.words.quantity import Quantity
from narrate.reading.words.query import Query
from narrate.reading.words.seeming import doubt

_LOADED = word_set(
    "each every per half twice double triple times percent average daily weekly monthly "
    "hourly same rest split share shared equally discount except both twice dozen pair "
    "pairs again less fewer quarter another equal forth direction perimeter area volume "
    "square rectangle rectangular circle"
)


_MEANT = {
    "group size": word_set("each every same equal equally share shared split"),
    "addend": word_set("rest other others remaining remainder"),
    "side": word_set("rectangle rectangular square area"),
    "product": word_set("rectangle rectangular square area"),
    "perimeter": word_set("rectangle rectangular square perimeter"),
}
_LOADED_ASKED = word_set(
    "average back forth profit tax discount percent half twice double approximately "
    "estimate least most possible nearest rounded round"
)
_PERIODS = word_set("hour day week month year minute night")
_LOADED_VERBS = word_set("split share divide double triple halve repeat return do happen")


def why_not(story: Story, answer: Answer) -> str:
    """What of the story a reading leaves unread, "" if nothing."""
    try:
        if value(answer.tree) < 0:
            return "it would be below zero"
    except ExactError:
        return "it divides by zero"
    if story.query.negative and answer.unknown != "not so":
        return "the question says not"
    unused = [q for q in story.quantities if q.start not in answer.places]
    needed = next((q for q in unused if not is_extra(story, q, answer)), None)
    if needed is not None:
        return f"it does not use {needed.text or write(needed.tree or Blank())}"
    if reason := doubt(story, answer):
        return reason
    if any(q.periodic for q in answer.used) and answer.situation not in (
        "difference",
        "put together",
    ):
        return "it happens again and again"
    if not _clauses_read(story, answer, unused):
        return "a sentence is left out"
    if not _question_read(story, answer) or _money_for_things(story, answer):
        return "the question asks for something else"
    return "" if _is_sensible(story, answer) else "it would be no whole number"


def _clauses_read(story: Story, answer: Answer, unused: Sequence[Quantity]) -> bool:
    """Whether no clause without a number says what could change the amounts."""
    places = answer.places
    seen = {q.clause for q in answer.used} | {q.clause for q in unused}
    seen |= {q.clause for q in story.original if q.start in places}
    first = min((q.clause for q in answer.used), default=0)
    idle = [
        c
        for n, c in enumerate(story.clauses)
        if n > first
        and n not in seen
        and n not in answer.told
        and c.base
        and c.link not in ("who", "that", "which", "where", "said")
    ]
    meant = _MEANT.get(answer.unknown, frozenset())
    went = answer.unknown == "change"
    if any(not (c.lows & meant or (went and is_what_went(c, story.query))) for c in idle):
        return False
    loaded = _LOADED - _MEANT.get(answer.unknown, frozenset())
    aside = {q.clause for q in unused}
    if any(_strong(c) for n, c in enumerate(story.clauses) if n in aside):
        return False
    if any(
        _is_half_read(c, [q for q in answer.used if q.clause == n])
        for n, c in enumerate(story.clauses)
    ):
        return False
    return not any(
        c.lows & loaded or c.base in _LOADED_VERBS or _is_regular(c)
        for n, c in enumerate(story.clauses)
        if n not in seen and n not in answer.told
    )


def _is_regular(clause: Clause) -> bool:
    """Whether a clause says that all happens again: every day."""
    return "every" in clause.lows and bool({one(w) for w in clause.lows} & _PERIODS)


_STRONG = word_set(
    "half third quarter thirds quarters double doubled triple both average tax tip "
    "discount again couple round-trip pair instead"
)


def _strong(clause: Clause) -> frozenset[str]:
    """The strong words of a clause; in "the third chapter" the third is no part."""
    counted = lexicon.ORDINALS if clause.who & lexicon.ORDINALS else frozenset()
    return clause.lows & _STRONG - counted - _one_pair(clause)


def _one_pair(clause: Clause) -> frozenset[str]:
    """The word pair where it names one thing: a pair of gloves."""
    lows = [t.low for t in clause.tokens]
    one_of = any(lows[i : i + 3] == ["a", "pair", "of"] for i in range(len(lows)))
    return frozenset({"pair"}) if one_of and lows.count("pair") == 1 else frozenset()


def _asked_parts(used: Sequence[Quantity]) -> frozenset[str]:
    """The strong words that the amounts used are written in: half of, third, twice."""
    written = {w.lower() for q in used for w in q.text.split()}
    return frozenset(written) | (
        lexicon.ORDINALS if any(q.who & lexicon.ORDINALS for q in used) else frozenset()
    )


def _measured(used: Sequence[Quantity]) -> bool:
    return any(q.sort == "part" or set(q.thing) & UNITS for q in used)


def _is_half_read(clause: Clause, used: Sequence[Quantity]) -> bool:
    """Whether a clause whose amounts are used says of them what no row has read."""
    if not used:
        return False
    if {"different", "own"} & clause.lows and clause.base != "own" and _measured(used):
        return True  # of a different bottle, of his own
    if "off" in clause.lows and any(q.money for q in used) and not clause.lows & {"each", "every"}:
        return True
    if clause.lows & _STRONG - _asked_parts(used) - _one_pair(clause):
        return True
    each = clause.lows & {"each", "every", "per", "weekly", "daily", "monthly", "hourly", "apiece"}
    return bool(each) and not any(
        q.sort == "rate" or q.periodic or q.equal or q.parts for q in used
    )


def _question_read(story: Story, answer: Answer) -> bool:
    """Whether the words of the question that tell amounts apart are those of what was used."""
    query = story.query
    words = frozenset().union(*(q.words | set(q.per) | q.other for q in answer.used))
    words |= {t.lemma for n in answer.told for t in story.clauses[n].tokens}
    loaded = _LOADED_ASKED - ({"average"} if answer.unknown == "mean" else set())
    if set(query.lows) & loaded or _strange(story, answer) or _asks_untold(story, answer, words):
        return False
    if _asks_for_others(story, answer, words):
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
    if _asks_for_another_time(story, answer, words):
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
    if missing and any(_is_somebody(story, q) for q in answer.used):
        return False
    return not missing or (not missing & ordinals and len(owners) <= 1)


def _is_somebody(story: Story, q: Quantity) -> bool:
    """Whether an amount is of a "she" or "he" who is not known: Tom and Ana, she sold 23 cups."""
    if q.who or q.clause >= len(story.clauses):
        return False
    return bool({t.low for t in story.clauses[q.clause].subject} & {"he", "she"})


def _asks_for_another_time(story: Story, answer: Answer, words: frozenset[str]) -> bool:
    """Whether the question names a stretch of time that no amount used is told of."""
    query = story.query
    periods = {one(w) for w in query.lows} & _PERIODS
    if answer.unknown in ("product", "total") and _DAYTIMES & {
        w for q in answer.used for w in q.around
    }:
        periods -= {"day"}
    if query.began and answer.unknown == "start":
        periods = set()  # at the beginning of the week
    counted = {q.head for q in story.quantities if q.asked and only_counts(story, q)}
    return bool(periods - counted - words - set(query.thing)) and "both" not in query.lows


def _asks_for_others(story: Story, answer: Answer, words: frozenset[str]) -> bool:
    """Whether the question asks for others than the story tells of: green ones, per person."""
    query = story.query
    named = set(query.thing if len(query.thing) > 1 else ())
    known = story.known_words | UNITS | _GENERAL | KINDS.keys() | PIECES | _EXTENTS
    if named - known - heard_in(story, answer):
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
    soon = any(a == "next" and b in _PERIODS for a, b in pairwise(query.lows))
    return soon and "next" not in story.known_words


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

_ALWAYS = word_set("be have own hold contain need remain begin start fit travel total")


def _strange(story: Story, answer: Answer) -> bool:
    """Whether the question speaks of what the story does not: another thing done, another thing."""
    query = story.query
    verbs = {c.base for c in story.clauses} | {q.verb for q in story.quantities}
    done = query.verb
    known = (
        done in verbs | _ALWAYS | heard_in(story, answer)
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
        | (_SIZES if query.kind == "long" else set())
        | (_PACKED if answer.unknown == "number of groups" else frozenset())
        | heard_in(story, answer)
    )
    return bool(things - heard)


def _as_much(query: Query) -> list[str]:
    """What is named behind "as much": how many times as much water."""
    return [one(b) for a, b in pairwise(query.lows) if a in ("much", "many")]


_EXTENTS = word_set("long tall wide high deep heavy")
_SIZES = word_set("length height width weight size")
_PACKED = word_set("need order full complete all pack hold fill store fit carry seat")
"""What a question says of groups that a remainder makes one more of, or none."""

_GENERAL = word_set(
    "work working last take finish do school year time place number amount money way end "
    "class trip course change piece group row people person day whole"
)


def _is_sensible(story: Story, answer: Answer) -> bool:
    """Whether a count of things is whole, and only amounts of one measure are put together."""
    counted = {
        w for q in answer.used if q.sort in ("amount", "compare") for w in q.thing if w in UNITS
    }
    if answer.unknown in _JOINED and _of_two_measures(story, answer, counted):
        return False
    wanted = [q for q in answer.used if q.verb in ("need", "want") and q.more]
    if wanted or _by_age(story, answer, counted):
        return False
    whole = (
        story.query.kind == "fraction"
        or answer.value.denominator == 1
        or any(q.value.denominator != 1 for q in answer.used)
    )
    if story.query.kind == "much" and answer.unknown == "group size":
        return True  # each gets 3/4 pie
    measured = story.money_asked or set(story.query.thing) & UNITS or story.query.kind == "long"
    return whole or bool(measured)


_JOINED = word_set("total result difference change start addend larger smaller")
"""Unknowns of sums and differences."""


def _of_two_measures(story: Story, answer: Answer, counted: set[str]) -> bool:
    """Whether amounts are of two measures, or of another than is asked for."""
    kinds = {
        frozenset(w for w in q.thing if w in UNITS or w == "square")
        for q in answer.used
        if q.sort in ("amount", "compare")
    }
    asked = set(story.query.thing) & UNITS
    areas = len(kinds) > 1 and any("square" in k for k in kinds)
    return len(counted) > 1 or areas or bool(counted and asked and not counted & asked)


def _by_age(story: Story, answer: Answer, counted: set[str]) -> bool:
    """Whether an age is told that is not used, and the question may be of ages."""
    unused = [q for q in story.quantities if q.start not in answer.places]
    ages = [q for q in unused if q.head == "year" and not beside(q, (*story.query.thing, *counted))]
    return "old" in story.known_words and bool(ages)
