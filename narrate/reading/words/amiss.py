"""Numbers that the words right beside them make something else than an amount to join.

The other half of the second look (see `witness`): a range is no two amounts, 60% is not 60 of
them, about 18 is not 18, what is still to do is not done, "5 more" of another's is more than his.
"""

from __future__ import annotations

import re
from collections.abc import Sequence
from itertools import pairwise

from narrate.reading.words.facts import Answer, Story
from narrate.reading.words.lexicon import COLOURS, DATES, VERBS, one
from narrate.reading.words.mistaken import mistaken
from narrate.reading.words.quantity import Quantity

Joined = Sequence[tuple[Quantity, str]]


def amiss(story: Story, answer: Answer, joined: Joined) -> str:
    """What the words beside the numbers of a sum make of them, "" if they are just that."""
    if _DONE_TO_A_NUMBER.search(story.text):
        return "something is done to a number that is not told"
    added = sorted((q for q, role in joined if role in "+−" and role), key=lambda q: q.start)
    if any(_is_one_range(story, a, b) for a, b in pairwise(added)):
        return "two numbers tell one amount"
    percents = [bool(_PERCENT.match(story.text, q.start)) for q in added]
    if any(percents) and not all(percents) and answer.unknown != "percent":
        return "a percent is not added to what is counted"
    if any(_UNSURE.search(story.text[: q.start]) for q, _ in joined):
        return "it is only about so much"
    if any(role and role in "×÷" for _, role in joined) and _UNLIKE.search(story.text):
        return "the groups are not alike"
    if added and _EXCEPT.search(story.text):
        return "some are left out"
    if _adds_what_is_to_do(story, answer, added):
        return "what is still to do is not done"
    if answer.unknown == "total" and any(_is_more_than_his(q, added) for q in added):
        return "more than another has is no amount of its own"
    if _EACH_OR_ALL.search(story.text):
        return "it is not told whether each costs so much, or all"
    if (owner := _OWNED.search(story.text)) and (owner[1] or owner[2]) in story.query.words:
        return "whose some of them are is told"
    if added and _SEVERAL_ALIKE.search(story.text):
        return "there are several of one kind"
    if _asks_before_the_end(story):
        return "some came or went after the day that is asked for"
    if _WAYS.search(story.query.text):
        return "the question asks in how many ways, or how likely"
    if (per := _PER.search(story.query.text)) and one(per[1]) not in story.known_words:
        return "it is asked for each of some who are not told of"
    if _is_not_one_of_several(story, answer):
        return "it is one of the parts that is left out"
    if reason := mistaken(story, answer, joined):
        return reason
    other = _asks_for_the_other(story) or _asks_of_untold(story)
    return "somebody else is asked for" if other else ""


_DONE_TO_A_NUMBER = re.compile(
    r"\bnumber (?:is|was|gets) (?:first |then )?(?:doubled|tripled|quadrupled|halved|squared|"
    r"cubed)\b"
    r"|\b(?:doubles?|doubled|triples?|tripled|halves|halved) (?:it|(?:the|a|my|his|her) number)\b"
)
_WAYS = re.compile(
    r"\b(?:different|possible) (?:combinations?|arrangements?|ways|orders|outfits)\b"
    r"|\b(?:probability|chance)\b"
)
_EACH_OR_ALL = re.compile(
    r"\b(?:\d+|two|three|four|five|six|seven|eight|nine|ten) (?:[a-z]+ ){1,3}?that costs? "
    r"\$[\d,.]*\d(?! (?:each|apiece|per|an?|in|al|together)\b)"
)
_OWNED = re.compile(
    r"\bthe (?!one|other)[a-z]+ [a-z]+ (?:(?:are|is|were|was) ([a-z]+)'s(?= ?[.,])"
    r"|belongs? to ([a-z]+)(?= ?[.,]))"
)
_SEVERAL_ALIKE = re.compile(
    r"\b(?:two|three|four|five) ([a-z]+) ([a-z]+)s\b[^?]*[.?!] the \1 \2 "
    r"(?:holds|weighs|costs|is)\b"
)
_WHEN = DATES | {"yesterday", "today", "breakfast", "lunch", "dinner", "supper"}
_AFTER_DAY = re.compile(rf"\bafter ({'|'.join(sorted(_WHEN))})\b")


def _asks_before_the_end(story: Story) -> bool:
    """Whether it is asked what was left after a day that another day is told behind."""
    found = _AFTER_DAY.search(story.query.text)
    told = story.text[: story.query.start].rpartition(found[1])[2] if found else ""
    return bool(_WHEN.intersection(re.findall("[a-z]+", told)))


_PER = re.compile(r"\bper (person|pupil|student|child|player|member|family)\b")
_RANGE = re.compile(r"\s*(?:to|or|by|x|×|–|-)\s*")
_AND_A_HALF = re.compile(r"\b(?:dozen|score|pair|couple|hundred|thousand) and (?:an? )?$")


def _is_one_range(story: Story, a: Quantity, b: Quantity) -> bool:
    """Whether two numbers stand as "5 to 7", "3 by 4" or "a dozen and a half"."""
    number = re.match(r"[\d.,/]*\d|[^\W\d_]+", story.text[a.start :])
    between = story.text[a.start + (number.end() if number else 0) : b.start]
    if _RANGE.fullmatch(between):
        return not re.search(r"\bfrom (?:\w+ )?$", story.text[: a.start])
    return bool(_AND_A_HALF.search(story.text[: b.start]))


_PERCENT = re.compile(r"[\d.,/]*\d ?(?:%|percent\b|per cent\b)")
_UNSURE = re.compile(r"\b(?:about|roughly|approximately|around|at least|at most|(?<!t it )up to) $")
_UNLIKE = re.compile(
    r"\b(?:not|never) (?:\w+ )?(?:equal|even|a?like)(?:ly)?\b|\bune(?:ven|qual)\w*|\bno two\b"
)
_EXCEPT = re.compile(r"\b(?:apart from|not counting|other than|aside from|not including)\b")

_TO_DO = re.compile(r"\b(?:has|have|had|still|yet|left) (?:still )?to [a-z]+(?: [a-z]+)? $")
_DONE = re.compile(
    r"\b(?:so far|already|yet)\b|\bha(?:s|ve) (?:he|she|they|[a-z]+) [a-z]+(?:ed|en)\b"
)


def _adds_what_is_to_do(story: Story, answer: Answer, added: Sequence[Quantity]) -> bool:
    """Whether a total of what was done has in it what is still to do, or what has to be done."""
    if answer.unknown not in ("total", "result"):
        return False
    to_do = [q for q in added if _TO_DO.search(story.text[: q.start])]
    both = len(to_do) > 1 and any("still" in q.near for q in to_do)
    summed = answer.situation in ("add to", "put together")
    return summed and bool(both or (to_do and _DONE.search(story.query.text)))


def _is_more_than_his(q: Quantity, added: Sequence[Quantity]) -> bool:
    """Whether an amount is told as so many more than somebody else has: and Ben had 5 more."""
    others = [p for p in added if p is not q and p.start < q.start and p.who]
    there = (
        q.more
        and "more" in q.near
        and q.verb_sort in ("be", "own")
        and bool(q.who)
        and not q.made_by
    )
    return there and any(not p.who & q.who and p.verb == q.verb for p in others)


_SHE = re.compile(r"\b(?:she|her|hers|herself)\b")
_HE = re.compile(r"\b(?:he|him|his|himself)\b")


def _asks_for_the_other(story: Story) -> bool:
    """Whether the question asks for a "he" where whom the story tells of is a "she"."""
    told = story.text[: story.query.start]
    asked = story.query.text
    if len(story.names) < len("ab") or story.names & {one(low) for low in story.query.lows}:
        return False  # how many did Alma put in hers?
    for here, other in ((_SHE, _HE), (_HE, _SHE)):
        if here.search(asked) and not other.search(asked) and not here.search(told):
            return bool(other.search(told))
    return False


def _asks_of_untold(story: Story) -> bool:
    """Whether the question names, before its "how many times", what the story tells nothing of."""
    if story.query.kind != "times":
        return False
    begun = max(story.text.rfind(mark, 0, story.query.start) for mark in (". ", "? ", "! ", "; "))
    named = {one(word) for word in re.findall("[a-z]+", story.text[begun + 1 : story.query.start])}
    told = {one(word) for word in re.findall("[a-z]+", story.text[: begun + 1])}
    return bool((named & COLOURS) - told)


_NOT = re.compile(r"\bnot (?:the )?([a-z]+)")


def _is_not_one_of_several(story: Story, answer: Answer) -> bool:
    """Whether all parts are taken away where one of them is left out: what is not mint."""
    named = _NOT.search(story.query.text)
    parts = [q for q in answer.used if q.sort == "part" or q.percent]
    if answer.unknown != "not so" or named is None or len(parts) < len("ab"):
        return False
    return named[1] not in VERBS and one(named[1]) in story.known_words
