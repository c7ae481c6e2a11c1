"""What makes a reading sure: nothing of the story that could matter is left unread.

A reading is refused where a number is not used and not told apart from those used, where a sentence
says more than was read, where the question asks about something else, or where the answer would be
no sensible number.
"""

from __future__ import annotations

import re
from collections.abc import Sequence
from itertools import chain

from narrate.errors import ExactError
from narrate.exact.caption import write
from narrate.exact.tree import Blank, value
from narrate.reading.words import lexicon
from narrate.reading.words.asked_for import PERIODS, question_read
from narrate.reading.words.changes import is_what_went
from narrate.reading.words.clauses import Clause
from narrate.reading.words.elsewhere import belongs_elsewhere
from narrate.reading.words.extra import is_extra
from narrate.reading.words.facts import Answer, Story
from narrate.reading.words.heard import beside
from narrate.reading.words.lexicon import UNITS, one
from narrate.reading.words.plain import shortened, word_set
from narrate.reading.words.quantity import Quantity
from narrate.reading.words.seeming import doubt
from narrate.reading.words.witness import contradicted, cut_in_pieces

_LOADED = word_set(
    "each every per half twice double triple times percent average daily weekly monthly "
    "hourly same rest split share shared equally discount except both twice dozen pair "
    "pairs again less fewer quarter another equal forth direction perimeter area volume "
    "square rectangle rectangular circle except besides excluding slower faster quicker"
)


_MEANT = {
    "for one": word_set("each every same equal"),
    "group size": word_set("each every same equal equally share shared split"),
    "addend": word_set("rest other others remaining remainder"),
    "side": word_set("rectangle rectangular square area"),
    "product": word_set("rectangle rectangular square area"),
    "perimeter": word_set("rectangle rectangular square perimeter around round"),
    "equal sides": word_set("each every equal square perimeter around round"),
}
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
        return f"it does not use {_named(needed)}"
    if reason := (
        doubt(story, answer) or belongs_elsewhere(story, answer) or contradicted(story, answer)
    ):
        return reason
    if any(q.periodic for q in answer.used) and answer.situation not in (
        "difference",
        "put together",
    ):
        return "it happens again and again"
    if (unread := _unread(story, answer, unused)) is not None:
        return f"it leaves out {_said(unread)}"
    if not question_read(story, answer):
        return "the question asks for something else"
    return "" if _is_sensible(story, answer) else "it would be no whole number"


def _unread(story: Story, answer: Answer, unused: Sequence[Quantity]) -> Clause | None:
    """A clause without a number that could change the amounts, or one that is half read."""
    places = answer.places
    seen = {q.clause for q in answer.used} | {q.clause for q in unused} | answer.told
    seen |= {q.clause for q in story.original if q.start in places}
    told = [
        (n, c)
        for n, c in enumerate(story.clauses)
        if n not in seen and not says_only_rest(story, c, answer)
        if not (_says_little(c, answer) or _only_both_do(c, answer))
    ]
    first = min((q.clause for q in answer.used), default=0)
    idle = (c for n, c in told if n > first and _may_change(story, answer, c))
    aside = {q.clause for q in unused}
    strong = (c for n, c in enumerate(story.clauses) if n in aside and _strong(c))
    used = ((c, [q for q in answer.used if q.clause == n]) for n, c in enumerate(story.clauses))
    half = (c for c, of_it in used if _is_half_read(c, of_it))
    speaking = (c for _, c in told if _says_more(answer, c))
    return next(chain(idle, strong, half, speaking), None)


def _may_change(story: Story, answer: Answer, clause: Clause) -> bool:
    """Whether a clause says what happened, and not just what a reading takes it for."""
    meant = clause.lows & _MEANT.get(answer.unknown, frozenset())
    went = answer.unknown == "change" and is_what_went(clause, story.query)
    tells = bool(clause.base) and clause.link not in ("who", "that", "which", "where", "said")
    return tells and not (meant or went)


def _says_more(answer: Answer, clause: Clause) -> bool:
    """Whether a clause holds words by which amounts are another thing."""
    loaded = clause.lows & (_LOADED - _MEANT.get(answer.unknown, frozenset()))
    said = bool(loaded) or clause.base in _LOADED_VERBS
    return said or _is_regular(clause) or _is_denied(clause) or _equates(clause)


def _named(q: Quantity) -> str:
    """An amount as it is written, without what follows its thing."""
    words = re.match(r"\S+(?: \d+/\d+)?(?: (?!with\b|plus\b|for\b|and\b)[^\W\d_]\S*){0,3}", q.text)
    return words[0] if words else write(q.tree or Blank())


def _said(clause: Clause) -> str:
    """The words of a clause, shortened where they are many."""
    words = " ".join(t.text for t in clause.tokens)
    return shortened(re.sub(r" (?=[,;:.?!'’%])|(?<=\$) ", "", words).strip(" ,;:."))


_BEGINS = word_set("begin start end open close be")


def _says_little(clause: Clause, answer: Answer) -> bool:
    """Whether a clause says no more than at what time it was, or that nothing is left over."""
    timed = clause.base in _BEGINS and any(":" in t.text for t in clause.tokens if t.kind == "t")
    shared = answer.unknown in ("group size", "number of groups")
    none = bool({"no", "none", "nothing"} & clause.lows) and bool(
        {"left", "leftover"} & clause.lows
    )
    even = answer.value.denominator == 1 or answer.unknown == "group size"
    return timed or _only_gets_there(clause) or (shared and none and even)


def _only_both_do(clause: Clause, answer: Answer) -> bool:
    """Whether a clause says of two that both do what is then told of each: Ada and Bo both walk."""
    both = answer.situation == "difference" and "both" in clause.lows
    told = all(q.who & clause.who for q in answer.used)
    plain = not clause.lows & (_LOADED | _STRONG - {"both"}) and not _is_denied(clause)
    return both and told and plain and clause.base not in _LOADED_VERBS


def _only_gets_there(clause: Clause) -> bool:
    """Whether a clause says no more than that somebody got somewhere by then: when she got home."""
    words = [t for t in clause.tokens if t.kind != "p"]
    here = clause.link in ("when", "once", "after") and clause.base in _GETTING
    return here and len(words) < len("abcde") and {words[-1].low} <= _THERE


_GETTING, _THERE = word_set("get come arrive return go be"), word_set("home back there")


def says_only_rest(story: Story, clause: Clause, answer: Answer) -> bool:
    """Whether a clause says no more than that the rest is what is asked for: the rest we kept."""
    small = lexicon.PRONOUNS | lexicon.DETERMINERS | {"of", "and", "but", "were", "was", ",", "."}
    said = {t.low for t in clause.tokens if lexicon.VERBS.get(t.low) != clause.base}
    asked = clause.base == story.query.verb != "be" and answer.unknown in ("result", "addend")
    rest = said & {"rest", "others", "remainder"}
    return asked and bool(rest) and said <= small | rest | set(story.query.thing)


def _equates(clause: Clause) -> bool:
    """Whether a clause says that an amount that is not told is as large as another."""
    lows = [t.low for t in clause.tokens]
    places = [at for at, low in enumerate(lows) if low == "as"]
    return len(places) > 1 and not {"well", "soon", "possible"} & set(lows)


def _is_denied(clause: Clause) -> bool:
    """Whether a clause says what is not so: not counting the smallest."""
    return clause.negative or "not" in clause.lows


def _is_regular(clause: Clause) -> bool:
    """Whether a clause says that all happens again: every day."""
    return "every" in clause.lows and bool({one(w) for w in clause.lows} & PERIODS)


_STRONG = word_set(
    "half third quarter thirds quarters double doubled triple both average tax tip "
    "discount again couple round-trip pair instead"
)


def _strong(clause: Clause) -> frozenset[str]:
    """The strong words of a clause; in "the third chapter" the third is no part."""
    lows = [t.low for t in clause.tokens]
    at = lows.index("third") if lows.count("third") == 1 else 0
    third = lows[at - 1 : at] in (["a"], ["the"]) and _counts_on(clause, at)
    counted = lexicon.ORDINALS if third or clause.who & lexicon.ORDINALS else frozenset()
    return clause.lows & _STRONG - counted - _one_pair(clause)


def _counts_on(clause: Clause, at: int) -> bool:
    """Whether "a third" at a place counts on, and is no part: in another 28, in a third 19."""
    behind = clause.tokens[at + 1 : at + 2]
    return bool(behind) and (behind[0].kind == "n" or behind[0].low not in lexicon.NO_THING)


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
    if _strong(clause) - _asked_parts(used):
        return True
    each = clause.lows & {"each", "every", "per", "weekly", "daily", "monthly", "hourly", "apiece"}
    return bool(each) and not any(
        q.sort == "rate" or q.periodic or q.equal or q.parts for q in used
    )


def _is_sensible(story: Story, answer: Answer) -> bool:
    """Whether a count of things is whole, and only amounts of one measure are put together."""
    rates = [q for q in answer.used if q.sort == "rate"]
    told = [q for q in answer.used if not any(set(r.per) & set(q.thing) for r in rates)]
    counted = {w for q in told if q.sort in ("amount", "compare") for w in q.thing if w in UNITS}
    if answer.unknown in _JOINED and _of_two_measures(story, told, counted):
        return False
    wanted = [q for q in answer.used if q.verb in ("need", "want") and q.more]
    if wanted or _by_age(story, answer, counted):
        return False
    whole = (
        story.query.kind == "fraction"
        or answer.value.denominator == 1
        or any(q.value.denominator != 1 for q in answer.used)
    )
    if answer.unknown == "group size" and (story.query.kind == "much" or cut_in_pieces(story)):
        return True  # each gets 3/4 pie
    if answer.unknown == "mean":
        return True
    measured = story.money_asked or set(story.query.thing) & UNITS or story.query.kind == "long"
    return whole or bool(measured)


_JOINED = word_set("total result difference change start addend larger smaller")
"""Unknowns of sums and differences."""


def _of_two_measures(story: Story, told: Sequence[Quantity], counted: set[str]) -> bool:
    """Whether amounts are of two measures, or of another than is asked for."""
    kinds = {
        frozenset(w for w in q.thing if w in UNITS or w == "square")
        for q in told
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
