"""Amounts taken for another's, for the multiple, or for one of their own: part of the second look.

What Marta got is not what is left to her, twice the celery is not doubled, "1/4 cup less for the
cake" and "cut 1/4 foot too much" are no amounts to add (see `witness`, and `amiss` beside it).
"""

from __future__ import annotations

import re
from collections.abc import Sequence

from narrate.exact.tree import Op, walk
from narrate.reading.words.facts import Answer, Story
from narrate.reading.words.lexicon import DATES, NO_THING, UNITS, one
from narrate.reading.words.quantity import Quantity

Joined = Sequence[tuple[Quantity, str]]


def mistaken(story: Story, answer: Answer, joined: Joined) -> str:
    """What an amount is mistaken for, "" if nothing."""
    added = sorted((q for q, role in joined if role in "+−" and role), key=lambda q: q.start)
    changed = answer.situation in ("take from", "in and out")
    if (changed and _asks_who_got_it(story, joined)) or _is_put_into_his(story, answer, joined):
        return "whose amount it is, and to whom some went, are mistaken"
    if any(role == "×" and _is_the_multiple(story, q) for q, role in joined):
        return "it is the other amount that is multiplied"
    parts = (q for q, role in joined if role == "×" and q.sort == "part")
    if any(_IS_THE_PART.search(story.text[: q.start]) for q in parts):
        return "the amount that is told is the part itself"
    held = [q for q, role in joined if role == "+"]
    if len(held) > 1 and any(_CAN_HOLD.search(story.text[: q.start]) for q in held):
        return "what it can hold is not what is in it"
    if answer.unknown == "part" and _asks_the_rest(story, answer):
        return "the question asks for the rest, not for the part"
    if any(_is_of_just_one(story, q) for q in answer.used if q.sort == "part" or q.made_by):
        return "a part of one of them is no part of all"
    if any(_may_be_measured(story, q) for q in answer.used if q.made_by == "part of"):
        return "it may be no part, but so much of the measure"
    if len(joined) > len("ab") and any(_went_of_them(story, q, role) for q, role in joined):
        return "some of them went"
    if any(_TOO_MUCH.match(story.text, q.start) for q in added):
        return "how much is too much is no amount of its own"
    if any(_is_less_without_than(story, q, role) for q, role in joined) or (
        len(joined) == 2 and any(_is_more_of_the_same(story, q, added) for q in added)
    ):
        return "so much more or less is no amount of its own"
    if _asks_in_between(story, answer, added):
        return "some came or went after the time that is asked for"
    return ""


_IS_THE_PART = re.compile(
    r"\b(?:which|that|this|these|those) (?:is|was|are|were|makes?|made)(?: only| just| exactly)? $"
)
"""Words before a part that was told in numbers: she used 12 eggs, which was 2/3 of them."""


_CAN_HOLD = re.compile(r"\b(?:can|could|may) (?:hold|carry|seat|fit|take)(?: up to| at most)? $")
_THE_REST = re.compile(
    r"\b(?:the (?:rest|others?|remainder|remaining [a-z]+)|all the other [a-z]+)\b([^.?!;,]*)"
)


def _asks_the_rest(story: Story, answer: Answer) -> bool:
    """Whether the question asks by words that only the rest is told with, and gets a part."""
    if any(isinstance(node, Op) and node.sign == "−" for node in walk(answer.tree)):
        return False
    for rest in _THE_REST.finditer(story.text):
        own = {one(word) for word in re.findall(r"[a-z]+", rest[1].lower())} - NO_THING
        before = {one(word) for word in re.findall(r"[a-z]+", story.text[: rest.start()].lower())}
        if (own - before) & {one(word) for word in story.query.words}:
            return True
    return False


def _is_of_just_one(story: Story, q: Quantity) -> bool:
    """Whether a part of what several were told of is of a single one: 3/8 of a pizza."""
    if q.made_by != "part of" and not (q.sort == "part" and q.borrowed):
        return False
    at = max(q.parts, default=q.start)
    wholes = [p for p in story.original if p.start in q.parts and p.start != at]
    of_one = _OF_ONE.match(story.text, at)
    return of_one is not None and any(one(of_one[1]) in p.thing for p in wholes if p.value != 1)


def _may_be_measured(story: Story, q: Quantity) -> bool:
    """Whether a part of a measure may be so much of its unit: 6 pounds, 1/2 for bread."""
    measured = bool(set(q.thing) & UNITS) and not q.money and not q.percent
    return measured and bool(_FOR_SOMETHING.match(story.text, max(q.parts, default=q.start)))


_FOR_SOMETHING = re.compile(r"[\d/⁄.]+ (?:for|on|in|into|to|at)\b")


_OF_ONE = re.compile(r"\S+ of an? ([a-z]+)")


def _asks_who_got_it(story: Story, joined: Joined) -> bool:
    """Whether what is left is found where the question asks who got some: handed Marta 14."""
    named = story.query.words & story.names - DATES
    got = [q for q, role in joined if role == "−" and named & _given_to(story, q)]
    return bool(got) and not any(named & q.who for q, _ in joined)


def _given_to(story: Story, q: Quantity) -> frozenset[str]:
    """Who is named right before an amount, or behind it after "to": handed Marta 14."""
    before = re.search(r"([a-z]+) $", story.text[: q.start])
    behind = re.match(r"[^.?!;,]*?\bto ([a-z]+)\b", story.text[q.start :])
    return frozenset(found[1] for found in (before, behind) if found)


def _is_put_into_his(story: Story, answer: Answer, joined: Joined) -> bool:
    """Whether an amount that was put into his basket is taken as one that left him."""
    for q, role in joined:
        found = _INTO_HIS.match(story.text, q.start)
        own = found is not None and any(found[1] in p.who for p, _ in joined if p is not q)
        if own and (role == "−") != (answer.unknown == "start"):
            return True
    return False


_INTO_HIS = re.compile(r"[^.?!;,]*?\b(?:into|onto) ([a-z]+)'s\b")


_THIS_IS = re.compile(
    r"\s*[a-z ]{0,60}?(?:\. (?:this|that|it)|, which) (?:is|was|are|were) "
    r"(?:only |just |exactly |about )?(?:twice|double|half|[a-z0-9/ ]+ times) "
    r"(?:the|as|that|what)\b"
)


def _is_the_multiple(story: Story, q: Quantity) -> bool:
    """Whether an amount is told to be so many times another one: this was twice the celery."""
    return _THIS_IS.match(story.text[q.end :]) is not None


_NUMBER = r"[$£€]?[\d.,/ ]*\d|[a-z]+(?:[- ][a-z]+)?"


_TOO_MUCH = re.compile(
    rf"(?:{_NUMBER})(?:[- ][a-z]+)? too (?:much|many|long|short|heavy|high|deep)\b"
)


_LESS = re.compile(
    rf"(?:{_NUMBER})(?: (?!of\b)[a-z]+){{0,2}} "
    r"(?:less|fewer|lower|shorter|lighter|cheaper|smaller|narrower)\b"
    r"(?![^.?!,;]*\bthan\b)"
)


_MORE_FOR = re.compile(rf"(?:{_NUMBER})(?: [a-z]+)? more (?:for|on|in|at|with|during)\b")


_GONE = (
    r"killed|ate|eaten|broke|broken|died|lost|sold|stolen|stole|spoiled|wilted|rotted|burned|gave"
    r"|thrown|threw|removed|cut|damaged|destroyed|flew|left|used|taken|took"
)


_WENT_OF_THEM = re.compile(rf"(?:{_NUMBER}) of (?:them|these|those)\b")


def _went_of_them(story: Story, q: Quantity, role: str) -> bool:
    """Whether "58 of them" are added that something took: a night of frost killed 58 of them."""
    gone = re.search(rf"\b(?:{_GONE})(?: (?:away|out|off))? $", story.text[: q.start])
    of_them = _WENT_OF_THEM.match(story.text, q.start) is not None
    also = re.match(r"\S+ of (?:them|these|those) also\b", story.text[q.start :]) is not None
    return (role == "+" and gone is not None and of_them) or also


def _is_less_without_than(story: Story, q: Quantity, role: str) -> bool:
    """Whether an amount that is told as so much less is added: 1/4 cup less for the cake."""
    return role == "+" and _LESS.match(story.text, q.start) is not None


def _is_more_of_the_same(story: Story, q: Quantity, added: Sequence[Quantity]) -> bool:
    """Whether "$4 more for honey" may be $4 more than for the jam: the same was done before."""
    before = [p for p in added if p.start < q.start and p.verb == q.verb and p.who == q.who]
    measured = q.money or bool(set(q.thing) & UNITS)
    return measured and bool(before) and _MORE_FOR.match(story.text, q.start) is not None


def _asks_in_between(story: Story, answer: Answer, added: Sequence[Quantity]) -> bool:
    """Whether it is asked for a day, and a change of a later one is joined: after Tuesday."""
    days = story.query.words & DATES
    told = [at for at, q in enumerate(added) if days & q.around]
    later = [q for q in added[told[-1] + 1 :] if q.around & DATES] if told else []
    if answer.unknown == "start":  # it grew in June and was so tall in July; a day is soon over
        later = [q for q in later if not all(day.endswith("day") for day in q.around & DATES)]
    return answer.unknown in ("result", "start") and any(not days & q.around for q in later)
